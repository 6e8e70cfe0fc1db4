"""What is left of the boards taken and worth keeping, and the rack as it stands when the job is sawn.

An offcut is a rectangle between saw cuts: a rip without sticks, what is left at the far edge, or a piece of a
strip before, between or behind its sticks. It is tallied as a board like any other, so that the next job may
be planned on it, and kept if that job could get from it, by the very rules of the rack, the shortest stick of
the narrowest strip and the thinnest members that this job wanted.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count

from pinchrod.ground import Mm, Span, rounded
from pinchrod.job import MOST_NAME, by_volume, plain
from pinchrod.timber.clear import clear_runs, faults_that_count, places, sides, touched
from pinchrod.timber.records import Board, Breakout, Fault, Question
from pinchrod.timber.ripping import Rip, RippedBoard, ripped
from pinchrod.timber.sizes import kind_of, strip_width

LETTERS = "abcdefghijklmnopqrstuvwxyz"
CENT = Mm("0.01")
TENTH = Mm("0.1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """A rectangle of a board taken, and that piece as it is tallied for the rack."""

    parent: str  # the board's name
    along: Span
    across: Span
    board: Board


def offcuts(question: Question, breakout: Breakout) -> tuple[Offcut, ...]:
    """The offcuts worth keeping, board by board as they stand on the rack, each with a name of its own."""
    names = {plain(board.name) for board in question.boards}
    order = {board.name: place for place, board in enumerate(question.boards)}
    found = []
    for sawn in sorted(ripped(question, breakout), key=lambda sawn: order[sawn.board.name]):
        for along, across in _rectangles(question, sawn):
            piece = _tallied(sawn.board, along, across, priced=not by_volume(question.boards))
            if piece is not None and gives_a_stick(question, piece):
                named = replace(piece, name=_fresh_name(sawn.board.name, names))
                found.append(_offcut(sawn.board, named, along.low, across.low))
    return tuple(found)


def rack_after(question: Question, breakout: Breakout) -> tuple[Board, ...]:
    """The rack when the job is sawn: boards not taken as they were, offcuts where their boards stood."""
    taken = {stick.board for stick in breakout.sticks}
    kept = offcuts(question, breakout)
    boards: list[Board] = []
    for board in question.boards:
        if board.name in taken:
            boards.extend(offcut.board for offcut in kept if offcut.parent == board.name)
        else:
            boards.append(board)
    return tuple(boards)


def gives_a_stick(question: Question, board: Board) -> bool:
    """Whether a board gives the shortest stick of the narrowest strip and thinnest members wanted."""
    least = question.practice.shortest_stick
    width = min(strip_width(question, kind_of(wanted)) for wanted in question.wanted)
    thin = min(wanted.thickness for wanted in question.wanted)
    longest = board.longest_clean(board.thickness - question.practice.skim - thin)
    if longest is None or longest < least:
        return False
    between, faults = sides(question, board), faults_that_count(board)
    for low in places(between, faults, ()):
        runs = clear_runs(board.length, touched(faults, Span(low, low + width)))
        if low + width <= between.high and any(run.length >= least for run in runs):
            return True
    return False


def _rectangles(question: Question, sawn: RippedBoard) -> Iterator[tuple[Span, Span]]:
    """What is left between the cuts, along and across: from the sprung edge, then from the datum end."""
    whole, kerf = Span(Mm(0), sawn.board.length), question.machines.crosscut_saw.kerf
    for rip in sawn.rips:
        yield from ((along, rip.band) for along in (_tails(rip, whole, kerf) if rip.sticks else [whole]))
    yield whole, sawn.rest


def _tails(rip: Rip, whole: Span, kerf: Mm) -> Iterator[Span]:
    """What a strip has before, between and behind its sticks, a saw cut from each."""
    ends = [whole.low - kerf, *(stick.start + stick.length for stick in rip.sticks)]
    starts = [*(stick.start for stick in rip.sticks), whole.high + kerf]
    for end, start in zip(ends, starts, strict=True):
        if start - end > 2 * kerf:
            yield Span(end + kerf, start - kerf)


def _tallied(board: Board, along: Span, across: Span, *, priced: bool) -> Board | None:
    """The piece as a board, in whole millimetres like a tally: none of it is made better by rounding.

    Its lower side is sawn straight, so it has no spring. Bow goes with the square of the length, the price
    with the volume: what was paid for the board has not been used up yet.
    """
    long, wide = Mm(int(along.length)), Mm(int(across.length))
    if not long or not wide:
        return None
    bow = -rounded_down(-board.bow * long * long / board.length**2)
    faults = tuple(_faults_in(board, Span(along.low, along.low + long), Span(across.low, across.low + wide)))
    piece = replace(board, length=long, width=wide, bow=bow, spring=Mm(0), faults=faults)
    share = piece.volume / board.volume
    return replace(piece, price=rounded(board.price * share, CENT) if priced else piece.volume)


def rounded_down(size: Mm) -> Mm:
    """The size to a tenth, never more than it is."""
    return (size // TENTH) * TENTH


def _faults_in(board: Board, along: Span, across: Span) -> Iterator[Fault]:
    """What the piece has of the board's faults, counted from its own corner."""
    for fault in board.faults:
        if not fault.along.meets(along) or (fault.across and not fault.across.meets(across)):
            continue
        side = _outwards(fault.across, across) if fault.across else None
        whole = side is None or (side.low == 0 and side.high == across.length)
        yield replace(fault, along=_outwards(fault.along, along), across=None if whole else side)


def _outwards(span: Span, within: Span) -> Span:
    """A span counted from where another begins, in whole millimetres outwards but no further than that."""
    low, high = max(span.low - within.low, Mm(0)), min(span.high - within.low, within.length)
    return Span(Mm(int(low)), min(Mm(-int(-high // 1)), within.length))


def _fresh_name(parent: str, names: set[str]) -> str:
    """The board's name with the first letter that no board of the rack has yet: B7-a, B7-b."""
    endings = (f"-{_letters(number)}" for number in count())
    fresh = (parent[: MOST_NAME - len(ending)].rstrip() + ending for ending in endings)
    name = next(name for name in fresh if plain(name) not in names)
    names.add(plain(name))
    return name


def _letters(number: int) -> str:
    """From a to z, then aa, ab and so on."""
    head = _letters(number // len(LETTERS) - 1) if number >= len(LETTERS) else ""
    return head + LETTERS[number % len(LETTERS)]


def _offcut(parent: Board, board: Board, start: Mm, low: Mm) -> Offcut:
    along, across = Span(start, start + board.length), Span(low, low + board.width)
    return Offcut(parent=parent.name, along=along, across=across, board=board)
