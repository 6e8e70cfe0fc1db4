"""The question in whole numbers, as the loops want it: kinds of piece, longest first."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
PLENTY = 1 << 40  # bars of a stock that has no limit


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Kinds of piece and kinds of stock, kerf already added to both."""

    size: Whole
    wanted: Whole
    room: Whole
    price: Whole
    supply: Whole
    least: Whole  # bars of each stock that have to be used: none, but while the ways to divide are searched
    step: int  # every cost is a multiple of it

    @property
    def most(self) -> Whole:
        """How many of each kind one bar can hold and has a use for."""
        return np.minimum(self.wanted, int(self.room.max()) // self.size)

    @property
    def limited(self) -> Whole:
        """The stocks of which there are only so many, or may come to be while dividing: all, if several."""
        return np.flatnonzero((self.supply < PLENTY) | (len(self.room) > 1))

    def up(self, cost: int, scale: int) -> int:
        """The least cost there can be that is not under cost / scale."""
        return -(-cost // (scale * self.step)) * self.step


class Bar(NamedTuple):
    """What is cut from one bar."""

    stock: int
    kinds: Whole
    counts: Whole


class Cut(NamedTuple):
    """Bars that are cut alike."""

    bar: Bar
    times: int


Plan = tuple[Cut, ...]


def cost_of(plan: Plan, counted: Counted) -> int:
    """What the bars of a plan cost."""
    return sum(int(counted.price[cut.bar.stock]) * cut.times for cut in plan)


def less(wanted: Whole, bar: Bar, times: int) -> Whole:
    """What is still wanted once the bar has been cut so many times."""
    left = wanted.copy()
    left[bar.kinds] = np.maximum(0, left[bar.kinds] - times * bar.counts)
    return left
