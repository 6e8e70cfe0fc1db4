"""A fault found late: done work stays, the rest is cut anew around it, as cheaply as can be."""

import os
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Question, Stick, Wanted, answer, by_eye, flaws, recut
from tests.timber.every_recut import Tried, a_tiny_fault_found
from tests.timber.racks import a_question

DEEP = os.environ.get("PINCHROD_DEPTH") == "deep"
TINY = 2000 if DEEP else 400
SEEDS = st.integers(0, 10**6)


def a_fault_found(seed):
    """A question, its plan by eye, a stick, a fault in it, and which sticks are done."""
    chance = random.Random(f"fault {seed}")
    question = a_question(chance.randint(4, 24), chance.randint(12, 24), seed)
    plan = by_eye(question)
    stick = chance.choice(plan.sticks)
    at = chance.randrange(int(stick.length) - 30)
    fault = Span(Mm(at), Mm(at + chance.choice((5, 28, int(stick.length) - at))))
    done = {one.name for one in plan.sticks if chance.random() < 0.4} - {stick.name}
    return question, plan, stick, fault, done


def test_tiny_strips_are_settled_as_cheaply_as_trying_everything_says():
    found = [one for one in map(a_tiny_fault_found, range(TINY)) if one is not None]

    for question, plan, stick, fault, done in found:
        again = recut(question, plan, stick=stick.name, fault=fault, done=done)

        assert list(flaws(again.question, again.breakout)) == []
        short = len(again.breakout.short) - len(plan.short)
        assert (short, again.dearer) == Tried(question, plan, stick, fault, done).least()
    assert len(found) > TINY * 9 / 10


@given(seed=SEEDS)
def test_nothing_done_moves_and_no_other_stick_is_taken_from_its_place(seed):
    question, plan, stick, fault, done = a_fault_found(seed)

    again = recut(question, plan, stick=stick.name, fault=fault, done=done).breakout

    stands = {one.name: (one.board, one.start, one.offset, one.width) for one in again.sticks}
    assert {one for one in plan.sticks if one.name in done} <= set(again.sticks)
    for one in plan.sticks:
        if one != stick:
            assert stands[one.name] == (one.board, one.start, one.offset, one.width)


@given(seed=SEEDS)
def test_every_displaced_member_is_placed_once_or_named_short(seed):
    question, plan, stick, fault, done = a_fault_found(seed)

    again = recut(question, plan, stick=stick.name, fault=fault, done=done)

    made = [mark for one in again.breakout.sticks for mark in one.members]
    assert sorted((*made, *again.breakout.short)) == sorted(
        one for some in question.wanted for one in some.marks
    )
    assert list(flaws(again.question, again.breakout)) == []
    assert set(again.breakout.short) - set(plan.short) <= set(stick.members)


@given(seed=SEEDS)
def test_it_is_never_dearer_than_leaving_the_displaced_members_to_a_new_board(seed):
    question, plan, stick, fault, done = a_fault_found(seed)
    wanted = tuple(
        Wanted(marks=(mark,), width=one.width, thickness=one.thickness, length=one.length, beads=one.beads)
        for one in question.wanted
        for mark in one.marks
        if mark in stick.members
    )
    taken = {one.board for one in plan.sticks}
    alone = [
        by_eye(Question(wanted=wanted, boards=(board,)))
        for board in question.boards
        if board.name not in taken
    ]

    again = recut(question, plan, stick=stick.name, fault=fault, done=done)

    whole = [one.cost for one in alone if not one.short]
    assert not whole or (again.breakout.short == plan.short and again.dearer <= min(whole))
    new = {one.board for one in again.breakout.sticks} - taken
    assert again.dearer == sum(board.price for board in question.boards if board.name in new)


