"""Whether a store is sound: whole, as it was written, and with nothing in it that cannot have been."""

import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import replace

from pinchrod.ground import Problem
from pinchrod.store.base import Base, Kind, words_of
from pinchrod.store.chain import Unreadable, breaks
from pinchrod.store.copying import digest_of, rows_of
from pinchrod.store.deeds import Deed
from pinchrod.store.devices import changed_devices
from pinchrod.store.event_rows import every_event, head_of, select
from pinchrod.store.faults import broken_faults
from pinchrod.store.forms import form_of, guards_of_postgresql, make_tables
from pinchrod.store.issuing import issued_of
from pinchrod.store.job_files import kept_files, mark_of
from pinchrod.store.jobs import revision_of, seal_of_revision
from pinchrod.store.lawful import broken_rules
from pinchrod.store.putting_away import broken_putting_away
from pinchrod.store.sqlite import Sqlite
from pinchrod.store.tables import (
    CONTENTS,
    DEVICES,
    PAPERS,
    REQUESTS,
    REVISIONS,
    REVOCATIONS,
    TABLES,
    Table,
    tables_of,
)
from pinchrod.store.telling import amiss

MOST_TOLD = 20
SWITCHED_ON = "O"  # PostgreSQL's word for a trigger that works as usual (its catalogue, pg_trigger)
KEEP = "restore the newest copy that is sound; keep this one aside, to see what happened"


def unsound(base: Base) -> Iterator[Problem]:
    """Everything found wrong in a store, the most telling first. The caller reads it as of one moment.

    What SQLite itself finds comes first; where it finds anything, the rest cannot be read with trust. So it
    is with tables that are not as they were made, and with a ledger whose chain is broken.
    """
    damage = tuple(_damage(base))
    yield from damage
    if damage:
        return
    unguarded = tuple(_other_guards(base))
    yield from unguarded
    if {problem.where.name for problem in unguarded} & {table.name for table in TABLES}:
        return
    yield from _contents(base)
    broken = tuple(breaks(every_event(base), head_of(base)))
    yield from broken
    if broken:
        return
    yield from broken_rules(event for event in every_event(base) if not isinstance(event, Unreadable))
    yield from broken_faults(base)
    yield from broken_putting_away(base)
    yield from _revisions(base)
    yield from _papers(base)
    tables = tables_of(form_of(base))
    yield from changed_devices(base) if DEVICES in tables else ()
    yield from _requests(base, tables)
    yield from _sealed_otherwise(base)


def unsound_outwardly(base: Base) -> Iterator[Problem]:
    """What SQLite finds wrong with its file; or, if nothing, what is not as the program makes it."""
    damage = tuple(_damage(base))
    yield from damage or _other_guards(base)


