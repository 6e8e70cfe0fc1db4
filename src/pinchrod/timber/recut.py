"""A fault found in the stick in hand: what it still gives, and where the members go that it cannot."""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace
from itertools import count

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Piece, Strip
from pinchrod.timber.clear import clear_runs, faults_that_count, touched
from pinchrod.timber.joiner import answer, cheapest_wood_first, place
from pinchrod.timber.records import Board, Breakout, Fault, Question, Stick


@dataclass(frozen=True, slots=True, kw_only=True)
class Recut:
    """The question with the fault now known, and the break-out around it."""

    question: Question
    breakout: Breakout


def recut(
    question: Question, breakout: Breakout, *, stick: str, fault: Span, done: Set[str] = frozenset()
) -> Recut:
    """The break-out when a fault shows up in a stick, measured from its start. Nothing done moves.

    The displaced members go, longest first, where they leave least: into the stick in hand on both sides of
    the fault, into room beside sticks not yet cut, into an offcut of a board taken; what is left goes to the
    cheapest next board. Where all of them out of one new board would be cheaper, that is done instead.
    """
    in_hand = next(one for one in breakout.sticks if one.name == stick)
    known = _with_fault(question, in_hand, fault)
    pieces = _pieces(question, in_hand)
    tried = [_placed(known, breakout, in_hand, done, pieces, spare=spare) for spare in (True, False)]
    best = min(tried, key=lambda one: (len(one.short), one.cost))
    lost = len(best.short) > len(breakout.short)
    return Recut(
        question=known,
        breakout=replace(
            best,
            sticks=tuple(_renamed(best.sticks, breakout.sticks, in_hand)),
            bound=Mm(0) if lost else min(breakout.bound, best.cost),
        ),
    )


def _renamed(sticks: Sequence[Stick], before: Sequence[Stick], in_hand: Stick) -> Iterator[Stick]:
    """New sticks by numbers not used before; the first out of the stick in hand keeps its name."""
    used = {stick.name for stick in before}
    fresh = (name for name in (f"S{number}" for number in count(1)) if name not in used)
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


def _pieces(question: Question, stick: Stick) -> list[Piece]:
    wanted = {mark: one for one in question.wanted for mark in one.marks}
    pieces = [Piece(mark, wanted[mark]) for mark in stick.members]
    return sorted(pieces, key=lambda piece: -piece.wanted.length)


def _placed(
    question: Question,
    breakout: Breakout,
    in_hand: Stick,
    done: Set[str],
    pieces: Sequence[Piece],
    *,
    spare: bool,
) -> Breakout:
    """The displaced members placed: in spare room first, or all of them on new boards."""
    bench = _bench(question, breakout, in_hand, done)
    left = place(bench, pieces, _taken(bench)) if spare else [piece.mark for piece in pieces]
    rest = [piece for piece in pieces if piece.mark in left]
    return answer(question, *_onto_new_boards(bench, rest, breakout), bound=breakout.bound)


def _taken(bench: Bench) -> list[Board]:
    return [board for board in bench.question.boards if board.name in bench.strips]


def _onto_new_boards(
    bench: Bench, pieces: Sequence[Piece], breakout: Breakout
) -> tuple[tuple[Stick, ...], tuple[str, ...]]:
    """The sticks with these members on the cheapest board that takes them all, else on as few as need be."""
    fresh = [board for board in bench.question.boards if board.name not in bench.strips]
    for board in sorted(fresh, key=lambda board: board.price) if pieces else ():
        alone = Bench(bench.question)
        if not place(alone, pieces, [board]):
            bench.strips |= alone.strips
            return bench.sticks(), breakout.short
    short = place(bench, pieces, cheapest_wood_first(fresh))
    return bench.sticks(), (*breakout.short, *short)


def _bench(question: Question, breakout: Breakout, in_hand: Stick, done: Set[str]) -> Bench:
    """The bench as it stands: every stick where it is, the stick in hand as clear wood around its fault."""
    bench = Bench(question)
    wanted = {mark: one for one in question.wanted for mark in one.marks}
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
