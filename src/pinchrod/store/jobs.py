"""Jobs by revision: what the joiner said is kept whole; rods and plans are worked out from it afresh."""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from hashlib import sha256

from pinchrod.ground import NotYetRight, Problem, quoted
from pinchrod.job import Job, content_mark
from pinchrod.setting_out import set_out
from pinchrod.store.base import Base, Row, insert, words_of
from pinchrod.store.deeds import By, Deed, Event
from pinchrod.store.drafts import DraftAt, forget
from pinchrod.store.event_rows import append
from pinchrod.store.job_files import JobFiles, Placed, job_files, keep_files, kept_files, placed, said_of
from pinchrod.store.opening import Store
from pinchrod.store.requests import answer_before, keep_answer, odd_words, payload_of
from pinchrod.store.rolls import Roll, roll_of
from pinchrod.store.tables import REVISIONS
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

JOB_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
LONGEST_JOB = 80
COLUMNS = ", ".join(REVISIONS.names)
OF_JOBS = f"piece = '' AND deed IN ('{Deed.PUT_AWAY}', '{Deed.BROUGHT_BACK}')"
LAST_OF_JOB = f"SELECT deed FROM events e WHERE e.job = %s AND {OF_JOBS} ORDER BY seq DESC LIMIT 1"  # noqa: S608 -- our own names
AWAY_OR_NOT = f"coalesce(({LAST_OF_JOB % 'r.job'}), '')"
"""Of a revision r: what was said last of its job, if that it was put away or brought back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One revision of a job: who saved it and when, and the marks of what it says."""

    job: str  # what the store calls it, for good: `saltmarsh-row`
    number: int  # from 1
    name: str  # the job's own name, which may change from one revision to the next
    mark: str  # the content mark, as on papers and labels
    fingerprint: str
    note: str
    by: By
    at: str
    seal: str = ""  # sha256 of all of this and of every file; the ledger's event of the saving bears it


@dataclass(frozen=True, slots=True, kw_only=True)
class Saving:
    """A job to be kept as its next revision.

    `after` is the number of the revision that was looked at while it was changed; 0 for a new job. If
    somebody else has saved meanwhile, that is told, and nobody's work is written over. A new job by the name
    of one that was put away is that one's next revision, and brings it back. `typed` is where it
    was typed: the draft there is forgotten in the same moment in which the revision is kept.
    """

    key: str
    by: By
    job: str
    after: int
    files: JobFiles
    note: str = ""
    typed: DraftAt | None = None


def save(store: Store, saving: Saving, *, now: datetime | None = None) -> Revision:
    """The new revision, once it is safe in the store.

    NotYetRight if the job cannot be read or set out, if somebody saved meanwhile, or if nothing in it is
    new. The same request again gets the same revision.
    """
    _check(saving)
    files = placed(saving.files)
    job = _that_can_be_made(saving.files)
    payload = payload_of("save", saving.by, saving.job, saving.after, saving.note, list(said_of(files)))
    with store.writing() as base:
        answer = answer_before(base, saving.key, payload)
        if answer is not None:
            return revision_in(base, saving.job, int(answer))
        anew = not saving.after and is_away(base, saving.job)
        if not anew:
            _check_turn(base, saving, job)
        number = len(revisions_in(base, saving.job)) + 1
        revision = _new(saving, job, files, number, spelled(now or this_moment()))
        keep_answer(base, saving.key, payload, str(revision.number))
        _keep(base, revision, files)
        append(base, tuple(_events(saving, revision, anew=anew)))
        if saving.typed is not None:
            forget(base, saving.typed)
        return revision


def jobs(store: Store) -> tuple[Revision, ...]:
    """The newest revision of every job that is at hand, by the store's names for them."""
    return _newest_of_each(store, f"{AWAY_OR_NOT} <> '{Deed.PUT_AWAY}'")


def jobs_put_away(store: Store) -> tuple[Revision, ...]:
    """The same of every job that was put away and not brought back."""
    return _newest_of_each(store, f"{AWAY_OR_NOT} = '{Deed.PUT_AWAY}'")


