"""What somebody types and has not saved yet, kept for each device: a page that closes loses nothing of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from pinchrod.ground import NotYetRight, Problem
from pinchrod.store.base import Base, Row, words_of
from pinchrod.store.opening import Store
from pinchrod.store.requests import LONGEST_NAME, odd_name
from pinchrod.store.tables import DRAFTS
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

LONGEST_PLACE = 300  # letters: a file's name may be in it
LONGEST_DRAFT = 2_000_000  # letters: a job file of some thousand frames
MOST_DRAFTS = 200  # of one device
COLUMNS = ", ".join(DRAFTS.names)


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftAt:
    """Where something is typed: at which place of which job, on which device."""

    job: str
    place: str
    device: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What was typed at one place of a job on one device. A newer one takes its place."""

    job: str  # empty for a job that has no name yet
    place: str  # what is being typed: `frame K1`, or `words job.toml`
    device: str
    after: int  # the revision that it was begun from; 0 for a new job
    words: str
    at: str = ""  # when it was kept


def keep_draft(store: Store, draft: Draft, *, now: datetime | None = None) -> Draft:
    """The draft as it is kept now, in place of the one before; NotYetRight if there is too much of it.

    The same words again are not written again, so that whoever only looks costs nothing.
    """
    problems = list(_odd(draft))
    if problems:
        raise NotYetRight(problems)
    before = draft_of(store, draft.job, draft.place, draft.device)
    if before is not None and replace(before, at=draft.at) == draft:
        return before
    kept = replace(draft, at=spelled(now or this_moment()))
    with store.writing() as base:
        if before is None:
            _check_number(base, draft.device)
        _put(base, kept)
    return kept


def draft_of(store: Store, job: str, place: str, device: str) -> Draft | None:
    """What was typed there on that device and is not saved yet, if anything was."""
    where = "job = :job AND place = :place AND device = :device"
    with store.reading() as base:
        rows = base.rows(
            f"SELECT {COLUMNS} FROM drafts WHERE {where}",  # noqa: S608 -- our own names
            job=job,
            place=place,
            device=device,
        )
    return next(map(_draft, rows), None)


def drafts_of(store: Store, device: str) -> tuple[Draft, ...]:
    """Everything that was typed on a device and is not saved yet, by job and place."""
    sql = f"SELECT {COLUMNS} FROM drafts WHERE device = :device ORDER BY job, place"  # noqa: S608 -- our own names
    with store.reading() as base:
        return tuple(map(_draft, base.rows(sql, device=device)))


def drop_draft(store: Store, job: str, place: str, device: str) -> None:
    """Forget what was typed there, if anything was: it was saved, or is not wanted any more."""
    if draft_of(store, job, place, device) is None:
        return
    with store.writing() as base:
        forget(base, DraftAt(job=job, place=place, device=device))


def forget(base: Base, at: DraftAt) -> None:
    """The same within a transaction of the caller: saved and forgotten stand or fall together."""
    where = "job = :job AND place = :place AND device = :device"
    base.do(f"DELETE FROM drafts WHERE {where}", job=at.job, place=at.place, device=at.device)  # noqa: S608 -- our own names


def _put(base: Base, draft: Draft) -> None:
    """One statement, which either database carries out whole."""
    places = ", ".join(f":{name}" for name in DRAFTS.names)
    fresh = ", ".join(f"{name} = excluded.{name}" for name in ("after", "words", "at"))
    base.do(
        f"INSERT INTO drafts ({COLUMNS}) VALUES ({places})"  # noqa: S608 -- our own names
        f" ON CONFLICT (job, place, device) DO UPDATE SET {fresh}",
        job=draft.job,
        place=draft.place,
        device=draft.device,
        after=draft.after,
        words=draft.words,
        at=draft.at,
    )


def _draft(row: Row) -> Draft:
    job, place, device, said, at = words_of(row, 0, 1, 2, 4, 5)
    return Draft(job=job, place=place, device=device, after=int(row[3]), words=said, at=at)


def _odd(draft: Draft) -> Iterator[Problem]:
    yield from odd_name("job", draft.job or "-")
    yield from odd_name("place", draft.place, LONGEST_PLACE)
    yield from odd_name("device", draft.device, LONGEST_NAME)
    if len(draft.words) > LONGEST_DRAFT:
        what = f"what is typed is {len(draft.words):,} letters long"
        yield amiss("draft", "words-too-long", what, f"keep it to {LONGEST_DRAFT:,} letters")
    elif any(letter == "\0" or "\ud800" <= letter <= "\udfff" for letter in draft.words):
        what = "there is something in it that is no letter"
        yield amiss("draft", "words-unseen", what, "type it afresh instead of copying it")


def _check_number(base: Base, device: str) -> None:
    [[number]] = base.rows("SELECT count(*) FROM drafts WHERE device = :device", device=device)
    if int(number) >= MOST_DRAFTS:
        what = f"{number!s} things were begun on this device and not saved"
        mend = "save some of them, or throw them away"
        raise NotYetRight([amiss("draft", "draft-count", what, mend)])
