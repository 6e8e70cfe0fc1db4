"""Stores of every form there has been still open, and a change of form is made whole or not at all."""

import sqlite3
from pathlib import Path

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Folder,
    device_of,
    devices,
    drafts_of,
    events_of,
    faults_of,
    files_at,
    issued,
    keep_draft,
    look_over,
    open_store,
    paper_as_issued,
    record_fault,
    restore,
    standing_of,
    verify,
)
from pinchrod.store.base import insert
from pinchrod.store.copying import digest_of
from pinchrod.store.forms import FORMS, Form, bring_up, form_of
from pinchrod.store.sqlite import claim, connect
from tests.store.shop import (
    MORNING,
    PANTRY,
    a_draft,
    a_fault,
    a_job,
    a_paper,
    files_of,
    later,
    let_in,
    mark_of_secret,
)

SEQ = {"form_1": 8, "form_2": 14}  # the number of the last event
RELEASED = sorted(Path(__file__).with_name("released").glob("form_*.sql"))


def laid_down(sql: Path, folder: Folder) -> Folder:
    """A store of an older program, made from its rows in words."""
    folder.path.mkdir(parents=True)
    raw = sqlite3.connect(folder.file)
    raw.executescript(sql.read_text(encoding="utf-8"))
    raw.close()
    return folder


def two_steps(*, fail: bool = False):
    """A form after the newest: a column more and a table more, and something that goes wrong between."""

    def bring(base):
        base.do("ALTER TABLE revisions ADD COLUMN colour TEXT NOT NULL DEFAULT ''")
        if fail:
            raise ZeroDivisionError
        base.do("CREATE TABLE colours (name TEXT PRIMARY KEY)")

    return (*FORMS, Form(number=FORMS[-1].number + 1, what="colours", bring=bring))


def meaning(store):
    """What a store says, whatever form it says it in."""
    return (
        files_at(store, PANTRY),
        [(event.seq, event.deed, event.piece, event.at, event.seal) for event in events_of(store, PANTRY)],
        [(standing.piece, standing.made, len(standing.done)) for standing in standing_of(store, PANTRY)],
        [(paper.seq, paper.name, paper.mark) for paper in issued(store, PANTRY)],
    )


def test_every_form_there_has_been_has_a_store_to_try():
    assert [path.stem for path in RELEASED] == [f"form_{form.number}" for form in FORMS]


@pytest.mark.parametrize("sql", RELEASED, ids=lambda path: path.stem)
def test_a_store_of_each_form_opens_and_says_what_it_said(sql, folder):
    with open_store(laid_down(sql, folder), now=later(1)) as store:
        assert files_at(store, PANTRY, 1) == files_of(a_job())
        assert files_at(store, PANTRY) == files_of(a_job(width=610))
        assert [paper_as_issued(store, paper.seq) for paper in issued(store, PANTRY)] == [a_paper()]
        [stile, rail] = standing_of(store, PANTRY)
        assert (stile.piece, stile.made, [str(event.deed) for event in stile.done]) == (
            "K1-LS",
            2,
            ["broken out"],
        )
        assert [event.reason for event in rail.events] == ["tear-out"]
        assert verify(store).seq == SEQ[sql.stem]


def test_a_store_of_form_2_knows_its_devices_drafts_settings_and_faults(folder):
    with open_store(laid_down(RELEASED[1], folder), now=later(1)) as store:
        assert [(each.id, each.name, each.role, bool(each.revoked)) for each in devices(store)] == [
            ("D1", "Office", "office", False),
            ("D2", "Tablet 2", "tablet", True),
            ("D3", "Tablet 3", "tablet", False),
        ]
        assert device_of(store, mark_of_secret("Tablet 3")) == devices(store)[2]
        assert [draft.words for draft in drafts_of(store, "D1")] == ["drawer 140 over pair"]
        assert standing_of(store, PANTRY)[0].through == ("step 4 setting 8",)
        assert faults_of(store, PANTRY, 2) == (a_fault("825/2", 440, revision=2),)


def test_what_form_2_brings_can_be_said_in_a_store_that_was_of_form_1(folder):
    with open_store(laid_down(RELEASED[0], folder), now=later(1)) as store:
        let_in(store)
        keep_draft(store, a_draft(), now=later(2))
        record_fault(store, a_fault(), now=later(3))

        assert verify(store).seq == 9
        assert device_of(store, mark_of_secret("Tablet 2"))


def test_a_copy_of_an_older_form_is_sound_and_can_be_put_back(tmp_path, place):
    """Whoever loses the computer on the day of a new program has copies of the old one."""
    old = laid_down(RELEASED[0], Folder(tmp_path / "old"))
    base = connect(old.file)
    insert(base, "seal", one=1, digest=digest_of(base), program="0.1.0", at="2026-11-25T09:00:00.000000Z")
    base.close()

    copy = look_over(old.file)
    restore(old.file, place)

    assert copy.seq == 8
    with open_store(place, writing=False) as looked:
        assert verify(looked).digest == copy.digest
    with open_store(place, now=later(1)) as store:
        assert verify(store).seq == 8
        assert devices(store) == ()


def test_a_copy_of_an_older_form_that_was_tampered_with_is_found(tmp_path):
    old = laid_down(RELEASED[0], Folder(tmp_path / "old"))
    base = connect(old.file)
    base.do("DROP TRIGGER papers_no_delete")
    insert(base, "seal", one=1, digest=digest_of(base), program="0.1.0", at="2026-11-25T09:00:00.000000Z")
    base.close()

    with pytest.raises(NotYetRight) as trouble:
        look_over(old.file)

    assert [problem.where.name for problem in trouble.value.problems] == ["papers_no_delete"]


def test_a_store_is_copied_before_its_form_changes_and_means_the_same_after(store, place):
    before = meaning(store)
    store.close()

    with open_store(place, now=later(1), forms=two_steps()) as newer:
        assert meaning(newer) == before
        with newer.reading() as base:
            assert form_of(base) == FORMS[-1].number + 1
    if isinstance(place, Folder):
        [copy] = place.backups.iterdir()
        with sqlite3.connect(copy) as raw:
            assert raw.execute("SELECT max(number) FROM forms").fetchall() == [(FORMS[-1].number,)]
        raw.close()


def test_a_change_of_form_that_goes_wrong_leaves_the_store_as_it_was(store, place):
    before = verify(store)
    store.close()

    with pytest.raises(ZeroDivisionError):
        open_store(place, now=later(1), forms=two_steps(fail=True))

    with open_store(place, now=later(2)) as again:
        assert verify(again) == before


def test_a_store_of_a_newer_form_is_left_alone(store, place):
    store.close()
    open_store(place, now=later(1), forms=two_steps()).close()
    before = place.file.read_bytes() if isinstance(place, Folder) else b""

    for writing in (True, False):
        with pytest.raises(NotYetRight) as trouble:
            open_store(place, now=later(2), writing=writing)
        assert [problem.code for problem in trouble.value.problems] == ["store-newer"]
    assert not isinstance(place, Folder) or place.file.read_bytes() == before


def test_bringing_up_what_is_up_changes_nothing(store):
    before = verify(store)

    with store._turn:
        assert bring_up(store._writer, later(5)) == FORMS[-1].number

    assert verify(store) == before


def test_a_new_store_broken_off_between_its_name_and_its_tables_is_finished_later(folder):
    folder.path.mkdir()
    new = connect(folder.file)
    claim(new)
    new.close()

    with open_store(folder, now=MORNING) as store, store.reading() as base:
        assert form_of(base) == FORMS[-1].number