@given(seed=SEEDS)
def test_the_stick_in_hand_is_used_where_it_can(seed):
    question, plan, stick, fault, done = a_fault_found(seed)
    practice = question.practice
    lengths = [one.length for one in question.wanted if set(one.marks) & set(stick.members)]
    rest = max(fault.low, stick.length - fault.high)

    again = recut(question, plan, stick=stick.name, fault=fault, done=done).breakout

    kept = [one for one in again.sticks if one.name == stick.name]
    takes_one = max(min(lengths) + 2 * practice.stick_end, practice.shortest_stick) <= rest
    assert kept or not takes_one


@given(seed=SEEDS)
def test_a_second_fault_is_planned_round_without_sawing_across_a_cut(seed):
    question, plan, stick, fault, done = a_fault_found(seed)
    once = recut(question, plan, stick=stick.name, fault=fault, done=done)
    chance = random.Random(seed)
    other = chance.choice([one for one in once.breakout.sticks if one.name not in done])

    twice = recut(once.question, once.breakout, stick=other.name, fault=Span(Mm(50), Mm(90)), done=done)

    assert list(flaws(twice.question, twice.breakout)) == []
    band, ends = Span(stick.offset, stick.offset + stick.width), (stick.start, stick.start + stick.length)
    for one in twice.breakout.sticks:
        if one.board == stick.board and band.meets(Span(one.offset, one.offset + one.width)):
            assert band.low <= one.offset
            assert one.offset + one.width <= band.high
            assert not any(one.start < end < one.start + one.length for end in ends)


@given(seed=SEEDS)
def test_the_same_fault_told_again_gives_the_same_plan(seed):
    question, plan, stick, fault, done = a_fault_found(seed)

    one, two = (recut(question, plan, stick=stick.name, fault=fault, done=done) for _ in range(2))

    assert one == two


def a_strip_of(name, length, price=10):
    """A board of one strip of 45 mm rails."""
    return Board(name=name, thickness=Mm(27), width=Mm(59), length=Mm(length), price=Mm(price))


def rails(**lengths):
    """Members of one section, each by its mark."""
    return tuple(
        Wanted(marks=(mark,), width=Mm(45), thickness=Mm(22), length=Mm(length), beads=1)
        for mark, length in lengths.items()
    )


def a_plan(question, **boards):
    """S1, S2 and so on, each from the start of a board, with these members."""
    long = {one.marks[0]: one.length for one in question.wanted}
    sticks = [
        Stick(
            name=f"S{number}",
            board=board,
            start=Mm(0),
            length=50 + sum(long[mark] for mark in members) + (len(members) - 1) * Mm("3.2"),
            offset=Mm(5),
            width=Mm(49),
            thickness=Mm(27),
            members=tuple(members),
        )
        for number, (board, members) in enumerate(boards.items(), start=1)
    ]
    plan = answer(question, sticks, (), bound=Mm(0))
    assert list(flaws(question, plan)) == []
    return plan


def members_of(plan):
    return {one.name: set(one.members) for one in plan.sticks}


def test_a_displaced_member_joins_a_stick_not_yet_cut_that_has_room():
    question = Question(
        wanted=rails(A=700, B=500),
        boards=(a_strip_of("B1", 760), a_strip_of("B2", 1260), a_strip_of("B3", 900)),
    )
    plan = a_plan(question, B1="A", B2="B")

    again = recut(question, plan, stick="S1", fault=Span(Mm(640), Mm(660)))

    assert (members_of(again.breakout), again.dearer) == ({"S2": {"A", "B"}}, 0)


def test_behind_a_stick_that_is_done_an_offcut_makes_a_stick_of_its_own():
    question = Question(wanted=rails(A=700, B=500), boards=(a_strip_of("B1", 760), a_strip_of("B2", 1310)))
    plan = a_plan(question, B1="A", B2="B")

    again = recut(question, plan, stick="S1", fault=Span(Mm(640), Mm(660)), done={"S2"})

    assert (members_of(again.breakout), again.dearer) == ({"S2": {"B"}, "S3": {"A"}}, 0)


