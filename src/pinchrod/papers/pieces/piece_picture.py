"""A small picture of a piece, to know it by: not to scale.

It lies as on the bench, seen from its face: the datum end to the left, so that an upright's left edge
lies uppermost. Pieces too long for the picture are drawn shorter, their notches no narrower than can be seen.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pinchrod.ground import Mm, Span
from pinchrod.job import Kind, Side
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import NARROW, Line, Mark, Path, Pen, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.setting_out import DoorPart, DoorPartRole, Edge, Front, Member, Notch

DATUM = Pen(0.9)
PAST = 0.8  # how far the datum's bar stands out beyond the piece
DEEPEST = Mm("0.16")  # of a notch or bead, in widths of the piece
SHORTEST = 2.5  # widths: a shorter piece is drawn as long as that
HINGE = Pen(0.9)
LEAST_MOUTH = 2  # mm, of a notch
LETTERS = 2.5
TOP = "top"
FACE = "face"
HEAD = 1.1  # half the width of an arrow's head, and 2/3 of its length
ARROW = 4.0  # room for an arrow, and its length where it lies
STUB = 2.2  # length of a tenon
GAP = 1.0

Made = Member | Front | DoorPart


def piece_picture(made: Made, room: Box) -> tuple[Mark, ...]:
    """The picture in its room: the piece, a bar at its datum end, and an arrow to the frame's top."""
    notes = GAP + ARROW + words_width(TOP, LETTERS) + 0.6
    start, end = room.left + DATUM.width, room.right - notes
    high = room.top - room.bottom - 2 * PAST
    bottom = room.bottom + PAST
    if isinstance(made, Member) and made.low_end.tenon:
        start += STUB
    if isinstance(made, Member) and made.high_end.tenon:
        end -= STUB
    long, wide = _size(made)
    length = min(end - start, high * max(SHORTEST, float(long / wide)))
    box = Box(start, bottom, start + length, bottom + high)
    return (*_piece(made, box), *_datum(room), *_face(made, box), *_arrow(made, room))


def _piece(made: Made, box: Box) -> Iterator[Mark]:
    match made:
        case Member():
            yield from _member(made, box)
        case Front():
            yield _rectangle(box)
            yield from _hinges(made, box)
        case DoorPart():
            yield _rectangle(box)


def _hinges(front: Front, box: Box) -> Iterator[Mark]:
    """A short bar at each hinge of a door, which lies with its left side uppermost."""
    scale = (box.right - box.left) / float(front.height)
    y, inward = (box.top, -PAST) if front.hung is Side.LEFT else (box.bottom, PAST)
    for centre in front.hinges:
        x = box.left + float(centre) * scale
        yield Line(Spot(x, y), Spot(x, y + inward), pen=HINGE)


def _size(made: Made) -> tuple[Mm, Mm]:
    match made:
        case Front():
            return (made.height, made.width) if stands(made) else (made.width, made.height)
        case _:
            return made.length, made.width


def stands(made: Made) -> bool:
    """Whether the piece stands in its frame or door: it lies in the picture with its top to the right."""
    match made:
        case Member():
            return made.upright
        case Front():
            return made.kind is not Kind.DRAWER
        case DoorPart():
            return made.role not in (DoorPartRole.TOP_RAIL, DoorPartRole.BOTTOM_RAIL)


def _rectangle(box: Box) -> Path:
    corners = (Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(box.right, box.top))
    return Path((*corners, Spot(box.left, box.top)))


def _datum(room: Box) -> Iterator[Mark]:
    x = room.left + DATUM.width / 2
    yield Line(Spot(x, room.bottom), Spot(x, room.top), pen=DATUM)


def _face(made: Made, box: Box) -> Iterator[Mark]:
    """The word on the face, where there is room for it between beads and notches."""
    plain = _plain_face(made, box)
    width = words_width(FACE, LETTERS)
    if plain.top - plain.bottom > LETTERS + GAP and plain.right - plain.left > width + 2 * GAP:
        middle = Spot((plain.left + plain.right) / 2, (plain.bottom + plain.top - LETTERS) / 2)
        yield Words(middle, FACE, size=LETTERS, anchor="middle")


def _plain_face(made: Made, box: Box) -> Box:
    """The face between its beads, or its hinges."""
    if not isinstance(made, Member):
        hinged = PAST if isinstance(made, Front) and made.hinges else 0.0
        return Box(box.left, box.bottom + hinged, box.right, box.top - hinged)
    depth = float(min(made.bead / made.width, DEEPEST)) * (box.top - box.bottom)
    beaded = [edge in made.beads for edge in (made.low_edge, made.high_edge)]
    upper, lower = beaded if made.upright else beaded[::-1]
    return Box(box.left, box.bottom + lower * depth, box.right, box.top - upper * depth)


