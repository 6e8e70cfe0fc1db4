"""A handful of members and boards: every way to cut them, so that the answer is the best there is, proven."""

from collections.abc import Sequence
from itertools import combinations

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Piece, Strip
from pinchrod.timber.clear import clear_runs, faults_that_count, places, sides, touched
from pinchrod.timber.joiner import answer, pieces_of
from pinchrod.timber.records import Board, Breakout, Question
from pinchrod.timber.sizes import kind_of, strip_width

MEMBERS, BOARDS = 6, 6  # no more than this is tried out whole

Some = int  # a set of members, a bit for each
Sticks = tuple[Some, ...]
Ways = dict[Some, tuple[Sticks, ...]]  # members that runs of a strip can give, and the sticks in each run
Fences = dict[Some, tuple[tuple[Mm, Mm, tuple[Sticks, ...]], ...]]  # the same of a board, strip by strip


def is_small(question: Question) -> bool:
    """Whether everything can be tried out."""
    return sum(len(one.marks) for one in question.wanted) <= MEMBERS and len(question.boards) <= BOARDS


def every_way(question: Question) -> Breakout:
    """The cheapest break-out of as many members as can be cut; no other costs less, all having been tried."""
    pieces, bench = pieces_of(question), Bench(question)
    costs: dict[Some, tuple[Mm, tuple[tuple[Board, Some], ...]]] = {0: (Mm(0), ())}
    fences = {board.name: _fences(bench, board, pieces) for board in question.boards}
    for board in question.boards:
        for made, (cost, how) in sorted(costs.items()):
            for more in fences[board.name]:
                dearer = (
                    made & more or cost + board.price >= costs.get(made | more, (cost + board.price + 1,))[0]
                )
                if more and not dearer:
                    costs[made | more] = cost + board.price, (*how, (board, more))
    best = min(costs, key=lambda made: (-made.bit_count(), costs[made][0], -_longest(pieces, made), made))
    for board, members in costs[best][1]:
        bench.strips[board.name] = _strips(board, fences[board.name][members], pieces)
    short = [piece.mark for at, piece in enumerate(pieces) if not best >> at & 1]
    return answer(question, bench.sticks(), short, bound=costs[best][0])


def _longest(pieces: Sequence[Piece], some: Some) -> Mm:
    return sum((piece.wanted.length for piece in _members(pieces, some)), Mm(0))


def _members(pieces: Sequence[Piece], some: Some) -> list[Piece]:
    return [piece for at, piece in enumerate(pieces) if some >> at & 1]


def _fences(bench: Bench, board: Board, pieces: Sequence[Piece]) -> Fences:
    """Every set of members that the board can give."""
    question, between = bench.question, sides(bench.question, board)
    widths = sorted({strip_width(question, kind_of(piece.wanted)) for piece in pieces})
    rip, faults = question.machines.rip_saw.kerf, faults_that_count(board)
    sticks = {width: _packed(bench, board, pieces, width) for width in widths}
    reached: dict[Mm, Fences] = {}
    all_ways: Fences = {0: ()}
    for place in places(between, faults, [width + rip for width in widths]):
        all_ways |= {made: how for made, how in reached.get(place, {}).items() if made not in all_ways}
        for width in widths:
            if place + width > between.high:
                continue
            runs = clear_runs(board.length, touched(faults, Span(place, place + width)))
            here = reached.setdefault(place + width + rip, {})
            _extend(here, all_ways, _ways(bench, runs, sticks[width]), place, width)
    for beyond in reached.values():
        all_ways |= {made: how for made, how in beyond.items() if made not in all_ways}
    return all_ways


def _extend(here: Fences, before: Fences, strip: Ways, place: Mm, width: Mm) -> None:
    for made, how in before.items():
        for more, runs in strip.items():
            if more and not made & more and made | more not in here:
                here[made | more] = (*how, (place, width, runs))


def _packed(bench: Bench, board: Board, pieces: Sequence[Piece], width: Mm) -> dict[Some, tuple[Mm, Sticks]]:
    """Every set of members that sticks of one strip width can carry, in the least room."""
    single = _single_sticks(bench, board, pieces, width)
    packed: dict[Some, tuple[Mm, Sticks]] = {0: (Mm(0), ())}
    for made in range(1 << len(pieces)):
        room, sticks = packed.get(made, (Mm(0), ()))
        for stick, more in single.items() if made in packed else ():
            if not made & stick and (made | stick not in packed or room + more < packed[made | stick][0]):
                packed[made | stick] = room + more, (*sticks, stick)
    return packed


def _single_sticks(bench: Bench, board: Board, pieces: Sequence[Piece], width: Mm) -> dict[Some, Mm]:
    fit = [
        at for at, piece in enumerate(pieces) if strip_width(bench.question, kind_of(piece.wanted)) == width
    ]
    single = {}
    for number in range(1, len(fit) + 1):
        for chosen in combinations(fit, number):
            some = [pieces[at] for at in chosen]
            room, kinds = bench.room(some), {kind_of(piece.wanted) for piece in some}
            if len(kinds) == 1 and bench.cleans_up(board, kinds.pop(), room):
                single[sum(1 << at for at in chosen)] = room
    return single


def _ways(bench: Bench, runs: Sequence[Span], packed: dict[Some, tuple[Mm, Sticks]]) -> Ways:
    """Every set of members that these runs of a strip can give together."""
    ways: Ways = {0: ()}
    for run in runs:
        fit = {made: sticks for made, (room, sticks) in packed.items() if room <= run.length + bench.kerf}
        ways = {
            made | more: (*how, sticks)
            for made, how in ways.items()
            for more, sticks in fit.items()
            if not made & more
        }
    return ways


def _strips(
    board: Board,
    fences: Sequence[tuple[Mm, Mm, tuple[Sticks, ...]]],
    pieces: Sequence[Piece],
) -> list[Strip]:
    strips = []
    for place, width, runs in fences:
        band = Span(place, place + width)
        strip = Strip(board, band, clear_runs(board.length, touched(faults_that_count(board), band)))
        for run, sticks in zip(strip.runs, runs, strict=True):
            run.sticks = [Marked(_members(pieces, some)) for some in sticks]
        strips.append(strip)
    return strips
