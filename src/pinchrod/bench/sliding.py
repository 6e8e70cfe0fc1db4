"""Whether one member, slid along a straight line, runs into another: exactly, by their face outlines.

Look along the line of the slide. Each member shows, at every place across that line, a near edge and a far
edge. A member that slides on and on, to the right or up, meets another just where the other's far edge lies
beyond its own near edge; for the two begin side by side, wood nowhere in wood.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinchrod.ground import Mm, Outline, Span
from pinchrod.setting_out import Member


@dataclass(frozen=True, slots=True)
class Stretch:
    """Between two places across the slide: where an outline's near and far edges lie at each of them."""

    low: Mm
    high: Mm
    near: tuple[Mm, Mm]
    far: tuple[Mm, Mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A member as seen along a slide: what it spans along and across it, and its edges by stretches."""

    along: Span
    across: Span
    stretches: tuple[Stretch, ...]


def seen(member: Member, *, level: bool) -> Seen:
    """A member as seen along a level slide, or an upright one."""
    lies_along = member.upright != level
    return Seen(
        along=member.along if lies_along else member.across,
        across=member.across if lies_along else member.along,
        stretches=stretches_of(member.outline, level=level),
    )


def stretches_of(outline: Outline, *, level: bool) -> tuple[Stretch, ...]:
    """The near and far edges of an outline, from corner to corner as they follow each other across."""
    corners = [(point.y, point.x) if level else (point.x, point.y) for point in outline]
    sides = [sorted(side) for side in zip(corners, corners[1:] + corners[:1], strict=True)]
    places = sorted({place for place, _ in corners})
    return tuple(
        _stretch(low, high, [side for side in sides if side[0][0] <= low and high <= side[1][0]])
        for low, high in pairwise(places)
    )


def _stretch(low: Mm, high: Mm, sides: list[list[tuple[Mm, Mm]]]) -> Stretch:
    """The nearest and the farthest of the sides that run through this stretch: inside it none cross."""
    edges = [(_at(side, low), _at(side, high)) for side in sides]
    return Stretch(low, high, min(edges, key=sum), max(edges, key=sum))


def _at(side: list[tuple[Mm, Mm]], place: Mm) -> Mm:
    """How far along the slide a side lies at a place across it."""
    (first, start), (last, end) = side
    return start if start == end else start + (end - start) * (place - first) / (last - first)


def runs_into(moving: Seen, other: Seen) -> bool:
    """Whether a member that slides on to the right or up, however far, meets the other on its way."""
    if not moving.across.meets(other.across) or moving.along.low >= other.along.high:
        return False
    if moving.along.high <= other.along.low:
        return True
    return any(_meet(one, two) for one, two in _side_by_side(moving.stretches, other.stretches))


def _side_by_side(
    ours: tuple[Stretch, ...], theirs: tuple[Stretch, ...]
) -> Iterator[tuple[Stretch, Stretch]]:
    """Stretches of the two that share more than a place."""
    return ((one, two) for one in ours for two in theirs if one.low < two.high and two.low < one.high)


def _meet(one: Stretch, two: Stretch) -> bool:
    """Whether anywhere on the stretch they share the other's far edge lies beyond our near edge.

    Both edges are straight there, so that one of its two ends tells.
    """
    low, high = max(one.low, two.low), min(one.high, two.high)
    return any(_edge(one, one.near, place) < _edge(two, two.far, place) for place in (low, high))


def _edge(stretch: Stretch, ends: tuple[Mm, Mm], place: Mm) -> Mm:
    first, last = ends
    if first == last:
        return first
    return first + (last - first) * (place - stretch.low) / (stretch.high - stretch.low)
