"""SQLite: the store in one file, with the settings under which nothing acknowledged is lost."""

import errno
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from pinchrod.store.base import Kind, Row, Value
from pinchrod.store.telling import refused

APPLICATION = 0x50524F44  # "PROD": says in the file whose it is
WAIT_MS = 10_000
STRICT_SINCE = (3, 37, 0)  # tables that hold each column to its type (SQLite's release notes)
WITHDRAWN = (3, 52, 0)

FULL, BUSY, LOCKED, READ_ONLY, IO, DAMAGED, CANNOT_OPEN, NOT_ONE = 13, 5, 6, 8, 10, 11, 14, 26
NUMBERS = {FULL: errno.ENOSPC, BUSY: errno.EBUSY, LOCKED: errno.EBUSY, READ_ONLY: errno.EROFS, IO: errno.EIO}


class Answers(Protocol):
    """What a statement gives back."""

    def fetchall(self) -> list[Any]:
        """Every row."""


class Connection(Protocol):
    """What is asked of a driver of SQLite: Python's own, or another that can be made to fail on purpose."""

    @property
    def in_transaction(self) -> bool:
        """Whether something was begun and not yet ended."""

    def execute(self, sql: str, values: Mapping[str, Value], /) -> Answers:
        """Have one statement carried out."""

    def close(self) -> None:
        """Let go of the file."""


@dataclass(frozen=True, slots=True)
class Settings:
    """How SQLite keeps its promises: its journal, and what it makes sure of before it says `done`."""

    journal: str
    synchronous: int  # 2: FULL, 3: EXTRA


WRITE_AHEAD = Settings("wal", 2)
ROLL_BACK = Settings("delete", 3)


def settings_for(version: tuple[int, ...]) -> Settings:
    """Write-ahead log where SQLite's fault in resetting one is mended, else the older journal.

    The fault can lose what was written when two connections write and check-point at once. It is mended in
    3.51.3 and later, and in 3.44.6 and 3.50.7 of older lines; 3.52.0 was withdrawn (SQLite's page on its
    write-ahead log, as quoted by others). With the older journal only EXTRA makes sure that the journal's
    going is on the disk.
    """
    mended = version >= (3, 51, 3) and version != WITHDRAWN
    back_ported = (3, 44, 6) <= version < (3, 45) or (3, 50, 7) <= version < (3, 51)
    return WRITE_AHEAD if mended or back_ported else ROLL_BACK


class Sqlite:
    """One connection to a file."""

    kind = Kind.SQLITE

    def __init__(self, raw: Connection, name: str) -> None:
        """Hold a driver's connection, and the file's name for what is told."""
        self.raw = raw
        self.name = name

    def rows(self, sql: str, **values: Value) -> list[Row]:
        """What SQLite answers."""
        try:
            return [tuple(row) for row in self.raw.execute(sql, values).fetchall()]
        except Exception as trouble:
            better = told(trouble, self.name)
            if better is trouble:
                raise
            raise better from trouble

    def do(self, sql: str, **values: Value) -> None:
        """Have something done that has no answer."""
        self.rows(sql, **values)

    def begin(self, *, writing: bool) -> None:
        """Begin; a writer takes the lock at once, since a reader's cannot be raised to it later.

        Where even taking back failed the last time, on a disk that failed, it is tried once more.
        """
        self.roll_back()
        self.do("BEGIN IMMEDIATE" if writing else "BEGIN")

    def commit(self) -> None:
        """Keep what was done."""
        self.do("COMMIT")

    def roll_back(self) -> None:
        """Take back what was done, unless SQLite has done so already, as it does on a full disk."""
        if self.raw.in_transaction:
            self.do("ROLLBACK")

    def copy_to(self, path: Path) -> None:
        """Write all there is into a new file. It is whole, but not yet made sure of on the disk.

        A connection that only reads refuses to write any file at all, a new one too.
        """
        [[reading]] = self.rows("PRAGMA query_only")
        self.do("PRAGMA query_only = 0")
        self.do("VACUUM INTO :path", path=str(path))
        self.do(f"PRAGMA query_only = {reading!s}")

    def close(self) -> None:
        """Let go of the file."""
        self.raw.close()


