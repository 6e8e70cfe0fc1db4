"""The drawing at the top of a piece's page: the piece, its length, and a lane for each kind of position."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import IntEnum

from pinchrod.ground import Mm, show
from pinchrod.papers.marks.sheet import Dimension, Mark, Path, Spot, Words
from pinchrod.papers.pages.bands import Band
from pinchrod.papers.pieces.lanes import (
    Lane,
    Place,
    Ruled,
    drawn_above,
    drawn_below,
    most_places,
    parted,
    places_apart,
)
from pinchrod.papers.pieces.lying import HIGHEST, Lying, drawn_piece, scale_to_fit
from pinchrod.papers.pieces.piece_words import end_name
from pinchrod.papers.pieces.tenons import Tenons
from pinchrod.setting_out import Edge, Face, Member

LEFT, RIGHT = 19.0, 11.0  # mm beside the piece, for the words about its ends
AIR = 2.0  # between the piece and its lanes
NOTE = 2.5
LOWER = 15.0  # mm of paper that a piece's width may take where the page is short of room


class Lanes(IntEnum):
    """Which positions have lanes in a drawing; those that have none stand in the tables all the same."""

    NONE = 0
    NOTCHES = 1  # and shoulders: all but the centres of hinges and fixings
    ALL = 2


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a drawing is made from: the piece on its band, the page's width, and how numbers are shown."""

    lying: Lying
    quirk: Mm
    width: float
    step: Mm
    size: float  # of the lanes' numbers
    lanes: Lanes = Lanes.ALL

    @property
    def member(self) -> Member:
        """The piece."""
        return self.lying.member


def lying_in(member: Member, tenons: Tenons, width: float) -> Lying:
    """The piece at the largest scales at which it has room in a band of that width."""
    long = scale_to_fit(member.length, width - LEFT - RIGHT)
    wide = min(scale_to_fit(member.width, HIGHEST), long)
    return Lying(member, Spot(LEFT, 0.0), long, wide, tenons)


def lower_lying(lying: Lying) -> Lying:
    """The same piece drawn lower, at a smaller scale across."""
    return replace(lying, wide=min(scale_to_fit(lying.member.width, LOWER), lying.long))


def scale_words(drawing: Drawing) -> str:
    """The drawing's scales: `1:10`, and `across 1:2` if that is another."""
    lying = drawing.lying
    across = "" if lying.wide == lying.long else f", across 1:{lying.wide}"
    return f"1:{lying.long}{across}"


def drawing_bands(drawing: Drawing, again: Band) -> tuple[Band, ...]:
    """The piece between the lanes of its two edges, and all further lanes beneath, headed again overleaf."""
    most = most_places(drawing.width, drawing.size)
    upper, lower = ([part for lane in lanes for part in parted(lane, most)] for lanes in _sides(drawing))
    first = _piece_band(drawing, upper[:1], lower[:1])
    return (first, *(_lane_band(drawing, lane, again) for lane in (*upper[1:], *lower[1:])))


def _sides(drawing: Drawing) -> tuple[list[Lane], list[Lane]]:
    """The lanes above the piece and below it: each edge's own, and those of fixings below."""
    lying = drawing.lying
    if drawing.lanes is Lanes.NONE:
        return [], []
    upper = list(_edge_lanes(drawing, lying.upper_edge))
    lower = list(_edge_lanes(drawing, lying.lower_edge))
    return upper, [*lower, *_other_lanes(drawing)]


def _edge_lanes(drawing: Drawing, edge: Edge) -> Iterator[Lane]:
    member, lying = drawing.member, drawing.lying
    places = []
    for notch in member.notches:
        if notch.edge is edge:
            mouth, floor = lying.edge_y(edge, Mm(0)), lying.edge_y(edge, notch.depth)
            for at, y in ((notch.mouth.low, mouth), (notch.floor.low, floor)):
                places.append((at - member.datum, y))
            for at, y in ((notch.floor.high, floor), (notch.mouth.high, mouth)):
                places.append((at - member.datum, y))
    yield from _lane(drawing, f"{edge} edge: notches, mouth and floor", places)
    if drawing.lanes < Lanes.ALL:
        return
    y = lying.edge_y(edge, Mm(0))
    seats = [(seat.at, y) for seat in member.hinge_seats if seat.edge is edge]
    yield from _lane(drawing, f"{edge} edge: centres of hinges", seats)