def test_a_new_board_is_the_cheapest_that_takes_what_is_left():
    boards = (
        a_strip_of("B1", 760),
        a_strip_of("B2", 749, 1),
        a_strip_of("B3", 750, 3),
        a_strip_of("B4", 2000, 2),
    )
    question = Question(wanted=rails(A=700), boards=boards)

    again = recut(question, a_plan(question, B1="A"), stick="S1", fault=Span(Mm(640), Mm(660)))

    [stick] = again.breakout.sticks
    assert (stick.board, again.dearer) == ("B4", 2)


def test_one_board_for_two_members_is_taken_where_two_boards_would_be_dearer():
    boards = (
        a_strip_of("B1", 1360),
        a_strip_of("B2", 760, 3),
        a_strip_of("B3", 660, 3),
        a_strip_of("B4", 1360, 5),
    )
    question = Question(wanted=rails(A=700, B=600), boards=boards)
    plan = a_plan(question, B1="AB")

    again = recut(question, plan, stick="S1", fault=Span(Mm(0), plan.sticks[0].length))

    assert ({one.board for one in again.breakout.sticks}, again.dearer) == ({"B4"}, 5)


def test_each_of_three_sticks_with_the_same_room_takes_a_member():
    boards = (a_strip_of("B1", 2170), *(a_strip_of(name, 1260) for name in ("B2", "B3", "B4", "B5")))
    question = Question(wanted=rails(A=700, B=700, C=700, D=500, E=500, F=500), boards=boards)
    plan = a_plan(question, B1="ABC", B2="D", B3="E", B4="F")

    again = recut(question, plan, stick="S1", fault=Span(Mm(0), plan.sticks[0].length))

    assert again.dearer == 0
    assert [len(one.members) for one in again.breakout.sticks] == [2, 2, 2]


def test_one_member_joins_a_stick_and_another_lies_behind_it_where_the_bow_keeps_them_short():
    """The bow lets 1250 clean up: 500 and 650 as one stick, 600 behind it; as three sticks they are too long."""
    boards = (a_strip_of("B1", 1360), replace(a_strip_of("B2", 1890), bow=Mm(8)), a_strip_of("B3", 3000))
    question = Question(wanted=rails(A=650, C=600, B=500), boards=boards)
    plan = a_plan(question, B1="AC", B2="B")

    again = recut(question, plan, stick="S1", fault=Span(Mm(0), plan.sticks[0].length))

    assert again.dearer == 0
    assert sorted(len(one.members) for one in again.breakout.sticks) == [1, 2]


def test_a_board_already_sawn_is_not_paid_back_when_nothing_of_it_is_used():
    question = Question(wanted=rails(A=700, B=500), boards=(a_strip_of("B1", 760), a_strip_of("B2", 1310)))
    plan = a_plan(question, B1="A", B2="B")

    again = recut(question, plan, stick="S1", fault=Span(Mm(0), Mm(750)))

    assert again.dearer == 0
    assert again.breakout.cost == plan.cost - 10


CHANGED = Question(
    wanted=rails(A=900, B=500),
    boards=(a_strip_of("B1", 960), a_strip_of("B2", 950), a_strip_of("B3", 2000, price=99)),
)


def test_two_sticks_change_members_if_that_saves_a_new_board():
    """The stick in hand loses its 900, and takes the 500 of a stick that then has room for the 900."""
    again = recut(CHANGED, a_plan(CHANGED, B2="A", B1="B"), stick="S1", fault=Span(Mm(600), Mm(620)))

    assert (members_of(again.breakout), again.dearer) == ({"S1": {"B"}, "S2": {"A"}}, 0)


def test_a_stick_that_is_done_changes_no_members():
    plan = a_plan(CHANGED, B2="A", B1="B")

    again = recut(CHANGED, plan, stick="S1", fault=Span(Mm(600), Mm(620)), done={"S2"})

    assert (members_of(again.breakout), again.dearer) == ({"S2": {"B"}, "S3": {"A"}}, 99)