def _newest_of_each(store: Store, which: str) -> tuple[Revision, ...]:
    newest = "SELECT max(number) FROM revisions n WHERE n.job = r.job"
    sql = f"SELECT {COLUMNS} FROM revisions r WHERE number = ({newest}) AND {which} ORDER BY job"  # noqa: S608 -- our own names
    with store.reading() as base:
        rows = base.rows(sql)
    return tuple(revision_of(row) for row in rows)


def revisions(store: Store, job: str) -> tuple[Revision, ...]:
    """Every revision of a job, the oldest first; none if there is no such job."""
    with store.reading() as base:
        return revisions_in(base, job)


def revisions_of_mark(store: Store, mark: str) -> tuple[Revision, ...]:
    """Every revision, of whatever job, whose papers and labels bear that content mark: the oldest first."""
    with store.reading() as base:
        sql = f"SELECT {COLUMNS} FROM revisions WHERE mark = :mark ORDER BY job, number"  # noqa: S608 -- our own names
        rows = base.rows(sql, mark=mark)
    return tuple(revision_of(row) for row in rows)


def revision_at(store: Store, job: str, number: int = 0) -> Revision:
    """A revision of a job, the newest unless said otherwise; NotYetRight if there is none."""
    with store.reading() as base:
        return revision_in(base, job, number)


def files_at(store: Store, job: str, number: int = 0) -> JobFiles:
    """What the joiner said in a revision, every file as it was given; NotYetRight if there is no such one."""
    with store.reading() as base:
        revision = revision_in(base, job, number)
        return job_files(kept_files(base, job, revision.number))


def roll_at(store: Store, job: str, number: int = 0) -> Roll:
    """The pieces of a revision, set out afresh from what the joiner said."""
    with store.reading() as base:
        revision = revision_in(base, job, number)
        files = job_files(kept_files(base, job, revision.number))
    return roll_of(set_out(*files.read()), job, revision.number, revision.mark)


def revisions_in(base: Base, job: str) -> tuple[Revision, ...]:
    """Every revision of a job, the oldest first."""
    rows = base.rows(f"SELECT {COLUMNS} FROM revisions WHERE job = :job ORDER BY number", job=job)  # noqa: S608 -- our own names
    return tuple(revision_of(row) for row in rows)


def is_away(base: Base, job: str) -> bool:
    """Whether a job was put away and not brought back."""
    return base.rows(LAST_OF_JOB % ":job", job=job) == [(str(Deed.PUT_AWAY),)]


def revision_of(row: Row) -> Revision:
    """The revision that a row holds."""
    job, name, mark, fingerprint, seal, note, person, device, at = words_of(row, 0, *range(2, 10))
    return Revision(
        job=job,
        number=int(row[1]),
        name=name,
        mark=mark,
        fingerprint=fingerprint,
        note=note,
        by=By(person=person, device=device),
        at=at,
        seal=seal,
    )


def seal_of_revision(revision: Revision, files: tuple[Placed, ...]) -> str:
    """The sha256, in hex, of all that a revision says and of every one of its files."""
    said = [
        revision.job,
        revision.number,
        revision.name,
        revision.mark,
        revision.fingerprint,
        revision.note,
        revision.by.person,
        revision.by.device,
        revision.at,
        list(said_of(files)),
    ]
    return sha256(json.dumps(said, separators=(",", ":")).encode()).hexdigest()


def _that_can_be_made(files: JobFiles) -> Job:
    """The job, read and set out on trial: what the bench works from is never half right."""
    job, shop = files.read()
    set_out(job, shop)
    return job


def revision_in(base: Base, job: str, number: int = 0) -> Revision:
    """A revision of a job, the newest unless said otherwise; NotYetRight if there is none."""
    found = revisions_in(base, job)
    if not found:
        raise NotYetRight(
            [amiss("job", "job-missing", f"there is no job {quoted(job)}", "open a job from the list")]
        )
    if not 0 <= number <= len(found):
        what = f"{job} has no revision {number}; its newest is {len(found)}"
        raise NotYetRight([amiss("job", "revision-missing", what, "choose one of its revisions")])
    return found[number - 1]


