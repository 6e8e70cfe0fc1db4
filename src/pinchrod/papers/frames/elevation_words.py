"""The marks and sizes written on an elevation, as large as there is room for."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from pinchrod.ground import Mm, Span, rounded, show
from pinchrod.papers.frames.elevation_lines import BARREL, box_of, recess_box
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.pages.blocks import Block, Said, Stood, first_that_fits, middle_of, said, stood
from pinchrod.setting_out import Member, Opening, Role

LARGE, PLAIN, LEAST = 5.0, 3.5, 2.5
CLOSEST = 0.6  # mm of paper: lines nearer to each other than this run together
CLEAR = 0.5  # mm of paper between words and the lines round them
TIGHT = 0.3  # the same, beside letters on a narrow member


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How an elevation will be seen: mm of wood to each mm of paper, and whether letters may shrink.

    On a page nothing is written smaller than LEAST, so what has no room is left to the tables; in a
    drawing kept at true size letters are made as small as the wood they stand on asks.
    """

    per: float
    letters_shrink: bool = False

    @property
    def closest(self) -> float:
        """How near two lines may lie on the wood; in a drawing at true size, as near as they do."""
        return 0.0 if self.letters_shrink else CLOSEST * self.per

    @property
    def shares(self) -> tuple[float, ...]:
        """Shares of the usual sizes that are tried in turn once nothing else has room."""
        return (0.7, 0.5, 0.35, 0.25, 0.18, 0.12, 0.08) if self.letters_shrink else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """A mark, and what of it is left without the frame's id; both measured."""

    full: Said
    short: Said