def found_in(place: str, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems, with the store or the copy they were found in."""
    return tuple(replace(each, where=replace(each.where, file=place)) for each in problems)


def _damage(base: Base) -> Iterator[Problem]:
    """What the database finds wrong with itself. PostgreSQL looks at its pages as it reads them."""
    if base.kind is not Kind.SQLITE:
        return
    found = [words_of(row, 0)[0] for row in base.rows(f"PRAGMA integrity_check({MOST_TOLD:d})")]
    for what in found if found != ["ok"] else []:
        yield amiss("file", "store-damaged", f"SQLite finds: {what}", KEEP)
    for row in base.rows("PRAGMA foreign_key_check")[:MOST_TOLD]:
        yield amiss(str(row[0]), "store-damaged", f"row {row[1]!s} of {row[0]!s} refers to nothing", KEEP)


def _other_guards(base: Base) -> Iterator[Problem]:
    """A table, index or trigger that is not as it was made: rows might have been changed behind it."""
    here, made = set(_made_in(base)), set(_made_afresh(base, form_of(base)))
    for name in sorted({name for name, _ in here ^ made}):
        what = f"{name} is not as the program makes it: what guards the rows may have been taken away"
        yield amiss(name, "store-unguarded", what, KEEP)


def _made_in(base: Base) -> Iterator[tuple[str, str]]:
    if base.kind is Kind.SQLITE:
        sql = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'"
        yield from ((name, made) for name, made in (words_of(row, 0, 1) for row in base.rows(sql)))
        return
    sql = (
        "SELECT t.tgname, CAST(t.tgenabled AS text) FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid"
        " JOIN pg_namespace n ON n.oid = c.relnamespace"
        " WHERE NOT t.tgisinternal AND n.nspname = current_schema()"
    )
    yield from ((name, on) for name, on in (words_of(row, 0, 1) for row in base.rows(sql)))


def _made_afresh(base: Base, form: int) -> Iterator[tuple[str, str]]:
    """The same of a store that was made just now, in memory; of PostgreSQL the guards alone, switched on."""
    if base.kind is Kind.SQLITE:
        fresh = Sqlite(sqlite3.connect(":memory:", isolation_level=None), "memory")
        try:
            make_tables(fresh, form)
            yield from tuple(_made_in(fresh))
        finally:
            fresh.close()
        return
    for name in guards_of_postgresql(form):
        yield name, SWITCHED_ON


def _contents(base: Base) -> Iterator[Problem]:
    for mark, content in rows_of(base, CONTENTS):
        if mark_of(content if isinstance(content, bytes) else b"") != mark:
            what = "a file that was kept is not as it was: its sha256 is another"
            yield amiss(f"content {mark!s:.12}", "content-changed", what, KEEP)


def _revisions(base: Base) -> Iterator[Problem]:
    """Each revision is as it was sealed, and was saved by the event that bears its seal; and so back."""
    events = select(base, "deed = :deed", deed=str(Deed.SAVED))
    saved = {(event.job, event.revision): event.proof for event in events}
    before: dict[str, int] = {}
    for row in rows_of(base, REVISIONS):
        revision = revision_of(row)
        place = f"{revision.job}, revision {revision.number}"
        sealed = seal_of_revision(revision, kept_files(base, revision.job, revision.number))
        if sealed != revision.seal or saved.pop((revision.job, revision.number), "") != revision.seal:
            what = "it is not as it was saved, or the ledger says nothing of it"
            yield amiss(place, "revision-changed", what, KEEP)
        if revision.number != before.get(revision.job, 0) + 1:
            yield amiss(place, "revision-changed", "the revision before it is gone", KEEP)
        before[revision.job] = revision.number
    for job, number in saved:
        what = "the ledger says that it was saved, and it is gone"
        yield amiss(f"{job}, revision {number}", "revision-changed", what, KEEP)


def _papers(base: Base) -> Iterator[Problem]:
    """Each paper that went out is kept with the content that its event bears; and so back."""
    events = {event.seq: event for event in select(base, "deed = :deed", deed=str(Deed.ISSUED))}
    for row in rows_of(base, PAPERS):
        paper = issued_of(row)
        event = events.pop(paper.seq, None)
        found = (paper.job, paper.revision, paper.name, paper.mark)
        if event is None or found != (event.job, event.revision, event.paper, event.proof):
            what = f"{paper.name} is not as it went out"
            yield amiss(f"event {paper.seq}", "paper-changed", what, KEEP)
    for seq, event in events.items():
        yield amiss(f"event {seq}", "paper-changed", f"{event.paper} went out, and is not kept", KEEP)


def _requests(base: Base, tables: tuple[Table, ...]) -> Iterator[Problem]:
    """Each request has its events, numbered from 0, in one run of the ledger; or it let a device in."""
    sql = "SELECT key, min(seq), max(seq), max(part), count(*) FROM ({}) said GROUP BY key"
    counted = {
        str(key): (int(first), int(last), int(most), int(count))
        for key, first, last, most, count in base.rows(sql.format(_answered(tables)))
    }
    for key, *_ in rows_of(base, REQUESTS):
        first, last, most, count = counted.get(str(key), (0, 0, 0, 0))
        if not count or (last - first + 1, most + 1) != (count, count):
            what = "it was answered, and its events are not in the ledger as they were written"
            yield amiss(f"request {key!s}", "request-changed", what, KEEP)


def _answered(tables: tuple[Table, ...]) -> str:
    """What chooses every row that a request may have led to."""
    events = "SELECT key, seq, part FROM events"
    entries = [table.name for table in (DEVICES, REVOCATIONS) if table in tables]
    others = [f"SELECT key, number, 0 FROM {name}" for name in entries]  # noqa: S608 -- our own names
    return " UNION ALL ".join([events, *others])


def _sealed_otherwise(base: Base) -> Iterator[Problem]:
    """Of a copy: whether it holds what it held when it was made."""
    for [digest] in base.rows("SELECT digest FROM seal"):
        if digest != digest_of(base):
            what = "it does not hold what it held when it was made"
            yield amiss("copy", "copy-changed", what, "take an older copy, or one that lies elsewhere")
