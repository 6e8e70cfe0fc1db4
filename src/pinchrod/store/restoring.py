"""A store put back from a copy. What stood there before is set aside, never written over."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pinchrod.ground import NotYetRight, Problem, Where, doubts_of
from pinchrod.store import sqlite
from pinchrod.store.backups import Copy, look_over
from pinchrod.store.base import transaction
from pinchrod.store.copying import digest_of, fill
from pinchrod.store.disk import OWN_FOLDER, make_sure, own_file
from pinchrod.store.drives import doubts_of_place
from pinchrod.store.opening import driver_of, locked
from pinchrod.store.places import Folder, Place, Server
from pinchrod.store.times import in_name, this_moment

TAILS = ("-journal", "-wal", "-shm")  # what SQLite keeps beside a file; the file itself goes first


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """A store put back: the copy it is from, and where the store that stood there lies now, if one did."""

    copy: Copy
    aside: str = ""


def restore(path: Path, place: Place, *, over: bool = False, now: datetime | None = None) -> Restored:
    """The store at the place as it was when the copy was taken.

    The copy is looked over first. NotYetRight if it is not sound, if somebody writes there, or if a store
    stands there and it was not said that it may be set aside.
    """
    copy = look_over(path)
    moment = now or this_moment()
    if isinstance(place, Server):
        return Restored(copy=copy, aside=_on_server(copy, place, moment, over=over))
    return Restored(copy=copy, aside=_in_folder(copy, place, moment, over=over))


def _in_folder(copy: Copy, place: Folder, now: datetime, *, over: bool) -> str:
    """Until all is done a file stands by whose name an opening knows that it is not."""
    doubts_of(doubts_of_place(place))
    lock = locked(place)
    try:
        if place.file.exists() and not over:
            raise NotYetRight([_taken(str(place))])
        _lay_down(copy, place.restoring)
        make_sure(place.restoring)
        make_sure(place.path)
        aside = _set_aside(place, now)
        place.restoring.replace(place.file)
        make_sure(place.path)
        return aside
    finally:
        lock.close()


def _lay_down(copy: Copy, path: Path) -> None:
    """Write the copy's rows under a name, without its seal.

    A journal of that name, left when this was broken off before, would be played back into the new file.
    """
    for tail in TAILS:
        path.with_name(path.name + tail).unlink(missing_ok=True)
    own_file(path)
    shutil.copyfile(copy.path, path)
    base = sqlite.connect(path)
    try:
        sqlite.settle(base, sqlite.ROLL_BACK)
        base.do("DELETE FROM seal")
        if digest_of(base) != copy.digest:
            raise RuntimeError(f"{path} does not hold what the copy holds; the store was not touched")
    finally:
        base.close()


def _set_aside(place: Folder, now: datetime) -> str:
    """Move what stands there, journals too, into a folder of its own: they would spoil the new one."""
    there = [file for file in (place.file, *map(place.beside, TAILS)) if file.exists()]
    if not there:
        return ""
    folder = _unused(place.path / f"set-aside-{in_name(now)}")
    folder.mkdir(mode=OWN_FOLDER)
    for file in there:
        file.rename(folder / file.name)
    make_sure(folder)
    make_sure(place.path)
    return str(folder)


def _unused(folder: Path) -> Path:
    tried, count = folder, 1
    while tried.exists():
        count += 1
        tried = folder.with_name(f"{folder.name}-{count}")
    return tried


def _on_server(copy: Copy, place: Server, now: datetime, *, over: bool) -> str:
    """All in one transaction of the server; what stood there gets a schema of another name."""
    driver = driver_of(place)
    target = driver.Postgresql(place.url, str(place))
    try:
        driver.settle(target)
        driver.lock_as_owner(target)
        with _looked_at(copy.path) as source, transaction(target, writing=True):
            aside = driver.set_aside(target, in_name(now).lower()) if over else ""
            if not over and driver.holds_a_store(target):
                raise NotYetRight([_taken(str(place))])
            driver.make_schema(target)
            fill(source, target)
            target.do("DELETE FROM seal")
            if digest_of(target) != copy.digest:
                raise RuntimeError("what the server holds now is not what the copy holds; nothing was kept")
        return str(aside)
    finally:
        target.close()


@contextmanager
def _looked_at(path: Path) -> Iterator[sqlite.Sqlite]:
    base = sqlite.connect_to_look(path)
    try:
        with transaction(base, writing=False):
            yield base
    finally:
        base.close()


def _taken(place: str) -> Problem:
    what = "a store stands there already"
    mend = "name another place, or say --over: the store there is set aside, not lost"
    return Problem(where=Where(file=place), code="store-there", what=what, mend=mend)