def names_of(mark: str, frame_id: str) -> Names:
    """The mark of a member or an opening, long and short: K1-LS and LS, K1.2 and 2."""
    return Names(full=said(mark, bold=True), short=said(mark[len(frame_id) + 1 :], bold=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A mark that has its place; `short` if the frame's id is left off it."""

    stood: Stood
    short: bool
    over_edge: bool = False  # wider than the member it stands on, whose edges it hides


def sight(opening: Opening, step: Mm) -> tuple[str, str]:
    """Sight width and height as printed: the difference of two positions, each rounded."""
    return length_between(opening.x, step), length_between(opening.y, step)


def length_between(span: Span, step: Mm) -> str:
    """How long a span is between its ends as printed, so that parts add up to their whole."""
    return show(rounded(span.high, step) - rounded(span.low, step), step)


def mark_opening(opening: Opening, names: Names, size: str, scale: Scale) -> Marked | None:
    """The opening's mark, its kind and its sight size in the middle of it, or what there is room for."""
    room = _room_in(opening, scale)
    blocks = _opening_blocks(names, str(opening.kind), size)
    block = first_that_fits(_and_smaller(blocks, scale), room, scale.per)
    if block is None:
        return None
    short = block.lines[0][0] is names.short
    return Marked(stood=stood(block, middle_of(room), scale.per), short=short)


def _opening_blocks(names: Names, kind: str, size: str) -> Iterator[Block]:
    """What may be written in an opening, from the fullest and largest to the barest."""
    for mark in (names.full, names.short):
        for lines in ((kind, size), (f"{kind} {size}",)):
            below = tuple((said(line), PLAIN) for line in lines)
            yield from _both_ways(Block(((mark, LARGE), *below)))
        yield from _both_ways(Block(((mark, PLAIN), *below)))
        yield from _both_ways(Block(((mark, LARGE), (said(kind), PLAIN))))
        yield from _both_ways(Block(((mark, PLAIN), (said(size), LEAST))))
    for mark, letters in product((names.full, names.short), (LARGE, PLAIN, LEAST)):
        yield from _both_ways(Block(((mark, letters),)))


def _both_ways(block: Block) -> tuple[Block, Block]:
    return block, block.turned()


def _and_smaller(blocks: Iterable[Block], scale: Scale) -> Iterator[Block]:
    """The blocks, and then all of them again with smaller and smaller letters where that may be."""
    tried: list[Block] = []
    for block in blocks:
        tried.append(block)
        yield block
    for share in scale.shares:
        yield from (block.sized(share) for block in tried)


def _room_in(opening: Opening, scale: Scale) -> Box:
    """The part of an opening that words may fill, clear of hinges and of the fronts' outlines.

    In a drawing whose outlines stay whole, the words of a pair stand on its left leaf.
    """
    box, clear = box_of(opening.x, opening.y), CLEAR * scale.per
    if not opening.fronts:
        return box.grown(-clear)
    first = opening.fronts[0]
    gap = float(first.corner.x - opening.x.low)
    drawn = gap if gap >= scale.closest else 0.0
    sides = max(drawn, BARREL / 2 if first.hung else 0.0) + clear
    # On a page the meeting line is interrupted by the words; a drawing's fronts stay closed outlines.
    leaf = scale.letters_shrink and len(opening.fronts) == 2
    right = float(first.corner.x + first.width) - clear if leaf else box.right - sides
    return Box(box.left + sides, box.bottom + drawn + clear, right, box.top - drawn - clear)


def mark_member(member: Member, names: Names, scale: Scale) -> Marked | None:
    """The member's mark, read along it, in its longest stretch free of joints.

    It stands between the beads if it can, else over them, else between them but over hidden recesses.
    """
    free, ends = _free_stretch(member), (float(member.along.low), float(member.along.high))
    flat, whole = _between_beads(member), (float(member.across.low), float(member.across.high))
    places = ((free, flat), (free, whole), (ends, flat))
    rooms = [_room_on(member, along, across, scale.per) for along, across in places]
    for block, room in _member_blocks(member, names, rooms, scale):
        if first_that_fits((block,), room, scale.per):
            short = block.lines[0][0] is names.short
            return Marked(stood=stood(block, middle_of(room), scale.per), short=short)
    return None


def _member_blocks(
    member: Member, names: Names, rooms: list[Box], scale: Scale
) -> Iterator[tuple[Block, Box]]:
    """What may be written on a member and where: over its beads only if letters may not shrink, or last."""
    flat, whole, over_recesses = rooms
    sizes = (LARGE, PLAIN, LEAST, *(LEAST * share for share in scale.shares))
    if scale.letters_shrink:
        wanted = [(size, room) for room in rooms for size in sizes]
    else:
        wanted = [(LARGE, flat), (PLAIN, flat), (PLAIN, whole), (LEAST, flat), (LEAST, whole)]
        wanted.extend((size, over_recesses) for size in (PLAIN, LEAST))
    for name, (size, room) in product((names.full, names.short), wanted):
        yield _along(member, name, size), room


def _along(member: Member, name: Said, size: float) -> Block:
    return Block(((name, size),), 90 if member.upright else 0)


def _room_on(member: Member, along: tuple[float, float], across: tuple[float, float], per: float) -> Box:
    ends, sides = CLEAR * per, TIGHT * per
    low, high, left, right = along[0] + ends, along[1] - ends, across[0] + sides, across[1] - sides
    return Box(left, low, right, high) if member.upright else Box(low, left, high, right)


def _between_beads(member: Member) -> tuple[float, float]:
    """From where to where across the member nothing is worked on its face."""
    low, high = float(member.across.low), float(member.across.high)
    worked = {edge: float(member.bead) for edge in member.beads}
    for seat in member.hinge_seats:
        worked[seat.edge] = max(worked.get(seat.edge, 0.0), BARREL / 2)
    return low + worked.get(member.low_edge, 0.0), high - worked.get(member.high_edge, 0.0)


def _free_stretch(member: Member) -> tuple[float, float]:
    """The longest stretch of the member without a notch, a recess or a hinge."""
    start = float(member.along.low)
    busy = [(start, start), (float(member.along.high),) * 2]
    busy.extend((float(notch.mouth.low), float(notch.mouth.high)) for notch in member.notches)
    for fixing in member.fixings:
        box = recess_box(member, fixing)
        busy.append((box.bottom, box.top) if member.upright else (box.left, box.right))
    datum = float(member.datum)
    for seat in member.hinge_seats:
        half = float(seat.long) / 2
        busy.append((datum + float(seat.at) - half, datum + float(seat.at) + half))
    return _longest_gap(sorted(busy))


def _longest_gap(busy: list[tuple[float, float]]) -> tuple[float, float]:
    best, reached = (busy[0][0], busy[0][0]), busy[0][1]
    for low, high in busy:
        if low - reached > best[1] - best[0]:
            best = reached, low
        reached = max(reached, high)
    return best


def mark_over_edge(member: Member, names: Names, scale: Scale, taken: Sequence[Box]) -> Marked | None:
    """The mark of a member narrower than its letters, standing over its edges if it meets nothing taken.

    On an outer member it stands over the inner edge alone, so that it does not leave the frame.
    """
    along = _free_stretch(member)
    for size, name in product((PLAIN, LEAST), (names.full, names.short)):
        block = _along(member, name, size)
        across = _across_middle(member, (block.deep / 2 + TIGHT) * scale.per)
        middle = middle_of(_room_on(member, along, (across, across), 0.0))
        found = stood(block, middle, scale.per)
        has_room = block.long * scale.per <= along[1] - along[0]
        if has_room and not any(found.box.grown(CLEAR * scale.per).meets(box) for box in taken):
            return Marked(stood=found, short=name is names.short, over_edge=True)
    return None


def _across_middle(member: Member, half: float) -> float:
    low, high = float(member.across.low), float(member.across.high)
    match member.role:
        case Role.LEFT_STILE | Role.BOTTOM_RAIL:
            return low + half
        case Role.RIGHT_STILE | Role.TOP_RAIL:
            return high - half
        case _:
            return (low + high) / 2
