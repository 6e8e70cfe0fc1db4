"""Faults found one after another: gone through again they give the sticks that stand, and nothing done moves."""

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pinchrod.ground import Mm, Span
from pinchrod.timber import FoundLate, by_eye, flaws, recut, recut_all
from tests.timber.racks import a_question

SEEDS = st.integers(0, 10**6)


def faults_found(question, plan, times):
    """Faults in the middle of one stick after another, each said when the last stick of the plan was done."""
    stands = replace(plan, bound=Mm(0))
    found: list[FoundLate] = []
    for _ in range(times):
        done = frozenset({stands.sticks[-1].name, *(found[-1].done if found else ())})
        stick = next((one for one in stands.sticks if one.name not in done), None)
        if stick is None:
            break
        one = FoundLate(stick=stick.name, fault=Span(stick.length / 2, stick.length / 2 + 20), done=done)
        after = recut(question, stands, stick=one.stick, fault=one.fault, done=one.done)
        question, stands = after.question, after.breakout
        found.append(one)
    return found, stands, question


@given(seed=SEEDS)
def test_going_through_all_faults_again_gives_the_sticks_that_stand(seed):
    question = a_question(8, 10, seed)
    plan = by_eye(question)
    found, stands, known = faults_found(question, plan, 3)

    again = recut_all(question, plan, found)

    assert again.breakout == stands
    assert again.question == known
    assert list(flaws(again.question, again.breakout)) == []


@given(seed=SEEDS)
def test_what_all_faults_cost_is_the_boards_taken_since(seed):
    question = a_question(8, 10, seed)
    plan = by_eye(question)
    found, _, _ = faults_found(question, plan, 3)

    again = recut_all(question, plan, found)

    new = {one.board for one in again.breakout.sticks} - {one.board for one in plan.sticks}
    least = sum((board.price for board in question.boards if board.name in new), Mm(0))
    assert again.dearer >= least


@given(seed=SEEDS)
def test_what_was_done_at_the_first_fault_stands_after_the_last(seed):
    question = a_question(8, 10, seed)
    plan = by_eye(question)
    found, _, _ = faults_found(question, plan, 3)
    assume(found)  # of a plan of one stick, which is then done, none is left to find a fault in

    after = recut_all(question, plan, found).breakout

    assert {one for one in plan.sticks if one.name in found[0].done} <= set(after.sticks)


def test_without_a_fault_the_plan_stands_as_it_was():
    question = a_question(6, 6, 1)
    plan = by_eye(question)

    after = recut_all(question, plan, ())

    assert (after.question, after.breakout, after.dearer) == (question, plan, 0)


def test_a_fault_in_a_stick_that_is_not_there_is_not_planned_around():
    question = a_question(6, 6, 1)
    nowhere = FoundLate(stick="S99", fault=Span(Mm(10), Mm(20)))

    with pytest.raises(LookupError, match="no stick S99"):
        recut_all(question, by_eye(question), (nowhere,))
