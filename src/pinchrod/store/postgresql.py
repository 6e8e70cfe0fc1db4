"""PostgreSQL: the store in a schema of its own on a server. Loaded only where a place names one."""

import errno
import re
from pathlib import Path

import psycopg

from pinchrod.store.base import Kind, Row, Value
from pinchrod.store.copying import copy_rows
from pinchrod.store.telling import refused

SCHEMA = "pinchrod"
WRITERS = 0x50524F44  # the number of the lock that writers take in turn
OWNER = WRITERS + 1  # of the lock that says whose store it is
NAMED = re.compile(r":([a-z_]+)")
WAIT_MS = 10_000
NOT_ALLOWED = (
    psycopg.errors.InsufficientPrivilege,
    psycopg.errors.InvalidSchemaName,  # so it says where the account may not look into the schema
)
SAFE = {"synchronous_commit": "on", "fsync": "on", "full_page_writes": "on"}


class Postgresql:
    """One connection to a server, made again where it was lost: servers are started anew now and then."""

    kind = Kind.POSTGRESQL

    def __init__(self, url: str, name: str) -> None:
        """Connect; the place's name is for what is told."""
        self.url = url
        self.name = name
        self.owner = False  # whether it holds the lock of the one program that may write
        self.raw = self._connected()

    def _connected(self) -> "psycopg.Connection[Row]":
        """A connection whose statements look at the store's own schema alone."""
        try:
            raw = psycopg.connect(self.url, autocommit=True, connect_timeout=10, application_name="pinchrod")
            raw.execute(f"SET search_path = {SCHEMA}".encode())
            raw.execute(f"SET lock_timeout = {WAIT_MS}".encode())
        except psycopg.Error as trouble:
            raise told(trouble, self.name) from trouble
        return raw

    def rows(self, sql: str, **values: Value) -> list[Row]:
        """What the server answers."""
        try:
            answer = self.raw.execute(NAMED.sub(r"%(\1)s", sql).encode(), values or None)
            return answer.fetchall() if answer.description else []
        except psycopg.Error as trouble:
            raise told(trouble, self.name) from trouble

    def do(self, sql: str, **values: Value) -> None:
        """Have something done that has no answer."""
        self.rows(sql, **values)

    def begin(self, *, writing: bool) -> None:
        """Begin; writers go one after another, a reader sees one moment however long it reads."""
        if self.raw.closed:
            self.raw = self._connected()
            if self.owner:
                lock_as_owner(self)
        if writing:
            self.do("BEGIN")
            self.do("SELECT pg_advisory_xact_lock(:number)", number=WRITERS)
        else:
            self.do("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY")

    def commit(self) -> None:
        """Keep what was done."""
        self.do("COMMIT")

    def roll_back(self) -> None:
        """Take back what was done; if the server is gone, it does so by itself."""
        if not self.raw.closed:
            self.do("ROLLBACK")

    def copy_to(self, path: Path) -> None:
        """Write all there is into a new SQLite file, so that a copy can be read without any server."""
        copy_rows(self, path)

    def close(self) -> None:
        """Let go of the server."""
        self.raw.close()


def settle(base: Postgresql) -> None:
    """Make sure that the server, too, has what it acknowledges on its disk."""
    for name, value in SAFE.items():
        if base.rows(f"SHOW {name}") != [(value,)]:
            what = f"the server has {name} switched off: what it acknowledges could be lost with the power"
            raise refused(base.name, "server-unsafe", what, f"set {name} = {value} on the server")


def make_schema(base: Postgresql) -> None:
    """Make the schema that the store stands in, if it is not there.

    It is looked for first: whoever may not make schemas would be refused even where there is nothing to make.
    """
    if not holds_a_store(base):
        base.do(f"CREATE SCHEMA {SCHEMA}")


def holds_a_store(base: Postgresql) -> bool:
    """Whether the schema is there."""
    return bool(base.rows("SELECT 1 FROM pg_namespace WHERE nspname = :name", name=SCHEMA))


def set_aside(base: Postgresql, when: str) -> str:
    """The schema's new name, so that another can take its place; empty if there was none."""
    if not holds_a_store(base):
        return ""
    name = f"{SCHEMA}_set_aside_{when}"
    base.do(f"ALTER SCHEMA {SCHEMA} RENAME TO {name}")
    return name


def lock_as_owner(base: Postgresql) -> None:
    """Take the lock that only one writing program may hold; NotYetRight if another has it."""
    [[had]] = base.rows("SELECT pg_try_advisory_lock(:number)", number=OWNER)
    if not had:
        what = "another program has the store open for writing"
        raise refused(base.name, "store-in-use", what, "use its pages, or stop it first")
    base.owner = True


def told(trouble: psycopg.Error, name: str) -> Exception:
    """What the server says went wrong, as the edge tells such things."""
    said = " ".join(str(trouble).split())
    if isinstance(trouble, psycopg.errors.DiskFull):
        return OSError(errno.ENOSPC, f"{said}; nothing of it was kept", name)
    if isinstance(trouble, psycopg.errors.LockNotAvailable):
        return OSError(errno.EBUSY, f"{said}; nothing of it was kept", name)
    if isinstance(trouble, NOT_ALLOWED):
        what = f"the account may not do this on the server ({said})"
        return refused(name, "server-rights", what, "give it the rights that docs/store.md names")
    if isinstance(trouble, psycopg.ProgrammingError) and not trouble.sqlstate:
        what = "the address cannot be read"  # and is not repeated: there may be a password in it
        return refused(name, "server-address", what, "write it as postgresql://user@host/database")
    if isinstance(trouble, psycopg.OperationalError):
        what = f"the server does not answer ({said})"
        return refused(name, "server-away", what, "start it, or check the address")
    return trouble
