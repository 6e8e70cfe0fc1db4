"""Faults found in sticks at the saw: said once, read in their order, taken back the last first."""

from dataclasses import replace

import hypothesis.strategies as st
import pytest
from hypothesis import given

from pinchrod.ground import Mm, NotYetRight
from pinchrod.store import (
    By,
    Deed,
    Event,
    Folder,
    events_of,
    faults_of,
    last_seq,
    open_store,
    record,
    record_fault,
    roll_at,
    save,
    standing_of,
    undo_fault,
    verify,
)
from pinchrod.store.faults import fault_of, spot_of
from tests.store.shop import BENCH, MORNING, PANTRY, a_fault, a_job, a_request, a_saving, later


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def refusal(store, work):
    before = last_seq(store)
    with pytest.raises(NotYetRight) as trouble:
        work()
    assert last_seq(store) == before
    return codes(trouble)


def back(store, found, key="back"):
    return undo_fault(store, found, key=key, by=BENCH, now=later(9))


def test_a_fault_stands_in_the_ledger_and_comes_back_as_it_was_said(store):
    found = a_fault("825/2", 440)

    event = record_fault(store, found, now=later(5))

    assert faults_of(store, PANTRY, 1) == (found,)
    assert events_of(store, PANTRY)[-1] == event
    assert (event.deed, event.piece, event.spot, event.reason) == (Deed.FAULT, "", "S14 825/2-440", "S1,S2")
    assert (event.revision, event.proof) == (1, "plan 1")
    assert verify(store).seq == 2


def test_a_fault_says_nothing_of_any_piece(store):
    record(store, a_request(), roll_at(store, PANTRY))
    before = standing_of(store, PANTRY)

    record_fault(store, a_fault())
    back(store, "fault-1")

    assert standing_of(store, PANTRY) == before


def test_the_same_fault_again_gets_the_same_answer_and_adds_nothing(store):
    event = record_fault(store, a_fault(), now=later(1))

    assert [record_fault(store, a_fault(), now=later(minutes)) for minutes in (2, 60)] == [event] * 2
    assert len(faults_of(store, PANTRY, 1)) == 1
    assert refusal(store, lambda: record_fault(store, a_fault(high=441))) == ["key-used"]


def test_faults_come_in_their_order_each_with_its_revision(store):
    first, second = a_fault(), a_fault(10, 20, key="fault-2", stick="S 9", done=("S1", "S2", "S14"))
    record_fault(store, first)
    record_fault(store, second)
    save(store, a_saving(a_job(width=610), key="save-2", after=1))
    third = a_fault(key="fault-3", revision=2, done=())
    record_fault(store, third)

    assert faults_of(store, PANTRY, 1) == (first, second)
    assert faults_of(store, PANTRY, 2) == (third,)
    assert faults_of(store, PANTRY, 3) == faults_of(store, "dresser", 1) == ()
    verify(store)


def test_a_fault_is_taken_back_once_and_the_last_of_its_revision_first(store):
    record_fault(store, a_fault())
    record_fault(store, a_fault(key="fault-2"))
    save(store, a_saving(a_job(width=610), key="save-2", after=1))
    record_fault(store, a_fault(key="fault-3", revision=2))

    assert refusal(store, lambda: back(store, "fault-1")) == ["undo-not-last"]
    event = back(store, "fault-2")
    assert back(store, "fault-2") == event
    assert [found.key for found in faults_of(store, PANTRY, 1)] == ["fault-1"]
    assert refusal(store, lambda: back(store, "fault-2", "back-again")) == ["undo-nothing"]
    back(store, "fault-1", "back-1")

    assert faults_of(store, PANTRY, 1) == ()
    assert len(faults_of(store, PANTRY, 2)) == 1
    verify(store)


@pytest.mark.parametrize("key", ["save-1", "tap-1", "none-such", ""])
def test_what_is_no_fault_is_not_taken_back_as_one(store, key):
    record(store, a_request(key="tap-1"), roll_at(store, PANTRY))

    assert refusal(store, lambda: back(store, key)) == ["undo-nothing"]


def test_a_fault_is_not_taken_back_as_a_piece_s_step(store):
    event = record_fault(store, a_fault())
    request = a_request(Deed.UNDONE, undoes=event.seq)

    assert refusal(store, lambda: record(store, request, roll_at(store, PANTRY))) == ["undo-nothing"]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ({"stick": ""}, ["words-missing"]),
        ({"stick": "S1,S2"}, ["stick-name"]),
        ({"done": ("S1 ",)}, ["stick-name"]),
        ({"done": ("",)}, ["words-missing"]),
        ({"low": Mm(440)}, ["fault-span"]),
        ({"low": Mm(-1)}, ["fault-span"]),
        ({"proof": "p\0"}, ["words-unseen"]),
        ({"key": " ", "high": Mm(0)}, ["words-missing", "fault-span"]),
        ({"by": By(person="Bench", device="")}, ["words-missing"]),
        ({"done": tuple(f"S{number}" for number in range(10_001))}, ["said-count"]),
        ({"revision": 2}, ["revision-missing"]),
        ({"revision": 0}, ["revision-missing"]),
        ({"job": "dresser"}, ["job-missing"]),
    ],
)
def test_what_cannot_be_is_told_all_at_once(store, said, found):
    assert refusal(store, lambda: record_fault(store, replace(a_fault(), **said))) == found


names = st.text(
    st.characters(codec="ascii", categories=["L", "N", "P", "S"], exclude_characters=","),
    min_size=1,
    max_size=20,
)
lengths = st.fractions(0, 10_000, max_denominator=640)


@given(
    stick=names,
    ends=st.tuples(lengths, lengths).filter(lambda ends: ends[0] != ends[1]),
    done=st.lists(names, max_size=5),
)
def test_whatever_stick_and_place_is_said_can_be_read_again(stick, ends, done):
    low, high = sorted(Mm(str(end)) for end in ends)
    found = a_fault(stick=stick, done=tuple(done), low=low, high=high)
    event = Event(
        seq=7,
        key=found.key,
        part=0,
        deed=Deed.FAULT,
        job=found.job,
        revision=1,
        at="",
        by=found.by,
        spot=spot_of(found),
        reason=",".join(done),
        proof=found.proof,
    )

    assert fault_of(event) == found


def test_faults_are_found_again_when_the_store_was_closed(folder):
    with open_store(folder, now=MORNING) as store:
        save(store, a_saving(), now=MORNING)
        record_fault(store, a_fault())

    with open_store(Folder(folder.path), writing=False) as store:
        assert faults_of(store, PANTRY, 1) == (a_fault(),)
