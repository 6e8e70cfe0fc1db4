"""Plain geometry: spans, points and outlines, in exact millimetres."""

from dataclasses import dataclass
from typing import NamedTuple

from pinchrod.ground.lengths import Mm


class Point(NamedTuple):
    """A point on a face: x to the right, y up."""

    x: Mm
    y: Mm


Outline = tuple[Point, ...]
"""Corners of a plain polygon, anticlockwise, closed without saying so."""


@dataclass(frozen=True, slots=True)
class Span:
    """From here to there along one line."""

    low: Mm
    high: Mm

    @property
    def length(self) -> Mm:
        """How long the span is."""
        return self.high - self.low

    @property
    def middle(self) -> Mm:
        """Half-way along."""
        return (self.low + self.high) / 2

    def moved(self, by: Mm) -> "Span":
        """The span shifted along its line."""
        return Span(self.low + by, self.high + by)

    def meets(self, other: "Span") -> bool:
        """Whether the two share more than an end."""
        return self.low < other.high and other.low < self.high


def area(outline: Outline) -> Mm:
    """Area inside an outline in square millimetres, by the surveyor's (shoelace) formula."""
    following = outline[1:] + outline[:1]
    return sum((a.x * b.y - b.x * a.y for a, b in zip(outline, following, strict=True)), Mm(0)) / 2
