"""The strong chooser: values and a bound from whole-board lay-outs, then a plan, then a better plan.

It loads numba and HiGHS, so only `break_out` imports it, and late.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from pinchrod.ground import Mm, Span
from pinchrod.timber.bench import Bench, Marked, Piece, Strip
from pinchrod.timber.bound import Bound, prove, yard_of
from pinchrod.timber.clear import clear_runs, faults_that_count, touched
from pinchrod.timber.improve import LayOut, Search, best_plan
from pinchrod.timber.joiner import answer, by_eye, cheapest_wood_first, place
from pinchrod.timber.kernels import fill, worth_of_boards
from pinchrod.timber.lay_out import Strip as Planned
from pinchrod.timber.lay_out import Yard
from pinchrod.timber.measured import Rack, measure
from pinchrod.timber.records import (
    SMALL_JOB,
    Breakout,
    Effort,
    GoesOn,
    Question,
    always,
    searches_for,
)
from pinchrod.timber.sizes import strip_width
from pinchrod.timber.which_boards import nearest

LIKELY = 120  # boards, all of which may stand by, whatever they promise
NEAR_ENOUGH = Mm(106) / 100  # of the bound: a plan that costs no more is not searched for again


def search(question: Question, effort: Effort, goes_on: GoesOn = always) -> Breakout:
    """The better of the plan by eye and the best plan found by search, with the proven bound."""
    simple = by_eye(question)
    if not simple.sticks:
        return simple
    rack = measure(question)
    demand = np.where(_has_room(rack), rack.demand, 0)
    bound = _proven(rack, demand)
    strong = _strong(rack, demand, bound, effort, goes_on)
    better = min((strong, simple), key=_order)
    return replace(_with_bound(rack, better, bound, demand), stopped=strong.stopped)


def _order(found: Breakout) -> tuple[int, Mm]:
    """What makes one answer better than another: members left short, then cost."""
    return len(found.short), found.cost


def _strong(rack: Rack, demand: "np.ndarray", bound: Bound, effort: Effort, goes_on: GoesOn) -> Breakout:
    """The best plan found; a small job far from its bound is searched once more with other draws."""
    setting, found = _set_up(rack, demand, bound), list[Breakout]()
    without_room = int(rack.demand.sum() - demand.sum())
    for draws in range(searches_for(int(demand.sum()))):
        plan, stopped = best_plan(setting, replace(effort, seed=effort.seed + 2 * draws), goes_on)
        found.append(replace(_answer(rack, plan), stopped=stopped))
        near = len(found[-1].short) <= without_room and found[-1].cost <= bound.cost * NEAR_ENOUGH
        if stopped or near:
            break
    return replace(min(found, key=_order), stopped=found[-1].stopped)


def _proven(rack: Rack, demand: "np.ndarray") -> Bound:
    """The bound; of a small job the nearer one, which would gain little for a larger one."""
    bound = prove(rack, demand)
    return nearest(rack, demand, bound) if demand.sum() <= SMALL_JOB else bound


def _set_up(rack: Rack, demand: "np.ndarray", bound: Bound) -> Search:
    """The search for a plan. A member that the bound gives away for nothing still counts for something."""
    least = max(int(bound.values.max()) // 1000, 1)
    yard = yard_of(rack, np.maximum(bound.values, least), bound.scale, sure=True)
    return Search(rack, yard._replace(likely=_likely(rack, yard, demand)), demand)


def _likely(rack: Rack, yard: Yard, demand: "np.ndarray") -> "np.ndarray":
    """Boards by what they could give for their price, the best half of a large rack."""
    kinds, boards = np.arange(len(rack.kinds)), np.arange(len(yard.price))
    fill(yard.lengths, yard.tables, kinds, yard.values, demand, yard.top, False)
    worth = worth_of_boards(yard.wood, yard.lengths, yard.tables, boards)
    order = np.argsort(-worth / np.maximum(yard.price, 1), kind="stable")
    return np.asarray(order[: max(LIKELY, len(order) // 2)], np.int64)


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
        bound = _proven(rack, made)
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


def _answer(rack: Rack, plan: Sequence[LayOut]) -> Breakout:
    """The plan marked on the boards, exactly; members without a place are tried once more by eye."""
    bench, marks = Bench(rack.question), _Marks(rack)
    for one in plan:
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
