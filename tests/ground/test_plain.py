"""Plain geometry against sums done by hand."""

import pytest

from pinchrod.ground import Mm, Point, Span, area

NOTCH = Span(Mm(482), Mm(520))


def outline(*corners):
    return tuple(Point(Mm(x), Mm(y)) for x, y in corners)


def test_a_span_knows_its_length_and_its_middle():
    assert NOTCH.length == 38
    assert NOTCH.middle == 501
    assert Span(Mm(0), Mm(1, 3)).middle == Mm(1, 6)


def test_a_span_moved_along_keeps_its_length():
    assert NOTCH.moved(Mm(-482)) == Span(Mm(0), Mm(38))


@pytest.mark.parametrize(
    ("low", "high", "meets"),
    [
        (0, 482, False),
        (0, 483, True),
        (490, 500, True),
        (519, 600, True),
        (520, 600, False),
        (0, 600, True),
        (600, 700, False),
    ],
)
def test_two_spans_meet_if_they_share_more_than_an_end(low, high, meets):
    other = Span(Mm(low), Mm(high))

    assert NOTCH.meets(other) is meets
    assert other.meets(NOTCH) is meets


def test_the_area_of_a_mitred_rail_is_its_face_less_two_corners():
    # 528 x 38 with the lower corners cut off at 45 degrees by 9: 20064 - 2 x 40.5
    rail = outline((9, 0), (519, 0), (528, 9), (528, 38), (0, 38), (0, 9))

    assert area(rail) == 19983


def test_the_area_of_a_face_with_a_notch_is_less_by_the_notch():
    # 45 x 720, less a notch with mouth 38, floor 20, depth 9: 32400 - (38 + 20) / 2 x 9
    stile = outline((0, 0), (45, 0), (45, 482), (36, 491), (36, 511), (45, 520), (45, 720), (0, 720))

    assert area(stile) == 32139


def test_an_area_does_not_depend_on_where_the_outline_lies_or_begins():
    square = outline((0, 0), (10, 0), (10, 10), (0, 10))
    moved = tuple(Point(corner.x + 7, corner.y - Mm(1, 3)) for corner in square)

    assert area(square) == area(square[1:] + square[:1]) == area(moved) == 100


def test_an_outline_taken_clockwise_has_a_negative_area_and_none_has_none():
    assert area(outline((0, 0), (0, 10), (10, 10), (10, 0))) == -100
    assert isinstance(area(()), Mm)
    assert area(()) == 0
