"""Worths from the middle of all that are best, for the list of bars that a cheaper plan could use.

At a corner many more bars than need be lose nothing by accident, and then the list is too long.
"""

import numpy as np

from pinchrod.timber.one_length.counted import Counted, Whole
from pinchrod.timber.one_length.interior import Real, Rows, middle_of
from pinchrod.timber.one_length.master import Master, in_whole_numbers
from pinchrod.timber.one_length.worths import Worths, price_out

ROUNDS = 20
NEAR_ENOUGH = 1e-6  # of the cost
MANY = 100
INSIDE = 0.9  # of fair worths are well inside
LEAST = 1e-4  # of the cheapest bar, that a row is worth at the start
HAIR = 1e-4  # of a bar, so that there is an inside where a number of bars is settled


def central(counted: Counted, master: Master, corner: Worths, scale: int) -> Worths:
    """Fair worths from the middle, with nearly the corner's bound; the corner itself if that fails."""
    aim = corner.total(counted) / corner.scale
    master.want(counted)
    best = corner
    for _ in range(ROUNDS):
        piece, scarce = middle(counted, master, best)
        priced = price_out(counted, in_whole_numbers(piece, scarce, scale), MANY)
        short = aim - priced.fair.total(counted) / priced.fair.scale
        if short <= NEAR_ENOUGH * aim:
            best = priced.fair
        if not master.add(priced.bars):
            break
    return best


def middle(counted: Counted, master: Master, fair: Worths) -> tuple[Real, Real]:
    """Worths and scarcities from the middle of all that are best for the bars known so far."""
    kinds, unit = len(counted.size), _unit(counted)
    few = np.flatnonzero(counted.supply < counted.wanted.sum())
    must = np.flatnonzero(counted.least > 0)
    scarce = fair.scarce / fair.scale / unit
    low = np.concatenate((counted.wanted, -counted.supply[few] - HAIR, counted.least[must])).astype(float)
    worth = np.concatenate((fair.piece / fair.scale / unit, scarce[few], -scarce[must]))
    worth = INSIDE * np.maximum(worth, 0.0) + LEAST
    found = middle_of(_rows(counted, master, few, must, low), worth, NEAR_ENOUGH / 10) * unit
    if not np.isfinite(found).all():
        return np.zeros(kinds), np.zeros(len(counted.room))
    out = np.zeros(len(counted.room))
    out[few] += found[kinds : kinds + len(few)]
    out[must] -= found[kinds + len(few) :]
    return found[:kinds], out


def _rows(counted: Counted, master: Master, few: Whole, must: Whole, low: Real) -> Rows:
    """The bars known so far, with a row a kind, a stock that runs short, a stock that must."""
    kinds, stocks = len(counted.size), np.array([bar.stock for bar in master.bars])
    entry = np.concatenate([bar.kinds for bar in master.bars])
    value = np.concatenate([bar.counts for bar in master.bars]).astype(float)
    owner = np.repeat(np.arange(len(stocks)), [len(bar.kinds) for bar in master.bars])
    for at, stock in enumerate((*few.tolist(), *must.tolist())):
        mine = np.flatnonzero(stocks == stock)
        owner, entry = np.append(owner, mine), np.append(entry, np.full(len(mine), kinds + at))
        value = np.append(value, np.full(len(mine), -1.0 if at < len(few) else 1.0))
    order = np.lexsort((entry, owner))
    starts = np.append(0, np.cumsum(np.bincount(owner, minlength=len(stocks))))
    cost = counted.price[stocks] / _unit(counted)
    return Rows(starts=starts, rows=entry[order], values=value[order], cost=cost, low=low)


def _unit(counted: Counted) -> float:
    """The cheapest price that is not nought: costs are counted in it."""
    return float(counted.price[counted.price > 0].min(initial=1 << 62))
