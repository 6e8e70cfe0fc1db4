"""The last step: list every bar that a cheaper plan could use, and choose among them.

Either a plan turns up, or there is none and the bound goes up past the target.
"""

from dataclasses import dataclass, replace

from pinchrod.timber.one_length.counted import Bar, Counted, Plan, cost_of
from pinchrod.timber.one_length.listing import Listed, list_all, listed_of
from pinchrod.timber.one_length.master import Master
from pinchrod.timber.one_length.question import Budget
from pinchrod.timber.one_length.whole_bars import choose
from pinchrod.timber.one_length.worths import Worths

STEPS = 300  # of listing, for each bar that may be listed


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """The best plan so far, and the cost under which there is none."""

    plan: Plan
    cost: int
    bound: int
    searched: bool = False

    def better(self, plan: Plan | None, counted: Counted) -> "State":
        """With this plan, if it costs less."""
        if plan is None or cost_of(plan, counted) >= self.cost:
            return self
        return replace(self, plan=plan, cost=cost_of(plan, counted))

    @property
    def closed(self) -> bool:
        """Whether the plan is as cheap as can be."""
        return self.cost <= self.bound


def close(counted: Counted, master: Master, fair: Worths, state: State, budget: Budget) -> State:
    """The plan and the bound after searching the lists, from the widest target that can be listed."""
    covering = len(counted.room) > 1
    target = state.cost - counted.step
    while not state.closed and not budget.over():
        listed = list_for(counted, fair, target, budget, covering=covering)
        if listed is None and target > state.bound:
            target = state.bound + (target - state.bound) // (2 * counted.step) * counted.step
            continue
        if listed is None:
            return _try_known(counted, master, fair, state, budget)
        chosen = choose(counted, listed, target, covering=covering, budget=budget)
        state = state.better(chosen.plan, counted)
        if not chosen.settled:
            return state
        raised = min(state.cost, target + counted.step)
        state = replace(state, bound=raised, searched=state.searched or raised > state.bound)
        target = state.cost - counted.step
    return state


def how_long(counted: Counted, fair: Worths, state: State, budget: Budget) -> int:
    """How many bars the list for the bound itself has: the most it may have, if they are too many."""
    listed = list_for(counted, fair, state.bound, budget, covering=False)
    return budget.listed if listed is None else len(listed.stock)


def list_for(counted: Counted, fair: Worths, target: int, budget: Budget, *, covering: bool) -> Listed | None:
    """The bars that lose no more than there is between the target and what the worths prove."""
    gap = target * fair.scale - fair.total(counted)
    return list_all(counted, fair, gap, covering=covering, at_most=budget.listed, steps=STEPS * budget.listed)


def _try_known(counted: Counted, master: Master, fair: Worths, state: State, budget: Budget) -> State:
    """A better plan from the bars known already; they are not all, so nothing is proven by it."""
    gap = (state.cost - counted.step) * fair.scale - fair.total(counted)
    charge = fair.charge(counted).tolist()
    few: list[Bar] = []
    for bar in master.bars:
        fits = (bar.counts <= counted.wanted[bar.kinds]).all()
        if fits and charge[bar.stock] - int(fair.piece[bar.kinds] @ bar.counts) <= gap:
            few.append(bar)
    target = state.cost - counted.step
    chosen = choose(counted, listed_of(few), target, covering=True, budget=budget)
    return state.better(chosen.plan, counted)
