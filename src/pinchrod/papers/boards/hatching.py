"""Slanting lines across a rectangle: what a fault is drawn with."""

from collections.abc import Iterator

from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Line, Pen, Spot

LAYER = "fault"


def hatched(box: Box, apart: float, pen: Pen, *, falling: bool = False) -> Iterator[Line]:
    """Lines at 45 degrees across the box, so far apart along it; rising to the right, or falling.

    They are counted from the sheet's own corner, so that those of two boxes side by side go on in each other.
    """
    low, high = box.bottom - box.right, box.top - box.left  # y - x of the first and the last that could cross
    if falling:
        low, high = box.bottom + box.left, box.top + box.right
    first = int(low // apart) + 1
    for number in range(first, int(high // apart) + 1):
        line = _across(box, number * apart, falling=falling)
        if line is not None:
            yield Line(*line, pen=pen, layer=LAYER)


def _across(box: Box, offset: float, *, falling: bool) -> tuple[Spot, Spot] | None:
    """The stretch inside the box of the line y = offset + x, or y = offset - x."""
    if falling:
        left, right = max(box.left, offset - box.top), min(box.right, offset - box.bottom)
        return (Spot(left, offset - left), Spot(right, offset - right)) if left < right else None
    left, right = max(box.left, box.bottom - offset), min(box.right, box.top - offset)
    return (Spot(left, offset + left), Spot(right, offset + right)) if left < right else None
