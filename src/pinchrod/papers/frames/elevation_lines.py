"""What is drawn of a frame seen from its face, true: its members, beads, fixings, hinges and fronts."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import Span
from pinchrod.job import Bead, Kind, Side
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import HIDDEN, NARROW, WIDE, Line, Path, Pen, Spot
from pinchrod.setting_out import Edge, Face, Fixing, Front, HingeSeat, Member, Opening, Recess

BARREL = 8.0  # mm across a hinge's barrel as drawn: a sign for the hinge, not its size
FINE_HIDDEN = Pen(0.25, (1.0, 0.5))  # for recesses that are shorter on the paper than the usual dash


@dataclass(frozen=True, slots=True)
class BeadRun:
    """One unbroken run of bead along a member's edge, and how it ends: mitred (1) or square (0)."""

    edge: Edge
    side: float  # where across the frame the edge lies
    low: float
    high: float
    low_mitre: int
    high_mitre: int

    def line(self, inset: float) -> Line:
        """The line that far in from the edge: a mitred end follows its mitre."""
        across = self.side + inset if self.edge.low else self.side - inset
        low, high = self.low - inset * self.low_mitre, self.high + inset * self.high_mitre
        if self.edge in (Edge.LEFT, Edge.RIGHT):
            return Line(Spot(across, low), Spot(across, high), pen=NARROW, layer="bead")
        return Line(Spot(low, across), Spot(high, across), pen=NARROW, layer="bead")


def box_of(x: Span, y: Span) -> Box:
    """The spans as a box on the drawing."""
    return Box(float(x.low), float(y.low), float(x.high), float(y.high))


def rectangle(box: Box, pen: Pen, layer: str) -> Path:
    """The box as a closed outline."""
    return Path(corners_of(box), pen=pen, layer=layer)


def corners_of(box: Box) -> tuple[Spot, ...]:
    """The box's corners, anticlockwise from the lower left."""
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    return Spot(left, bottom), Spot(right, bottom), Spot(right, top), Spot(left, top)


def member_outline(member: Member) -> Path:
    """The member's face, mitres and notches cut."""
    corners = tuple(Spot(float(x), float(y)) for x, y in member.outline)
    return Path(corners, pen=WIDE, layer="outline")


def bead_insets(bead: Bead, closest: float) -> tuple[float, ...]:
    """How far in from an edge the quirk's two lines are drawn, if lines so close can be told apart."""
    quirk, width = float(bead.quirk), float(bead.width)
    if not width or width < closest:
        return ()
    inner = width - quirk
    return (inner, width) if quirk and quirk >= closest and inner >= closest else (width,)


def bead_lines(member: Member, insets: tuple[float, ...]) -> Iterator[Line]:
    """The lines of the beads on a member's edges, up to the mitres and notches where they end."""
    if not insets:
        return
    for edge in member.beads:
        for run in bead_runs(member, edge):
            yield from (run.line(inset) for inset in insets)


def bead_runs(member: Member, edge: Edge) -> Iterator[BeadRun]:
    """The runs of bead along one edge of a member, between its ends and its notches."""
    side = float(member.across.low if edge.low else member.across.high)
    bead = float(member.bead)
    mitred = int(bool(member.low_end.meets))
    at = float(member.along.low) + bead * mitred
    for notch in member.notches:
        if notch.edge is edge:
            flank = int(notch.mouth.low < notch.floor.low)
            if notch.mouth.low > at:
                yield BeadRun(edge, side, at, float(notch.mouth.low), mitred, flank)
            at, mitred = float(notch.mouth.high), int(notch.floor.high < notch.mouth.high)
    last = int(bool(member.high_end.meets))
    end = float(member.along.high) - bead * last
    if end > at:
        yield BeadRun(edge, side, at, end, mitred, last)


def fixing_outlines(member: Member) -> Iterator[Path]:
    """The recesses in a member's back, edges and ends, hidden from the face."""
    for fixing in member.fixings:
        box = recess_box(member, fixing)
        yield rectangle(box, FINE_HIDDEN, "fixing")


