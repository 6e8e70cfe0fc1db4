"""Every bar that a plan under the target could use: those that lose less than the gap.

With fair worths no bar gains; a plan costs what its pieces are worth plus what its bars lose. So
a bar that by itself loses more than target less bound is in no plan that reaches the target.
"""

from dataclasses import dataclass

import numpy as np

from pinchrod.timber.one_length.counted import PLENTY, Bar, Counted, Whole
from pinchrod.timber.one_length.knapsack import cell_of, fill_table, list_bars
from pinchrod.timber.one_length.worths import Worths


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Bars one after another: bar b has the entries from starts[b] up to starts[b + 1]."""

    stock: Whole
    starts: Whole
    kinds: Whole
    counts: Whole


def list_all(
    counted: Counted, fair: Worths, gap: int, *, covering: bool, at_most: int, steps: int
) -> Listed | None:
    """All bars that lose at most the gap, or only full ones if covering; None if they are too many.

    A plan stays as cheap if its bars are filled up and more is made than wanted: so full bars do, where
    making too much is allowed; and none that would go into a stock no dearer and no longer.
    """
    size, most, worth = counted.size, counted.most, fair.piece
    longest = int(counted.room.max())
    cell = cell_of(len(size), longest)
    best = fill_table(size, most, worth, longest, cell)
    parts: list[Listed] = []
    for stock, charge in enumerate(fair.charge(counted).tolist()):
        ends, kinds = np.zeros(at_most, np.int64), np.zeros(at_most * 8, np.int64)
        counts = np.zeros(at_most * 8, np.int64)
        least = max(1, charge - gap)
        slack = _slack(counted, stock) if covering else -1
        bars, left = list_bars(
            size, most, worth, best, cell, int(counted.room[stock]), least, slack, steps, ends, kinds, counts
        )
        if bars < 0 or left == 0:
            return None
        starts = np.append(0, ends[:bars])
        kinds, counts = kinds[: starts[-1]].copy(), counts[: starts[-1]].copy()
        parts.append(Listed(stock=np.full(bars, stock), starts=starts, kinds=kinds, counts=counts))
    return _joined(parts)


def _slack(counted: Counted, stock: int) -> int:
    """What may be left of the bar, more than which it could be cut from a shorter one, no dearer."""
    room, price = int(counted.room[stock]), int(counted.price[stock])
    shorter = (counted.room < room) & (counted.price <= price) & (counted.supply == PLENTY)
    return room - int(counted.room[shorter].max()) if shorter.any() and not counted.least[stock] else room + 1


def _joined(parts: list[Listed]) -> Listed:
    offsets = np.cumsum([0] + [part.starts[-1] for part in parts])
    starts = np.concatenate([part.starts[:-1] + at for part, at in zip(parts, offsets, strict=False)])
    return Listed(
        stock=np.concatenate([part.stock for part in parts]),
        starts=np.append(starts, offsets[-1]),
        kinds=np.concatenate([part.kinds for part in parts]),
        counts=np.concatenate([part.counts for part in parts]),
    )


def listed_of(bars: list[Bar]) -> Listed:
    """These bars as a list."""
    none = np.zeros(0, np.int64)
    return Listed(
        stock=np.array([bar.stock for bar in bars], np.int64),
        starts=np.cumsum([0, *(len(bar.kinds) for bar in bars)]),
        kinds=np.concatenate([none, *(bar.kinds for bar in bars)]),
        counts=np.concatenate([none, *(bar.counts for bar in bars)]),
    )
