"""The picture of a board as it would be chalked: cuts, sticks with their marks, faults, offcuts to keep.

Saw cuts are black and as wide as the saw makes them. Sticks are grey and named; what is left white is waste,
but for offcuts worth keeping, which are outlined and named. A fault is hatched; one that only the back shows
is hatched with broken lines the other way. The grey alone means nothing: a stick is what stands between cuts
and has a mark.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm, Span, show
from pinchrod.papers.boards.board_lying import BoardLying
from pinchrod.papers.boards.hatching import LAYER as FAULT
from pinchrod.papers.boards.hatching import hatched
from pinchrod.papers.boards.stick_words import lettered_size, stick_words, words_in_middle
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import CENTRE, HIDDEN, NARROW, WIDE, Fill, Line, Mark, Path, Pen, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import Band
from pinchrod.timber import Question, Rip, RippedBoard

RULE = 500  # mm of board from number to number under it
NUMBER = 2.5
UNDER = 4.6  # mm that the numbers under a lane take
BETWEEN = 2.0  # mm of white under a lane
APART = 1.6  # mm from line to line of a fault, along the board
BACK = Pen(0.25, (1.2, 0.6))
LEAST_CUT = 0.25  # mm: no saw cut is drawn narrower
BENDS = 12  # straight pieces that a sprung edge is drawn with
LABEL_GAP = 1.5  # mm between a rip's words and the board


@dataclass(frozen=True, slots=True)
class Chalked:
    """A board to be drawn, the saws it is cut with, and the step to which positions are shown."""

    lying: BoardLying
    question: Question
    step: Mm


def lane_bands(chalked: Chalked) -> tuple[Band, ...]:
    """The board lane by lane; a lane is never split where one page ends."""
    lying = chalked.lying
    height = lane_height(lying)
    return tuple(Band(height=height, marks=tuple(_lane(chalked, lane))) for lane in lying.lanes)


def lane_height(lying: BoardLying) -> float:
    """How high a lane is with the numbers under it."""
    return lying.high + UNDER + BETWEEN


def label_size(sawn: RippedBoard, scale: int) -> float:
    """How high letters may be at that scale for every strip to be written on; 0: none are large enough."""
    sizes = (lettered_size("0", float(rip.fence) / scale) for rip in sawn.rips if rip.sticks)
    return min(sizes, default=0.0)


def label_of(number: int, rip: Rip, step: Mm) -> str:
    """What is said left of a rip: its number, and where it lies from the sprung edge."""
    return f"{number}: {show(rip.band.low, step)}–{show(rip.band.high, step)}"


def _lane(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    yield from _sticks(chalked, lane)
    yield from _faults(chalked, lane)
    yield from _cuts(chalked, lane)
    yield from _outline(chalked.lying, lane)
    yield from _names(chalked, lane)
    yield from _labels(chalked, lane)
    yield from _rule(chalked, lane)


def _sticks(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    for stick in chalked.lying.sawn.sticks:
        along, across = (
            Span(stick.start, stick.start + stick.length),
            Span(stick.offset, stick.offset + stick.width),
        )
        box = chalked.lying.box(lane, along, across)
        if box:
            yield _rectangle(box, fill="tint", layer="stick")


def _faults(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    whole = Span(Mm(0), chalked.lying.board.width)
    for fault in chalked.lying.board.faults:
        box = chalked.lying.box(lane, fault.along, fault.across or whole)
        if box and fault.back_only:
            yield _rectangle(box, pen=BACK, layer=FAULT)
            yield from hatched(box, 2 * APART, BACK, falling=True)
        elif box:
            yield _rectangle(box, pen=NARROW, layer=FAULT)
            yield from hatched(box, APART, NARROW)


def _cuts(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    """Every saw cut: the sprung edge straightened, along each rip, and at the ends of each stick."""
    lying, machines = chalked.lying, chalked.question.machines
    kerf, whole = machines.rip_saw.kerf, Span(Mm(0), lying.board.length)
    sides = [lying.sawn.first_edge, *(side for rip in lying.sawn.rips for side in _sides_of(rip, kerf))]
    for side in dict.fromkeys(sides):
        cut = Span(max(side - kerf, Mm(0)), min(side, lying.board.width))
        yield from _cut(lying.box(lane, whole, cut))
    for stick in lying.sawn.sticks:
        band, cross = Span(stick.offset, stick.offset + stick.width), machines.crosscut_saw.kerf
        for low in (stick.start - cross, stick.start + stick.length):
            if low + cross > 0 and low < lying.board.length:
                yield from _cut(lying.box(lane, Span(low, low + cross), band))


def _sides_of(rip: Rip, kerf: Mm) -> tuple[Mm, Mm]:
    """Where the cuts on both sides of a rip end, counted from the sprung edge."""
    return rip.band.low, rip.band.high + kerf


def _cut(box: Box | None) -> Iterator[Mark]:
    if box is None or box.top <= box.bottom:
        return
    wide, high = max(box.right - box.left, LEAST_CUT), max(box.top - box.bottom, LEAST_CUT)
    yield _rectangle(Box(box.left, box.top - high, box.left + wide, box.top), fill="black", layer="cut")


def _outline(lying: BoardLying, lane: Span) -> Iterator[Mark]:
    """The board's own edges, the sprung one hollow, and its ends; a broken line where the lane goes on."""
    edge = tuple(Spot(*spot) for spot in _sprung(lying, lane))
    left, right, bottom = edge[0].x, edge[-1].x, -lying.high
    yield Path(edge, closed=False, pen=WIDE)
    yield Line(Spot(left, bottom), Spot(right, bottom), pen=WIDE)
    for x, at, end in ((left, lane.low, Mm(0)), (right, lane.high, lying.board.length)):
        yield Line(Spot(x, 0.0), Spot(x, bottom), pen=WIDE if at == end else HIDDEN)


