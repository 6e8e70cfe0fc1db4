"""A plan made board by board, then a few boards taken back and their members cut anew, many times."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinchrod.timber.draws import Draws
from pinchrod.timber.kernels import Tables
from pinchrod.timber.lay_out import LayOut, Values, lay_out
from pinchrod.timber.measured import Rack
from pinchrod.timber.records import Effort

SPARE_BOARDS = 40  # not yet taken, that stand by when a few boards are cut anew
STARTS = 4  # whole plans that are improved a while, before the best of them is improved further
LEEWAY = 0.003  # how much dearer than the best a plan may be and still be gone on from
SHAKE = 0.1  # how far members' values are shaken for it


@dataclass(frozen=True, slots=True, kw_only=True)
class Yard:
    """The rack with its prices, what members are worth, and room for the sums."""

    rack: Rack
    price: "np.ndarray"  # whole numbers, as are the values
    values: "np.ndarray"
    tables: Tables

    def asked(self, values: "np.ndarray", left: "np.ndarray") -> Values:
        """What of this is left to be cut, at these values."""
        return Values(self.rack, self.tables, self.rack.sure, values, left, False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Boards laid out, and how many of each type found no place."""

    lay_outs: tuple[LayOut, ...]
    short: tuple[int, ...]

    def cost(self, yard: Yard) -> int:
        """The price of the boards taken."""
        return int(sum(yard.price[one.board] for one in self.lay_outs))

    def merit(self, yard: Yard) -> tuple[int, int, int]:
        """What makes one plan better than another: worth left short, then cost, then strips to rip."""
        missing = int((yard.values * np.array(self.short, np.int64)).sum()) + sum(self.short)
        return missing, self.cost(yard), sum(len(one.strips) for one in self.lay_outs)


def best_plan(yard: Yard, demand: "np.ndarray", effort: Effort) -> Plan:
    """Whole plans with values corrected from one to the next; the best of them then improved bit by bit."""
    starts = _first_plans(yard, demand, effort.passes)
    draws, likely, each = Draws(effort.seed), _likely(yard, demand), effort.tries // (2 * STARTS)
    better = [_improved(yard, plan, likely, draws, each) for plan in starts]
    best = min(better, key=lambda one: one.merit(yard))
    return _improved(yard, best, likely, draws, effort.tries - each * len(starts))


def _first_plans(yard: Yard, demand: "np.ndarray", passes: int) -> list[Plan]:
    """The best few whole plans."""
    rates, values = {board: 1 / max(float(price), 1) for board, price in enumerate(yard.price)}, yard.values
    plans: dict[tuple[int, int, int], Plan] = {}
    for _ in range(passes):
        plan = take_boards(yard, rates, demand, values, ceiling=1 << 62)
        plans.setdefault(plan.merit(yard), plan)
        values = correct(yard, plan, values, rate=0.3)
    return [plans[merit] for merit in sorted(plans)[:STARTS]]


def _improved(yard: Yard, plan: Plan, likely: Sequence[int], draws: Draws, tries: int) -> Plan:
    """Take a few boards back, cut their members anew, keep what is hardly dearer; so many times."""
    current, best = plan, plan
    for _ in range(tries if plan.lay_outs else 0):
        out = _taken_back(yard, current, draws)
        kept = [one for at, one in enumerate(current.lay_outs) if at not in out]
        back = [current.lay_outs[at] for at in sorted(out)]
        anew = _anew(yard, current, back, likely, draws)
        trial = Plan(lay_outs=(*kept, *anew.lay_outs), short=anew.short)
        if _near(trial.merit(yard), best.merit(yard)):
            current = trial
        best = min(best, current, key=lambda one: one.merit(yard))
    return best


def _near(trial: tuple[int, int, int], best: tuple[int, int, int]) -> bool:
    """Whether a plan is good enough to go on from: none left short that need not be, and hardly dearer."""
    return trial[0] <= best[0] and trial[1] <= best[1] * (1 + LEEWAY)


