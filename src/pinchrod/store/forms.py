"""The forms a store has had, each with the step that brings it from the one before to it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pinchrod import VERSION
from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.store.base import Base, Kind, insert, transaction
from pinchrod.store.chain import START
from pinchrod.store.disk import make_sure, own_file, own_folder
from pinchrod.store.sqlite import connect_to_look
from pinchrod.store.tables import EVENTS, TABLES, Column, Holds, Table, tables_of
from pinchrod.store.times import in_name, spelled

TYPES = {
    Kind.SQLITE: {Holds.WORDS: "TEXT", Holds.WHOLE: "INTEGER", Holds.BYTES: "BLOB"},
    Kind.POSTGRESQL: {Holds.WORDS: 'TEXT COLLATE "C"', Holds.WHOLE: "BIGINT", Holds.BYTES: "BYTEA"},
}
"""Words sort by their letters' numbers in both, whatever the language of the server."""
INDEXES = (
    "CREATE INDEX events_of_piece ON events (job, piece, seq)",
    "CREATE UNIQUE INDEX undone_once ON events (undoes) WHERE undoes > 0",
    "CREATE INDEX revisions_by_mark ON revisions (mark)",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One form: its number, what is new in it, and how a store of the form before is brought to it."""

    number: int
    what: str
    bring: Callable[[Base], None]


def form_1(base: Base) -> None:
    """The first tables: jobs by revision, papers as issued, the ledger."""
    _make(base, form=1)
    for sql in INDEXES:
        base.do(sql)
    insert(base, "head", one=1, seq=0, seal=START)


def form_2(base: Base) -> None:
    """Devices that were let in, and what is typed and not saved yet.

    From here on the ledger may say that a piece went through a setting, and that a fault was found in a
    stick: a program that knows only form 1 could not read that, so it must leave such a store alone.
    """
    _make(base, form=2)
    base.do("CREATE INDEX drafts_of_device ON drafts (device)")


FORMS = (
    Form(number=1, what="jobs by revision, papers as issued, the ledger", bring=form_1),
    Form(number=2, what="devices, drafts, settings gone through, faults found in sticks", bring=form_2),
)


def make_tables(base: Base, newest: int) -> None:
    """Make the tables of a form in a store that has none; the record of it comes with the rows."""
    for form in FORMS:
        if form.number <= newest:
            form.bring(base)


def _make(base: Base, *, form: int) -> None:
    for table in TABLES:
        if table.form == form:
            for sql in _made(table, base.kind):
                base.do(sql)


def form_of(base: Base) -> int:
    """The number of the form that a store is in; 0 if it is new."""
    if base.kind is Kind.SQLITE:
        there = base.rows("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'forms'")
    else:
        there = base.rows(
            "SELECT 1 FROM pg_tables WHERE schemaname = current_schema() AND tablename = 'forms'"
        )
    if not there:
        return 0
    [[number]] = base.rows("SELECT coalesce(max(number), 0) FROM forms")
    return int(number)


def check_form(number: int, place: str, forms: Sequence[Form] = FORMS) -> None:
    """NotYetRight if a newer program made the store: this one leaves it alone."""
    newest = forms[-1].number
    if number > newest:
        what = f"the store is of form {number}, and this program knows forms up to {newest}"
        mend = "use the newer program that made it; nothing was changed"
        raise NotYetRight([Problem(where=Where(file=place), code="store-newer", what=what, mend=mend)])


def bring_up(base: Base, now: datetime, forms: Sequence[Form] = FORMS) -> int:
    """The form the store had; it is in the newest now.

    Each step is one transaction together with the record that it ran, so that a store is always in one
    form or the next, whatever happens in between.
    """
    found = form_of(base)
    for form in forms:
        with transaction(base, writing=True):
            if form.number > form_of(base):
                form.bring(base)
                insert(base, "forms", number=form.number, what=form.what, program=VERSION, at=spelled(now))
    return found


def keep_before(base: Base, folder: Path, now: datetime) -> Path:
    """A copy of a store taken before its form changes, found whole by SQLite and made sure of on the disk."""
    own_folder(folder)
    path = folder / f"form-{form_of(base)}-{in_name(now)}.db"
    path.unlink(missing_ok=True)
    own_file(path)
    base.copy_to(path)
    copy = connect_to_look(path)
    try:
        if copy.rows("PRAGMA integrity_check") != [("ok",)]:
            raise RuntimeError(f"the copy {path} is not whole; nothing was changed")
    finally:
        copy.close()
    make_sure(path)
    make_sure(folder)
    return path


def guards_of_postgresql(form: int) -> tuple[str, ...]:
    """The names of the triggers that guard the rows there, in a store of that form."""
    kept = [table.name for table in tables_of(form) if table.kept]
    changes = [f"{name}_{guard}" for name in kept for guard in ("no_change", "no_truncate")]
    return (*changes, "events_in_order")


def _made(table: Table, kind: Kind) -> Iterator[str]:
    """What makes a table and holds its rows to their rules."""
    columns = [_column(column, kind) for column in table.columns]
    rules = [f"PRIMARY KEY ({', '.join(table.key)})", *table.rules]
    strict = " STRICT" if kind is Kind.SQLITE else ""
    yield f"CREATE TABLE {table.name} ({', '.join([*columns, *rules])}){strict}"
    if table.kept:
        yield from _guards_of_sqlite(table) if kind is Kind.SQLITE else _guards_of_postgresql(table)


def _column(column: Column, kind: Kind) -> str:
    return f"{column.name} {TYPES[kind][column.holds]} NOT NULL"


def _guards_of_sqlite(table: Table) -> Iterator[str]:
    """Triggers that refuse to change or take out a row, or to put one in an old one's place.

    INSERT OR REPLACE takes rows out without asking the trigger that guards them: so it is met before.
    """
    refused = f"SELECT RAISE(ABORT, '{table.name}: rows are kept as they are')"
    yield f"CREATE TRIGGER {table.name}_no_update BEFORE UPDATE ON {table.name} BEGIN {refused}; END"
    yield f"CREATE TRIGGER {table.name}_no_delete BEFORE DELETE ON {table.name} BEGIN {refused}; END"
    same = " AND ".join(f"{name} = NEW.{name}" for name in table.key)
    rows = [f"SELECT 1 FROM {table.name} WHERE {each}" for each in (same, *table.once)]  # noqa: S608 -- our own names
    taken = " OR ".join(f"EXISTS ({each})" for each in rows)
    yield (
        f"CREATE TRIGGER {table.name}_no_replace BEFORE INSERT ON {table.name} WHEN {taken}"
        f" BEGIN {refused}; END"
    )
    if table is EVENTS:
        gap = "SELECT RAISE(ABORT, 'events: the number is not the next one')"
        other = "NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM events)"
        yield f"CREATE TRIGGER events_in_order BEFORE INSERT ON events WHEN {other} BEGIN {gap}; END"


def _guards_of_postgresql(table: Table) -> Iterator[str]:
    """The same for PostgreSQL, where a table can also be emptied at one stroke."""
    yield (
        f"CREATE FUNCTION {table.name}_kept() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN"
        f" RAISE EXCEPTION '{table.name}: rows are kept as they are'; END $$"
    )
    kept = f"EXECUTE FUNCTION {table.name}_kept()"
    yield (
        f"CREATE TRIGGER {table.name}_no_change BEFORE UPDATE OR DELETE ON {table.name} FOR EACH ROW {kept}"
    )
    yield (
        f"CREATE TRIGGER {table.name}_no_truncate BEFORE TRUNCATE ON {table.name} FOR EACH STATEMENT {kept}"
    )
    if table is EVENTS:
        yield (
            "CREATE FUNCTION events_next() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN"
            " IF NEW.seq IS DISTINCT FROM (SELECT coalesce(max(seq), 0) + 1 FROM events) THEN"
            " RAISE EXCEPTION 'events: the number is not the next one'; END IF; RETURN NEW; END $$"
        )
        yield (
            "CREATE TRIGGER events_in_order BEFORE INSERT ON events FOR EACH ROW"
            " EXECUTE FUNCTION events_next()"
        )
