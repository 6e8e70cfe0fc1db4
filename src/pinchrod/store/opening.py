"""A store opened: its place looked at, its lock taken, its settings made sure of, its form brought up."""

import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from importlib import import_module
from pathlib import Path
from types import ModuleType, TracebackType
from typing import Protocol

from pinchrod.ground import Problem, doubts_of
from pinchrod.store import sqlite
from pinchrod.store.base import Base, transaction
from pinchrod.store.disk import own_file, own_folder
from pinchrod.store.drives import doubts_of_place
from pinchrod.store.forms import FORMS, Form, bring_up, check_form, form_of, keep_before
from pinchrod.store.locking import WriterLock
from pinchrod.store.places import Folder, Place, Server
from pinchrod.store.telling import refused
from pinchrod.store.times import this_moment

CLOSED = "the store is closed"
MOST_IDLE = 8  # connections kept for whoever reads next


@dataclass(frozen=True, slots=True)
class Opening:
    """How a store is opened: when, with which forms known, and whether to write in it."""

    now: datetime
    forms: tuple[Form, ...]
    writing: bool


class Lock(Protocol):
    """What is let go of when a store is closed."""

    def close(self) -> None:
        """Let go."""


class Store:
    """A store that is open. Any thread may use it: writers go one after another, readers beside them.

    One connection writes; each reader has one of its own, so that a long reading delays no scan.
    """

    def __init__(
        self,
        place: str,
        writer: Base | None,
        connect: Callable[[], Base] | None,
        *,
        lock: Lock | None = None,
        doubts: tuple[Problem, ...] = (),
    ) -> None:
        """Hold the connection that writes, and what makes one for reading (the writer's own, if nothing)."""
        self.place = place
        self.doubts = doubts
        self._writer = writer
        self._connect = connect
        self._lock = lock
        self._turn = threading.RLock()
        self._counter = threading.Lock()  # a reader waits for no writer
        self._idle: list[Base] = []
        self._closed = False

    @contextmanager
    def writing(self) -> Iterator[Base]:
        """All of what is done inside, or nothing; when it is over, it is safe on the disk."""
        with self._turn, transaction(self._writer_or_fail(), writing=True) as base:
            yield base

    @contextmanager
    def reading(self) -> Iterator[Base]:
        """The store as it stands at one moment."""
        if self._connect is None:
            with self.writing() as base:
                yield base
            return
        base = self._a_reader(self._connect)
        try:
            with transaction(base, writing=False):
                yield base
        except BaseException:
            base.close()
            raise
        self._put_back(base)

    def copy_to(self, path: Path) -> None:
        """Write all that the store holds, as it stands at one moment, into a new SQLite file."""
        if self._connect is None:
            with self._turn:
                self._writer_or_fail().copy_to(path)
            return
        base = self._connect()
        try:
            base.copy_to(path)
        finally:
            base.close()

    def _writer_or_fail(self) -> Base:
        """The connection that writes, for whoever has the turn."""
        if self._closed:
            raise RuntimeError(CLOSED)
        if self._writer is None:
            raise RuntimeError("the store was opened to be read")
        return self._writer

    def _a_reader(self, connect: Callable[[], Base]) -> Base:
        with self._counter:
            if self._closed:
                raise RuntimeError(CLOSED)
            idle = self._idle.pop() if self._idle else None
        return idle or connect()

    def _put_back(self, base: Base) -> None:
        with self._counter:
            keep = len(self._idle) < MOST_IDLE and not self._closed
            if keep:
                self._idle.append(base)
        if not keep:
            base.close()

    def close(self) -> None:
        """Let go of the database and of the lock once whoever writes has done; a reader ends by itself."""
        with self._turn:
            with self._counter:
                self._closed = True
                idle, self._idle = self._idle, []
            for base in (*idle, self._writer):
                if base is not None:
                    base.close()
            if self._lock is not None:
                self._lock.close()

    def __enter__(self) -> "Store":
        """The store, closed at the end of the block."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, trouble: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close it."""
        self.close()


