"""Moving marks: onto a page at a scale, or with larger lettering for a drawing at true size."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from pinchrod.papers.marks.sheet import (
    Arc,
    Chain,
    Circle,
    Dimension,
    Line,
    Mark,
    Marks,
    Measuring,
    Path,
    Rows,
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
    page = Page(scale, dx, dy)
    return tuple(_placed(mark, page) for mark in marks)


@dataclass(frozen=True, slots=True)
class Page:
    """Where a drawing lies on its page, and how large."""

    scale: float
    dx: float
    dy: float

    def spot(self, spot: Spot) -> Spot:
        """Where on the page a spot of the drawing lies."""
        return Spot(spot.x * self.scale + self.dx, spot.y * self.scale + self.dy)

    def spots(self, spots: tuple[Spot, ...]) -> tuple[Spot, ...]:
        """Where on the page spots of the drawing lie."""
        return tuple(map(self.spot, spots))


def _placed(mark: Mark, page: Page) -> Mark:
    match mark:  # what a page has thousands of is made outright: `replace` takes four times as long
        case Line() | Path() | Circle() | Arc():
            return _shape_placed(mark, page)
        case Words():
            return _words_placed(mark, page)
        case Squares():
            return replace(mark, at=page.spot(mark.at))
        case Rows():
            return replace(mark, dimensions=tuple(measure_placed(row, page) for row in mark.dimensions))
        case _:
            return measure_placed(mark, page)


def _shape_placed(mark: Line | Path | Circle | Arc, page: Page) -> Mark:
    match mark:
        case Line():
            return Line(page.spot(mark.a), page.spot(mark.b), pen=mark.pen, layer=mark.layer)
        case Path():
            spots = page.spots(mark.points)
            return Path(spots, closed=mark.closed, pen=mark.pen, fill=mark.fill, layer=mark.layer)
        case _:
            return replace(mark, centre=page.spot(mark.centre), radius=mark.radius * page.scale)


def _words_placed(words: Words, page: Page) -> Words:
    return Words(
        page.spot(words.at),
        words.text,
        size=words.size,
        bold=words.bold,
        anchor=words.anchor,
        turn=words.turn,
        max_width=words.max_width,
        layer=words.layer,
    )


def measure_placed(mark: Measuring, page: Page) -> Measuring:
    """The dimension with its points where they lie on the page."""
    match mark:
        case Dimension():
            return replace(mark, a=page.spot(mark.a), b=page.spot(mark.b))
        case Chain():
            return replace(mark, points=page.spots(mark.points))
        case RunningDimension():
            return replace(mark, datum=page.spot(mark.datum), points=page.spots(mark.points))


def lettered(marks: Iterable[Mark], by: float) -> Marks:
    """The marks with all lettering, and all distances of dimensions from the wood, that many times larger.

    A drawing kept at true size but meant to be plotted at one tenth is `lettered(marks, 10)`.
    """
    return tuple(_lettered(mark, by) for mark in marks)


def _lettered(mark: Mark, by: float) -> Mark:
    match mark:
        case Words():
            wide = None if mark.max_width is None else mark.max_width * by
            return replace(mark, size=mark.size * by, max_width=wide)
        case Rows():
            rows = tuple(_measure_lettered(row, by) for row in mark.dimensions)
            return replace(mark, dimensions=rows, first=mark.first * by)
        case Dimension() | Chain() | RunningDimension():
            return _measure_lettered(mark, by)
        case _:
            return mark


def _measure_lettered(mark: Measuring, by: float) -> Measuring:
    larger = replace(mark, size=mark.size * by, away=mark.away * by)
    return replace(larger, lift=larger.lift * by) if isinstance(larger, Dimension) else larger
