"""The tables of a store, described once: they are made, copied, digested and checked from this."""

from dataclasses import dataclass
from enum import StrEnum


class Holds(StrEnum):
    """What a column holds; each database has its own name for it."""

    WORDS = "words"
    WHOLE = "whole"
    BYTES = "bytes"


@dataclass(frozen=True, slots=True)
class Column:
    """One column; none may be empty in the sense of SQL: what is not said is "" or 0."""

    name: str
    holds: Holds = Holds.WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One table. Rows of a table that is `kept` are never changed and never taken out."""

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    rules: tuple[str, ...] = ()  # what else SQL is to hold it to
    once: tuple[str, ...] = ()  # conditions under which a new row would stand in place of an old one
    kept: bool = True
    form: int = 1  # the form of the store that brought it

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its columns."""
        return tuple(column.name for column in self.columns)


def words(*names: str) -> tuple[Column, ...]:
    """Columns of words."""
    return tuple(Column(name) for name in names)


def whole(name: str) -> Column:
    """A column of whole numbers."""
    return Column(name, Holds.WHOLE)


REVISION = "FOREIGN KEY (job, revision) REFERENCES revisions (job, number)"
CONTENT = "FOREIGN KEY (content) REFERENCES contents (mark)"

FORMS = Table(name="forms", columns=(whole("number"), *words("what", "program", "at")), key=("number",))
CONTENTS = Table(
    name="contents", columns=(*words("mark"), Column("content", Holds.BYTES)), key=("mark",)
)  # each file once, by its sha256
REVISIONS = Table(
    name="revisions",
    columns=(
        *words("job"),
        whole("number"),
        *words("name", "mark", "fingerprint", "seal", "note", "person", "device", "at"),
    ),
    key=("job", "number"),
)
FILES = Table(
    name="files",
    columns=(
        *words("job"),
        whole("revision"),
        whole("place"),
        whole("beside"),
        *words("part", "name", "content"),
    ),
    key=("job", "revision", "place"),
    rules=(REVISION, CONTENT),
)
REQUESTS = Table(name="requests", columns=words("key", "payload", "answer"), key=("key",))
EVENTS = Table(
    name="events",
    columns=(
        whole("seq"),
        *words("key"),
        whole("part"),
        *words("deed", "job"),
        whole("revision"),
        *words("at", "person", "device", "piece", "paper", "reason", "spot", "diagonals"),
        whole("undoes"),
        *words("despite", "proof", "seal"),
    ),
    key=("seq",),
    rules=("UNIQUE (key, part)", "FOREIGN KEY (key) REFERENCES requests (key)", REVISION),
    once=("key = NEW.key AND part = NEW.part", "undoes > 0 AND undoes = NEW.undoes"),
)
PAPERS = Table(
    name="papers",
    columns=(whole("seq"), *words("job"), whole("revision"), *words("name", "content")),
    key=("seq",),
    rules=("FOREIGN KEY (seq) REFERENCES events (seq)", REVISION, CONTENT),
)
HEAD = Table(
    name="head",
    columns=(whole("one"), whole("seq"), *words("seal")),
    key=("one",),
    rules=("CHECK (one = 1)",),
    kept=False,
)
SEAL = Table(
    name="seal",
    columns=(whole("one"), *words("digest", "program", "at")),
    key=("one",),
    rules=("CHECK (one = 1)",),
    kept=False,
)  # a row only in a backup: what the digest of all the other tables was

DEVICES = Table(
    name="devices",
    columns=(whole("number"), *words("key", "name", "role", "token_mark", "person", "device", "at")),
    key=("number",),
    rules=("UNIQUE (key)", "UNIQUE (token_mark)", "FOREIGN KEY (key) REFERENCES requests (key)"),
    once=("key = NEW.key", "token_mark = NEW.token_mark"),
    form=2,
)  # the sha256 of a device's secret, never the secret
REVOCATIONS = Table(
    name="revocations",
    columns=(whole("number"), *words("key", "person", "device", "at")),
    key=("number",),
    rules=(
        "UNIQUE (key)",
        "FOREIGN KEY (key) REFERENCES requests (key)",
        "FOREIGN KEY (number) REFERENCES devices (number)",
    ),
    once=("key = NEW.key",),
    form=2,
)
DRAFTS = Table(
    name="drafts",
    columns=(*words("job", "place", "device"), whole("after"), *words("words", "at")),
    key=("job", "place", "device"),
    kept=False,
    form=2,
)  # what is typed and not saved yet: the one table that forgets

TABLES = (
    FORMS,
    CONTENTS,
    REVISIONS,
    FILES,
    REQUESTS,
    EVENTS,
    PAPERS,
    HEAD,
    SEAL,
    DEVICES,
    REVOCATIONS,
    DRAFTS,
)
"""Every table, in an order in which their rows can be put in."""


def tables_of(form: int) -> tuple[Table, ...]:
    """The tables of a store of that form."""
    return tuple(table for table in TABLES if table.form <= form)
