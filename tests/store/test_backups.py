"""Copies of a store: whole, looked over, thinned with age; and a store put back from one."""

import os
import random
import shutil
import sqlite3
from datetime import timedelta

import hypothesis.strategies as st
import pytest
from hypothesis import given

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Folder,
    Server,
    back_up,
    back_up_when_due,
    copies_in,
    events_of,
    files_at,
    is_due,
    issue,
    issued,
    look_over,
    open_store,
    paper_as_issued,
    record,
    restore,
    roll_at,
    save,
    taken_at,
    thin,
    to_keep,
    verify,
)
from tests.builders import so_many
from tests.store.conftest import emptied
from tests.store.shop import MORNING, PANTRY, a_job, a_paper, a_request, a_saving, an_issue, files_of, later


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


@pytest.fixture
def worked(store):
    """A store in which something of every kind has been kept."""
    issue(store, an_issue())
    record(store, a_request(), roll_at(store, PANTRY))
    return store


@pytest.fixture
def backups(tmp_path):
    return tmp_path / "copies"


@pytest.fixture
def copy(folder, backups):
    """A copy of a store that is closed again."""
    with open_store(folder, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        issue(store, an_issue())
        record(store, a_request(), roll_at(store, PANTRY))
        return back_up(store, backups, now=later(15))


def test_a_copy_holds_all_that_the_store_holds(worked, backups):
    copy = back_up(worked, backups, now=later(15))

    found = verify(worked)
    assert (copy.jobs, copy.seq, copy.digest) == (found.jobs, found.seq, found.digest)
    assert copy.path.name == "pinchrod-20261125T081500Z.db"
    assert copy.taken.startswith("2026-11-25T08:15")
    assert [path.name for path in backups.iterdir()] == [copy.path.name]


def test_a_copy_put_back_says_what_the_store_said(worked, backups, tmp_path):
    copy = back_up(worked, backups, now=later(15))
    before = verify(worked)

    restored = restore(copy.path, Folder(tmp_path / "again"))

    assert restored.aside == ""
    with open_store(Folder(tmp_path / "again")) as again:
        found = verify(again)
        assert (found.seq, found.seal, found.digest) == (before.seq, before.seal, before.digest)
        assert files_at(again, PANTRY) == files_of(a_job())
        assert [paper_as_issued(again, paper.seq) for paper in issued(again, PANTRY)] == [a_paper()]
        assert events_of(again, PANTRY) == events_of(worked, PANTRY)
        assert record(again, a_request(key="next", piece="K1-RS"), roll_at(again, PANTRY)).events[0].seq == 4


def test_a_copy_of_a_folder_goes_to_a_server_and_back(copy, server, backups, tmp_path):
    place = emptied(server)
    restore(copy.path, place)

    with open_store(place, now=MORNING) as store:
        assert verify(store).digest == copy.digest
        home = back_up(store, backups, now=later(30))
    restore(home.path, Folder(tmp_path / "home"))
    with open_store(Folder(tmp_path / "home")) as store:
        assert verify(store).digest == copy.digest


def test_a_hundred_drills_while_the_bench_works_on(folder, backups, tmp_path):
    with open_store(folder, now=MORNING) as store:
        save(store, a_saving(a_job(quantity=20)), now=MORNING)
        roll = roll_at(store, PANTRY)
        for number, entry in enumerate(roll.entries[: so_many(100) // 10]):
            record(store, a_request(key=f"tap-{number}", piece=entry.mark), roll)
            copy = back_up(store, backups, now=later(number))
            place = Folder(tmp_path / f"drill-{number}")
            restore(copy.path, place)
            with open_store(place) as drilled:
                assert verify(drilled).digest == verify(store).digest


def test_a_store_that_stands_is_set_aside_only_on_purpose_and_never_lost(copy, folder):
    with open_store(folder) as store:
        record(store, a_request(key="since", piece="K1-RS"), roll_at(store, PANTRY))
        before = verify(store)

    with pytest.raises(NotYetRight) as trouble:
        restore(copy.path, folder)
    assert codes(trouble) == ["store-there"]
    restored = restore(copy.path, folder, over=True, now=later(60))

    with open_store(folder) as store:
        assert verify(store).seq == copy.seq == before.seq - 1
    aside = Folder(folder.path / "set-aside-20261125T090000Z")
    assert restored.aside == str(aside.path)
    with open_store(aside) as store:
        assert verify(store).digest == before.digest


def test_setting_aside_twice_within_a_second_loses_neither(copy, folder):
    asides = {restore(copy.path, folder, over=True, now=later(60)).aside for _ in range(3)}

    assert len(asides) == 3


def test_a_server_s_store_is_set_aside_under_another_name(copy, server):
    place = emptied(server)
    restore(copy.path, place)

    with pytest.raises(NotYetRight) as trouble:
        restore(copy.path, place)
    assert codes(trouble) == ["store-there"]
    restored = restore(copy.path, place, over=True, now=later(60))

    assert restored.aside == "pinchrod_set_aside_20261125t090000z"
    with open_store(place) as store:
        assert verify(store).digest == copy.digest


def test_nothing_is_put_back_while_somebody_writes(copy, place):
    with open_store(place, now=MORNING), pytest.raises(NotYetRight) as trouble:
        restore(copy.path, place, over=True)

    assert codes(trouble) == ["store-in-use"]


def test_a_restore_that_was_broken_off_is_noticed_and_can_be_said_again(copy, folder, monkeypatch):
    def no_more(*_):
        raise OSError("the plug was pulled")

    with monkeypatch.context() as broken:
        broken.setattr("pinchrod.store.restoring._set_aside", no_more)
        with pytest.raises(OSError, match="plug"):
            restore(copy.path, folder, over=True)

    for writing in (True, False):
        with pytest.raises(NotYetRight) as trouble:
            open_store(folder, writing=writing)
        assert codes(trouble) == ["store-half-restored"]
    restore(copy.path, folder, over=True)
    with open_store(folder) as store:
        assert verify(store).digest == copy.digest


def test_a_stale_journal_is_not_left_beside_a_store_put_back(copy, folder):
    folder.beside("-journal").write_bytes(b"left by a crash")
    folder.file.write_bytes(b"damaged beyond reading" * 100)

    restore(copy.path, folder, over=True)

    assert not folder.beside("-journal").exists()
    with open_store(folder) as store:
        assert verify(store).digest == copy.digest


def test_a_journal_of_a_restore_broken_off_twice_is_not_played_into_the_next(copy, folder):
    restoring = sqlite3.connect(folder.restoring, isolation_level=None)
    restoring.execute("CREATE TABLE odd (words TEXT)")
    restoring.execute("BEGIN")
    restoring.execute("INSERT INTO odd VALUES ('half')")
    restoring.execute("PRAGMA cache_spill = 1")
    journal = folder.restoring.with_name(f"{folder.restoring.name}-journal")
    left = journal.read_bytes()
    restoring.close()
    journal.write_bytes(left)

    restore(copy.path, folder, over=True)

    assert not journal.exists()
    with open_store(folder) as store:
        assert verify(store).digest == copy.digest


def test_nothing_is_put_back_where_no_store_may_stand(copy, tmp_path):
    linked = Folder(tmp_path / "linked")
    linked.path.mkdir()
    linked.file.symlink_to(copy.path)

    with pytest.raises(NotYetRight) as trouble:
        restore(copy.path, linked, over=True)

    assert codes(trouble) == ["store-linked"]


def test_copies_cut_short_are_refused(copy, tmp_path):
    whole, dice = copy.path.read_bytes(), random.Random(3)
    spoiled = tmp_path / "pinchrod-20261125T081500Z.db"
    for _ in range(so_many(100)):
        spoiled.write_bytes(whole[: dice.randrange(len(whole))])
        with pytest.raises(NotYetRight) as trouble:
            restore(spoiled, Folder(tmp_path / "none"))
        assert set(codes(trouble)) <= {"store-damaged", "copy-unsealed", "store-unguarded", "store-not-ours"}
        assert not (tmp_path / "none").exists()


def test_copies_with_a_bit_turned_are_refused_or_hold_the_same(copy, tmp_path):
    """A bit that nothing reads, in a page's unused room, changes nothing that is kept."""
    whole, dice = copy.path.read_bytes(), random.Random(4)
    spoiled, refused = tmp_path / "pinchrod-20261125T081500Z.db", 0
    for _ in range(so_many(200)):
        at = dice.randrange(len(whole))
        spoiled.write_bytes(whole[:at] + bytes([whole[at] ^ 1 << dice.randrange(8)]) + whole[at + 1 :])
        try:
            assert look_over(spoiled).digest == copy.digest
        except NotYetRight:
            refused += 1

    assert refused > 10


def test_what_is_no_copy_is_told(copy, folder, tmp_path):
    with sqlite3.connect(tmp_path / "songs.db") as raw:
        raw.execute("CREATE TABLE songs (name TEXT)")
    raw.close()
    for path, code in (
        (tmp_path / "none.db", "copy-missing"),
        (tmp_path / "songs.db", "store-not-ours"),
        (folder.file, "copy-unsealed"),
    ):
        with pytest.raises(NotYetRight) as trouble:
            restore(path, Folder(tmp_path / "fresh"))
        assert codes(trouble) == [code]


def test_a_copy_that_was_worked_on_is_told(copy):
    with sqlite3.connect(copy.path) as raw:
        raw.execute("DROP TRIGGER contents_no_update")
        raw.execute("UPDATE head SET seal = seal")
        raw.execute("INSERT INTO requests VALUES ('ghost', 'p', 'a')")
    raw.close()

    with pytest.raises(NotYetRight) as trouble:
        look_over(copy.path)

    assert {"store-unguarded", "request-changed", "copy-changed"} <= set(codes(trouble))


def test_looking_a_copy_over_changes_not_a_byte(copy):
    before = copy.path.read_bytes()

    look_over(copy.path)

    assert copy.path.read_bytes() == before
    assert [path.name for path in copy.path.parent.iterdir()] == [copy.path.name]


def test_a_store_that_is_not_sound_is_not_copied_over_the_good_copies(copy, folder, backups):
    with sqlite3.connect(folder.file) as raw:
        raw.execute("DROP TRIGGER events_no_update")
        raw.execute("UPDATE events SET person = 'Nobody' WHERE seq = 2")
    raw.close()

    with open_store(folder) as store, pytest.raises(NotYetRight) as trouble:
        back_up(store, backups, now=later(30))

    assert "ledger-broken" in codes(trouble)
    assert list(backups.iterdir()) == [copy.path]


def test_a_copy_broken_off_bears_no_copy_s_name(folder, backups, monkeypatch):
    def no_room(*_):
        raise OSError(28, "No space left on device")

    with open_store(folder, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        for step in ("_seal", "make_sure", "look_over"):
            with monkeypatch.context() as broken:
                broken.setattr(f"pinchrod.store.backups.{step}", no_room)
                with pytest.raises(OSError, match="No space"):
                    back_up(store, backups, now=MORNING)
            assert list(backups.iterdir()) == []
            assert copies_in(backups) == ()


def test_a_copy_is_due_by_the_age_of_the_newest(copy, backups, tmp_path):
    assert is_due(tmp_path / "none", MORNING)
    assert not is_due(backups, later(29))
    assert is_due(backups, later(30))
    assert is_due(backups, later(20), every=timedelta(minutes=5))


def test_copies_grow_rarer_with_age(copy, backups):
    for hours in range(24 * 70):
        shutil.copyfile(copy.path, backups / f"pinchrod-{MORNING + timedelta(hours=hours):%Y%m%dT%H%M%SZ}.db")
    now = MORNING + timedelta(hours=24 * 70)
    other = backups / "form-1-20261125T080000Z.db"
    other.write_bytes(b"")

    gone = thin(backups, now)

    left = [taken_at(path) for path in copies_in(backups)]
    assert len(gone) + len(left) == 24 * 70 + 1
    assert sum(now - moment <= timedelta(days=2) for moment in left) == 48
    older = [moment.date() for moment in left if now - moment > timedelta(days=2)]
    assert len(older) == len(set(older)) == 59
    assert thin(backups, now) == ()
    assert other.exists()


def test_a_timer_copies_when_it_is_time_and_clears_up(copy, folder, backups):
    left = backups / ".new-broken-off.db"
    left.write_bytes(b"half a copy")
    os.utime(left, (MORNING.timestamp(), MORNING.timestamp()))
    with open_store(folder) as store:
        assert back_up_when_due(store, backups, now=later(20)) is None
        assert left.exists()
        newer = back_up_when_due(store, backups, now=later(60 * 24 * 3))

    assert newer is not None
    assert copies_in(backups) == (copy.path, newer.path)  # the last of its day stays
    assert not left.exists()


MOMENTS = st.lists(
    st.integers(0, 400 * 24 * 4).map(lambda quarter: MORNING - timedelta(minutes=15 * quarter)), min_size=1
)


@given(MOMENTS)
def test_the_newest_copy_and_one_of_each_month_are_always_kept(taken):
    kept = to_keep(taken, MORNING)

    assert max(taken) in kept
    assert {(moment.year, moment.month) for moment in kept} == {
        (moment.year, moment.month) for moment in taken
    }
    assert to_keep(kept, MORNING) == kept
    assert kept <= set(taken)


def test_a_server_is_not_a_folder_to_copy_into(server):
    assert str(Server(server)).startswith("postgresql://")
