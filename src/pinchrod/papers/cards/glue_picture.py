"""A small drawing of a frame with the step at which each member goes on."""

from collections.abc import Iterator, Mapping, Sequence
from math import hypot

from pinchrod.bench import Gluing
from pinchrod.ground import Mm
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import NARROW, WIDE, Circle, Mark, Path, Spot, Words
from pinchrod.setting_out import Member, Rod

ROUND = 3.6  # radius of the circle round a step's number
LETTERS = 3.5
ALONE = "–"  # on a member that is brought to nothing
SHARES = tuple(Mm(each) for each in ("0.5", "0.25", "0.75", "0.4", "0.6", "0.15", "0.85"))
"""Where along a member its number may stand, the best place first; the table has those that have no room."""


def glue_picture(rod: Rod, gluing: Gluing, room: Box) -> Iterator[Mark]:
    """The frame as large as its room, a number on each member that has a place for it."""
    high, scale = float(rod.frame.height), scale_in(rod, room)
    steps = joined_at(gluing)

    def spot(x: float, y: float) -> Spot:
        return Spot(room.left + x * scale, room.top - (high - y) * scale)

    for member in rod.members:
        corners = tuple(spot(float(x), float(y)) for x, y in member.outline)
        yield Path(corners, pen=WIDE)
    taken: list[Spot] = []
    for member in rod.members:
        places = (spot(*_along(member, share)) for share in SHARES)
        at = next((place for place in places if _free(place, taken)), None)
        if at is not None:
            taken.append(at)
            yield from _number(steps.get(member.name, ALONE), at)


def scale_in(rod: Rod, room: Box) -> float:
    """How many mm of paper a mm of the frame takes in that room."""
    wide, high = float(rod.frame.width), float(rod.frame.height)
    return min((room.right - room.left) / wide, (room.top - room.bottom) / high)


def joined_at(gluing: Gluing) -> Mapping[str, str]:
    """For each member the step at which it is brought to another, or another to it: the first of them."""
    found: dict[str, str] = {}
    for number, step in enumerate(gluing.steps, start=1):
        for lot in (step.part, step.onto):
            for name in lot.members:
                found.setdefault(name, str(number))
    return found


def _along(member: Member, share: Mm) -> tuple[float, float]:
    """A point on the member's middle line, so far along."""
    along = member.along.low + (member.along.high - member.along.low) * share
    across = (member.across.low + member.across.high) / 2
    x, y = (across, along) if member.upright else (along, across)
    return float(x), float(y)


def _free(at: Spot, taken: Sequence[Spot]) -> bool:
    return all(hypot(at.x - other.x, at.y - other.y) > 2 * ROUND + 0.5 for other in taken)


def _number(text: str, at: Spot) -> Iterator[Mark]:
    yield Circle(at, ROUND, pen=NARROW, fill="white")
    yield Words(Spot(at.x, at.y - LETTERS / 2), text, size=LETTERS, anchor="middle")