def _likely(yard: Yard, demand: "np.ndarray") -> list[int]:
    """Boards by what they could give for their price, the best half of a large rack."""
    asked = yard.asked(yard.values, demand)
    asked.fill(np.arange(len(yard.rack.kinds)))
    ratio = asked.worth(np.arange(len(yard.price))) / np.maximum(yard.price, 1)
    return [int(board) for board in np.argsort(-ratio, kind="stable")[: max(120, len(ratio) // 2)]]


def _taken_back(yard: Yard, plan: Plan, draws: Draws) -> set[int]:
    """Two to seven boards, those that lost most more often than others."""
    weights = [max(loss(yard, one), 0) + yard.price[one.board] * 0.02 for one in plan.lay_outs]
    number = min(2 + draws.below(6), len(weights))
    chosen: set[int] = set()
    while len(chosen) < number:
        chosen.add(_drawn(weights, draws.share()))
    return chosen


def _drawn(weights: Sequence[float], share: float) -> int:
    """Which of them a share of their sum falls on."""
    reached, goal = 0.0, share * float(sum(weights))
    for at, weight in enumerate(weights):
        reached += weight
        if reached > goal:
            return at
    return len(weights) - 1


def _rates(yard: Yard, boards: Sequence[int], draws: Draws) -> dict[int, float]:
    """What counts for a board: what it gives for its price, shaken a little, so that others may lead."""
    far = SHAKE * draws.share()
    return {board: (1 + far * (2 * draws.share() - 1)) / max(float(yard.price[board]), 1) for board in boards}


def _shaken(yard: Yard, draws: Draws) -> "np.ndarray":
    """A factor for each type near one: by how far is drawn, then one draw for its kind and one for itself."""
    far = 2 * SHAKE * draws.share()
    own = np.array([1 + far * (2 * draws.share() - 1) for _ in yard.values])
    kinds = np.array([1 + far * (2 * draws.share() - 1) for _ in yard.rack.kinds])
    return np.asarray(own * np.repeat(kinds, np.diff(yard.rack.sure.type_first)))


def _anew(yard: Yard, plan: Plan, back: Sequence[LayOut], likely: Sequence[int], draws: Draws) -> Plan:
    """The members of these boards and those left short, cut anew from them and some boards not taken."""
    taken = {one.board for one in plan.lay_outs}
    spare = [board for board in likely if board not in taken]
    while len(spare) > SPARE_BOARDS:
        del spare[draws.below(len(spare))]
    noise = _shaken(yard, draws)
    demand = counts_of(yard, back) + np.array(plan.short, np.int64)
    paid = sum(int(yard.price[one.board]) for one in back)
    return take_boards(
        yard,
        _rates(yard, sorted({one.board for one in back} | set(spare)), draws),
        demand,
        (yard.values * noise).astype(np.int64),
        ceiling=1 << 62 if any(plan.short) else int(paid * 1.02) + 1,
    )


def take_boards(
    yard: Yard, rates: dict[int, float], demand: "np.ndarray", values: "np.ndarray", *, ceiling: int
) -> Plan:
    """Take the board that gives most for its price, lay it out, and so on till all members are cut.

    Worth only falls as members are cut, so a board's last worth is its most: only those that could still lead
    are worked out anew. As soon as one board can hold all that is left, the cheapest such one ends the plan.
    Gives up when the boards cost the ceiling.
    """
    left, done = demand.copy(), []
    waiting = dict.fromkeys(rates, np.inf)
    spent = 0
    while left.any() and waiting and spent < ceiling:
        asked = yard.asked(values, left)
        asked.fill(np.arange(len(yard.rack.kinds)))
        board = _leader(asked, waiting, rates)
        if board < 0:
            break
        last = _closing(yard, asked, waiting, ceiling - spent)
        one = last if last is not None else lay_out(asked, board)
        waiting.pop(one.board, None)
        if one.strips:
            done.append(one)
            spent += int(yard.price[one.board])
    return Plan(lay_outs=tuple(done), short=tuple(left.tolist()))


def _leader(asked: Values, waiting: dict[int, float], rates: dict[int, float]) -> int:
    """The board that leads by worth at its rate; worths that were worked out are written down."""
    fresh: set[int] = set()
    while waiting:
        order = sorted(waiting, key=lambda board: (-waiting[board] * rates[board], board))
        if order[0] in fresh:
            return order[0] if waiting[order[0]] > 0 else -1
        stale = [board for board in order[:8] if board not in fresh]
        waiting.update(zip(stale, asked.worth(np.array(stale)).tolist(), strict=True))
        fresh.update(stale)
    return -1


def _closing(yard: Yard, asked: Values, waiting: dict[int, float], most: int) -> LayOut | None:
    """The cheapest board that takes all that is left, if one does; what is left is then nothing."""
    whole = int((asked.values * asked.left).sum())
    able = [board for board, worth in waiting.items() if worth >= whole]
    kept = asked.left.copy()
    for board in sorted(able, key=lambda board: (yard.price[board], board))[:6]:
        if yard.price[board] >= most:
            break
        if int(asked.worth(np.array([board]))[0]) < whole:
            continue
        one = lay_out(asked, board)
        if not asked.left.any():
            return one
        asked.left[:] = kept
        asked.fill(np.arange(len(yard.rack.kinds)))
    return None


def correct(yard: Yard, plan: Plan, values: "np.ndarray", *, rate: float) -> "np.ndarray":
    """Values that rise for members on boards worth less than their price, and for those left short."""
    values = values.astype(np.float64)
    for one in plan.lay_outs:
        types = list(one.types)
        paid = float(yard.price[one.board]) / max(float(yard.values[types].sum()), 1.0)
        each = np.unique(types)
        values[each] *= 1 - rate + rate * min(max(paid, 0.9), 1.5)
    values[np.array(plan.short) > 0] *= 1 + rate
    return np.asarray(np.minimum(values, 4.0 * yard.values), np.int64)


def counts_of(yard: Yard, lay_outs: Sequence[LayOut]) -> "np.ndarray":
    """How many of each type these boards hold."""
    counts = np.zeros(len(yard.values), np.int64)
    for one in lay_outs:
        np.add.at(counts, list(one.types), 1)
    return counts


def loss(yard: Yard, one: LayOut) -> int:
    """What a board cost more than its members are worth."""
    return int(yard.price[one.board] - yard.values[list(one.types)].sum())
