"""Moving marks: onto a page at a scale, or with larger lettering for a drawing at true size."""

from collections.abc import Iterable
from dataclasses import replace

from pinchrod.papers.sheet import (
    Arc,
    Chain,
    Circle,
    Dimension,
    Line,
    Mark,
    Marks,
    Path,
    RunningDimension,
    Spot,
    Squares,
    Words,
)


def placed(marks: Iterable[Mark], *, scale: float = 1.0, dx: float = 0.0, dy: float = 0.0) -> Marks:
    """The marks drawn at a scale and then moved: points and radii are scaled, letters and pens are not.

    Example: a frame drawn true, one tenth full size, its corner at 40, 90 on the page, is
    `placed(marks, scale=1 / 10, dx=40, dy=90)`.
    """

    def moved(spot: Spot) -> Spot:
        return Spot(spot.x * scale + dx, spot.y * scale + dy)

    def one(mark: Mark) -> Mark:
        match mark:
            case Line() | Dimension():
                return replace(mark, a=moved(mark.a), b=moved(mark.b))
            case Path() | Chain():
                return replace(mark, points=tuple(map(moved, mark.points)))
            case Circle() | Arc():
                return replace(mark, centre=moved(mark.centre), radius=mark.radius * scale)
            case RunningDimension():
                return replace(mark, datum=moved(mark.datum), points=tuple(map(moved, mark.points)))
            case Words() | Squares():
                return replace(mark, at=moved(mark.at))

    return tuple(one(mark) for mark in marks)


def lettered(marks: Iterable[Mark], by: float) -> Marks:
    """The marks with all lettering, and all distances of dimensions from the wood, that many times larger.

    A drawing kept at true size but meant to be plotted at one tenth is `lettered(marks, 10)`.
    """

    def one(mark: Mark) -> Mark:
        match mark:
            case Words():
                wide = mark.max_width and mark.max_width * by
                return replace(mark, size=mark.size * by, max_width=wide)
            case Dimension():
                return replace(mark, size=mark.size * by, away=mark.away * by, lift=mark.lift * by)
            case Chain() | RunningDimension():
                return replace(mark, size=mark.size * by, away=mark.away * by)
            case _:
                return mark

    return tuple(one(mark) for mark in marks)
