"""Boards taken one after the other, until all members are cut. Compiled."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from numba import njit

from pinchrod.timber.kernels import Array, bands_of_board, fences_of_board, fill, within
from pinchrod.timber.lay_out import Marks, Yard, lay_out
from pinchrod.timber.once import fill_once, members_once

CLOSINGS = 4  # boards tried at most to end a plan with
Floats = npt.NDArray[np.float64]


class Taken(NamedTuple):
    """Room for boards laid out: one row each."""

    marks: Marks
    size: Array
    board: Array
    worth: Array  # of its members, at the values of the bound


class Ceiling(NamedTuple):
    """How much boards may cost over what their members are worth.

    All losses are added up, but of the largest only a part counts: a plan ends in a board of which much
    is left over, and the worse that one is, the better are the others.
    """

    loss: float
    odd: float  # the part of the largest loss that does not count
    largest: int  # loss among the boards that are kept


@njit(cache=True, nogil=True)
def take_boards(
    yard: Yard, boards: Array, rates: Floats, values: Array, left: Array, ceiling: Ceiling, taken: Taken
) -> int:
    """Take the board that gives most for its price, lay it out, and so on till all members are cut.

    Worth only falls as members are cut, so a board's last worth is its most: only those that could still lead
    are worked out anew. As soon as one board can hold all that is left, the cheapest such one ends the plan.
    How many boards were taken, -1 if they cost too much; what found no place is in `left`.
    """
    waiting, fresh = np.empty(boards.shape[0], np.float64), np.empty(boards.shape[0], np.bool_)
    waiting[:] = np.inf
    kinds, kept = np.arange(yard.lengths.type_first.shape[0] - 1), left.copy()
    number, lost, largest, low, tried, stale = 0, 0, ceiling.largest, -1, 0, True
    while lost - ceiling.odd * largest <= ceiling.loss:
        whole, before = worth_of(values, left), worth_of(yard.values, left)
        if whole == 0:
            return number
        if stale:
            fill(yard.lengths, yard.tables, kinds, values, left, yard.top, False)
            if yard.once:
                fill_once(yard.wood, yard.lengths, yard.tables, values, left)
            if low < 0:  # a board that did not hold all leaves the others as they were
                fresh[:] = False
            stale = False
        spare = ceiling.loss - lost
        most = before + max(spare / (1 - ceiling.odd), spare + ceiling.odd * largest)
        at = _cheapest_able(yard, boards, waiting, whole, low, most) if tried < CLOSINGS else -1
        last = at >= 0
        if not last:
            at = _leader(rates, waiting)
        if at < 0:
            return number
        if not fresh[at]:
            bands_of_board(yard.wood, yard.lengths, yard.tables, boards[at])
            if yard.once:
                members_once(yard.wood, yard.lengths, yard.tables, boards[at])
            waiting[at] = fences_of_board(yard.wood, yard.tables, boards[at])
            fresh[at] = True
            continue
        kept[:] = left
        taken.size[number] = lay_out(yard, values, left, boards[at], taken.marks[number])
        stale = True
        if last and worth_of(values, left) > 0:
            left[:] = kept
            low, tried = yard.price[boards[at]], tried + 1
            continue
        waiting[at], low, tried = -1.0, -1, 0
        if taken.size[number] > 0:
            taken.board[number] = boards[at]
            taken.worth[number] = before - worth_of(yard.values, left)
            loss = yard.price[boards[at]] - taken.worth[number]
            lost, largest = lost + loss, max(largest, loss)
            number += 1
    return -1


@within
def worth_of(values: Array, counts: Array) -> int:
    """What so many of each type are worth."""
    worth = 0
    for of in range(values.shape[0]):
        worth += values[of] * counts[of]
    return worth


@within
def _leader(rates: Floats, waiting: Floats) -> int:
    """The board that leads by worth at its rate; -1 if none gives anything."""
    lead, most = -1, 0.0
    for at in range(rates.shape[0]):
        if waiting[at] * rates[at] > most:
            lead, most = at, waiting[at] * rates[at]
    return lead


@within
def _cheapest_able(yard: Yard, boards: Array, waiting: Floats, whole: int, low: int, most: float) -> int:
    """The cheapest board over that price that may hold it all; -1 if there is none."""
    able = -1
    for at in range(boards.shape[0]):
        price = yard.price[boards[at]]
        dearer = able >= 0 and price >= yard.price[boards[able]]
        if waiting[at] >= whole and low < price <= most and not dearer:
            able = at
    return able