def test_a_long_stick_of_many_members_keeps_what_it_can_before_others_are_touched():
    lengths = {f"A{n}": 210 + n for n in range(1, 13)}
    question = Question(
        wanted=rails(**lengths, C=500), boards=(a_strip_of("B1", 3000), a_strip_of("B2", 1250))
    )
    plan = a_plan(question, B1=tuple(lengths), B2="C")

    again = recut(question, plan, stick="S1", fault=Span(Mm(1300), Mm(1350))).breakout

    assert sum(len(one.members) for one in again.sticks if one.board == "B1") == 10
    assert again.short == ()


def test_a_long_stick_of_many_members_keeps_what_it_can_and_leaves_none_out():
    lengths = {f"A{n}": 210 + n for n in range(1, 13)}
    question = Question(
        wanted=rails(**lengths),
        boards=(a_strip_of("B1", 3000), a_strip_of("B2", 3000), a_strip_of("B3", 700)),
    )
    plan = a_plan(question, B1=tuple(lengths))

    for fault in (Span(Mm(1300), Mm(1350)), Span(Mm(200), Mm(2400)), Span(Mm(0), plan.sticks[0].length)):
        again = recut(question, plan, stick="S1", fault=fault)

        assert (list(flaws(again.question, again.breakout)), again.breakout.short) == ([], ())
        assert again.dearer == 10


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


def test_a_stick_given_up_earlier_leaves_its_name_to_no_other_later():
    question = Question(
        wanted=rails(A=600, B=700), boards=tuple(map(a_strip_of, ("B1", "B2", "B3", "B4"), [800] * 4))
    )
    plan = a_plan(question, B1="A", B2="B")
    names = [stick.name for stick in plan.sticks]

    once = recut(question, plan, stick=names[0], fault=Span(Mm(0), plan.sticks[0].length))
    twice = recut(once.question, once.breakout, stick=names[1], fault=Span(Mm(0), plan.sticks[1].length))

    assert names == ["S1", "S2"]
    assert [stick.name for stick in once.breakout.sticks] == ["S2", "S3"]
    assert [stick.name for stick in twice.breakout.sticks] == ["S3", "S4"]


def test_the_highest_name_given_up_does_not_come_again_either():
    question = Question(
        wanted=rails(A=600, B=500), boards=tuple(map(a_strip_of, ("B1", "B2", "B3"), (1310, 800, 1310)))
    )
    plan = a_plan(question, B1="A", B2="B")

    once = recut(question, plan, stick="S2", fault=Span(Mm(0), plan.sticks[1].length))
    [joined] = once.breakout.sticks
    twice = recut(once.question, once.breakout, stick="S1", fault=Span(Mm(0), joined.length))

    assert (joined.name, joined.members) == ("S1", ("A", "B"))
    assert [stick.name for stick in twice.breakout.sticks] == ["S3"]
    assert twice.breakout.given_up == ("S2", "S1")


@given(seed=SEEDS)
def test_over_many_recuts_a_name_stays_with_its_piece_of_wood_or_is_never_heard_again(seed):
    chance = random.Random(f"names {seed}")
    question = a_question(6, 14, seed)
    stands, gone = by_eye(question), set[str]()
    stood: dict[str, tuple[str, Mm, Mm]] = {}
    for _ in range(7):
        stick = chance.choice(stands.sticks)
        fault = Span(Mm(0), stick.length) if chance.random() < 0.7 else Span(Mm(200), Mm(240))

        after = recut(question, stands, stick=stick.name, fault=fault)

        question, names = after.question, {one.name for one in after.breakout.sticks}
        gone |= {one.name for one in stands.sticks} - names
        stands = after.breakout
        assert not names & gone
        assert set(stands.given_up) == gone
        for one in stands.sticks:
            assert stood.setdefault(one.name, (one.board, one.offset, one.width)) == (
                one.board,
                one.offset,
                one.width,
            )
        if not stands.sticks:
            break


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
