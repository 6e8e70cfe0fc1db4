"""A piece lying face up, its datum end to the left, drawn with all that is cut in it.

An upright lies on its right side, so that its left edge is uppermost. Across its width a piece is drawn at
a larger scale than along it: at one scale a long stile would be too slender to show its notches.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Point, Span
from pinchrod.papers.marks.sheet import CENTRE, HIDDEN, NARROW, WIDE, Line, Mark, Path, Pen, Spot
from pinchrod.papers.pieces.tenons import NO_TENONS, Tenons
from pinchrod.setting_out import Edge, Face, Fixing, HingeSeat, Member, Notch, Recess

SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100)
HIGHEST = 30.0  # mm of paper that a piece's width may take
SEAT = 1.2  # mm of paper: how thick a hinge seat is drawn, too thin to be drawn to scale
OVER = 1.5  # mm that a centre line runs past what it is the centre of


@dataclass(frozen=True, slots=True)
class Lying:
    """A piece on the page: the place of its datum end's lower corner, and its scales."""

    member: Member
    corner: Spot
    long: int  # 1:long along the piece
    wide: int  # 1:wide across it
    tenons: Tenons = NO_TENONS

    @property
    def upper_edge(self) -> Edge:
        """The edge that lies uppermost."""
        return Edge.LEFT if self.member.upright else Edge.UPPER

    @property
    def lower_edge(self) -> Edge:
        """The edge that lies lowermost."""
        return Edge.RIGHT if self.member.upright else Edge.LOWER

    @property
    def end(self) -> float:
        """Where on the page the far end lies."""
        return self.x(self.member.length)

    @property
    def top(self) -> float:
        """Where on the page the upper edge lies."""
        return self.corner.y + float(self.member.width) / self.wide

    def x(self, along: Mm) -> float:
        """Where on the page a distance from the datum end lies."""
        return self.corner.x + float(along) / self.long

    def y(self, across: Mm) -> float:
        """Where on the page a distance from the left or lower edge lies."""
        up = float(across) / self.wide
        return self.top - up if self.member.upright else self.corner.y + up

    def edge_y(self, edge: Edge, inwards: Mm) -> float:
        """Where on the page a distance from an edge inwards lies."""
        down = float(inwards) / self.wide
        return self.top - down if edge is self.upper_edge else self.corner.y + down

    def spot(self, point: Point) -> Spot:
        """Where on the page a point of the frame's face lies."""
        member = self.member
        along, across = (point.y, point.x) if member.upright else (point.x, point.y)
        return Spot(self.x(along - member.datum), self.y(across - member.across.low))


def scale_to_fit(length: Mm, most: float) -> int:
    """The largest usual scale, as 1:n, at which a length takes no more than that of the paper."""
    return next((scale for scale in SCALES if length <= Mm(most) * scale), SCALES[-1])


def drawn_piece(lying: Lying, quirk: Mm) -> Iterator[Mark]:
    """The piece's face, its beads, and all recesses, hinge seats and tenons."""
    member = lying.member
    yield from _tenons(lying)
    for edge in member.beads:
        yield from _bead(lying, edge, quirk)
    yield Path(tuple(map(lying.spot, member.outline)), pen=WIDE)
    for fixing in member.fixings:
        yield from _fixing(lying, fixing)
    for seat in member.hinge_seats:
        yield _seat(lying, seat)


def _tenons(lying: Lying) -> Iterator[Path]:
    near, far = lying.tenons
    length = lying.member.length
    if near:
        yield _rectangle(lying, Span(Mm(0), near.long), near.across, NARROW)
    if far:
        yield _rectangle(lying, Span(length - far.long, length), far.across, NARROW)


def _bead(lying: Lying, edge: Edge, quirk: Mm) -> Iterator[Line]:
    """The two sides of the quirk; they stop at every notch and mitre."""
    for inwards in (lying.member.bead - quirk, lying.member.bead):
        y = lying.edge_y(edge, inwards)
        for low, high in _stretches(lying.member, edge, inwards):
            yield Line(Spot(lying.x(low), y), Spot(lying.x(high), y), pen=NARROW)


