"""The strong chooser: values and a bound from whole-board lay-outs, then a plan, then a better plan.

It loads numba and HiGHS, so only `break_out` imports it, and late.
"""

import numpy as np

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Piece, Strip
from pinchrod.timber.bound import Bound, prices, prove
from pinchrod.timber.clear import clear_runs, faults_that_count, touched
from pinchrod.timber.improve import Plan, Yard, best_plan
from pinchrod.timber.joiner import answer, by_eye, cheapest_wood_first, place
from pinchrod.timber.lay_out import LayOut
from pinchrod.timber.lay_out import Strip as Planned
from pinchrod.timber.measured import Rack, measure, room_for_tables
from pinchrod.timber.records import Breakout, Effort, Question
from pinchrod.timber.sizes import strip_width


def search(question: Question, effort: Effort) -> Breakout:
    """The better of the plan by eye and the best plan found by search, with the proven bound."""
    simple = by_eye(question)
    if not simple.sticks:
        return simple
    rack = measure(question)
    demand = np.where(_has_room(rack), rack.demand, 0)
    bound = prove(rack, demand)
    yard = Yard(rack=rack, price=prices(rack).whole, values=bound.values, tables=room_for_tables(rack))
    strong = _answer(rack, best_plan(yard, demand, effort))
    better = min((strong, simple), key=lambda one: (len(one.short), one.cost))
    return _with_bound(rack, better, bound, demand)


def _has_room(rack: Rack) -> "np.ndarray":
    """For each type, whether some run of some board takes it at all, if its length is read hopefully."""
    wood, lengths = rack.wood, rack.hopeful
    longest = np.zeros(len(rack.kinds), np.int64)
    for board in range(len(rack.question.boards)):
        bands = slice(wood.board_bands[board], wood.board_bands[board + 1] + 1)
        first, last = wood.band_first[bands][0], wood.band_first[bands][-1]
        for kind in range(len(rack.kinds)):
            width = np.searchsorted(wood.width_first, kind, side="right") - 1
            caps = wood.slot_cap[first:last][wood.slot_width[first:last] == width]
            if len(caps):
                longest[kind] = max(longest[kind], min(caps.max(), wood.limit[board, kind]))
    of_kind = np.repeat(np.arange(len(rack.kinds)), np.diff(lengths.type_first))
    return np.asarray(longest[of_kind] >= np.maximum(lengths.size + lengths.ends, lengths.least))


def _with_bound(rack: Rack, found: Breakout, bound: Bound, demand: "np.ndarray") -> Breakout:
    """The answer with its bound; where members are short, the bound is of making the others."""
    made = rack.demand - _short_of(rack, found)
    if (made != demand).any():
        bound = prove(rack, made)
    return answer(rack.question, found.sticks, found.short, bound=bound.cost)


def _short_of(rack: Rack, found: Breakout) -> "np.ndarray":
    where = {mark: at for at, one in enumerate(rack.types) for mark in one.marks}
    counts = np.zeros(len(rack.types), np.int64)
    np.add.at(counts, [where[mark] for mark in found.short], 1)
    return counts


class _Marks:
    """The marks of each type, given out one by one."""

    def __init__(self, rack: Rack) -> None:
        self.left = [list(reversed(one.marks)) for one in rack.types]
        self.types = rack.types

    def piece(self, of: int) -> Piece:
        return Piece(self.left[of].pop(), self.types[of])

    def rest(self) -> list[Piece]:
        pieces = [Piece(mark, one) for one, left in zip(self.types, self.left, strict=True) for mark in left]
        return sorted(pieces, key=lambda piece: (-piece.wanted.length, -piece.wanted.width))


def _answer(rack: Rack, plan: Plan) -> Breakout:
    """The plan marked on the boards, exactly; members without a place are tried once more by eye."""
    bench, marks = Bench(rack.question), _Marks(rack)
    for one in plan.lay_outs:
        bench.strips[rack.question.boards[one.board].name] = _strips(rack, one, marks)
    short = place(bench, marks.rest(), cheapest_wood_first(rack.question.boards))
    return answer(rack.question, bench.sticks(), short, bound=Mm(0))


def _strips(rack: Rack, one: LayOut, marks: _Marks) -> list[Strip]:
    return [_strip(rack, one.board, strip, marks) for strip in one.strips]


def _strip(rack: Rack, board: int, strip: Planned, marks: _Marks) -> Strip:
    """A strip with its sticks, in each run the longest first, and on each stick the longest member first."""
    wood = rack.question.boards[board]
    offset, kind = rack.places[strip.state], rack.kinds[strip.cuts[0].kind]
    band = Span(offset, offset + strip_width(rack.question, kind))
    ripped = Strip(wood, band, clear_runs(wood.length, touched(faults_that_count(wood), band)))
    at = {run.span.low: run for run in ripped.runs}
    for cut in strip.cuts:
        stick = Marked([marks.piece(of) for of in sorted(cut.types)])
        at[rack.slot_start[cut.slot]].sticks.append(stick)
    for run in ripped.runs:
        run.sticks.sort(key=lambda stick: -sum(piece.wanted.length for piece in stick.pieces))
    return ripped
