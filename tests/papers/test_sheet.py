"""Marks placed at a scale, and dimensions taken apart."""

from itertools import pairwise

import pytest

from pinchrod.papers import (
    Arc,
    Chain,
    Circle,
    Dimension,
    Line,
    Path,
    PlainMark,
    Rows,
    RunningDimension,
    Spot,
    Squares,
    Words,
    explode,
    extent,
    lettered,
    overlaps,
    placed,
    plain_marks,
    sheet_around,
)
from pinchrod.papers.marks.chains import kept_within, spread
from tests.papers.drawing import a_frame, a_level_chain, a_sheet


def numbers(marks: tuple[PlainMark, ...]) -> list[Words]:
    return [mark for mark in marks if isinstance(mark, Words)]


def test_wood_follows_the_scale_and_lettering_does_not():
    marks = (
        Words(Spot(100, 50), "K1", size=5),
        Circle(Spot(20, 0), 4),
        Line(Spot(0, 0), Spot(10, 20)),
        Path((Spot(0, 0), Spot(30, 0))),
    )

    words, circle, line, path = placed(marks, scale=0.5, dx=1, dy=2)

    assert words == Words(Spot(51, 27), "K1", size=5)
    assert circle == Circle(Spot(11, 2), 2)
    assert line == Line(Spot(1, 2), Spot(6, 12))
    assert path == Path((Spot(1, 2), Spot(16, 2)))


def test_dimensions_keep_their_distance_from_the_wood_at_every_scale():
    marks = (
        Dimension(Spot(0, 0), Spot(600, 0), "600", away=-8),
        a_level_chain(0, 45, 600),
        RunningDimension(Spot(0, 0), (Spot(45, 0),), ("45",), away=9),
    )

    dimension, chain, running = placed((*marks, Rows(marks)), scale=0.1)[:3]

    assert dimension == Dimension(Spot(0, 0), Spot(60, 0), "600", away=-8)
    assert isinstance(chain, Chain)
    assert (chain.points[1], chain.away) == (Spot(4.5, 0), 10)
    assert isinstance(running, RunningDimension)
    assert (running.points, running.away) == ((Spot(4.5, 0),), 9)


def test_rows_are_placed_with_the_dimensions_in_them():
    rows = Rows((Dimension(Spot(0, 0), Spot(600, 0), "600"),), 12)

    assert placed([rows], scale=0.1) == (Rows((Dimension(Spot(0, 0), Spot(60, 0), "600"),), 12),)


def test_larger_lettering_leaves_the_wood_as_it_is():
    overall = Dimension(Spot(0, 0), Spot(600, 0), "600", away=8, lift=1)
    wood = Arc(Spot(0, 0), 5, 0, 90)

    words, dimension, rows, arc = lettered(
        (Words(Spot(1, 2), "K1", size=3, max_width=20), overall, Rows((overall,), 9), wood), 10
    )

    larger = Dimension(Spot(0, 0), Spot(600, 0), "600", away=80, size=35, lift=10)
    assert words == Words(Spot(1, 2), "K1", size=30, max_width=200)
    assert (dimension, rows, arc) == (larger, Rows((larger,), 90), wood)


def test_a_number_with_room_stands_in_the_middle_above_its_line():
    [number] = numbers(explode(Dimension(Spot(0, 0), Spot(60, 5), "600", away=10, size=3)))

    assert (number.at.x, number.anchor, number.turn) == (30, "middle", 0)
    assert number.at.y > 15
    assert number.text == "600"


def test_a_dimension_line_stands_away_from_the_outermost_point():
    marks = explode(Dimension(Spot(0, 0), Spot(60, 5), "600", away=-10))

    levels = [mark for mark in marks if isinstance(mark, Line) and mark.a.y == mark.b.y]
    assert [(line.a, line.b) for line in levels] == [(Spot(0, -10), Spot(60, -10))]


def test_an_upright_number_is_read_from_the_right_of_the_sheet():
    [number] = numbers(explode(Dimension(Spot(0, 0), Spot(0, 60), "600", axis="y", away=10)))

    assert (number.turn, number.at.y) == (90, 30)
    assert number.at.x < 10  # turned so, above its line is to the left of it


def test_an_auxiliary_number_stands_in_brackets():
    [number] = numbers(explode(Dimension(Spot(0, 0), Spot(60, 0), "600", auxiliary=True)))

    assert number.text == "(600)"


@pytest.mark.parametrize(("where", "anchor"), [("fit", "left"), ("after", "left"), ("before", "right")])
def test_a_number_without_room_stands_beside_its_dimension(where, anchor):
    [number] = numbers(explode(Dimension(Spot(0, 0), Spot(3, 0), "45", where=where)))

    assert number.anchor == anchor
    assert number.at.x > 3 if anchor == "left" else number.at.x < 0


def test_a_dimension_on_its_own_points_has_no_extension_lines():
    marks = explode(Dimension(Spot(0, 7), Spot(60, 7), "600", away=0))

    assert not [mark for mark in marks if isinstance(mark, Line) and mark.a.x == mark.b.x]


def test_an_extension_line_leaves_a_gap_at_the_wood_and_runs_past_the_line():
    marks = explode(Dimension(Spot(0, 0), Spot(60, 0), "600", away=10, size=2.5))

    first = marks[0]
    assert isinstance(first, Line)
    assert 0 < first.a.y < 2 < 10 < first.b.y < 13


