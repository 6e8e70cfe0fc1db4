"""What each piece is worth, in whole numbers: prices against which no bar can make a gain.

If no bar holds more worth than it costs, then whatever is wanted costs at least what it is worth
all together. That is the proof of every bound here; a bar counts as costing its price times the
scale and, where there are only so many of that stock, its scarcity on top.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinchrod.timber.one_length.counted import PLENTY, Bar, Counted, Whole
from pinchrod.timber.one_length.knapsack import best_with, cell_of, fill_table

SEARCH = 40_000  # steps for the best bar that begins with one kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Worths:
    """Worth of each kind and scarcity of each stock, in units of 1 / scale of the price."""

    piece: Whole
    scarce: Whole
    scale: int

    def charge(self, counted: Counted) -> Whole:
        """What a bar of each stock may hold in worth before there is a gain."""
        return counted.price * self.scale + self.scarce

    def total(self, counted: Counted) -> int:
        """What all that is wanted is worth, less what the scarcity gives back."""
        back = 0
        for s in counted.limited.tolist():
            scarce = int(self.scarce[s])
            back += scarce * int(counted.supply[s] if scarce > 0 else counted.least[s])
        return int(self.piece @ counted.wanted) - back


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """The bars found to hold more than they cost, best first, and worths that are a proof."""

    bars: tuple[Bar, ...]
    fair: Worths


class Gain(NamedTuple):
    """A bar that holds more than it costs, by how much, and when it was found."""

    gain: int
    place: int
    bar: Bar


class Tables(NamedTuple):
    """The kinds that are worth something and still wanted, and the table of their worth."""

    live: Whole
    size: Whole
    most: Whole
    worth: Whole
    best: Whole
    cell: int


def price_out(counted: Counted, worths: Worths, many: int) -> Priced:
    """Up to so many bars that gain against these worths, and the worths made fair by a larger scale."""
    tables = _tables(counted, worths)
    gains: list[Gain] = []
    scale, scarce = 1, worths.scarce.copy()
    for stock, charge in enumerate(worths.charge(counted).tolist()):
        dearest = _gather(gains, stock, charge, tables, int(counted.room[stock]), many)
        over, price = dearest - int(worths.scarce[stock]), int(counted.price[stock])
        if price:
            scale = max(scale, -(-over // price))
        else:  # a bar that is free can only be scarce
            scarce[stock] = max(int(scarce[stock]), dearest)
    gains.sort(key=lambda gain: (-gain.gain, gain.place))
    endless = (scarce > 0) & (counted.supply >= PLENTY)
    piece = worths.piece * 0 if endless.any() else worths.piece
    fair = Worths(piece=piece, scarce=np.where(endless, 0, scarce), scale=scale)
    return Priced(bars=tuple(gain.bar for gain in gains[:many]), fair=fair)


def _tables(counted: Counted, worths: Worths) -> Tables:
    live = np.flatnonzero((worths.piece > 0) & (counted.most > 0))
    size, most, worth = counted.size[live], counted.most[live], worths.piece[live]
    longest = int(counted.room.max())
    cell = cell_of(len(live), longest)
    best = fill_table(size, most, worth, longest, cell)
    return Tables(live=live, size=size, most=most, worth=worth, best=best, cell=cell)


def _gather(gains: list[Gain], stock: int, charge: int, tables: Tables, room: int, many: int) -> int:
    """The most worth a bar of this stock holds, or a little more; its gaining bars go on the list.

    For each kind the best bar is sought whose longest piece is of it, the most promising kinds first.
    """
    _, size, _, worth, best, cell = tables
    bound = best[0, room // cell]
    if bound <= charge:
        return int(bound)
    fit = np.flatnonzero(size <= room)
    hopes = worth[fit] + best[fit, (room - size[fit]) // cell]
    found = np.zeros(len(size), np.int64)
    dearest, missed, got = charge, 0, 0
    for at in np.argsort(-hopes, kind="stable").tolist():
        hope = int(hopes[at])
        floor = charge if got < many else dearest
        if hope <= floor:
            break
        value, broke_off = _best_with(tables, int(fit[at]), room, floor, hope, found)
        if value > floor:
            kinds = np.flatnonzero(found)
            gains.append(Gain(value - charge, len(gains), Bar(stock, tables.live[kinds], found[kinds])))
            got += 1
        dearest = max(dearest, value)
        missed = max(missed, hope if broke_off else 0)
    return int(bound) if cell == 1 else max(dearest, missed)


def _best_with(tables: Tables, k: int, room: int, floor: int, hope: int, found: Whole) -> tuple[int, bool]:
    """The most worth over the floor with kind k longest, and whether the search broke off."""
    _, size, most, worth, best, cell = tables
    for least in (hope - 1, floor) if cell == 1 and hope - 1 > floor else (floor,):
        value, left = best_with(size, most, worth, best, cell, k, room, least, SEARCH, found)
        if value > least:
            break
    return value, left <= 0