def recess_box(member: Member, fixing: Fixing) -> Box:
    """Where a recess lies behind the face."""
    along, across = _reach_along(member, fixing), _reach_across(fixing)
    start, side = float(member.datum), float(member.across.low)
    if member.upright:
        return Box(side + across[0], start + along[0], side + across[1], start + along[1])
    return Box(start + along[0], side + across[0], start + along[1], side + across[1])


def _reach_along(member: Member, fixing: Fixing) -> tuple[float, float]:
    """From where to where along the member, from its datum end."""
    at = float(fixing.at)
    if fixing.edge is not None:
        return _about(at, float(fixing.long))
    if fixing.recess is Recess.KEY_SLOT:
        return _about(at, float(fixing.wide))
    whole = float(member.length)
    deep = float(fixing.deep) if fixing.face is Face.END else float(fixing.wide)
    return (0.0, deep) if at < whole / 2 else (whole - deep, whole)


def _reach_across(fixing: Fixing) -> tuple[float, float]:
    """From where to where across the member, from its left or lower edge."""
    across = float(fixing.across)
    if fixing.edge is None:
        return _about(across, float(fixing.long))
    if fixing.face is Face.BACK:
        return _about(across, float(fixing.wide))
    deep = float(fixing.deep)
    return (across, across + deep) if fixing.edge.low else (across - deep, across)


def _about(middle: float, size: float) -> tuple[float, float]:
    return middle - size / 2, middle + size / 2


def hinge_bar(member: Member, seat: HingeSeat) -> Path:
    """The sign for a hinge: its barrel, as long as the hinge, on the edge it is let into."""
    return Path(corners_of(hinge_box(member, seat)), fill="black", layer="hinge")


def hinge_box(member: Member, seat: HingeSeat) -> Box:
    """Where a hinge's barrel is drawn."""
    side = float(member.across.low if seat.edge.low else member.across.high)
    low, high = _about(float(member.datum + seat.at), float(seat.long))
    return Box(side - BARREL / 2, low, side + BARREL / 2, high)


def front_lines(opening: Opening, closest: float) -> Iterator[Path | Line]:
    """What stands in an opening: its fronts, the way each door swings; a cross where nothing does.

    Where the gap round a front is too small to be seen, its outline is left out, and one line stands
    for the meeting of a pair.
    """
    if opening.kind is Kind.OPEN:
        yield from _crossed_out(box_of(opening.x, opening.y))
    fronts = opening.fronts
    boxes = [front_box(front) for front in fronts]
    gap = boxes[0].left - float(opening.x.low) if boxes else 0.0
    if gap >= closest:
        yield from (rectangle(box, NARROW, "front") for box in boxes)
    elif len(boxes) == 2:
        middle = float(opening.x.middle)
        yield _front_line(middle, float(opening.y.low), middle, float(opening.y.high), NARROW)
    for front, box in zip(fronts, boxes, strict=True):
        yield from _swing(front, box)


def front_box(front: Front) -> Box:
    """Where a front stands in the frame."""
    left, bottom = float(front.corner.x), float(front.corner.y)
    return Box(left, bottom, left + float(front.width), bottom + float(front.height))


def _swing(front: Front, box: Box) -> Iterator[Line]:
    """The dashed lines that meet at the side a door hangs on."""
    if front.hung is None:
        return
    apex, far = (box.left, box.right) if front.hung is Side.LEFT else (box.right, box.left)
    for corner in (box.top, box.bottom):
        yield _front_line(far, corner, apex, (box.bottom + box.top) / 2, HIDDEN)


def _crossed_out(box: Box) -> Iterator[Line]:
    yield _front_line(box.left, box.bottom, box.right, box.top, NARROW)
    yield _front_line(box.left, box.top, box.right, box.bottom, NARROW)


def _front_line(x: float, y: float, to_x: float, to_y: float, pen: Pen) -> Line:
    return Line(Spot(x, y), Spot(to_x, to_y), pen=pen, layer="front")