def check_revision(base: Base, job: str, number: int) -> None:
    """NotYetRight if the job has no revision of that number."""
    if revision_in(base, job, number).number != number:
        what = f"{job} has no revision {number}"
        raise NotYetRight([amiss("job", "revision-missing", what, "choose one of its revisions")])


def _check(saving: Saving) -> None:
    problems = list(odd_words(saving.key, saving.by, note=saving.note))
    if not JOB_NAME.fullmatch(saving.job) or len(saving.job) > LONGEST_JOB:
        what = f"{quoted(saving.job)} is no name that the store can call a job by"
        mend = f"use small letters, digits and hyphens, {LONGEST_JOB} at most: saltmarsh-row"
        problems.append(amiss("job", "job-name", what, mend))
    problems += [_of_file(file) for file in placed(saving.files) if not file.source.name.isprintable()]
    if problems:
        raise NotYetRight(problems)


def _of_file(file: Placed) -> Problem:
    what = f"the name of a file has something in it that cannot be seen: {quoted(file.source.name)}"
    return amiss("job", "words-unseen", what, "give the file another name")


def _check_turn(base: Base, saving: Saving, job: Job) -> None:
    """NotYetRight if the revision that was changed is not the newest, or nothing was changed."""
    found = revisions_in(base, saving.job)
    if saving.after != len(found):
        raise NotYetRight([_overtaken(saving, found)])
    if found and _says_the_same(base, found[-1], saving, job):
        what = f"nothing in it differs from revision {len(found)}"
        raise NotYetRight([amiss("job", "revision-same", what, "there is nothing to save")])


def _overtaken(saving: Saving, found: tuple[Revision, ...]) -> Problem:
    if not found:
        what = f"there is no job {saving.job} of which revision {saving.after} could be changed"
        return amiss("job", "job-missing", what, "save it as a new job")
    newest = found[-1]
    if not saving.after:
        what = f"a job is called {saving.job} already: {newest.name}, revision {newest.number}"
        return amiss("job", "job-exists", what, "choose another name, or open that job and change it")
    what = (
        f"revision {newest.number} was saved at {newest.at} by {newest.by}, while you changed {saving.after}"
    )
    return amiss(
        "job", "revision-overtaken", what, "compare the two, put your changes into the newest, save again"
    )


def _says_the_same(base: Base, newest: Revision, saving: Saving, job: Job) -> bool:
    before, now = kept_files(base, saving.job, newest.number), placed(saving.files)
    return job.fingerprint == newest.fingerprint and list(said_of(before)) == list(said_of(now))


def _new(saving: Saving, job: Job, files: tuple[Placed, ...], number: int, at: str) -> Revision:
    revision = Revision(
        job=saving.job,
        number=number,
        name=job.name,
        mark=content_mark(job.fingerprint),
        fingerprint=job.fingerprint,
        note=saving.note,
        by=saving.by,
        at=at,
    )
    return replace(revision, seal=seal_of_revision(revision, files))


def _keep(base: Base, revision: Revision, files: tuple[Placed, ...]) -> None:
    insert(
        base,
        "revisions",
        job=revision.job,
        number=revision.number,
        name=revision.name,
        mark=revision.mark,
        fingerprint=revision.fingerprint,
        seal=revision.seal,
        note=revision.note,
        person=revision.by.person,
        device=revision.by.device,
        at=revision.at,
    )
    keep_files(base, revision.job, revision.number, files)


def _events(saving: Saving, revision: Revision, *, anew: bool) -> Iterator[Event]:
    """What the ledger says of the saving; and of a job that it brings back."""
    saved = Event(
        seq=0,
        key=saving.key,
        part=0,
        deed=Deed.SAVED,
        job=revision.job,
        revision=revision.number,
        at=revision.at,
        by=saving.by,
        reason=saving.note,
        proof=revision.seal,
    )
    yield saved
    if anew:
        yield replace(saved, part=1, deed=Deed.BROUGHT_BACK, reason="", proof="")
