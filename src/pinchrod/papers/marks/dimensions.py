"""Dimensions taken apart into plain lines and words, after the habits of ISO 129-1 (from memory).

Extension lines leave a small gap at the wood and run on a little past the dimension line; oblique strokes
end it, since they take no room from narrow rails; the number stands above the line, to be read from the
bottom or the right. All these distances follow the size of the number, so that they grow with it.

The work is done in a dimension's own directions: `u` along its line, `v` above it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.papers.marks.sheet import (
    NARROW,
    WIDE,
    Anchor,
    Axis,
    Dimension,
    Line,
    Measuring,
    PlainMark,
    Spot,
    Turn,
    Words,
)
from pinchrod.papers.marks.type import words_width

# In heights of the number:
GAP = 0.4  # between the wood and an extension line
PAST = 0.6  # how far that runs past the dimension line
STROKE = 0.4  # how far an end stroke reaches to each side
RISE = 0.4  # from the dimension line up to its number
ROOM = 0.8  # a number between two ends needs its width and this
BESIDE = 0.8  # from an end to a number outside it
LEADER = 1.5  # from the dimension line to the bend in a lifted number's leader
LIFT = 2.0  # from the dimension line to a lifted number


@dataclass(frozen=True, slots=True)
class Local:
    """A dimension's own directions on its sheet."""

    axis: Axis

    def spot(self, u: float, v: float) -> Spot:
        """Where on the sheet a local place is."""
        return Spot(u, v) if self.axis == "x" else Spot(-v, u)

    def u(self, spot: Spot) -> float:
        """How far along the dimension's line a spot of the sheet is."""
        return spot.x if self.axis == "x" else spot.y

    def v(self, spot: Spot) -> float:
        """How far above the dimension's line of nought a spot of the sheet is."""
        return spot.y if self.axis == "x" else -spot.x

    def away(self, away: float) -> float:
        """A distance up or to the right of the sheet, as a distance above the line."""
        return away if self.axis == "x" else -away

    def line_at(self, spots: Iterable[Spot], away: float) -> float:
        """Where the dimension line stands, that far from the outermost spot."""
        heights = [self.v(spot) for spot in spots]
        away = self.away(away)
        return (max(heights) if away >= 0 else min(heights)) + away


@dataclass(frozen=True, slots=True)
class Drawn:
    """Where a dimension's parts go in its own directions."""

    local: Local
    low: float
    high: float
    line: float
    out: float  # +1: the dimension line stands above the wood; -1: below it


def printed(mark: Dimension) -> str:
    """The number as printed: an auxiliary dimension stands in brackets."""
    return f"({mark.text})" if mark.auxiliary else mark.text


def fits(mark: Dimension) -> bool:
    """Whether the number has room between the ends of its dimension line."""
    local = Local(mark.axis)
    return words_width(printed(mark), mark.size) + ROOM * mark.size <= abs(local.u(mark.b) - local.u(mark.a))


def drawn(mark: Dimension) -> Drawn:
    """Where the dimension's line and ends go."""
    local = Local(mark.axis)
    low, high = sorted((local.u(mark.a), local.u(mark.b)))
    out = 1.0 if local.away(mark.away) >= 0 else -1.0
    return Drawn(local, low, high, local.line_at((mark.a, mark.b), mark.away), out)


def explode_dimension(mark: Dimension) -> tuple[PlainMark, ...]:
    """The dimension as lines and words: extension lines, dimension line, end strokes, number."""
    where = mark.where if mark.where != "fit" or fits(mark) else "after"
    at = drawn(mark)
    ends = (end for spot in (mark.a, mark.b) for end in _end(mark, at, spot))
    number = {"fit": _between, "before": _before, "after": _after, "lifted": _lifted}[where]
    return (*ends, *number(mark, at))


def _end(mark: Dimension, at: Drawn, spot: Spot) -> Iterator[PlainMark]:
    u = at.local.u(spot)
    if mark.away:
        yield extension(mark, at.local, spot, at.line + at.out * PAST * mark.size)
    yield stroke(mark, at.local, u, at.line)


def extension(mark: Measuring, local: Local, spot: Spot, to: float) -> Line:
    """The extension line from near a spot up or down to a height."""
    u, v = local.u(spot), local.v(spot)
    gap = GAP * mark.size if to > v else -GAP * mark.size
    return Line(local.spot(u, v + gap), local.spot(u, to), pen=NARROW, layer=mark.layer)


def stroke(mark: Measuring, local: Local, u: float, v: float, reach: float = STROKE) -> Line:
    """The short oblique stroke that ends a dimension line."""
    reach *= mark.size
    return Line(
        local.spot(u - reach, v - reach), local.spot(u + reach, v + reach), pen=WIDE, layer=mark.layer
    )


def _level(mark: Dimension, at: Drawn, low: float, high: float) -> Line:
    return Line(at.local.spot(low, at.line), at.local.spot(high, at.line), pen=NARROW, layer=mark.layer)


def _number(mark: Dimension, at: Drawn, u: float, v: float, anchor: Anchor) -> Words:
    turn: Turn = 0 if mark.axis == "x" else 90
    spot = at.local.spot(u, v)
    return Words(spot, printed(mark), size=mark.size, anchor=anchor, turn=turn, layer=mark.layer)


def _between(mark: Dimension, at: Drawn) -> Iterator[PlainMark]:
    yield _level(mark, at, at.low, at.high)
    yield _number(mark, at, (at.low + at.high) / 2, at.line + RISE * mark.size, "middle")


def _after(mark: Dimension, at: Drawn) -> Iterator[PlainMark]:
    start = at.high + BESIDE * mark.size
    yield _level(mark, at, at.low, start + words_width(printed(mark), mark.size))
    yield _number(mark, at, start, at.line + RISE * mark.size, "left")


def _before(mark: Dimension, at: Drawn) -> Iterator[PlainMark]:
    end = at.low - BESIDE * mark.size
    yield _level(mark, at, end - words_width(printed(mark), mark.size), at.high)
    yield _number(mark, at, end, at.line + RISE * mark.size, "right")


def _lifted(mark: Dimension, at: Drawn) -> Iterator[PlainMark]:
    """The number beyond the dimension line, away from the wood, where no extension line crosses it."""
    yield _level(mark, at, at.low, at.high)
    middle, size = (at.low + at.high) / 2, mark.size
    bend = at.local.spot(middle, at.line + at.out * LEADER * size)
    foot = at.local.spot(middle, at.line)
    top = at.local.spot(middle + mark.lift, at.line + at.out * (LIFT - 0.4) * size)
    yield Line(foot, bend, pen=NARROW, layer=mark.layer)
    yield Line(bend, top, pen=NARROW, layer=mark.layer)
    base = LIFT if at.out > 0 else -LIFT - 1
    yield _number(mark, at, middle + mark.lift, at.line + base * size, "middle")