def test_a_narrow_rail_in_a_chain_has_its_number_lifted_over_the_others():
    low, middle, high = numbers(explode(a_level_chain(0, 30, 33.8, 70)))

    assert low.at.y == high.at.y
    assert middle.at.y > low.at.y + low.size


def test_the_outer_numbers_of_a_chain_go_outside_unless_told_to_lift():
    chain = a_level_chain(0, 4.5, 60, 64.5)

    outside = numbers(explode(chain))
    lifted = numbers(explode(Chain(chain.points, chain.texts, ends="lifted")))

    assert (outside[0].anchor, outside[2].anchor) == ("right", "left")
    assert {number.anchor for number in lifted} == {"middle"}
    assert min(number.at.x for number in lifted) > 0


def test_a_chain_said_from_right_to_left_is_the_same_chain():
    chain = a_level_chain(0, 4.5, 60, 64.5)
    backwards = Chain(chain.points[::-1], chain.texts[::-1])

    forward = {(number.at, number.text) for number in numbers(explode(chain))}

    assert {(number.at, number.text) for number in numbers(explode(backwards))} == forward


def test_a_gap_without_a_number_in_a_chain_has_no_dimension():
    marks = explode(Chain((Spot(0, 0), Spot(20, 0), Spot(60, 0)), ("", "40")))

    assert [number.text for number in numbers(marks)] == ["40"]


def test_a_chain_stands_on_one_line_though_its_points_do_not():
    chain = Chain((Spot(0, 0), Spot(20, 5), Spot(60, -3)), ("20", "40"), away=10)

    levels = [mark for mark in explode(chain) if isinstance(mark, Line) and mark.a.y == mark.b.y]

    assert {line.a.y for line in levels} == {15}


def test_a_running_dimension_starts_at_a_circle_with_nought():
    marks = explode(RunningDimension(Spot(5, 0), (Spot(45, 0), Spot(90, 0)), ("40", "85"), away=10))

    [circle] = [mark for mark in marks if isinstance(mark, Circle)]
    assert circle.centre == Spot(5, 10)
    assert [number.text for number in numbers(marks)] == ["0", "40", "85"]
    assert {number.turn for number in numbers(marks)} == {90}


@pytest.mark.parametrize(("axis", "away"), [("x", 10), ("x", -10), ("y", 10), ("y", -10)])
def test_running_numbers_closer_than_their_height_are_spread(axis, away):
    stops = (10.0, 11.0, 11.5, 12.0, 60.0)
    spots = tuple(Spot(stop, 0) if axis == "x" else Spot(0, stop) for stop in stops)
    mark = RunningDimension(Spot(0, 0), spots, tuple(map(str, stops)), axis=axis, away=away, size=3)

    found = numbers(explode(mark))

    along = [number.at.x if axis == "x" else number.at.y for number in found]
    assert [number.text for number in found] == ["0", *map(str, stops)]
    assert all(b - a > 3 * 1.2 for a, b in pairwise(along))


def test_numbers_that_would_touch_settle_about_the_mean_of_their_wishes():
    assert spread([0, 1, 30], [4, 4, 4]) == (-1.5, 2.5, 30)
    assert kept_within((-1.5, 2.5, 30), [4, 4, 4], (0, 31)) == (2, 6, 29)


def test_rows_stand_clear_of_each_other_on_either_side():
    for first in (8.0, -8.0):
        rows = Rows((a_level_chain(0, 30, 33.8, 70), Dimension(Spot(0, 0), Spot(70, 0), "70")), first)

        heights = sorted({number.at.y for number in numbers(explode(rows))})

        assert all(b - a > 3.5 for a, b in pairwise(heights))


@pytest.mark.parametrize(("axis", "first"), [("x", 8), ("x", -8), ("y", 8), ("y", -8)])
def test_no_extension_line_of_an_outer_row_crosses_running_numbers(axis, first):
    start, end = Spot(100, 100), Spot(160, 100) if axis == "x" else Spot(100, 160)
    running = RunningDimension(start, (end,), ("60",), axis=axis)
    overall = Dimension(start, end, "60", axis=axis)

    sheet = a_sheet(Rows((running, overall), first))

    assert overlaps(sheet) == ()
    assert len(numbers(plain_marks(sheet.marks))) == 3


def test_words_too_wide_for_their_place_are_shortened_in_the_middle():
    [words] = explode(Words(Spot(0, 0), "left stile of the pantry's tall frame", max_width=40))

    assert isinstance(words, Words)
    assert words.text.startswith("left")
    assert words.text.endswith("frame")
    assert "…" in words.text


def test_a_sheet_about_a_drawing_holds_all_of_it():
    sheet = sheet_around(a_frame(), margin=5)

    box = extent(sheet.marks)

    assert [box.left, box.bottom] == pytest.approx([5, 5])
    assert [box.right, box.top] == pytest.approx([sheet.width - 5, sheet.height - 5])


def test_the_box_of_a_code_and_of_an_arc_are_known():
    code = extent([Squares(Spot(1, 2), 0.5, ("10", "01", "11"))])
    arc = extent([Arc(Spot(0, 0), 10, 0, 90)])

    assert (code.right, code.top) == (2, 3.5)
    assert [arc.left, arc.right, arc.top] == pytest.approx([0, 10, 10])
