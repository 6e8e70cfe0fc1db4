"""Rows carried from one database to another, whichever the two are, and the digest that holds both alike."""

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from pinchrod.store.base import Base, Row, Value, insert, transaction
from pinchrod.store.forms import form_of, make_tables
from pinchrod.store.sqlite import ROLL_BACK, claim, connect, settle
from pinchrod.store.tables import SEAL, Table, tables_of

AT_ONCE = 500  # rows


def copy_rows(source: Base, path: Path) -> None:
    """Everything in one database, as it stands at one moment, in a new SQLite file."""
    target = connect(path)
    try:
        settle(target, ROLL_BACK)
        claim(target)
        with transaction(source, writing=False), transaction(target, writing=True):
            fill(source, target)
    finally:
        target.close()


def fill(source: Base, target: Base) -> None:
    """Make the tables and put all rows of one store into another; both are in a transaction of the caller.

    The other is of the form of the first: a copy says what was there, and an opening brings it up.
    """
    form = form_of(source)
    make_tables(target, form)
    target.do("DELETE FROM head")
    for table in tables_of(form):
        for row in rows_of(source, table):
            insert(target, table.name, **dict(zip(table.names, row, strict=True)))


def digest_of(base: Base) -> str:
    """The sha256, in hex, of every row of every table of its form but the seal: alike in either database."""
    seal = sha256(b"pinchrod store 1\n")
    for table in tables_of(form_of(base)):
        if table is not SEAL:
            seal.update(f"{table.name}\n".encode())
            for row in rows_of(base, table):
                for value in row:
                    seal.update(_framed(value))
    return seal.hexdigest()


def rows_of(base: Base, table: Table) -> Iterator[Row]:
    """Every row of a table in the order of its key, a few hundred at a time."""
    names, keys = ", ".join(table.names), ", ".join(table.key)
    values: dict[str, Value] = {}
    beyond = ""
    while True:
        sql = f"SELECT {names} FROM {table.name} {beyond} ORDER BY {keys} LIMIT {AT_ONCE}"  # noqa: S608 -- our own names only
        found = base.rows(sql, **values)
        yield from found
        if len(found) < AT_ONCE:
            return
        values = {name: found[-1][table.names.index(name)] for name in table.key}
        beyond = f"WHERE ({keys}) > ({', '.join(f':{name}' for name in table.key)})"


def _framed(value: Value) -> bytes:
    """A value with its kind and its length before it, so that no letter can move to its neighbour unseen."""
    if isinstance(value, bytes):
        return b"b%d:%b" % (len(value), value)
    text = str(value).encode("utf-8", "surrogateescape")
    return b"%b%d:%b" % (b"n" if isinstance(value, int) else b"w", len(text), text)