def _stretches(member: Member, edge: Edge, inwards: Mm) -> Iterator[tuple[Mm, Mm]]:
    """What is left of a line along an edge, so far in, between notches and mitres, from the datum end."""
    mitre = member.bead - inwards
    start = member.along.low + (mitre if member.low_end.meets else 0)
    end = member.along.high - (mitre if member.high_end.meets else 0)
    for notch in member.notches:
        if notch.edge is not edge:
            continue
        cut = cut_at(notch, inwards)
        if start < cut.low:
            yield start - member.datum, cut.low - member.datum
        start = cut.high
    if start < end:
        yield start - member.datum, end - member.datum


def cut_at(notch: Notch, inwards: Mm) -> Span:
    """What a notch takes away of a line along its edge, so far in."""
    share = min(inwards / notch.depth, Mm(1))
    low = notch.mouth.low + (notch.floor.low - notch.mouth.low) * share
    high = notch.mouth.high - (notch.mouth.high - notch.floor.high) * share
    return Span(low, high)


def _fixing(lying: Lying, fixing: Fixing) -> Iterator[Mark]:
    """A recess as hidden lines, its centre as centre lines."""
    along, across = recess_spans(lying.member, fixing)
    yield _rectangle(lying, along, across, HIDDEN)
    x, ys = lying.x(min(fixing.at, lying.member.length)), sorted((lying.y(across.low), lying.y(across.high)))
    if fixing.face is not Face.END:
        yield Line(Spot(x, ys[0] - OVER), Spot(x, ys[1] + OVER), pen=CENTRE)
    if fixing.face is not Face.EDGE:
        y = lying.y(fixing.across)
        ends = Spot(lying.x(along.low) - OVER, y), Spot(lying.x(along.high) + OVER, y)
        yield Line(*ends, pen=CENTRE)


def recess_spans(member: Member, fixing: Fixing) -> tuple[Span, Span]:
    """How far a recess reaches along the piece from its datum end, and across it from its low edge."""
    along, across = _spans(member, fixing)
    return _kept(along, member.length), _kept(across, member.width)


def at_far_end(member: Member, fixing: Fixing) -> bool:
    """Whether a recess in an end is in the far one, and not in the datum end."""
    return fixing.to != member.low_end.meets


def _spans(member: Member, fixing: Fixing) -> tuple[Span, Span]:
    if fixing.face is Face.EDGE:
        return _about(fixing.at, fixing.long), _inwards(fixing)
    if fixing.edge is not None:
        return _about(fixing.at, fixing.long), _about(fixing.across, fixing.wide)
    across = _about(fixing.across, fixing.long)
    if fixing.recess is Recess.KEY_SLOT:
        return _about(fixing.at, fixing.wide), across
    reach = fixing.deep if fixing.face is Face.END else fixing.wide
    if at_far_end(member, fixing):
        return Span(member.length - reach, member.length), across
    return Span(Mm(0), reach), across


def _kept(span: Span, most: Mm) -> Span:
    """The span without what would lie off the piece: a recess that comes out is doubted elsewhere."""
    return Span(min(max(span.low, Mm(0)), most), min(max(span.high, Mm(0)), most))


def _inwards(fixing: Fixing) -> Span:
    if fixing.edge is None or fixing.edge.low:
        return Span(fixing.across, fixing.across + fixing.deep)
    return Span(fixing.across - fixing.deep, fixing.across)


def _about(middle: Mm, size: Mm) -> Span:
    return Span(middle - size / 2, middle + size / 2)


def _seat(lying: Lying, seat: HingeSeat) -> Path:
    """A hinge seat as a black strip inside its edge."""
    half = seat.long / 2
    left, right = lying.x(seat.at - half), lying.x(seat.at + half)
    edge = lying.edge_y(seat.edge, Mm(0))
    inner = edge - SEAT if seat.edge is lying.upper_edge else edge + SEAT
    return _path((left, right), (edge, inner), None, fill=True)


def _rectangle(lying: Lying, along: Span, across: Span, pen: Pen) -> Path:
    return _path(
        (lying.x(along.low), lying.x(along.high)),
        (lying.y(across.low), lying.y(across.high)),
        pen,
        fill=False,
    )


def _path(xs: Sequence[float], ys: Sequence[float], pen: Pen | None, *, fill: bool) -> Path:
    corners = (Spot(xs[0], ys[0]), Spot(xs[1], ys[0]), Spot(xs[1], ys[1]), Spot(xs[0], ys[1]))
    return Path(corners, pen=pen, fill="black" if fill else None)
