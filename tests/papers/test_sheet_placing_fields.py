"""What is placed on a page keeps everything but where it lies."""

from dataclasses import fields

import pytest

from pinchrod.papers import Line, Mark, Path, Pen, Spot, Words, placed

MARKS: tuple[Mark, ...] = (
    Line(Spot(1, 2), Spot(3, 4), pen=Pen(0.7), layer="hinge"),
    Path((Spot(1, 2), Spot(3, 4)), closed=False, pen=Pen(0.7), fill="tint", layer="bead"),
    Words(
        Spot(1, 2),
        "K1",
        size=5.0,
        bold=True,
        anchor="middle",
        turn=90,
        max_width=9.0,
        layer="joint",
    ),
)


@pytest.mark.parametrize("mark", MARKS)
def test_a_mark_placed_keeps_all_but_its_spots(mark: Mark) -> None:
    [moved] = placed([mark], scale=2, dx=10, dy=20)

    kept = [each.name for each in fields(mark) if each.name not in ("a", "b", "at", "points", "_")]
    assert [getattr(moved, name) for name in kept] == [getattr(mark, name) for name in kept]
    assert moved != mark
