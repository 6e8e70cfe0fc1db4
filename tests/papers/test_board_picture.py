"""A board, and a stick, drawn alone for a page: everything in its place, and places told both ways."""

import itertools

import pytest

from pinchrod.ground import Mm
from pinchrod.papers import (
    OnRack,
    Path,
    Words,
    board_picture,
    in_stick,
    overlaps,
    picture_scale,
    plain_marks,
    sawn_from,
    stick_picture,
)
from pinchrod.timber import by_eye
from tests.timber.racks import a_question

STEP = Mm("0.1")


def drawn(seed=1, width=160.0):
    question = a_question(12, 14, seed)
    sawn = sawn_from(question, by_eye(question))
    scale = picture_scale(sawn.boards)
    pictures = [
        (
            board,
            board_picture(
                OnRack(board=board.board, question=question, sawn=board, kept=sawn.kept_of(board.board)),
                width,
                scale,
                STEP,
            ),
        )
        for board in sawn.boards
    ]
    return question, sawn, pictures


@pytest.mark.parametrize("width", [76.0, 160.0, 252.0])
def test_every_stick_is_named_in_the_picture_of_its_board(width):
    _, _, pictures = drawn(width=width)

    for board, picture in pictures:
        said = {mark.text for mark in plain_marks(picture.sheet.marks) if isinstance(mark, Words)}
        assert {stick.name for stick in board.sticks} <= said


@pytest.mark.parametrize("width", [76.0, 160.0, 252.0])
def test_lanes_follow_each_other_over_the_whole_board_and_keep_to_the_picture(width):
    _, _, pictures = drawn(width=width)

    for board, picture in pictures:
        ends = [lane.along for lane in picture.lanes]
        assert (ends[0].low, ends[-1].high) == (0, board.board.length)
        assert all(one.high == other.low for one, other in itertools.pairwise(ends))
        for lane in picture.lanes:
            assert lane.left + float(lane.along.length) / picture.scale <= width


def test_a_fault_is_where_its_lane_says_that_it_is():
    question, _, _ = drawn()
    board = next(one for one in question.boards if any(fault.across for fault in one.faults))
    fault = next(one for one in board.faults if one.across)

    picture = board_picture(OnRack(board=board, question=question), 160.0, 10, STEP)

    lane = next(one for one in picture.lanes if one.along.low <= fault.along.low < one.along.high)
    x = lane.left + float(fault.along.low - lane.along.low) / picture.scale
    y = picture.sheet.height - lane.top - float(fault.across.high) / picture.scale
    corners = {
        (round(spot.x, 6), round(spot.y, 6))
        for mark in plain_marks(picture.sheet.marks)
        if isinstance(mark, Path) and mark.layer == "fault"
        for spot in mark.points
    }
    assert (round(x, 6), round(y, 6)) in corners


def test_a_board_that_is_not_planned_has_its_faults_and_no_cut():
    question, _, _ = drawn()

    picture = board_picture(OnRack(board=question.boards[0], question=question), 160.0, 10, STEP)

    assert "cut" not in {mark.layer for mark in plain_marks(picture.sheet.marks)}


def test_members_of_a_stick_fill_it_with_an_end_and_saw_cuts_between():
    question, sawn, _ = drawn()

    for board in sawn.boards:
        for stick in board.sticks:
            places = in_stick(stick, question)
            kerf = question.machines.crosscut_saw.kerf
            assert places[0].along.low == question.practice.stick_end
            assert all(b.along.low - a.along.high == kerf for a, b in itertools.pairwise(places))
            assert stick.length >= places[-1].along.high + question.practice.stick_end
            if stick.length > question.practice.shortest_stick:
                assert stick.length == places[-1].along.high + question.practice.stick_end


def test_a_place_on_the_picture_of_a_stick_is_a_place_on_the_stick():
    question, sawn, _ = drawn()
    stick = sawn.boards[0].sticks[0]

    picture = stick_picture(stick, question, 160.0, 12.0, STEP)

    end = picture.left + float(stick.length) / picture.per
    sides = {
        round(spot.x, 6) for mark in picture.sheet.marks if isinstance(mark, Path) for spot in mark.points
    }
    assert round(end, 6) in sides


@pytest.mark.parametrize("seed", range(4))
def test_no_words_stand_on_others_or_off_the_picture(seed):
    question, sawn, pictures = drawn(seed)
    sheets = [picture.sheet for _, picture in pictures]
    sheets += [
        stick_picture(stick, question, 160.0, 12.0, STEP).sheet
        for board in sawn.boards
        for stick in board.sticks
    ]

    assert [fault for sheet in sheets for fault in overlaps(sheet)] == []
