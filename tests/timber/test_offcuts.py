"""Offcuts worth keeping: clear of sticks and saw cuts, true to their board, and wood for the next job."""

from dataclasses import replace
from typing import Any

import pytest
from shapely import box, union_all

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Fault, Question, Wanted, by_eye, flaws, offcuts, rack_after, ripped
from tests.timber.racks import a_question


def a_board(name="B1", **said: Any):
    usual: dict[str, Any] = {"thickness": Mm(27), "width": Mm(200), "length": Mm(3000), "price": Mm(30)}
    return Board(name=name, **{**usual, **said})


def a_rail(width=40, length=1000, marks=("M1",)):
    return Wanted(marks=marks, width=Mm(width), thickness=Mm(22), length=Mm(length), beads=1)


def kept(*boards, wanted=None):
    question = Question(wanted=wanted or (a_rail(),), boards=boards)
    return offcuts(question, by_eye(question))


def test_what_is_left_at_the_far_edge_is_kept_and_goes_back_with_its_share_of_the_price():
    [rest] = kept(a_board())

    # a strip of 44 from 5 on and a saw cut of 4 leave 147 of 200; its own strip's tail is too narrow
    assert (rest.board.name, rest.board.width, rest.board.length) == ("B1-a", 147, 3000)
    assert rest.across == Span(Mm(53), Mm(200))
    assert rest.board.price == Mm("22.05")
    assert rest.board.thickness == 27


def test_the_tail_of_a_wide_strip_is_kept_from_behind_the_saw_cut():
    narrow, wide = a_rail(width=20), a_rail(width=100, marks=("M2",))

    found = kept(a_board(width=Mm(120)), wanted=(wide, narrow))

    # the wide stick is 1050 long; a crosscut of 3.2 behind it
    assert [(one.board.name, one.along.low, one.board.length) for one in found] == [
        ("B1-a", Mm("1053.2"), 1946)
    ]
    assert found[0].board.width == 104


def test_bow_goes_with_the_square_of_the_length_and_a_sawn_edge_has_no_spring():
    narrow, wide = a_rail(width=20), a_rail(width=100, marks=("M2",))

    [tail] = kept(a_board(width=Mm(125), bow=Mm(3), spring=Mm(4)), wanted=(wide, narrow))

    assert tail.board.spring == 0
    assert Mm(3) * tail.board.length**2 / 3000**2 <= tail.board.bow < Mm("1.4")


def test_faults_are_carried_over_in_the_offcut_s_own_measure_and_no_smaller():
    knot = Fault(along=Span(Mm("800.4"), Mm(850)), across=Span(Mm("90.5"), Mm(120)), back_only=True)
    split = Fault(along=Span(Mm(2950), Mm(3000)))
    shake = Fault(along=Span(Mm(100), Mm(200)), across=Span(Mm(20), Mm(30)))

    [rest] = kept(a_board(faults=(knot, split, shake)))

    # the strip of 44 moves past the shake, to 30; behind it lies the offcut from 78 on
    low = rest.across.low
    assert rest.board.faults == (
        Fault(along=Span(Mm(800), Mm(850)), across=Span(Mm(int(90 - low)), 120 - low), back_only=True),
        split,
    )


@pytest.mark.parametrize(
    ("far", "width", "number"), [(0, 200, 1), (0, 106, 0), (0, 107, 1), (2701, 200, 0), (2700, 200, 1)]
)
def test_only_what_gives_the_shortest_stick_of_the_narrowest_strip_is_kept(far, width, number):
    # beside the strip, from 5 to 49, and its saw cut, 44 and 5 for each edge must be left: 54; and 300 along
    shake = (Fault(along=Span(Mm(0), Mm(far)), across=Span(Mm(54), Mm(width))),) if far else ()

    assert len(kept(a_board(width=Mm(width), faults=shake), wanted=(a_rail(length=250),))) == number


def test_an_offcut_s_name_is_one_that_the_rack_has_not_yet():
    boards = (a_board("B1"), a_board("B1-a", thickness=Mm(20)), a_board("b1 B", thickness=Mm(20)))

    assert [one.board.name for one in kept(*boards)] == ["B1-c"]


