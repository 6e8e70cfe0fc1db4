"""Copies of a store: taken whole at one moment, looked over before they bear their name, thinned with age."""

import os
import re
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from pinchrod import VERSION
from pinchrod.ground import NotYetRight, Problem
from pinchrod.store import sqlite
from pinchrod.store.base import insert, transaction
from pinchrod.store.copying import digest_of
from pinchrod.store.disk import make_sure, own_folder
from pinchrod.store.event_rows import head_of
from pinchrod.store.forms import check_form, form_of
from pinchrod.store.opening import Store
from pinchrod.store.soundness import found_in, unsound
from pinchrod.store.telling import amiss_in, so_many
from pinchrod.store.times import from_name, in_name, spelled, this_moment

NAMED = re.compile(r"pinchrod-([0-9]{8}T[0-9]{6}Z)\.db")
EVERY = timedelta(minutes=15)
LEFT_FOR = timedelta(days=1)
ALL_FOR, DAILY_FOR = timedelta(days=2), timedelta(days=60)


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A copy of a store that was found sound: its file, when it was taken, and what it holds."""

    path: Path
    taken: str
    jobs: int
    seq: int  # the number of the ledger's last event
    digest: str  # sha256 of all rows, alike in whichever database they stand

    def __str__(self) -> str:
        """As it is told."""
        return f"{self.path}: {so_many(self.jobs, self.seq)}, taken {self.taken[:16].replace('T', ' ')} UTC"


def back_up(store: Store, folder: Path, *, now: datetime | None = None) -> Copy:
    """A copy of the whole store in the folder, made sure of on the disk and found sound.

    It is written under another name and gets its own only when all that is done, so that whatever bears
    the name of a copy is one. NotYetRight if the store itself is not sound: the old copies stay.
    """
    moment = now or this_moment()
    own_folder(folder)
    handle, name = tempfile.mkstemp(prefix=".new-", suffix=".db", dir=folder)
    os.close(handle)
    fresh = Path(name)  # empty, and its user's alone
    try:
        store.copy_to(fresh)
        _seal(fresh, moment)
        make_sure(fresh)
        copy = look_over(fresh)
        place = folder / f"pinchrod-{in_name(moment)}.db"
        fresh.replace(place)
        make_sure(folder)
    finally:
        for each in folder.glob(f"{fresh.name}*"):
            each.unlink()
    return replace(copy, path=place)


def look_over(path: Path) -> Copy:
    """What a copy holds, once it was found sound; NotYetRight with everything wrong in it.

    Nothing is written: it is looked at as it lies, wherever it comes from.
    """
    base = _opened(path)
    try:
        with sqlite.unknown_file(str(path)), transaction(base, writing=False):
            sqlite.check_ours(base)
            check_form(form_of(base), str(path))
            problems = tuple(unsound(base)) or tuple(_unsealed(base, path))
            if problems:
                raise NotYetRight(found_in(str(path), problems))
            [[jobs]] = base.rows("SELECT count(DISTINCT job) FROM revisions")
            [[digest, taken]] = base.rows("SELECT digest, at FROM seal")
            return Copy(
                path=path, taken=str(taken), jobs=int(jobs), seq=head_of(base).seq, digest=str(digest)
            )
    finally:
        base.close()


def copies_in(folder: Path) -> tuple[Path, ...]:
    """The copies in a folder, the oldest first."""
    return tuple(sorted(path for path in folder.glob("pinchrod-*.db") if NAMED.fullmatch(path.name)))


def is_due(folder: Path, now: datetime, *, every: timedelta = EVERY) -> bool:
    """Whether the newest copy is so old that another should be taken."""
    copies = copies_in(folder)
    return not copies or now - taken_at(copies[-1]) >= every


def back_up_when_due(
    store: Store, folder: Path, *, every: timedelta = EVERY, now: datetime | None = None
) -> Copy | None:
    """A new copy if the newest is older than that, with needless ones taken away then; None if it is not.

    For a timer: it may be called at any time, and more often than that.
    """
    moment = now or this_moment()
    if not is_due(folder, moment, every=every):
        return None
    copy = back_up(store, folder, now=moment)
    thin(folder, moment)
    return copy


def thin(folder: Path, now: datetime) -> tuple[Path, ...]:
    """The copies taken away: those that newer or rarer ones make needless.

    What a copying that was broken off has left goes too, once it is a day old and nobody can be at it.
    """
    for rest in folder.glob(".new-*"):
        if now.timestamp() - rest.stat().st_mtime > LEFT_FOR.total_seconds():
            rest.unlink()
    copies = copies_in(folder)
    kept = to_keep((taken_at(path) for path in copies), now)
    gone = tuple(path for path in copies if taken_at(path) not in kept)
    for path in gone:
        path.unlink()
    return gone


def to_keep(taken: Iterable[datetime], now: datetime) -> frozenset[datetime]:
    """All copies of two days, the last of each day for 60 days, and the last of each month for good."""
    kept: dict[object, datetime] = {}
    for moment in sorted(taken):
        age = now - moment
        if age <= ALL_FOR:
            kept[moment] = moment
        if age <= DAILY_FOR:
            kept[moment.date()] = moment
        kept[moment.year, moment.month] = moment
    return frozenset(kept.values())


def taken_at(path: Path) -> datetime:
    """When a copy was taken, by its name."""
    named = NAMED.fullmatch(path.name)
    if named is None:
        raise ValueError(f"{path.name} is not named as a copy is")
    return from_name(named[1])


def _seal(path: Path, now: datetime) -> None:
    """Write into a copy what it holds, so that it can be told later whether it still does."""
    base = sqlite.connect(path)
    try:
        sqlite.settle(base, sqlite.ROLL_BACK)
        with transaction(base, writing=True):
            insert(base, "seal", one=1, digest=digest_of(base), program=VERSION, at=spelled(now))
    finally:
        base.close()


def _opened(path: Path) -> sqlite.Sqlite:
    if not path.is_file():
        raise NotYetRight(
            [amiss_in(path, "copy-missing", "there is no such file", "look in the folder backups")]
        )
    return sqlite.connect_to_look(path)


def _unsealed(base: sqlite.Sqlite, path: Path) -> Iterable[Problem]:
    if not base.rows("SELECT 1 FROM seal"):
        what = "this is a store, or was broken off while it was copied: it is not sealed as a copy"
        yield amiss_in(path, "copy-unsealed", what, "name a file that pinchrod backup has made")
