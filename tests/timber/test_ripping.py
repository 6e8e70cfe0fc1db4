"""Boards over the rip saw: every strip in its order, and the fence moved as seldom as can be."""

from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Fault, Question, Wanted, by_eye, fence_moves, ripped
from pinchrod.timber.trails import fewest_trails
from tests.timber.racks import a_question


def a_board(name="B1", width=200, **said):
    return Board(name=name, thickness=Mm(27), width=Mm(width), length=Mm(2000), price=Mm(10), **said)


def some_rails(number, width=40, length=1500):
    marks = tuple(f"M{width}-{place}" for place in range(number))
    return Wanted(marks=marks, width=Mm(width), thickness=Mm(22), length=Mm(length), beads=1)


def test_strips_follow_each_other_a_saw_cut_apart_from_the_straightened_edge():
    question = Question(wanted=(some_rails(3),), boards=(a_board(spring=Mm(3)),))

    [board] = ripped(question, by_eye(question))

    # 5 and a spring of 3 off the edge; strips of 40 + 4, saw cuts of 4
    assert board.first_edge == 8
    assert [(rip.band.low, rip.band.high) for rip in board.rips] == [(8, 52), (56, 100), (104, 148)]
    assert [rip.trimmed for rip in board.rips] == [0, 0, 0]
    assert board.rest == Span(Mm(152), Mm(200))


@pytest.mark.parametrize(
    ("far", "waste", "trimmed"),
    [(30, [(5, 26)], 0), (10, [(5, 6)], 0), (9, [], 4), (8, [], 3)],
)
def test_what_a_fault_keeps_free_comes_off_as_a_strip_of_waste_or_is_trimmed(far, waste, trimmed):
    shake = Fault(along=Span(Mm(0), Mm(2000)), across=Span(Mm(0), Mm(far)))
    question = Question(wanted=(some_rails(1),), boards=(a_board(faults=(shake,)),))

    [board] = ripped(question, by_eye(question))

    *before, strip = board.rips
    assert strip.band.low == far
    assert [(rip.band.low, rip.band.high) for rip in before] == waste
    assert all(rip.sticks == () for rip in before)
    assert strip.trimmed == trimmed


@pytest.mark.parametrize("seed", range(6))
def test_every_stick_is_ripped_once_and_cuts_take_a_kerf_each(seed):
    question = a_question(40, 40, 70 + seed)
    breakout = by_eye(question)

    boards = ripped(question, breakout)

    found = [stick for board in boards for stick in board.sticks]
    assert sorted(found, key=lambda stick: stick.name) == sorted(
        breakout.sticks, key=lambda stick: stick.name
    )
    kerf = question.machines.rip_saw.kerf
    for board in boards:
        bands = [Span(board.first_edge - kerf, board.first_edge), *(rip.band for rip in board.rips)]
        for rip, (before, band) in zip(board.rips, pairwise(bands), strict=True):
            cut = Mm(0) if before is bands[0] else kerf
            assert band.low == before.high + cut + rip.trimmed
            assert rip.trimmed <= kerf
            assert all((stick.offset, stick.width) == (band.low, band.length) for stick in rip.sticks)


def test_boards_that_begin_as_another_ends_follow_it():
    wide, narrow = some_rails(2, width=60), some_rails(2, width=40)
    knot = Fault(along=Span(Mm(0), Mm(2000)), across=Span(Mm(53), Mm(200)))
    boards = (
        a_board("B1", width=62),
        a_board("B2", width=140),
        a_board("B3", faults=(knot,)),
    )
    question = Question(wanted=(wide, narrow), boards=boards)

    sawn = ripped(question, by_eye(question))

    names = [board.board.name for board in sawn]
    assert fence_moves(sawn) == 2
    assert fence_moves(sorted(sawn, key=lambda board: board.board.name)) >= 2
    assert len(set(names)) == len(names)


settings = st.integers(0, 4)


@given(st.lists(st.tuples(settings, settings), max_size=6))
def test_no_order_of_boards_changes_settings_less_often(ends):
    trails = fewest_trails(ends)

    order = [place for trail in trails for place in trail]
    assert sorted(order) == list(range(len(ends)))
    for trail in trails:
        assert all(ends[one][1] == ends[other][0] for one, other in pairwise(trail))
    assert _changes(ends, order) == min(_changes(ends, way) for way in permutations(range(len(ends))))


def _changes(ends, order):
    return sum(ends[one][1] != ends[other][0] for one, other in pairwise(order))


def test_the_same_boards_are_ripped_in_the_same_order_however_the_sticks_are_listed():
    question = a_question(40, 40, 81)
    breakout = by_eye(question)

    again = ripped(question, type(breakout)(**{**_fields(breakout), "sticks": breakout.sticks[::-1]}))

    assert again == ripped(question, breakout)


def _fields(record):
    return {name: getattr(record, name) for name in type(record).__slots__}
