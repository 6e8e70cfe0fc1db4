"""Lanes: positions along a piece as ticks on a line of their own, like marks on a rod, each with its number.

Numbers that would touch are spread, with a slanting line to each, and never past the page's sides. Only
the lanes next to the wood have lines to it; the others stand free beneath, so that no line crosses a number.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pinchrod.papers.marks.chains import kept_within, spread
from pinchrod.papers.marks.sheet import NARROW, WIDE, Anchor, Circle, Line, Mark, Path, Spot, Words
from pinchrod.papers.marks.type import words_width

# In heights of the number:
PITCH = 1.5  # from number to number
TICK = 0.35  # half a tick
BEFORE = 0.9  # from the line to where slanting lines or numbers begin
SLANT = 1.4  # least height of the slanting lines
WHITE = 0.5  # before a number
STEEP = 0.3  # height of the slanting lines, in the furthest that a number is shifted
HIGHEST = 14.0  # mm, of the slanting lines
NAME = 1.9  # heights of the number that a lane's name takes, with its white


@dataclass(frozen=True, slots=True)
class Place:
    """A position: where on the page, at what height its line to the wood begins, and its number."""

    x: float
    y: float
    text: str


@dataclass(frozen=True, slots=True)
class Lane:
    """Positions counted from the datum end, under one name."""

    name: str
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Ruled:
    """A lane with the room it has: its datum on the page, the page's sides, the size of its numbers."""

    lane: Lane
    datum: float
    sides: tuple[float, float]
    size: float

    @property
    def places(self) -> tuple[Place, ...]:
        """The datum and the positions, from the left."""
        datum = Place(self.datum, self.lane.places[0].y, "0")
        return (datum, *self.lane.places)

    @property
    def stands(self) -> tuple[float, ...]:
        """Where the numbers stand, in the places' order."""
        rooms = [PITCH * self.size] * len(self.places)
        return kept_within(spread([place.x for place in self.places], rooms), rooms, self.sides)


def most_places(width: float, size: float) -> int:
    """How many numbers a lane of that width has room for, beside its datum's."""
    return int(width / (PITCH * size) + 1e-9) - 1


def parted(lane: Lane, most: int) -> Iterator[Lane]:
    """The lane, or as many lanes as its numbers need."""
    places = lane.places
    parts = -(-len(places) // most)
    for part in range(parts):
        share = places[part * len(places) // parts : (part + 1) * len(places) // parts]
        name = f"{lane.name} ({part + 1} of {parts})" if parts > 1 else lane.name
        yield Lane(name, share)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A lane drawn downwards (or up) from a height, and how far it reaches."""

    height: float
    marks: tuple[Mark, ...]


def drawn_below(ruled: Ruled, top: float, *, from_wood: bool) -> Drawn:
    """The lane below a height: its name, its line, its numbers."""
    line = top - (NAME + TICK) * ruled.size
    return Drawn(*_drawn(ruled, line, -1.0, top if from_wood else None))


def drawn_above(ruled: Ruled, bottom: float) -> Drawn:
    """The lane above a height, with lines down to the wood: its name, its line, its numbers."""
    line = bottom + (NAME + TICK) * ruled.size
    return Drawn(*_drawn(ruled, line, 1.0, bottom))


def _drawn(ruled: Ruled, line: float, out: float, wood: float | None) -> tuple[float, tuple[Mark, ...]]:
    size, stands = ruled.size, ruled.stands
    shift = max(abs(place.x - at) for place, at in zip(ruled.places, stands, strict=True))
    slant = min(max(SLANT * size, STEEP * shift), HIGHEST) if shift > 0.05 * size else 0.0
    begins = line + out * BEFORE * size
    marks: list[Mark] = []
    if wood is not None:
        marks.extend(_lines_to_wood(ruled, begins, out))
    marks.extend(_name(ruled, line, out, hides=wood is not None))
    marks.extend(_line(ruled, line))
    if slant:
        marks.extend(_slants(ruled, stands, begins, begins + out * slant))
    marks.extend(_numbers(ruled, stands, begins + out * (slant + WHITE * size), out))
    widest = max(words_width(place.text, size) for place in ruled.places)
    height = (NAME + TICK + BEFORE + WHITE) * size + slant + widest
    return height, tuple(marks)


def _lines_to_wood(ruled: Ruled, to: float, out: float) -> Iterator[Mark]:
    for place in ruled.places:
        yield _thin(place.x, place.y + out * 0.4 * ruled.size, place.x, to)


def _name(ruled: Ruled, line: float, out: float, *, hides: bool) -> Iterator[Mark]:
    size = ruled.size
    base = line + (TICK + 0.45) * size if out < 0 else line - (TICK + 1.35) * size
    left = ruled.sides[0]
    if hides:
        wide = words_width(ruled.lane.name, size)
        low, high, right = base - 0.4 * size, base + 1.3 * size, left + wide + 0.5 * size
        corners = (Spot(left, low), Spot(right, low), Spot(right, high), Spot(left, high))
        yield Path(corners, pen=None, fill="white", layer="dimension")
    yield Words(Spot(left, base), ruled.lane.name, size=size, layer="dimension")


def _line(ruled: Ruled, line: float) -> Iterator[Mark]:
    size, datum = ruled.size, ruled.datum
    circle = 0.35 * size
    yield _thin(datum + circle, line, ruled.places[-1].x, line)
    yield Circle(Spot(datum, line), circle, pen=NARROW, layer="dimension")
    for place in ruled.lane.places:
        low, high = Spot(place.x, line - TICK * size), Spot(place.x, line + TICK * size)
        yield Line(low, high, pen=WIDE, layer="dimension")


def _slants(ruled: Ruled, stands: Sequence[float], begin: float, end: float) -> Iterator[Mark]:
    for place, at in zip(ruled.places, stands, strict=True):
        yield _thin(place.x, begin, at, end)


def _numbers(ruled: Ruled, stands: Iterable[float], at: float, out: float) -> Iterator[Mark]:
    anchor: Anchor = "left" if out > 0 else "right"
    for place, stand in zip(ruled.places, stands, strict=True):
        spot = Spot(stand + ruled.size / 2, at)
        yield Words(spot, place.text, size=ruled.size, anchor=anchor, turn=90, layer="dimension")


def _thin(x: float, y: float, to_x: float, to_y: float) -> Line:
    return Line(Spot(x, y), Spot(to_x, to_y), pen=NARROW, layer="dimension")


def places_apart(places: Iterable[Place]) -> tuple[Place, ...]:
    """The places from the left, each number once."""
    ordered = sorted(places, key=lambda place: place.x)
    return tuple(
        place
        for before, place in pairwise((None, *ordered))
        if place and (before is None or before.text != place.text)
    )
