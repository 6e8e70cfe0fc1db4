"""Where there are several stocks: searching through how many bars of each to use.

With uneven prices the bound lies well under any whole plan, because costs come in jumps. Once the
number of bars of each stock is settled so is the cost, and little is left to list.
"""

from dataclasses import dataclass, replace

import numpy as np

from pinchrod.timber.one_length.central import central
from pinchrod.timber.one_length.closing import State, list_for
from pinchrod.timber.one_length.columns import Converged, Pace, converge
from pinchrod.timber.one_length.counted import Counted, Whole
from pinchrod.timber.one_length.dive import dive
from pinchrod.timber.one_length.master import Master
from pinchrod.timber.one_length.question import Budget
from pinchrod.timber.one_length.whole_bars import choose
from pinchrod.timber.one_length.worths import Worths

NEARLY = 1e-5
PACE = Pace(rounds=200, many=40, hold=0.3)
FEW = 4_000  # bars in a list that is searched before the numbers are settled further


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Bounds on how many bars of each stock to use, and the worths of the way it comes from."""

    least: Whole
    most: Whole
    worths: Worths

    def within(self, stock: int, least: int, most: int) -> "Way":
        """With so many of this stock."""
        low, high = self.least.copy(), self.most.copy()
        low[stock], high[stock] = max(least, low[stock]), min(most, high[stock])
        return replace(self, least=low, most=high)


def divide(counted: Counted, master: Master, found: Converged, state: State, budget: Budget) -> State:
    """The cheapest plan over all ways to divide the work among the stocks, proven if all were searched."""
    ways = [Way(least=counted.least, most=counted.supply, worths=found.worths)]
    searched = 0
    while ways:
        if searched >= budget.ways or budget.over():
            return state
        searched += 1
        way = ways.pop()
        if (way.least > way.most).any():
            continue
        part = replace(counted, least=way.least, supply=way.most)
        here = _look(part, master, way.worths, state)
        if here.bound >= state.cost:
            continue
        way = replace(way, worths=here.worths)
        used = _used(master, here, part)
        split = _split(way, used)
        if split:
            ways += split
            continue
        state, settled = _search(part, master, here, state, budget)
        if not settled:
            ways += _settle(way, used)
            if not _settle(way, used):
                return state
    return replace(state, bound=state.cost, searched=True)


def _look(part: Counted, master: Master, start: Worths, state: State) -> Converged:
    """The bars and the bound for this way, until it cannot be cheaper than the plan there is."""
    master.want(part)
    return converge(part, master, start, PACE, enough=lambda now: now.bound >= state.cost)


def _used(master: Master, here: Converged, part: Counted) -> Whole:
    """How many bars of each stock are used, in parts of a bar."""
    times = here.solved.times  # bars found since have not been used yet
    stock = np.array([bar.stock for bar in master.bars[: len(times)]])
    return np.bincount(stock, times, len(part.room))


def _split(way: Way, used: Whole) -> list[Way]:
    """Two ways, more of one stock and fewer, where its number is furthest from whole."""
    off = np.abs(used - np.rint(used))[:-1]  # never the last, which stands for what is missing
    stock = int(off.argmax())
    if off[stock] <= NEARLY:
        return []
    low = int(np.floor(used[stock]))
    few, many = way.within(stock, 0, low), way.within(stock, low + 1, int(way.most[stock]))
    return [few, many] if used[stock] - low > 0.5 else [many, few]


def _settle(way: Way, used: Whole) -> list[Way]:
    """Three ways for a stock that is not settled: fewer, more, and as many as now."""
    for stock in np.flatnonzero(way.least[:-1] < way.most[:-1]).tolist():
        now = int(np.rint(used[stock]))
        most = int(way.most[stock])
        return [way.within(stock, 0, now - 1), way.within(stock, now + 1, most), way.within(stock, now, now)]
    return []


def _search(
    part: Counted, master: Master, here: Converged, state: State, budget: Budget
) -> tuple[State, bool]:
    """The state after a dive and a search of the list, and whether nothing cheaper is left this way."""
    free = replace(part, least=np.zeros_like(part.least))
    state = state.better(dive(free, master, here.worths, state.cost - part.step, second_at=-1), part)
    if here.bound >= state.cost:
        return state, True
    target = state.cost - part.step
    fair = central(part, master, here.worths, here.worths.scale)
    listed = list_for(part, fair, target, replace(budget, listed=FEW), covering=True)
    if listed is None:
        return state, False
    chosen = choose(part, listed, target, covering=True, budget=budget)
    return state.better(chosen.plan, part), chosen.settled
