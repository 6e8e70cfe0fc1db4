"""The ledger is only ever added to, and whoever tampers with it is found."""

import random
import sqlite3
from dataclasses import replace

import psycopg
import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Deed,
    Folder,
    events_of,
    issue,
    keep_draft,
    open_store,
    record,
    record_fault,
    revoke,
    roll_at,
    save,
    undo_fault,
    verify,
)
from pinchrod.store.base import insert
from pinchrod.store.event_rows import append, every_event
from pinchrod.store.soundness import unsound
from pinchrod.store.tables import TABLES
from tests.builders import so_many
from tests.store.shop import (
    MORNING,
    OFFICE,
    PANTRY,
    a_draft,
    a_fault,
    a_job,
    a_request,
    a_saving,
    an_issue,
    let_in,
    said_in_turn,
)

KEPT = [table for table in TABLES if table.kept]


@pytest.fixture
def worked(store):
    """A store in which something of every kind has been kept."""
    issue(store, an_issue())
    record(store, a_request(Deed.BROKEN_OUT), roll_at(store, PANTRY))
    let_in(store)
    revoke(store, "D1", OFFICE, "away-1")
    keep_draft(store, a_draft())
    return store


@pytest.mark.parametrize("table", KEPT, ids=lambda table: table.name)
@pytest.mark.parametrize("how", ["UPDATE {0} SET {1} = {1}", "DELETE FROM {0}"])
def test_no_row_is_ever_changed_or_taken_out(worked, table, how):
    statement = how.format(table.name, table.columns[-1].name)

    with (
        pytest.raises((sqlite3.IntegrityError, psycopg.Error), match="rows are kept"),
        worked.writing() as base,
    ):
        base.do(statement)


@pytest.mark.parametrize("table", KEPT, ids=lambda table: table.name)
def test_no_row_takes_the_place_of_another(worked, table):
    same = f"SELECT * FROM {table.name} LIMIT 1"
    with worked.reading() as base:
        statement = "INSERT OR REPLACE" if base.kind == "SQLite" else "INSERT"
        assert base.rows(same)

    with pytest.raises((sqlite3.IntegrityError, psycopg.Error)), worked.writing() as base:
        base.do(f"{statement} INTO {table.name} {same}")


def test_a_ledger_s_numbers_have_no_gap(worked):
    columns = "key, part, deed, job, revision, at, person, device, piece, paper, reason, spot, diagonals, undoes, despite, proof, seal"
    later_on = f"INSERT INTO events (seq, {columns}) SELECT 99, {columns.replace('part', '7')} FROM events WHERE seq = 1"

    with (
        pytest.raises((sqlite3.IntegrityError, psycopg.Error), match="not the next one"),
        worked.writing() as base,
    ):
        base.do(later_on)


def test_a_server_s_table_is_not_emptied_at_one_stroke(worked):
    with worked.reading() as base:
        if base.kind == "SQLite":
            pytest.skip("SQLite has no such stroke")

    with pytest.raises(psycopg.Error), worked.writing() as base:
        base.do("TRUNCATE events CASCADE")


def test_a_store_at_work_is_sound(worked):
    found = verify(worked)

    assert (found.jobs, found.seq) == (1, 3)
    assert len(found.seal) == len(found.digest) == 64


