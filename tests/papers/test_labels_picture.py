"""The picture on a label shows which edge is which, and where the notches are."""

import random
from typing import Any

import pytest

from pinchrod.job import Joint
from pinchrod.papers import Line, Mark, Path, Sheet, Words, extent, overlaps
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.pieces.piece_picture import DATUM, FACE, HINGE, TOP, piece_picture
from tests.builders import a_frame, a_row, a_stack, an_opening, five_pieces
from tests.papers.data_builders import a_random_job, set_out_job

ROOM = Box(10.0, 20.0, 80.0, 27.0)
MIDDLE = (ROOM.bottom + ROOM.top) / 2


def made(name: str, *frames: Any, **said: Any) -> Any:
    """A member, front or door part by its mark."""
    [rod, *_] = set_out_job(*frames, **said)[1].rods
    pieces: list[Any] = [*rod.members, *rod.fronts, *(part for front in rod.fronts for part in front.parts)]
    return next(piece for piece in pieces if piece.name == name)


def outline(marks: tuple[Mark, ...]) -> Path:
    return next(mark for mark in marks if isinstance(mark, Path) and mark.pen)


def lines(marks: tuple[Mark, ...], pen: object) -> list[Line]:
    return [mark for mark in marks if isinstance(mark, Line) and mark.pen == pen]


def notched_edge(marks: tuple[Mark, ...]) -> str:
    """Which edge of the picture has more corners than a plain one."""
    corners = outline(marks).points
    upper = sum(spot.y > MIDDLE for spot in corners)
    return "upper" if upper > len(corners) - upper else "lower"


def test_a_picture_keeps_to_its_room():
    dice = random.Random(3)
    for _ in range(30):
        for rod in a_random_job(dice, frames=2)[1].rods:
            parts = [part for front in rod.fronts for part in front.parts]
            pieces: list[Any] = [*rod.members, *rod.fronts, *parts]
            for piece in pieces:
                assert ROOM.grown(0.01).holds(extent(piece_picture(piece, ROOM)))


@pytest.mark.parametrize(
    ("name", "edge"), [("K1-LS", "lower"), ("K1-RS", "upper"), ("K1-TR", "lower"), ("K1-BR", "upper")]
)
def test_notches_lie_on_the_edge_they_are_cut_in(name, edge):
    frame = a_frame(a_row(an_opening(), an_opening()))

    assert notched_edge(piece_picture(made(name, frame), ROOM)) == edge


def test_the_datum_end_is_a_thick_bar_to_the_left():
    [bar] = lines(piece_picture(made("K1-LS"), ROOM), DATUM)

    assert bar.a.x == bar.b.x == ROOM.left + DATUM.width / 2
    assert (bar.a.y, bar.b.y) == (ROOM.bottom, ROOM.top)


@pytest.mark.parametrize(("name", "stands"), [("K1-LS", True), ("K1-TR", False), ("K1.1", True)])
def test_an_arrow_points_to_the_top_of_the_frame(name, stands):
    marks = piece_picture(made(name), ROOM)

    [head] = [mark for mark in marks if isinstance(mark, Path) and mark.fill == "black"]
    tip, *back = head.points
    assert (tip.x > max(spot.x for spot in back)) == stands
    assert (tip.y > max(spot.y for spot in back)) == (not stands)
    assert [mark.text for mark in marks if isinstance(mark, Words)] == [FACE, TOP]


def test_a_drawer_fronts_top_is_its_upper_edge():
    marks = piece_picture(made("K1.1", a_frame(an_opening("drawer"))), ROOM)

    [head] = [mark for mark in marks if isinstance(mark, Path) and mark.fill == "black"]
    assert head.points[0].y == max(spot.y for spot in head.points)


def test_a_doors_hinges_stand_on_the_side_it_hangs_on():
    pair = a_frame(an_opening("pair"))

    left, right = (lines(piece_picture(made(f"K1.1{side}", pair), ROOM), HINGE) for side in "LR")

    left_hinges = [line for line in left if line.a.y > MIDDLE]
    right_hinges = [line for line in right if line.a.x > ROOM.left + 1 and line.a.y < MIDDLE]
    assert len(left_hinges) >= 2
    assert len(right_hinges) == 2


def test_a_doors_middle_hinge_does_not_cross_the_word_on_its_face():
    door = made("K1.1", a_frame(height=1400))

    for tenths in range(40, 100):
        marks = piece_picture(door, Box(10.0, 20.0, 80.0, 20.0 + tenths / 10))
        assert overlaps(Sheet(width=100, height=100, marks=marks)) == ()


def test_a_worked_tenon_sticks_out_at_its_end():
    rail = made("K1-TR", joint=Joint.MORTICE_AND_TENON)

    paths = [mark for mark in piece_picture(rail, ROOM) if isinstance(mark, Path) and mark.pen]

    assert len(paths) == 3
    face, low, high = (extent([path]) for path in paths)
    assert low.right == pytest.approx(face.left)
    assert high.left == pytest.approx(face.right)


def test_a_square_member_is_a_plain_rectangle():
    marks = piece_picture(made("K1-LS", bead=0), ROOM)

    assert len(outline(marks).points) == 4


def test_many_notches_are_drawn_in_their_own_places():
    drawers = a_stack(*(an_opening("drawer") for _ in range(40)))
    stile = made("K1-LS", a_frame(drawers, height=4000, mid_rail=30), bead=4)

    corners = outline(piece_picture(stile, ROOM)).points

    along = [spot.x for spot in corners if spot.y < MIDDLE]
    assert along == sorted(along)


def test_a_short_piece_is_drawn_short():
    short, long = made("K1-TR", a_frame(width=300)), made("K1-TR", a_frame(width=1200))

    widths = [extent([outline(piece_picture(piece, ROOM))]) for piece in (short, long)]

    assert widths[0].right < widths[1].right


def test_the_parts_of_a_door_are_pictured_as_they_stand():
    marks = piece_picture(made("K1.1-TR", doors=five_pieces()), ROOM)

    [head] = [mark for mark in marks if isinstance(mark, Path) and mark.fill == "black"]
    assert head.points[0].y == max(spot.y for spot in head.points)
