"""Going down from parts of bars to whole ones: take the surest bars, look again, and so on."""

from dataclasses import dataclass, replace

import numpy as np

from pinchrod.timber.one_length.columns import Converged, Pace, converge
from pinchrod.timber.one_length.counted import PLENTY, Counted, Cut, Plan, Whole, less
from pinchrod.timber.one_length.first_plan import longest_first
from pinchrod.timber.one_length.master import Master
from pinchrod.timber.one_length.pivoting import Real
from pinchrod.timber.one_length.worths import Worths

NEARLY = 1e-6
PACE = Pace(rounds=12, many=40, hold=0.3)  # of column generation at each step down


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What is still to make, from which bars, for at most how much."""

    wanted: Whole
    supply: Whole
    allowed: int

    def after(self, cut: Cut, price: int) -> "Left":
        """What is left once these bars are cut."""
        supply = self.supply.copy()
        if supply[cut.bar.stock] < PLENTY:
            supply[cut.bar.stock] -= cut.times
        return Left(
            wanted=less(self.wanted, cut.bar, cut.times), supply=supply,
            allowed=self.allowed - price * cut.times,
        )  # fmt: skip


def dive(counted: Counted, master: Master, start: Worths, target: int, *, second_at: int) -> Plan | None:
    """A plan for at most the target cost, if the way down leads to one.

    At step `second_at` the second surest bar is taken in place of the surest.
    """
    left = Left(wanted=counted.wanted, supply=counted.supply, allowed=target)
    plan: list[Cut] = []
    worths, depth = start, 0
    while left.wanted.any():
        rest = longest_first(counted, left.wanted, left.supply)
        if rest is not None and sum(int(counted.price[c.bar.stock]) * c.times for c in rest) <= left.allowed:
            return (*plan, *rest)
        found = _look(counted, master, worths, left)
        if found is None:
            return None
        worths = found.worths
        cuts = _surest(master, found.solved.times, left, second=depth == second_at)
        for cut in cuts:
            left = left.after(cut, int(counted.price[cut.bar.stock]))
        plan.extend(cuts)
        depth += 1
    return tuple(plan)


def _look(counted: Counted, master: Master, worths: Worths, left: Left) -> Converged | None:
    """Solve for what is left, with new bars if those known do not do; None if it costs too much."""
    rest = replace(counted, wanted=left.wanted, supply=left.supply)
    master.want(rest)

    def enough(now: Converged) -> bool:
        return now.bound > left.allowed or now.solved.cost <= left.allowed + NEARLY

    scale = worths.scale
    start = Worths(piece=np.where(left.wanted > 0, worths.piece, 0), scarce=worths.scarce, scale=scale)
    found = converge(rest, master, start, PACE, enough=enough)
    return found if found.solved.cost <= left.allowed + NEARLY else None


def _surest(master: Master, times: Real, left: Left, *, second: bool) -> list[Cut]:
    """The bars to take now: all that come out whole, or else those nearest to it."""
    whole = np.floor(times + NEARLY).astype(np.int64)
    part = times - whole
    cuts: list[Cut] = []
    wanted = left.wanted
    for j in np.flatnonzero(whole).tolist():
        fits = _fits(master, j, wanted)
        if fits > 0:
            cuts.append(Cut(master.bars[j], min(fits, int(whole[j]))))
            wanted = less(wanted, *cuts[-1])
    if cuts:
        return cuts
    order = sorted(np.flatnonzero(part > NEARLY).tolist(), key=lambda j: (-part[j], j))
    if second and len(order) > 1:
        order = order[1:]
    many = max(1, int(part.sum() / 12))
    for j in order:
        if _fits(master, j, wanted) > 0 and (not cuts or part[j] > 0.6) and len(cuts) < many:
            cuts.append(Cut(master.bars[j], 1))
            wanted = less(wanted, *cuts[-1])
    return cuts or [Cut(master.bars[int(times.argmax())], 1)]


def _fits(master: Master, j: int, wanted: Whole) -> int:
    """How often the bar can be cut with a use for every piece of it."""
    bar = master.bars[j]
    return int((wanted[bar.kinds] // bar.counts).min())
