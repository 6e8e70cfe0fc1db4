"""A fault found in the stick in hand: what it still gives, and where the members go that it cannot."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace
from functools import partial
from itertools import count

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Piece, Run, Strip
from pinchrod.timber.clear import clear_runs, faults_that_count, touched
from pinchrod.timber.joiner import answer, cheapest_wood_first, place
from pinchrod.timber.loose import Loose, unit_of
from pinchrod.timber.records import Board, Breakout, Fault, Question, Stick
from pinchrod.timber.rooms import Room, beside, empty_room, rooms
from pinchrod.timber.settle import Choice, settle
from pinchrod.timber.sizes import kind_of

FEW = 7  # members settled by trying every way
EXCHANGES = 40  # sticks tried, those with the most room first


@dataclass(frozen=True, slots=True, kw_only=True)
class Recut:
    """The question with the fault now known, the break-out around it, and the price of boards newly taken."""

    question: Question
    breakout: Breakout
    dearer: Mm


def recut(
    question: Question, breakout: Breakout, *, stick: str, fault: Span, done: Set[str] = frozenset()
) -> Recut:
    """The break-out when a fault shows up in a stick, measured from its start. Nothing done moves.

    The displaced members go into the stick in hand on both sides of the fault, then into sticks not yet cut,
    behind them, or into a new strip of a board taken; what is left goes to the cheapest boards that take it.
    No other stick moves, but one not yet cut may change members with the stick in hand if that saves every
    new board. Where the displaced members are few, every way is tried.
    """
    in_hand = next(one for one in breakout.sticks if one.name == stick)
    known = _with_fault(question, in_hand, fault)
    bench = _bench(known, breakout, in_hand, done)
    short = _settled(bench, _pieces(question, in_hand), in_hand)
    found = answer(known, bench.sticks(), (*breakout.short, *short), bound=breakout.bound)
    bound = Mm(0) if short else min(breakout.bound, found.cost)
    sticks = tuple(_renamed(found.sticks, breakout, in_hand))
    before = {one.board for one in breakout.sticks}
    new = {one.board for one in sticks} - before
    given_up = breakout.given_up if any(one.name == stick for one in sticks) else (*breakout.given_up, stick)
    return Recut(
        question=_as_sawn(known, in_hand, sticks),
        breakout=replace(found, sticks=sticks, bound=bound, given_up=given_up),
        dearer=sum((board.price for board in known.boards if board.name in new), Mm(0)),
    )


def _settled(bench: Bench, pieces: Sequence[Piece], in_hand: Stick) -> list[str]:
    """Mark the displaced members on the bench; the marks of those that find no wood."""
    hand = _runs_of(bench, in_hand)
    if len(pieces) > FEW:
        pieces = _not_kept(bench, pieces, hand)
    if len(pieces) > FEW:
        pieces = _by_eye(bench, pieces)
    few = [pieces[at : at + FEW] for at in range(0, len(pieces), FEW)]
    return [mark for some in few for mark in _every_way(bench, some, hand)]


def _every_way(bench: Bench, pieces: Sequence[Piece], hand: Sequence[Run]) -> list[str]:
    """Mark a few members where it costs least; the marks of those that find no wood."""
    kind = kind_of(pieces[0].wanted)
    loose = Loose(bench.question, pieces, unit_of(bench.question, kind))
    least = min(wanted.length for wanted in bench.question.wanted if kind_of(wanted) == kind)
    standing = [room for room in rooms(bench, kind) if room.grows or room.most >= least]
    standing.sort(key=lambda room: (room.run not in hand, room.left))
    left, settled = settle(loose, _everywhere(bench, loose, standing, hand))
    if (left or settled.value.price) and _exchanged(bench, pieces, standing, hand):
        return []
    settled.mark()
    return [piece.mark for piece in loose.of(left)]


def _everywhere(
    bench: Bench, loose: Loose, standing: Sequence[Room], hand: Sequence[Run]
) -> Iterator[Choice]:
    """Where members may go: the stick in hand, room in strips, boards taken, new boards from the cheapest."""
    yield from _in_strips(bench, loose, standing, hand)
    boards = bench.question.boards
    for board in boards:
        if board.name in bench.strips:
            yield _ripped(bench, loose, board, Mm(0))
    for board in sorted(boards, key=lambda board: board.price):
        if board.name not in bench.strips:
            yield _ripped(bench, loose, board, board.price)


def _in_strips(bench: Bench, loose: Loose, standing: Sequence[Room], hand: Sequence[Run]) -> Iterator[Choice]:
    """The rooms in strips, the stick in hand first; of rooms that take the same, as many as can be used."""
    alike: dict[tuple[int, ...], int] = {}
    for room in standing:
        in_hand, takes = room.run in hand, room.takes(bench.question, loose)
        alike[tuple(takes)] = alike.get(tuple(takes), 0) + (not in_hand)
        if takes and alike[tuple(takes)] <= len(loose.pieces):
            put = partial(room.put, bench.question, loose)
            yield Choice(takes=dict.fromkeys(takes, put), in_hand=in_hand)


def _ripped(bench: Bench, loose: Loose, board: Board, price: Mm) -> Choice:
    """New strips of a board."""
    strips = beside(bench, board, loose.kind)
    takes = strips.takes(bench.question, loose)
    return Choice(
        takes={one: partial(strips.put, bench, loose, spots) for one, spots in takes.items()},
        price=price,
        ripped=1,
    )


def _exchanged(bench: Bench, pieces: Sequence[Piece], standing: Sequence[Room], hand: Sequence[Run]) -> bool:
    """Whether a stick not yet cut changes members with the stick in hand, so that no new board is needed.

    It never loses all its members: had they room elsewhere, the displaced ones would have had it.
    """
    may = [room for room in standing if room.grows and room.run not in hand and len(room.run.sticks) == 1]
    unit = unit_of(bench.question, kind_of(pieces[0].wanted))
    for room in sorted(may, key=lambda room: -room.left)[:EXCHANGES]:
        stick, empty = room.run.sticks[0], empty_room(bench.question, room.board, room.run)
        both = _longest_first([*pieces, *stick.pieces])
        others = [one for one in standing if one is not room and one.most >= both[-1].wanted.length]
        if len(both) > FEW or not _worth_a_try(pieces, stick, empty, others):
            continue
        loose = Loose(bench.question, both, unit)
        put = partial(empty.put, bench.question, loose)
        there = Choice(takes=dict.fromkeys(empty.takes(bench.question, loose), put))
        left, settled = settle(loose, [there, *_in_strips(bench, loose, others, hand)])
        if settled.marks and not left:
            room.run.sticks.clear()
            settled.mark()
            room.run.sticks[0].name = stick.name
            return True
    return False


def _worth_a_try(pieces: Sequence[Piece], stick: Marked, empty: Room, others: Sequence[Room]) -> bool:
    """Whether a displaced member could come in the place of one that could go elsewhere."""
    comes = min(piece.wanted.length for piece in pieces) <= empty.most
    goes = min(piece.wanted.length for piece in stick.pieces)
    return comes and any(goes <= room.most for room in others)


def _not_kept(bench: Bench, pieces: Sequence[Piece], hand: Sequence[Run]) -> list[Piece]:
    """Members of a long stick kept in it by eye, longest first; those it has no more room for."""
    left = list(pieces)
    for piece in pieces:
        loose = Loose(bench.question, [piece], unit_of(bench.question, kind_of(piece.wanted)))
        for room in rooms(bench, loose.kind):
            if room.run in hand and room.takes(bench.question, loose):
                room.put(bench.question, loose, loose.whole)
                left.remove(piece)
                break
    return left


def _by_eye(bench: Bench, pieces: Sequence[Piece]) -> list[Piece]:
    """Those left when many members are settled by eye: on boards taken, and while they are many on new ones.

    They go on the cheapest new board that takes them all, so that it is never dearer than that.
    """
    boards = bench.question.boards
    left = place(bench, pieces, [board for board in boards if board.name in bench.strips])
    fresh = [board for board in boards if board.name not in bench.strips]
    for board in sorted(fresh, key=lambda board: board.price) if len(left) > FEW else ():
        alone = Bench(bench.question)
        if not place(alone, pieces, [board]):
            bench.strips |= {name: _only(strips, left) for name, strips in alone.strips.items()}
            return []
    rest = [piece for piece in pieces if piece.mark in left]
    if len(rest) > FEW:
        left = place(bench, rest, cheapest_wood_first(fresh))
    return [piece for piece in rest if piece.mark in left]


def _only(strips: Sequence[Strip], marks: Sequence[str]) -> list[Strip]:
    """Strips with no other members marked on them."""
    for run in (run for strip in strips for run in strip.runs):
        for stick in run.sticks:
            stick.pieces = [piece for piece in stick.pieces if piece.mark in marks]
        run.sticks = [stick for stick in run.sticks if stick.pieces]
    return list(strips)


def _longest_first(pieces: Sequence[Piece]) -> list[Piece]:
    return sorted(pieces, key=lambda piece: -piece.wanted.length)


def _runs_of(bench: Bench, in_hand: Stick) -> list[Run]:
    """What is clear of the stick in hand."""
    along = Span(in_hand.start, in_hand.start + in_hand.length)
    return [
        run
        for strip in bench.strips[in_hand.board]
        for run in (strip.runs if strip.band.low == in_hand.offset else ())
        if run.span.meets(along)
    ]


def _renamed(sticks: Sequence[Stick], before: Breakout, in_hand: Stick) -> Iterator[Stick]:
    """New sticks by numbers above all that ever stood; the first out of the stick in hand keeps its name.

    A stick that was given up still lies about with its mark, so no other may come to bear it.
    """
    used = {stick.name for stick in before.sticks}
    stood = {*used, *before.given_up}
    numbers = [int(name[1:]) for name in stood if name.startswith("S") and name[1:].isdecimal()]
    fresh = (f"S{number}" for number in count(max(numbers, default=0) + 1))
    kept = next((stick for stick in sticks if _out_of(stick, in_hand)), None)
    for stick in sticks:
        if stick is kept:
            yield replace(stick, name=in_hand.name)
        else:
            new = stick.name not in used or stick.name == in_hand.name
            yield replace(stick, name=next(fresh)) if new else stick


def _out_of(stick: Stick, other: Stick) -> bool:
    """Whether a stick lies in the wood of another."""
    same = (stick.board, stick.offset, stick.width) == (other.board, other.offset, other.width)
    return same and other.start <= stick.start < other.start + other.length


def _with_fault(question: Question, stick: Stick, fault: Span) -> Question:
    found = Fault(along=fault.moved(stick.start), across=Span(stick.offset, stick.offset + stick.width))
    boards = (
        replace(board, faults=(*board.faults, found)) if board.name == stick.board else board
        for board in question.boards
    )
    return replace(question, boards=tuple(boards))


def _as_sawn(question: Question, in_hand: Stick, sticks: Sequence[Stick]) -> Question:
    """The question with the saw cuts round the stick in hand: no stick may lie across one, now or later.

    The cuts along its strip are told by the sticks in it, as long as there are any.
    """
    band = Span(in_hand.offset, in_hand.offset + in_hand.width)
    crosscut, rip = question.machines.crosscut_saw.kerf, question.machines.rip_saw.kerf
    end, board = (
        in_hand.start + in_hand.length,
        next(one for one in question.boards if one.name == in_hand.board),
    )
    cuts = [(Span(in_hand.start - crosscut, in_hand.start), band), (Span(end, end + crosscut), band)]
    if not any((one.board, one.offset, one.width) == (board.name, band.low, band.length) for one in sticks):
        whole = Span(Mm(0), board.length)
        cuts += [(whole, Span(band.low - rip, band.low)), (whole, Span(band.high, band.high + rip))]
    sawn = [_on(board, along, across) for along, across in cuts]
    faults = (*board.faults, *(cut for cut in sawn if cut is not None and cut not in board.faults))
    boards = (replace(one, faults=faults) if one is board else one for one in question.boards)
    return replace(question, boards=tuple(boards))


def _on(board: Board, along: Span, across: Span) -> Fault | None:
    """A saw cut as a fault of the board, as far as it lies on it."""
    along = Span(max(along.low, Mm(0)), min(along.high, board.length))
    across = Span(max(across.low, Mm(0)), min(across.high, board.width))
    on_it = along.low < along.high and across.low < across.high
    return Fault(along=along, across=across) if on_it else None


def _pieces(question: Question, stick: Stick) -> list[Piece]:
    wanted = question.by_mark()
    pieces = [Piece(mark, wanted[mark]) for mark in stick.members]
    return sorted(pieces, key=lambda piece: -piece.wanted.length)


def _bench(question: Question, breakout: Breakout, in_hand: Stick, done: Set[str]) -> Bench:
    """The bench as it stands: every stick where it is, the stick in hand as clear wood around its fault."""
    bench = Bench(question)
    wanted = question.by_mark()
    strips: dict[tuple[str, Mm, Mm], list[Stick]] = {}
    for stick in breakout.sticks:
        strips.setdefault((stick.board, stick.offset, stick.width), []).append(stick)
    boards = {board.name: board for board in question.boards}
    for (name, offset, width), sticks in strips.items():
        strip = _strip(bench, boards[name], Span(offset, offset + width), sticks, done | {in_hand.name})
        by_start = {run.span.low: run for run in strip.runs}
        for stick in sticks:
            if stick.name != in_hand.name:
                pieces = [Piece(mark, wanted[mark]) for mark in stick.members]
                by_start[stick.start].sticks = [Marked(pieces, stick.name, done=stick.name in done)]
        bench.strips.setdefault(name, []).append(strip)
    return bench


def _strip(bench: Bench, board: Board, band: Span, sticks: Sequence[Stick], cut: Set[str]) -> Strip:
    """A strip, with a run for each stick and the room behind it; one already cut has none there."""
    before = [Span(stick.start - bench.kerf, stick.start) for stick in sticks]
    ends = [(stick.start + stick.length, stick.name) for stick in sticks]
    behind = [Span(end, end + bench.kerf) for end, name in ends if name in cut]
    cuts = [Fault(along=span) for span in (*before, *behind)]
    return Strip(board, band, clear_runs(board.length, [*touched(faults_that_count(board), band), *cuts]))
