"""A stile, rail or muntin as the rod shows it, with all that is cut in it.

Seen from the face; origin at the frame's lower left corner; x right, y up. A member's datum end is
its bottom (upright) or its left end (level).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import Mm, Outline, Point, Span


class Role(StrEnum):
    """What a member is in its frame."""

    LEFT_STILE = "left stile"
    RIGHT_STILE = "right stile"
    TOP_RAIL = "top rail"
    BOTTOM_RAIL = "bottom rail"
    RAIL = "rail"
    MUNTIN = "muntin"

    @property
    def upright(self) -> bool:
        """Whether the member stands."""
        return self in (Role.LEFT_STILE, Role.RIGHT_STILE, Role.MUNTIN)


class Edge(StrEnum):
    """An edge of a member: left and right of an upright, lower and upper of a level one."""

    LEFT = "left"
    RIGHT = "right"
    LOWER = "lower"
    UPPER = "upper"

    @property
    def low(self) -> bool:
        """Whether it is the edge nearer the frame's left or bottom."""
        return self in (Edge.LEFT, Edge.LOWER)


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """Where a beaded edge is cut away to take another member. Spans in frame coordinates."""

    edge: Edge
    mouth: Span
    floor: Span
    depth: Mm
    takes: str

    def deep_at(self, place: Mm) -> Mm:
        """How deep the notch is at a place along the edge: its flanks stand at 45 degrees."""
        if not self.mouth.low <= place <= self.mouth.high:
            return Mm(0)
        below = self.floor.low - place
        above = place - self.floor.high
        return self.depth - max(below, above, Mm(0))


class Recess(StrEnum):
    """What is cut for a fixing."""

    KEY_SLOT = "key slot"
    MORTICE = "mortice"
    DOWEL_HOLE = "dowel hole"
    POCKET = "pocket"


class Face(StrEnum):
    """The side of a member in which a recess is cut."""

    BACK = "back"
    EDGE = "edge"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """A recess in one member for a fixing that draws it to another.

    `at` is its centre along the member from the datum end and `across` its centre from the member's
    left or lower edge, both on the face. A recess in an edge or an end begins at the joint (a notch's
    floor, a shoulder) and is centred in the thickness. `long` is its size along the joint, `wide` its
    size in the thickness (for a key slot in the back: square from the joint), `deep` how far it goes in.
    """

    recess: Recess
    face: Face
    at: Mm
    across: Mm
    long: Mm
    wide: Mm
    deep: Mm
    edge: Edge | None  # of the member that takes the other; None at an arriving end
    to: str  # the other member


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """How one end of a member is finished."""

    meets: str = ""  # the member it enters; empty: it stands free, cut square
    tenon: Mm = Mm(0)


SQUARE = End()


@dataclass(frozen=True, slots=True, kw_only=True)
class HingeSeat:
    """The recess for one hinge in an upright's edge; `at` is its centre from the datum end."""

    edge: Edge
    at: Mm
    long: Mm
    front: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A stile, rail or muntin as the rod shows it.

    `along` runs from end to end of its face (tenons not counted), `across` is its face width, both in
    frame coordinates. An end that meets another member enters it by the bead.
    """

    name: str
    role: Role
    along: Span
    across: Span
    thickness: Mm
    bead: Mm
    beads: tuple[Edge, ...]
    low_end: End  # the datum end
    high_end: End
    notches: tuple[Notch, ...]  # by edge, then from the datum end
    fixings: tuple[Fixing, ...] = ()
    hinge_seats: tuple[HingeSeat, ...] = ()

    @property
    def upright(self) -> bool:
        """Whether the member stands."""
        return self.role.upright

    @property
    def width(self) -> Mm:
        """Face width, beads included."""
        return self.across.length

    @property
    def length(self) -> Mm:
        """Length to cut: face length and its tenons."""
        tenons = self.low_end.tenon, self.high_end.tenon
        return self.along.length + sum(tenons) if any(tenons) else self.along.length

    @property
    def datum(self) -> Mm:
        """Where the datum end of the piece lies in the frame's x or y, its tenon included."""
        return self.along.low - self.low_end.tenon if self.low_end.tenon else self.along.low

    @property
    def corner(self) -> Point:
        """Lower left corner of the face, in frame coordinates."""
        low, side = self.along.low, self.across.low
        return Point(side, low) if self.upright else Point(low, side)

    @property
    def low_edge(self) -> Edge:
        """The left or lower edge."""
        return Edge.LEFT if self.upright else Edge.LOWER

    @property
    def high_edge(self) -> Edge:
        """The right or upper edge."""
        return Edge.RIGHT if self.upright else Edge.UPPER

    @property
    def outline(self) -> Outline:
        """The face in frame coordinates, mitres and notches cut, anticlockwise."""
        there = list(_edge_line(self, self.low_edge))
        back = list(_edge_line(self, self.high_edge))[::-1]
        if self.upright:
            return tuple(Point(side, along) for along, side in (there + back)[::-1])
        return tuple(Point(along, side) for along, side in there + back)


def _edge_line(member: Member, edge: Edge) -> Iterator[tuple[Mm, Mm]]:
    """Corners along one edge from the datum end on, as (along, across)."""
    side, inward = (member.across.low, 1) if edge.low else (member.across.high, -1)
    notches = [notch for notch in member.notches if notch.edge == edge]
    mitre = member.bead if edge in member.beads else Mm(0)
    first, last = member.along.low, member.along.high

    if not notches or notches[0].floor.low > first:
        yield from _end_corner(first, side, mitre if member.low_end.meets else Mm(0), inward)
    for notch in notches:
        yield from _notch_corners(notch, side, inward)
    if not notches or notches[-1].floor.high < last:
        corner = tuple(_end_corner(last, side, mitre if member.high_end.meets else Mm(0), inward, back=True))
        yield from corner[::-1]


def _end_corner(end: Mm, side: Mm, mitre: Mm, inward: int, *, back: bool = False) -> Iterator[tuple[Mm, Mm]]:
    if mitre:
        yield end, side + inward * mitre
        yield (end - mitre if back else end + mitre), side
    else:
        yield end, side


def _notch_corners(notch: Notch, side: Mm, inward: int) -> Iterator[tuple[Mm, Mm]]:
    floor = side + inward * notch.depth
    if notch.mouth.low < notch.floor.low:
        yield notch.mouth.low, side
    yield notch.floor.low, floor
    yield notch.floor.high, floor
    if notch.floor.high < notch.mouth.high:
        yield notch.mouth.high, side