def _arrow(made: Made, room: Box) -> Iterator[Mark]:
    """An arrow towards the top of the frame or door, and the word."""
    word = words_width(TOP, LETTERS)
    middle = (room.bottom + room.top) / 2
    left = room.right - word - 0.6 - ARROW
    yield Words(Spot(room.right - word, middle - LETTERS / 2), TOP, size=LETTERS)
    if stands(made):
        tail, tip = Spot(left, middle), Spot(left + ARROW, middle)
        back = (Spot(tip.x - 1.5 * HEAD, middle + HEAD), Spot(tip.x - 1.5 * HEAD, middle - HEAD))
    else:
        x = left + ARROW / 2
        tail, tip = Spot(x, room.bottom), Spot(x, room.top)
        back = (Spot(x - HEAD, tip.y - 1.5 * HEAD), Spot(x + HEAD, tip.y - 1.5 * HEAD))
    yield Line(tail, Spot((back[0].x + back[1].x) / 2, (back[0].y + back[1].y) / 2), pen=Pen(0.5))
    yield Path((tip, *back), pen=None, fill="black")


def _member(member: Member, box: Box) -> Iterator[Mark]:
    """A member's outline and beads, and stubs for its tenons."""
    small = _shrunk(member, box)
    lie = _Lie(box, upright=member.upright)
    yield Path(tuple(lie.spot(*point) for point in small.outline))
    for edge in small.beads:
        for span in _beads(small, edge):
            depth = small.bead if edge.low else small.width - small.bead
            yield Line(lie.at(span.low, depth), lie.at(span.high, depth), pen=NARROW)
    yield from _stubs(member, box)


def _stubs(member: Member, box: Box) -> Iterator[Mark]:
    low, high = (2 * box.bottom + box.top) / 3, (box.bottom + 2 * box.top) / 3
    if member.low_end.tenon:
        yield _rectangle(Box(box.left - STUB, low, box.left, high))
    if member.high_end.tenon:
        yield _rectangle(Box(box.right, low, box.right + STUB, high))


@dataclass(frozen=True, slots=True)
class _Lie:
    """How a shrunk member lies on the paper."""

    box: Box
    upright: bool

    def spot(self, x: Mm, y: Mm) -> Spot:
        """Where a point of its face lies, an upright turned to the right."""
        return self.at(y, x) if self.upright else self.at(x, y)

    def at(self, along: Mm, across: Mm) -> Spot:
        """The same, said along and across the piece."""
        y = self.box.top - float(across) if self.upright else self.box.bottom + float(across)
        return Spot(self.box.left + float(along), y)


def _shrunk(member: Member, box: Box) -> Member:
    """The member in millimetres of the paper: a member still, so that its outline is drawn as any other."""
    long, wide = Mm(box.right - box.left), Mm(box.top - box.bottom)
    bead = min(member.bead / member.width, DEEPEST) * wide
    flat = replace(member, along=Span(Mm(0), long), across=Span(Mm(0), wide), bead=bead)
    notches = [
        notch
        for edge in (member.low_edge, member.high_edge)
        for notch in _notches([each for each in member.notches if each.edge == edge], member, flat)
    ]
    return replace(flat, notches=tuple(notches))


def _notches(notches: Sequence[Notch], member: Member, small: Member) -> Sequence[Notch]:
    """One edge's notches on the paper: no narrower than can be seen, unless they would meet each other."""
    for least in (Mm(LEAST_MOUTH), Mm(0)):
        placed = [_notch(notch, member, small, least) for notch in notches]
        if all(one.mouth.high < other.mouth.low for one, other in pairwise(placed)):
            break
    return placed if notches else []


def _notch(notch: Notch, member: Member, small: Member, least: Mm) -> Notch:
    scale = small.along.length / member.along.length
    low, high = ((place - member.along.low) * scale for place in (notch.mouth.low, notch.mouth.high))
    short = max(least - (high - low), Mm(0)) / 2
    low = low if low <= 0 else max(low - short, Mm(0))
    high = high if high >= small.along.high else min(high + short, small.along.high)
    flank = min(small.bead, (high - low) / 3)
    floor = Span(
        low if notch.mouth.low == notch.floor.low else low + flank,
        high if notch.mouth.high == notch.floor.high else high - flank,
    )
    return replace(notch, mouth=Span(low, high), floor=floor, depth=small.bead)


def _beads(small: Member, edge: Edge) -> Iterator[Span]:
    """Where a bead runs along an edge: from notch to notch."""
    floors = [notch.floor for notch in small.notches if notch.edge == edge]
    places = [
        small.along.low,
        *(place for floor in floors for place in (floor.low, floor.high)),
        small.along.high,
    ]
    return (Span(low, high) for low, high in zip(places[::2], places[1::2], strict=True) if low < high)