def _other_lanes(drawing: Drawing) -> Iterator[Lane]:
    member, lying = drawing.member, drawing.lying
    y = lying.corner.y
    tenons = [tenon for tenon in (member.low_end.tenon,) if tenon]
    shoulders = [*tenons, *([member.length - member.high_end.tenon] if member.high_end.tenon else [])]
    yield from _lane(drawing, "shoulders", [(at, y) for at in shoulders])
    if drawing.lanes < Lanes.ALL:
        return
    found = [fixing for fixing in member.fixings if fixing.face is not Face.END]
    for kind in dict.fromkeys((fixing.recess, fixing.face) for fixing in found):
        recess, face = kind
        name = f"centres of {recess}s in the {face}"
        yield from _lane(drawing, name, [(it.at, y) for it in found if (it.recess, it.face) == kind])


def _lane(drawing: Drawing, name: str, places: Iterable[tuple[Mm, float]]) -> Iterator[Lane]:
    """The lane, if there is anything on it."""
    shown = (Place(drawing.lying.x(at), y, show(at, drawing.step)) for at, y in places)
    found = places_apart(place for place in shown if place.text != "0")
    if found:
        yield Lane(name, found)


def _ruled(drawing: Drawing, lane: Lane) -> Ruled:
    return Ruled(lane, LEFT, (0.0, drawing.width), drawing.size)


def _lane_band(drawing: Drawing, lane: Lane, again: Band) -> Band:
    drawn = drawn_below(_ruled(drawing, lane), 0.0, from_wood=False)
    return Band(height=drawn.height + AIR, marks=drawn.marks, head=(again,))


def _piece_band(drawing: Drawing, upper: Iterable[Lane], lower: Iterable[Lane]) -> Band:
    """The piece with a lane on either side, its length above all, and what way it lies."""
    lying = drawing.lying
    marks: list[Mark] = [*drawn_piece(lying, drawing.quirk), *_ends(lying)]
    top, bottom = lying.top + AIR, lying.corner.y - AIR
    for lane in upper:
        drawn = drawn_above(_ruled(drawing, lane), top)
        marks.extend(drawn.marks)
        top += drawn.height + AIR
    for lane in lower:
        drawn = drawn_below(_ruled(drawing, lane), bottom, from_wood=True)
        marks.extend(drawn.marks)
        bottom -= drawn.height + AIR
    marks.append(_whole_length(drawing, lying, top + 1.0))
    top += 1.0 + 2.0 * drawing.size
    note = f"All from the datum end, lying face up. Drawn {scale_words(drawing)}; dashed: not on the face."
    marks.append(Words(Spot(0.0, top + 1.0), note, size=NOTE, layer="dimension"))
    top += 1.0 + 1.5 * NOTE
    return Band(height=top - bottom, marks=tuple(marks), top=top)


def _whole_length(drawing: Drawing, lying: Lying, y: float) -> Dimension:
    text = show(drawing.member.length, drawing.step)
    return Dimension(Spot(LEFT, y), Spot(lying.end, y), text, away=0.0, size=drawing.size)


def _ends(lying: Lying) -> Iterator[Mark]:
    """Which end is the datum's, which edge lies uppermost, and what the far end is."""
    middle = (lying.top + lying.corner.y) / 2
    apart = max(1.5 * NOTE, (lying.top - lying.corner.y - NOTE) / 2)
    near = LEFT - 5.5
    names = (lying.upper_edge.value, "datum", lying.lower_edge.value)
    for name, up in zip(names, (apart, 0.0, -apart), strict=True):
        spot = Spot(near, middle + up - NOTE / 2)
        yield Words(spot, name, size=NOTE, anchor="right", layer="dimension")
    tip = LEFT - 1.5
    arrow = (Spot(tip, middle), Spot(tip - 3.0, middle + 1.5), Spot(tip - 3.0, middle - 1.5))
    yield Path(arrow, pen=None, fill="black", layer="dimension")
    far = Spot(lying.end + 1.5, middle - NOTE / 2)
    yield Words(far, end_name(lying.member, far=True), size=NOTE, layer="dimension")