def open_store(
    place: Place, *, writing: bool = True, now: datetime | None = None, forms: Sequence[Form] = FORMS
) -> Store:
    """The store at a place, made there if there is none and it is to be written; NotYetRight if it cannot be.

    Two programs cannot write one store. To be read it may be opened beside whoever writes. A store of an
    older form is copied first, then brought up to the newest of the `forms`.
    """
    opening = Opening(now or this_moment(), tuple(forms), writing)
    return _on_server(place, opening) if isinstance(place, Server) else _in_folder(place, opening)


def _in_folder(place: Folder, opening: Opening) -> Store:
    doubts = doubts_of(doubts_of_place(place))
    if place.restoring.exists():
        what = "a copy was being put back here, and that was broken off"
        raise refused(place, "store-half-restored", what, "say pinchrod restore once more, with --over")
    if not opening.writing and not place.file.exists():
        raise refused(place, "store-missing", "there is no store in this folder", "check --data")
    lock = locked(place) if opening.writing else None
    try:
        writer = _writer(place, opening) if opening.writing else None
        if writer is None:
            _settled(place.file, opening.forms).close()  # so that what is wrong with it is told now
    except BaseException:
        if lock is not None:
            lock.close()
        raise
    return Store(
        str(place), writer, lambda: _for_reading(place.file, opening.forms), lock=lock, doubts=doubts
    )


def _writer(place: Folder, opening: Opening) -> Base:
    own_file(place.file)
    base = _settled(place.file, opening.forms)
    try:
        sqlite.claim(base)
        if 0 < form_of(base) < opening.forms[-1].number:
            keep_before(base, place.backups, opening.now)
        bring_up(base, opening.now, opening.forms)
    except BaseException:
        base.close()
        raise
    return base


def locked(place: Folder) -> WriterLock:
    """The lock of a folder, made if it is not there; NotYetRight if none can be had."""
    try:
        own_folder(place.path)
        own_file(place.lock)
        return WriterLock(place.lock)
    except (FileExistsError, NotADirectoryError):
        what = "a file stands where the folder should be"
        raise refused(place, "store-not-a-folder", what, "name a folder") from None
    except PermissionError:
        what, mend = "nothing may be written in this folder", "choose another, or change who may write"
        raise refused(place, "store-read-only", what, mend) from None


def _settled(file: Path, forms: Sequence[Form]) -> sqlite.Sqlite:
    """A connection that is safe to use; one to a newer store is closed again before anything is changed."""
    base = sqlite.connect(file)
    try:
        with sqlite.unknown_file(str(file)):
            sqlite.check_ours(base)
            check_form(form_of(base), str(file), forms)
        sqlite.settle(base)
    except BaseException:
        base.close()
        raise
    return base


def _for_reading(file: Path, forms: Sequence[Form]) -> Base:
    base = _settled(file, forms)
    base.do("PRAGMA query_only = 1")
    return base


def _on_server(place: Server, opening: Opening) -> Store:
    drive, name = driver_of(place), str(place)
    writing, forms = opening.writing, opening.forms
    writer: Base = drive.Postgresql(place.url, name)
    try:
        drive.settle(writer)
        check_form(form_of(writer), name, forms)
        if writing:
            drive.lock_as_owner(writer)
            drive.make_schema(writer)
            bring_up(writer, opening.now, forms)
        elif not form_of(writer):
            raise refused(name, "store-missing", "there is no store on this server", "check --data")
    except BaseException:
        writer.close()
        raise
    if not writing:
        writer.close()
    return Store(name, writer if writing else None, lambda: drive.Postgresql(place.url, name))


def driver_of(place: Server) -> ModuleType:
    """What speaks to a server; NotYetRight if the package it needs is not installed."""
    try:
        return import_module("pinchrod.store.postgresql")
    except ImportError:
        what = "a store on a PostgreSQL server needs the package psycopg, which is not installed"
        mend = "install requirements-postgresql.lock as docs/store.md says, or name a folder"
        raise refused(place, "postgresql-missing", what, mend) from None
