"""The judge of how words lie on a sheet."""

import pytest

from pinchrod.papers import (
    Arc,
    Circle,
    Line,
    Margins,
    Path,
    Spot,
    Squares,
    Words,
    overlaps,
    text_boxes,
    words_width,
)
from tests.papers.drawing import a_page, a_sheet

WORDS = Words(Spot(50, 50), "K1 left", size=5)
WIDE = words_width("K1 left", 5)


def test_a_page_with_every_kind_of_mark_is_good():
    assert overlaps(a_page(), Margins(20, 4, 10, 10)) == ()


@pytest.mark.parametrize(
    ("mark", "fault"),
    [
        (Words(Spot(50 + WIDE - 1, 52), "K2"), "lie on each other"),
        (Line(Spot(40, 52), Spot(90, 52)), "crossed by a line"),
        (Line(Spot(55, 40), Spot(57, 60), layer="bead"), "crossed by a line (layer bead)"),
        (Path((Spot(40, 52), Spot(90, 53), Spot(60, 90))), "crossed by a line"),
        (Circle(Spot(52, 52), 1), "crossed by a line"),
        (Arc(Spot(52, 42), 10, 60, 120), "crossed by a line"),
        (Circle(Spot(52, 52), 30, fill="white"), "covered by an area"),
        (Path((Spot(0, 0), Spot(99, 0), Spot(99, 99), Spot(0, 99)), fill="black"), "covered by an area"),
        (Squares(Spot(50 + WIDE + 1.9, 50), 0.5, ("1",)), "too near a code"),
    ],
)
def test_what_lies_on_words_is_found(mark, fault):
    [found] = overlaps(a_sheet(WORDS, mark))

    assert fault in found
    assert "'K1 left'" in found


@pytest.mark.parametrize(
    "mark",
    [
        Words(Spot(50 + WIDE, 50), "K2"),
        Line(Spot(40, 50), Spot(90, 50)),
        Line(Spot(40, 40), Spot(55, 49)),
        Path((Spot(0, 0), Spot(99, 0), Spot(99, 99), Spot(0, 99))),
        Path((Spot(40, 52), Spot(90, 53), Spot(60, 90)), pen=None),
        Path((Spot(49, 52), Spot(49, 90), Spot(90, 90)), closed=False),
        Squares(Spot(50 + WIDE + 2.1, 50), 0.5, ("1",)),
    ],
)
def test_what_only_lies_beside_or_round_words_is_no_fault(mark):
    assert overlaps(a_sheet(WORDS, mark)) == ()


@pytest.mark.parametrize(
    "ground",
    [
        Path((Spot(40, 45), Spot(99, 45), Spot(99, 60), Spot(40, 60)), fill="white"),
        Circle(Spot(62, 52), 25, fill="tint"),
    ],
)
def test_words_on_a_white_ground_are_not_crossed_by_what_it_hides(ground):
    line = Line(Spot(0, 52), Spot(200, 52))

    assert overlaps(a_sheet(line, ground, WORDS)) == ()
    assert overlaps(a_sheet(ground, line, WORDS)) != ()


@pytest.mark.parametrize(("x", "y"), [(19, 50), (200 - WIDE + 1, 50), (50, 9), (50, 283)])
def test_words_in_a_margin_are_found(x, y):
    [found] = overlaps(a_sheet(Words(Spot(x, y), "K1 left", size=5)), Margins(20, 10, 10, 10))

    assert "margin" in found


def test_words_are_measured_as_they_are_turned_and_anchored():
    level = Words(Spot(50, 50), "K1 left", size=5, anchor="right")
    upright = Words(Spot(50, 50), "K1 left", size=5, anchor="middle", turn=90)

    (_, left), (_, up) = text_boxes(a_sheet(level, upright))

    assert (left.left, left.right, left.top) == (50 - WIDE, 50, 55)
    assert (up.left, up.right) == (45, 50)
    assert up.bottom == pytest.approx(50 - WIDE / 2)


def test_letters_that_hang_and_accents_that_stand_high_take_their_room():
    (_, hanging), (_, accented) = text_boxes(a_sheet(Words(Spot(0, 0), "rig"), Words(Spot(0, 0), "É")))

    assert hanging.bottom < -1
    assert accented.top > 4