def test_where_the_rack_has_no_prices_an_offcut_counts_for_what_it_measures():
    board = a_board()
    [rest] = kept(replace(board, price=board.volume))

    assert rest.board.price == rest.board.volume


def cuts_of(question, breakout):
    """Every stick and saw cut of each board, as shapes, and where the wood of the edges is lost."""
    rip, crosscut = (float(saw.kerf) for saw in (question.machines.rip_saw, question.machines.crosscut_saw))
    for sawn in ripped(question, breakout):
        length, shapes = float(sawn.board.length), []
        bands = {(float(stick.offset), float(stick.offset + stick.width)) for stick in sawn.sticks}
        for low, high in bands:
            shapes += [box(0, high, length, high + rip)]
            if low > float(sawn.first_edge) + rip:
                shapes += [box(0, low - rip, length, low)]
        for stick in sawn.sticks:
            start, end = float(stick.start), float(stick.start + stick.length)
            low, high = float(stick.offset), float(stick.offset + stick.width)
            shapes.append(box(max(start - crosscut, 0), low, min(end + crosscut, length), high))
        shapes.append(box(0, 0, length, float(sawn.first_edge)))
        yield sawn.board, union_all(shapes)


def shape_of(offcut):
    low, high = offcut.across.low, offcut.across.high
    return box(*map(float, (offcut.along.low, low, offcut.along.high, high)))


@pytest.mark.parametrize("seed", range(8))
def test_offcuts_lie_on_their_board_clear_of_sticks_saw_cuts_and_each_other(seed):
    question = a_question(30, 40, 200 + seed)
    breakout = by_eye(question)
    found = offcuts(question, breakout)

    assert found
    for board, taken in cuts_of(question, breakout):
        wood = box(0, 0, float(board.length), float(board.width))
        for offcut in (one for one in found if one.parent == board.name):
            shape = shape_of(offcut)
            assert wood.covers(shape)
            assert taken.intersection(shape).area < 1e-6
            taken = taken.union(shape)


@pytest.mark.parametrize("seed", range(8))
def test_no_fault_of_the_board_is_left_out_of_an_offcut(seed):
    question = a_question(30, 40, 200 + seed)
    boards = {board.name: board for board in question.boards}

    for offcut in offcuts(question, by_eye(question)):
        known = union_all([_on_parent(offcut, fault) for fault in offcut.board.faults])
        for fault in boards[offcut.parent].faults:
            inside = _shape(fault, boards[offcut.parent].width).intersection(shape_of(offcut))
            assert inside.difference(known).area < 1e-6


def _shape(fault, width):
    across = fault.across or Span(Mm(0), width)
    return box(*map(float, (fault.along.low, across.low, fault.along.high, across.high)))


def _on_parent(offcut, fault):
    across = fault.across or Span(Mm(0), offcut.board.width)
    along = fault.along.moved(offcut.along.low)
    return _shape(replace(fault, along=along, across=across.moved(offcut.across.low)), offcut.board.width)


@pytest.mark.parametrize("seed", range(3))
def test_the_next_job_can_be_planned_on_the_rack_that_is_left(seed):
    question = a_question(30, 40, 220 + seed)
    rack = rack_after(question, by_eye(question))
    used = {stick.board for stick in by_eye(question).sticks}

    again = replace(a_question(30, 1, 230 + seed), boards=rack)

    assert list(flaws(again, by_eye(again))) == []
    assert [b for b in rack if b in question.boards] == [b for b in question.boards if b.name not in used]


@pytest.mark.parametrize("seed", range(8))
def test_every_offcut_gives_the_next_job_a_stick(seed):
    question = a_question(30, 40, 200 + seed)
    narrowest = min(wanted.width for wanted in question.wanted)

    for offcut in offcuts(question, by_eye(question)):
        again = Question(wanted=(a_rail(narrowest, length=250),), boards=(offcut.board,))
        breakout = by_eye(again)

        assert list(flaws(again, breakout)) == []
        assert breakout.short == ()
