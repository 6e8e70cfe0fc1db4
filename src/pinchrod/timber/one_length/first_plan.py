"""The plan a joiner makes at once: the longest piece first, each bar filled before the next."""

import numpy as np

from pinchrod.timber.one_length.compiled import compiled
from pinchrod.timber.one_length.counted import Bar, Counted, Cut, Plan, Whole


@compiled
def fill_longest_first(size: Whole, left: Whole, room: int, counts: Whole) -> tuple[int, int]:
    """How much of the bar is filled and how often it can be cut so; `counts` gets the pieces."""
    filled, times = 0, 1 << 40
    for k in range(len(size)):
        counts[k] = min(left[k], (room - filled) // size[k])
        filled += counts[k] * size[k]
        if counts[k] > 0:
            times = min(times, left[k] // counts[k])
    return filled, times


def longest_first(counted: Counted, wanted: Whole, supply: Whole) -> Plan | None:
    """A plan for what is wanted, or None if the bars run out."""
    left, bars_left = wanted.copy(), supply.copy()
    plan: list[Cut] = []
    while left.any():
        cut = _next_cut(counted, left, bars_left)
        if cut is None:
            return None
        plan.append(cut)
        left[cut.bar.kinds] -= cut.times * cut.bar.counts
        bars_left[cut.bar.stock] -= cut.times
    return tuple(plan)


def _next_cut(counted: Counted, left: Whole, bars_left: Whole) -> Cut | None:
    """The bar that costs least for the length it gives, filled longest first."""
    best: tuple[float, Cut] | None = None
    counts = np.zeros(len(left), np.int64)
    for stock in np.flatnonzero(bars_left > 0).tolist():
        filled, times = fill_longest_first(counted.size, left, int(counted.room[stock]), counts)
        if filled and (best is None or counted.price[stock] / filled < best[0]):
            kinds = np.flatnonzero(counts)
            cut = Cut(Bar(stock, kinds, counts[kinds]), min(times, int(bars_left[stock])))
            best = counted.price[stock] / filled, cut
    return best[1] if best else None
