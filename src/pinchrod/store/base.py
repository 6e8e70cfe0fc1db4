"""What the store asks of a database, whichever it is."""

from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from pathlib import Path
from typing import Protocol

Value = str | int | bytes
Row = tuple[Value, ...]


class Kind(StrEnum):
    """The databases that a store can stand in."""

    SQLITE = "SQLite"
    POSTGRESQL = "PostgreSQL"


class Base(Protocol):
    """One connection to a database. Values stand in SQL as `:name`, never as text of their own."""

    kind: Kind

    def rows(self, sql: str, **values: Value) -> list[Row]:
        """What the database answers."""

    def do(self, sql: str, **values: Value) -> None:
        """Have something done that has no answer."""

    def begin(self, *, writing: bool) -> None:
        """Begin; whoever writes has the store to itself until the end."""

    def commit(self) -> None:
        """Keep what was done since the beginning. When this comes back, it is safe on the disk."""

    def roll_back(self) -> None:
        """Take back what was done since the beginning, if anything began."""

    def copy_to(self, path: Path) -> None:
        """Write all there is, as it stands at one moment, into a new SQLite file."""

    def close(self) -> None:
        """Let go of the database."""


@contextmanager
def transaction(base: Base, *, writing: bool) -> Iterator[Base]:
    """All of what is done inside, or, if anything goes wrong, nothing of it."""
    try:
        base.begin(writing=writing)
        yield base
        base.commit()
    except BaseException:
        base.roll_back()
        raise


def insert(base: Base, table: str, **values: Value) -> None:
    """Put one row in."""
    names = ", ".join(values)
    places = ", ".join(f":{name}" for name in values)
    base.do(f"INSERT INTO {table} ({names}) VALUES ({places})", **values)  # noqa: S608 -- our own names only


def words_of(row: Row, *places: int) -> tuple[str, ...]:
    """The words that stand at these places of a row."""
    return tuple(str(row[place]) for place in places)
