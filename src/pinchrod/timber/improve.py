"""Whole plans for the values of the bound, then a few boards given back and others taken, many times."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from pinchrod.timber.exchange import (
    Manner,
    Sheet,
    Standing,
    Trial,
    give_back,
    shaken,
    standing,
    take_over,
)
from pinchrod.timber.kernels import fill
from pinchrod.timber.lay_out import HEAD, Strip, Yard, add_members, handling, lay_out, strips_of
from pinchrod.timber.measured import Rack, room_for_tables
from pinchrod.timber.records import Effort, GoesOn, rounds_for
from pinchrod.timber.taking import Ceiling, Taken, take_boards

MANNERS = (
    Manner(odd=0.5, spares=20, shake=0.05, least=2, most=5, warm=3e-3, cool=3e-4),
    Manner(odd=0.8, spares=20, shake=0.05, least=2, most=5, warm=3e-3, cool=3e-4),
)
"""Two searches, beside each other where there are two cores. Both let one board be bad, the second more."""

TIDYINGS = 30  # lay-outs tried of each board, for less handling
TIDY_SHAKE = 0.3


@dataclass(frozen=True, slots=True)
class LayOut:
    """A board to be taken, and its strips."""

    board: int
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class Search:
    """What is searched: the rack, how many of each type are wanted, and what they are worth at least."""

    rack: Rack
    yard: Yard
    demand: "np.ndarray"

    @property
    def rounds(self) -> int:
        """How many rounds of tries for the members that are wanted."""
        return rounds_for(int(self.demand.sum()))

    def own_room(self) -> Yard:
        """The same yard with tables that no other search writes in."""
        return self.yard._replace(tables=room_for_tables(self.rack))

    def empty(self) -> Sheet:
        """A plan that takes no board."""
        boards, room = len(self.yard.price), self.rack.members_at_most * (HEAD + 1)
        return Sheet(
            marks=np.zeros((boards, room), np.int32),
            size=np.zeros(boards, np.int64),
            worth=np.zeros(boards, np.int64),
            short=self.demand.copy(),
        )


def best_plan(search: Search, effort: Effort, goes_on: GoesOn) -> tuple[tuple[LayOut, ...], bool]:
    """Whole plans with values corrected from one to the next; the best of them then improved bit by bit.

    And whether the search was broken off.
    """
    start = _first_plan(search, effort.passes)
    with ThreadPoolExecutor(len(MANNERS)) as cores:
        ways = [_Way(search, manner, effort, at, goes_on) for at, manner in enumerate(MANNERS)]
        found = list(cores.map(lambda way: way.improved(start), ways))
    best = min(found, key=lambda plan: _order(standing(search.yard, plan, 0.0)))
    lay_outs = tuple(
        LayOut(int(board), strips_of(best.marks[board, : best.size[board]].tolist()))
        for board in np.flatnonzero(best.size)
    )
    return lay_outs, any(way.stopped for way in ways)


class _Way:
    """One search, with room of its own to write in, so that another may run beside it."""

    def __init__(self, search: Search, manner: Manner, effort: Effort, at: int, goes_on: GoesOn) -> None:
        self.yard, self.manner, self.goes_on = search.own_room(), manner, goes_on
        self.tries = effort.tries * search.rounds
        self.plan, self.best, self.trial = search.empty(), search.empty(), _room_for_trial(search, manner)
        self.stopped = False
        self.state = np.array([2 * effort.seed + at], np.uint64)

    def improved(self, start: Sheet) -> Sheet:
        """The best plan that exchanging boards leads to, made tidy.

        What may be dearer grows less from the first try to the last: so the search leaves what looks good but
        leads nowhere.
        """
        _copy(start, self.plan)
        _copy(start, self.best)
        here = top = standing(self.yard, start, self.manner.odd)
        for number in range(self.tries if start.size.any() else 0):
            if not self.goes_on():
                self.stopped = True
                break
            here = self._exchanged(here, top, 1 - number / self.tries)
            if _order(here) < _order(top):
                top = here
                _copy(self.plan, self.best)
        _tidy(self.yard, self.best, self.state)
        return self.best

    def _exchanged(self, here: Standing, top: Standing, ahead: float) -> Standing:
        """Where the plan stands when a few of its boards were given back, if others are no worse."""
        yard, plan, manner, trial = self.yard, self.plan, self.manner, self.trial
        warmth = manner.cool + (manner.warm - manner.cool) * ahead * ahead
        out, every, ceiling, leeway = give_back(yard, plan, here, self.state, manner, warmth, trial)
        boards, rates = trial.boards[:every], trial.rates[:every]
        made = take_boards(yard, boards, rates, trial.values, trial.left, Ceiling(*ceiling), trial.taken)
        if made < 0:
            return here
        return Standing(*take_over(yard, plan, here, top, trial, out, made, manner.odd, leeway))


def _order(one: Standing) -> tuple[int, int, int]:
    """What makes one plan better than another: members left short, then cost, then what there is to do."""
    return one.short, one.cost, one.handling


def _copy(plan: Sheet, into: Sheet) -> None:
    into.marks[:], into.size[:], into.worth[:], into.short[:] = plan


def _room_for_trial(search: Search, manner: Manner) -> Trial:
    rows, types = manner.most + manner.spares, len(search.demand)
    size, board, worth, boards = (np.zeros(rows, np.int64) for _ in range(4))
    return Trial(
        boards=boards,
        rates=np.zeros(rows),
        values=np.zeros(types, np.int64),
        left=np.zeros(types, np.int64),
        taken=Taken(np.zeros((rows, search.empty().marks.shape[1]), np.int32), size, board, worth),
    )


def _tidy(yard: Yard, plan: Sheet, state: "np.ndarray") -> None:
    """Lay each board out anew with the members it has, a few times; keep what is less to handle."""
    marks, kinds = np.zeros(plan.marks.shape[1], np.int32), np.arange(len(yard.wood.limit[0]))
    for board in np.flatnonzero(plan.size).tolist():
        members = np.zeros_like(yard.values)
        add_members(plan.marks[board], plan.size[board], members)
        for _ in range(TIDYINGS):
            values, left = shaken(yard, state, TIDY_SHAKE), members.copy()
            fill(yard.lengths, yard.tables, kinds, values, left, yard.top, False)
            size = lay_out(yard, values, left, board, marks)
            less = handling(marks, size) < handling(plan.marks[board], plan.size[board])
            if less and not left.any():
                plan.marks[board, :size] = marks[:size]
                plan.size[board] = size


def _first_plan(search: Search, passes: int) -> Sheet:
    """The best of a few whole plans."""
    yard = search.own_room()
    boards, rates = np.arange(len(yard.price)), 1 / np.maximum(yard.price.astype(np.float64), 1)
    values, plans = yard.values, []
    for _ in range(passes):
        plan, left = search.empty(), search.demand.copy()
        taken = Taken(plan.marks.copy(), plan.size.copy(), plan.size.copy(), plan.size.copy())
        made = take_boards(yard, boards, rates, values, left, Ceiling(1e300, 0.0, 0), taken)
        order = taken.board[:made]
        plan.marks[order], plan.size[order] = taken.marks[:made], taken.size[:made]
        plan.worth[order], plan.short[:] = taken.worth[:made], left
        plans.append(plan)
        values = _corrected(yard, plan, values)
    return min(plans, key=lambda plan: _order(standing(yard, plan, 0.0)))


def _corrected(yard: Yard, plan: Sheet, values: "np.ndarray") -> "np.ndarray":
    """Values that rise for members on boards worth less than their price, and for those left short."""
    rate, raised = 0.3, values.astype(np.float64)
    for board in np.flatnonzero(plan.size):
        strips = strips_of(plan.marks[board, : plan.size[board]].tolist())
        types = [of for strip in strips for cut in strip.cuts for of in cut.types]
        paid = float(yard.price[board]) / max(float(values[types].sum()), 1.0)
        raised[np.unique(types)] *= 1 - rate + rate * min(max(paid, 0.9), 1.5)
    raised[plan.short > 0] *= 1 + rate
    return np.asarray(np.minimum(raised, 4.0 * yard.values), np.int64)
