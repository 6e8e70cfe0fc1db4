"""A fault found late: done work stays, the rest is cut anew around it."""

import random

import pytest

from pinchrod.ground import Mm, Span
from pinchrod.timber import by_eye, flaws, recut
from tests.timber.racks import a_question


@pytest.mark.parametrize("seed", range(12))
def test_what_is_done_stays_and_every_member_still_has_wood(seed):
    question, chance = a_question(60, 60, 950 + seed), random.Random(seed)
    plan = by_eye(question)
    stick = chance.choice(plan.sticks)
    at = Mm(chance.randrange(int(stick.length) - 30))
    done = {one.name for one in plan.sticks if chance.random() < 0.4} - {stick.name}

    again = recut(question, plan, stick=stick.name, fault=Span(at, at + 28), done=done)

    assert list(flaws(again.question, again.breakout)) == []
    assert again.breakout.short == ()
    assert {one for one in plan.sticks if one.name in done} <= set(again.breakout.sticks)


@pytest.mark.parametrize("seed", range(6))
def test_it_is_never_dearer_than_a_new_board_for_the_displaced_members(seed):
    question, chance = a_question(40, 60, 970 + seed), random.Random(seed)
    plan = by_eye(question)
    stick = chance.choice(plan.sticks)
    others = {one.name for one in plan.sticks} - {stick.name}
    fault = Span(Mm(0), stick.length)

    again = recut(question, plan, stick=stick.name, fault=fault, done=others)

    fresh = [board.price for board in question.boards if board.name not in {one.board for one in plan.sticks}]
    assert again.breakout.cost <= plan.cost + max(fresh)
    assert list(flaws(again.question, again.breakout)) == []


def test_a_stick_given_up_leaves_its_name_to_no_other():
    question = a_question(40, 60, 50)
    plan = by_eye(question)
    stick = plan.sticks[3]

    again = recut(question, plan, stick=stick.name, fault=Span(Mm(0), stick.length))

    before, after = ({one.name: one for one in found.sticks} for found in (plan, again.breakout))
    assert stick.name not in after
    assert all(
        (one.board, one.start) == (before[name].board, before[name].start)
        for name, one in after.items()
        if name in before
    )


def test_what_is_left_of_the_stick_in_hand_keeps_its_name():
    question = a_question(40, 40, 980)
    plan = by_eye(question)
    stick = max(plan.sticks, key=lambda one: len(one.members))

    again = recut(question, plan, stick=stick.name, fault=Span(Mm(0), Mm(10)))

    [kept] = [one for one in again.breakout.sticks if one.name == stick.name]
    assert (kept.board, kept.offset, kept.start) == (stick.board, stick.offset, stick.start + 10)


def test_a_fault_at_a_sticks_very_end_moves_no_member_to_another_board():
    question = a_question(40, 40, 980)
    plan = by_eye(question)
    stick = plan.sticks[0]

    again = recut(question, plan, stick=stick.name, fault=Span(stick.length - 1, stick.length))

    assert again.breakout.cost == plan.cost