def _sprung(lying: BoardLying, lane: Span) -> Iterator[tuple[float, float]]:
    """The sprung edge of a lane, hollow: as far in as its spring half-way along the board."""
    deep, length = lying.on_paper(lying.board.spring), float(lying.board.length)
    for place in range(BENDS + 1):
        along = float(lane.low) + float(lane.length) * place / BENDS
        share = 2 * along / length - 1
        yield lying.left + (along - float(lane.low)) / lying.scale, -deep * (1 - share * share)


def _names(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    lying = chalked.lying
    for stick in lying.sawn.sticks:
        along, across = (
            Span(stick.start, stick.start + stick.length),
            Span(stick.offset, stick.offset + stick.width),
        )
        box = lying.box(lane, along, across)
        if box:
            yield from stick_words(stick, lane, box, chalked.step, plates=bool(lying.board.faults))
    for offcut in lying.kept:
        box = lying.box(lane, offcut.along, offcut.across)
        if box:
            yield _rectangle(box.grown(-0.7), pen=CENTRE, layer="offcut")
            yield from words_in_middle(f"keep {offcut.board.name}", box, fill="white")


def _labels(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    """What is said left of each rip: number and place beside the first lane, the number beside all others."""
    lying = chalked.lying
    size = label_size(lying.sawn, lying.scale)
    for number, rip in enumerate(lying.sawn.rips, start=1):
        if rip.sticks and size:
            text = label_of(number, rip, chalked.step) if lane.low == 0 else str(number)
            y = -lying.on_paper(rip.band.middle) - size / 2
            yield Words(Spot(lying.left - LABEL_GAP, y), text, size=size, anchor="right", layer="dimension")


def label_room(sawn: RippedBoard, size: float, step: Mm) -> float:
    """How much room the words left of a board take."""
    labels = (label_of(number, rip, step) for number, rip in enumerate(sawn.rips, start=1) if rip.sticks)
    return max(words_width(label, size) for label in labels) + LABEL_GAP


def _rule(chalked: Chalked, lane: Span) -> Iterator[Mark]:
    """Numbers under the lane, every so often and at its ends, from the datum end."""
    lying = chalked.lying
    places = [place for place in range(0, int(lying.board.length) + 1, RULE) if lane.low < place < lane.high]
    stands = [lane.low, *map(Mm, places), lane.high]
    wide = [words_width(show(at, chalked.step), NUMBER) for at in stands]
    bottom = -lying.high
    last = stands[-1]
    free = -float("inf")
    for at, width in zip(stands, wide, strict=True):
        x = lying.left + lying.on_paper(at - lane.low)
        end = lying.left + lying.on_paper(last - lane.low) - wide[-1] / 2 - 1.0
        if at != last and (x - width / 2 < free or x + width / 2 > end):
            continue
        free = x + width / 2 + 1.0
        yield Line(Spot(x, bottom - 0.4), Spot(x, bottom - 1.6), pen=NARROW, layer="dimension")
        spot = Spot(x, bottom - 1.9 - NUMBER)
        yield Words(spot, show(at, chalked.step), size=NUMBER, anchor="middle", layer="dimension")


def _rectangle(box: Box, *, pen: Pen | None = None, fill: Fill | None = None, layer: str) -> Path:
    corners = (Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(box.right, box.top))
    return Path((*corners, Spot(box.left, box.top)), pen=pen, fill=fill, layer=layer)
