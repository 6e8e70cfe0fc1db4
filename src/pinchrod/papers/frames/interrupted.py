"""Lines interrupted where words stand on them, as a draughtsman leaves them out."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from pinchrod.papers.marks.boxes import Box, corners
from pinchrod.papers.marks.sheet import NARROW, Line, Path, Spot

Stretch = tuple[float, float]
"""Part of a line, in shares of its length."""


def interrupted(marks: Iterable[Line | Path], box: Box | None) -> Iterator[Line | Path]:
    """The marks without what of them lies in the box; an outline that runs into it becomes lines."""
    for mark in marks:
        covered = [stretch_inside(a, b, box) for a, b in pairwise(corners(mark))] if box else []
        if any(covered):
            yield from _outside(mark, covered)
        else:
            yield mark


def _outside(mark: Line | Path, covered: Iterable[Stretch | None]) -> Iterator[Line]:
    for (a, b), stretch in zip(pairwise(corners(mark)), covered, strict=True):
        for start, end in _left_over(stretch):
            ends = _part_way(a, b, start), _part_way(a, b, end)
            yield Line(*ends, pen=mark.pen or NARROW, layer=mark.layer)


def _left_over(stretch: Stretch | None) -> Iterator[Stretch]:
    start, end = stretch or (1.0, 1.0)
    if start > 0:
        yield 0.0, start
    if end < 1:
        yield end, 1.0


def _part_way(a: Spot, b: Spot, share: float) -> Spot:
    return Spot(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)


def stretch_inside(a: Spot, b: Spot, box: Box) -> Stretch | None:
    """Which part of the straight line from a to b lies in the box, if more than a point does."""
    enters, leaves = 0.0, 1.0
    sides = ((a.x, b.x - a.x, box.left, box.right), (a.y, b.y - a.y, box.bottom, box.top))
    for start, step, low, high in sides:
        if step:
            first, last = sorted(((low - start) / step, (high - start) / step))
            enters, leaves = max(enters, first), min(leaves, last)
        elif not low < start < high:
            return None
    return (enters, leaves) if enters < leaves else None