def connect(path: Path) -> Sqlite:
    """A connection of Python's own driver, not yet settled; the file is made if it is not there."""
    return _connected(path, "rwc")


def _connected(path: Path, way: str) -> Sqlite:
    if sqlite3.sqlite_version_info < STRICT_SINCE:
        what = f"this Python carries SQLite {sqlite3.sqlite_version}; 3.37 or newer is needed"
        raise refused(str(path), "sqlite-old", what, "use a newer Python")
    try:
        raw = sqlite3.connect(
            f"{path.absolute().as_uri()}?mode={way}",
            uri=True,
            timeout=WAIT_MS / 1000,
            isolation_level=None,
            check_same_thread=False,
            cached_statements=256,
        )
    except sqlite3.Error as trouble:
        raise told(trouble, str(path)) from trouble
    raw.text_factory = _as_it_stands
    return Sqlite(raw, str(path))


def connect_to_look(path: Path) -> Sqlite:
    """A connection to a file of unknown origin, by which nothing is written and nothing in it is run."""
    base = _connected(path, "ro")
    for name, value in {"trusted_schema": 0, "cell_size_check": 1, "mmap_size": 0, "query_only": 1}.items():
        base.do(f"PRAGMA {name} = {value:d}")
    return base


def settle(base: Sqlite, settings: Settings | None = None) -> None:
    """Set what keeps the store safe and make sure that it is set: SQLite passes over what it cannot do."""
    chosen = settings or settings_for(sqlite3.sqlite_version_info)
    wanted: dict[str, str | int] = {
        "busy_timeout": WAIT_MS,
        "foreign_keys": 1,
        "trusted_schema": 0,
        "cell_size_check": 1,
        "mmap_size": 0,
        "fullfsync": 1,  # only macOS heeds it: there a plain sync stops at the drive's own memory
        "checkpoint_fullfsync": 1,
        "journal_mode": chosen.journal,
        "synchronous": chosen.synchronous,
    }
    for name, value in wanted.items():
        base.do(f"PRAGMA {name} = {value!s}")
        found = base.rows(f"PRAGMA {name}")
        if found not in ([(value,)], []):  # mmap_size answers nothing where there is no such thing
            raise RuntimeError(f"SQLite keeps {name} at {found}, where {value!s} is needed")


@contextmanager
def unknown_file(name: str) -> Iterator[None]:
    """What is asked of a file of which nothing is known: if SQLite finds no sense in it, that is told."""
    try:
        yield
    except sqlite3.OperationalError as trouble:
        raise told(sqlite3.DatabaseError(f"its tables make no sense: {trouble}"), name, DAMAGED) from trouble


def check_ours(base: Sqlite) -> None:
    """NotYetRight if the file is a database of some other program."""
    [[whose]] = base.rows("PRAGMA application_id")
    [[holds]] = base.rows("SELECT count(*) FROM sqlite_master")
    if whose != APPLICATION and holds:
        what = "the file is a database of another program"
        raise refused(base.name, "store-not-ours", what, "choose another folder")


def claim(base: Sqlite) -> None:
    """Write into a file that is still empty whose it is."""
    if base.rows("PRAGMA application_id") != [(APPLICATION,)]:
        base.do(f"PRAGMA application_id = {APPLICATION:d}")


def told(trouble: Exception, name: str, known: int = 0) -> Exception:
    """What SQLite says went wrong, as the edge tells such things: of the machine, or of the file."""
    code = known or getattr(trouble, "sqlite_errorcode", getattr(trouble, "result", 0)) & 0xFF
    if code in NUMBERS:
        said = f"{errno.errorcode[NUMBERS[code]]}: {trouble}; nothing of it was kept"
        return OSError(NUMBERS[code], said, name)
    if code in (DAMAGED, NOT_ONE) or isinstance(trouble, UnicodeDecodeError):
        what = f"the file is damaged, or is no store ({trouble})"
        return refused(name, "store-damaged", what, "restore the newest copy; keep this file aside")
    if code == CANNOT_OPEN:
        what = f"the file cannot be opened ({trouble})"
        return refused(name, "store-unreadable", what, "check who may write there")
    return trouble


def _as_it_stands(text: bytes) -> str:
    """The words of a column; what is no text any more is kept so that its event can be named."""
    return text.decode("utf-8", "surrogateescape")
