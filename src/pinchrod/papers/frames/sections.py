"""Cuts across a frame: which openings and members lie on one width rod, or on one height rod.

A nested layout has several different cuts; each is found once, however many openings repeat it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pinchrod.ground import Mm, Span
from pinchrod.papers.marks.sheet import Axis
from pinchrod.setting_out import Edge, Member, Opening, Rod


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A straight cut across a frame: level, showing widths (x), or upright, showing heights (y).

    Positions are in frame coordinates along the cut. Where the cut would run along a rail or a muntin
    instead of through an opening, nothing is shown.
    """

    axis: Axis
    at: Mm  # where it is made: how far up the frame, or how far from its left
    spans: tuple[Span, ...]  # the clear openings, in order
    openings: tuple[Opening, ...]  # all that have one of these spans
    members: tuple[Member, ...]  # all that part these spans, by their place along the cut
    total: Mm

    @property
    def stops(self) -> tuple[Mm, ...]:
        """Every position of the cut from nought to the frame's size: the edges of members and openings."""
        edges = {edge for span in self.spans for edge in (span.low, span.high)}
        edges |= {edge for member in self.members for edge in (member.across.low, member.across.high)}
        return tuple(sorted({*edges, Mm(0), self.total}))

    @property
    def shoulders(self) -> tuple[Mm, ...]:
        """Where members that cross an opening end: a bead's width inside the beaded edges beside it."""
        low, high = (Edge.RIGHT, Edge.LEFT) if self.axis == "x" else (Edge.UPPER, Edge.LOWER)
        found = {member.across.high - member.bead for member in self.members if low in member.beads}
        found |= {member.across.low + member.bead for member in self.members if high in member.beads}
        return tuple(sorted(found))


def width_cuts(rod: Rod) -> tuple[Cut, ...]:
    """Every different level cut, from the bottom up."""
    return _cuts(rod, "x")


def height_cuts(rod: Rod) -> tuple[Cut, ...]:
    """Every different upright cut, from the left."""
    return _cuts(rod, "y")


def along(opening: Opening, axis: Axis) -> Span:
    """The span of an opening along a cut."""
    return opening.x if axis == "x" else opening.y


def _across(opening: Opening, axis: Axis) -> Span:
    return opening.y if axis == "x" else opening.x


def _cuts(rod: Rod, axis: Axis) -> tuple[Cut, ...]:
    """A cut for each set of spans that is not part of another's."""
    places: dict[frozenset[Span], Mm] = {}
    for at in _places_to_cut(rod.openings, axis):
        cut = [o for o in rod.openings if _across(o, axis).low < at < _across(o, axis).high]
        places.setdefault(frozenset(along(opening, axis) for opening in cut), at)
    # What lies within a larger set of spans can be marked from that cut's rod.
    whole = [spans for spans in places if not any(spans < other for other in places)]
    return tuple(_cut(rod, axis, places[spans], spans) for spans in whole)


def _places_to_cut(openings: Sequence[Opening], axis: Axis) -> tuple[Mm, ...]:
    """One place between each two neighbouring edges of openings, so that none is missed."""
    edges = {edge for o in openings for edge in (_across(o, axis).low, _across(o, axis).high)}
    return tuple((low + high) / 2 for low, high in pairwise(sorted(edges)))


def _cut(rod: Rod, axis: Axis, at: Mm, spans: frozenset[Span]) -> Cut:
    openings = tuple(opening for opening in rod.openings if along(opening, axis) in spans)
    members = [member for member in rod.members if member.upright == (axis == "x")]
    parting = [member for member in members if _parts(member, axis, openings, spans)]
    return Cut(
        axis=axis,
        at=at,
        spans=tuple(sorted(spans, key=lambda span: span.low)),
        openings=openings,
        members=tuple(sorted(parting, key=lambda member: member.across.low)),
        total=rod.frame.width if axis == "x" else rod.frame.height,
    )


def _parts(member: Member, axis: Axis, openings: Iterable[Opening], spans: Iterable[Span]) -> bool:
    """Whether the member stands right beside one of the openings, and in the way of none of the spans."""
    beside = any(
        member.along.meets(_across(opening, axis)) and _touch(member.across, along(opening, axis))
        for opening in openings
    )
    return beside and not any(member.across.meets(span) for span in spans)


def _touch(one: Span, other: Span) -> bool:
    return one.high == other.low or one.low == other.high