@pytest.fixture
def file(folder: Folder):
    """The file of a store with thirty events in its ledger and three devices, closed."""
    with open_store(folder, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        issue(store, an_issue())
        for name in ("Office", "Tablet 1", "Tablet 2"):
            let_in(store, name)
        revoke(store, "D2", OFFICE, "away-1")
        roll = roll_at(store, PANTRY)
        steps = [(entry.mark, step) for entry in roll.entries for step in entry.steps[:5]]
        for number, (mark, step) in enumerate(steps):
            record(store, a_request(step, mark=roll.mark, key=f"tap-{number}", piece=mark), roll)
    return folder.file


def tampered(file, *statements):
    """What verify says of a store after somebody worked on it with another program, guards put back."""
    raw = sqlite3.connect(file, isolation_level=None)
    guards = raw.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for name, _ in guards:
        raw.execute(f"DROP TRIGGER {name}")
    for sql, *values in statements:
        raw.execute(sql, values)
    for _, sql in guards:
        raw.execute(sql)
    raw.close()
    with open_store(Folder(file.parent), writing=False) as store, store.reading() as base:
        return [(problem.code, problem.where.name) for problem in unsound(base)]


def test_tampering_with_nothing_leaves_a_store_sound(file):
    assert tampered(file) == []


@pytest.mark.parametrize(
    ("statement", "code"),
    [
        ("UPDATE events SET reason = 'x' WHERE seq = 5", ("ledger-broken", "event 5")),
        ("UPDATE events SET deed = 'flown' WHERE seq = 5", ("ledger-broken", "event 5")),
        ("UPDATE events SET diagonals = '1/0' WHERE seq = 5", ("ledger-broken", "event 5")),
        ("DELETE FROM events WHERE seq = 5", ("ledger-broken", "event 5")),
        ("DELETE FROM events WHERE seq = (SELECT max(seq) FROM events)", ("ledger-broken", "event {last}")),
        ("UPDATE head SET seq = seq + 1", ("ledger-broken", "event {next}")),
        ("UPDATE head SET seal = 'f'", ("ledger-broken", "event {last}")),
        ("DELETE FROM head", ("ledger-broken", "event 1")),
        (
            "UPDATE contents SET content = x'00' WHERE mark = (SELECT min(mark) FROM contents)",
            ("content-changed", None),
        ),
        ("UPDATE revisions SET note = 'x'", ("revision-changed", "pantry-wall, revision 1")),
        ("UPDATE files SET name = 'other.toml'", ("revision-changed", "pantry-wall, revision 1")),
        ("UPDATE papers SET name = 'other.pdf'", ("paper-changed", "event 2")),
        ("DELETE FROM papers", ("paper-changed", "event 2")),
        ("INSERT INTO requests VALUES ('ghost', 'p', '[]')", ("request-changed", "request ghost")),
        ("DROP INDEX revisions_by_mark", ("store-unguarded", "revisions_by_mark")),
        ("CREATE TABLE notes (words TEXT)", ("store-unguarded", "notes")),
        ("DELETE FROM requests WHERE key = 'tap-1'", ("store-damaged", "events")),
        ("UPDATE devices SET role = 'office' WHERE number = 2", ("device-changed", "D2")),
        ("UPDATE devices SET token_mark = 'f' WHERE number = 3", ("device-changed", "D3")),
        ("DELETE FROM devices WHERE number = 1", ("device-changed", "D1")),
        ("DELETE FROM devices WHERE number = 3", ("request-changed", "request let-in-Tablet 2")),
        ("DELETE FROM revocations", ("request-changed", "request away-1")),
        ("UPDATE revocations SET number = 3", ("device-changed", "D3")),
        ("UPDATE revocations SET number = 7", ("store-damaged", "revocations")),
        ("INSERT INTO revocations SELECT 1, 'let-in-Office', 'x', 'x', 'x'", ("device-changed", "D1")),
        ("DROP INDEX drafts_of_device", ("store-unguarded", "drafts_of_device")),
    ],
)
def test_each_way_of_tampering_is_found_and_named(file, statement, code):
    with sqlite3.connect(file) as raw:
        [[last]] = raw.execute("SELECT max(seq) FROM events")
    raw.close()

    found = tampered(file, (statement,))

    wanted, name = code
    assert wanted in [each for each, _ in found]
    if name:
        assert (wanted, name.format(last=last, next=last + 1)) in found


def test_a_guard_taken_away_is_found(file):
    with sqlite3.connect(file) as raw:
        raw.execute("DROP TRIGGER events_no_update")
    raw.close()

    with open_store(Folder(file.parent), writing=False) as store, pytest.raises(NotYetRight) as trouble:
        verify(store)

    assert [problem.where.name for problem in trouble.value.problems] == ["events_no_update"]


def ledger_of(file):
    raw = sqlite3.connect(file)
    rows = raw.execute("SELECT * FROM events ORDER BY seq").fetchall()
    raw.close()
    return rows


def test_random_changes_of_letters_rows_left_out_and_rows_swapped_are_all_found_at_the_first(file):
    from pinchrod.store.chain import Head, Unreadable, breaks
    from pinchrod.store.event_rows import event_of

    rows, dice = ledger_of(file), random.Random(5)
    head = Head(rows[-1][0], rows[-1][-1])

    def first_break(changed):
        def read(row):
            try:
                return event_of(row)
            except (ValueError, ZeroDivisionError):
                return Unreadable(int(row[0]))

        return [problem.where.name for problem in breaks(map(read, changed), head)]

    assert first_break(rows) == []
    for _ in range(so_many(1000)):
        at = dice.randrange(len(rows))
        assert first_break([*rows[:at], one_letter_changed(rows[at], dice), *rows[at + 1 :]]) == [
            f"event {at + 1}"
        ]
    for at in range(len(rows)):
        assert first_break([*rows[:at], *rows[at + 1 :]]) == [f"event {at + 1}"]
    for _ in range(so_many(1000)):
        one, other = sorted(dice.sample(range(len(rows)), 2))
        swapped = list(rows)
        swapped[one], swapped[other] = (rows[one][0], *rows[other][1:]), (rows[other][0], *rows[one][1:])
        assert first_break(swapped) == [f"event {one + 1}"]


def one_letter_changed(row, dice):
    """The row with one letter or figure changed in one of its columns, but for its number."""
    at = dice.randrange(1, len(row))
    value = row[at]
    if isinstance(value, int):
        changed = value + dice.randrange(1, 9)
    elif value:
        place = dice.randrange(len(value))
        changed = value[:place] + chr(ord(value[place]) ^ dice.randrange(1, 16)) + value[place + 1 :]
    else:
        changed = "x"
    return (*row[:at], changed, *row[at + 1 :])


def test_a_chain_made_anew_is_whole_but_cannot_say_what_cannot_be(worked):
    [*_, event] = events_of(worked, PANTRY)
    with worked.writing() as base:
        insert(base, "requests", key="forged", payload="p", answer="[]")
        append(base, (replace(event, key="forged"),))  # broken out a second time

    with pytest.raises(NotYetRight) as trouble:
        verify(worked)

    assert [(problem.code, problem.where.name) for problem in trouble.value.problems] == [
        ("ledger-unlawful", "K1-LS")
    ]


def forged(store, event, **said):
    """What verify finds once somebody has put such an event in, with its request, and made the chain whole."""
    with store.writing() as base:
        insert(base, "requests", key="forged", payload="p", answer="[]")
        append(base, (replace(event, key="forged", part=0, **said),))
        return [(problem.code, problem.where.name) for problem in unsound(base)]


def test_a_setting_gone_through_twice_cannot_have_been(worked):
    roll = roll_at(worked, PANTRY)
    [event] = record(worked, a_request(Deed.THROUGH, key="tap-2", spot="step 4 setting 7"), roll).events

    assert forged(worked, event) == [("ledger-unlawful", "K1-LS")]


@pytest.mark.parametrize(
    "spot", ["S14", "S14 440-412", "S14 412-440 ", "412-440", "S14 1/0-3", "S14 824/2-440"]
)
def test_a_fault_in_no_place_cannot_have_been(worked, spot):
    event = record_fault(worked, a_fault())

    assert forged(worked, event, spot=spot) == [("ledger-unlawful", "event 5")]


def test_a_fault_taken_back_twice_or_out_of_turn_cannot_have_been(worked):
    first = record_fault(worked, a_fault())
    record_fault(worked, a_fault(key="fault-2"))
    back = undo_fault(worked, "fault-2", key="back", by=OFFICE)
    record_fault(worked, a_fault(key="fault-3"))

    assert forged(worked, back, undoes=first.seq) == [("ledger-unlawful", "event 8")]


def test_what_is_said_of_no_piece_and_takes_back_a_piece_s_step_cannot_have_been(worked):
    """The fault of one stick is no step of a piece, and the other way about."""
    step = events_of(worked, PANTRY, "K1-LS")[0]

    assert forged(worked, step, deed=Deed.UNDONE, piece="", undoes=step.seq) == [
        ("ledger-unlawful", "event 4")
    ]


def test_a_ledger_longer_than_is_read_at_once_is_read_to_its_end(store):
    save(store, a_saving(a_job(quantity=20), key="save-2", after=1))
    roll = roll_at(store, PANTRY)
    record(store, replace(a_request(), said=tuple(said_in_turn(roll)[:700])), roll)

    with store.reading() as base:
        assert [event.seq for event in every_event(base)] == list(range(1, 703))
    assert verify(store).seq == 702
