"""Filling one bar to the most worth: a table by dynamic programming, and a search that it bounds.

All in whole numbers. Where the bar is very long the table is kept in coarse cells, sizes rounded
down: then it bounds from above, and the search alone decides; in cells of one it is exact.
"""

import numpy as np
from numpy.typing import NDArray

from pinchrod.timber.one_length.compiled import compiled

Whole = NDArray[np.int64]
CELLS = 1_500_000  # of a coarse table: a few milliseconds to fill
EXACT_CELLS = 3_500_000  # of a table that needs no search
MANY_KINDS, CELLS_OF_MANY = 300, 10_000_000  # of which a search in coarse cells breaks off too often


def cell_of(kinds: int, longest: int) -> int:
    """How long a cell has to be for the table to stay small."""
    exact = CELLS_OF_MANY if kinds >= MANY_KINDS else EXACT_CELLS
    if longest * (kinds + 1) <= exact:
        return 1
    return max(2, -(-longest * (kinds + 1) // CELLS))


@compiled
def fill_table(size: Whole, most: Whole, worth: Whole, longest: int, cell: int) -> Whole:
    """Row k, cell c: the most worth that fits in c cells from kind k and those after it."""
    kinds, cells = len(size), longest // cell
    best = np.zeros((kinds + 1, cells + 1), np.int64)
    spare = np.zeros(cells + 1, np.int64)
    for k in range(kinds - 1, -1, -1):
        below, line = best[k + 1], best[k]
        step, gain = size[k] // cell, worth[k]
        if most[k] == 1 and step <= cells:
            line[:step] = below[:step]
            further, same = line[step:], below[step:]
            for c in range(len(further)):
                further[c] = max(same[c], below[c] + gain)
            continue
        line[:] = below
        left, lump = most[k], 1
        while left > 0:
            take = min(left, lump)
            left, lump = left - take, lump * 2
            step, gain = take * (size[k] // cell), take * worth[k]
            if step > cells:
                continue
            if lump > 2:
                spare[:] = line
                below = spare
            further = line[step:]
            for c in range(len(further)):
                further[c] = max(further[c], below[c] + gain)
    return best


@compiled
def best_with(  # noqa: PLR0913, PLR0915 -- a compiled loop takes arrays, and its state lives in it
    size: Whole, most: Whole, worth: Whole, best: Whole, cell: int,
    first: int, room: int, floor: int, steps: int, found: Whole,
) -> tuple[int, int]:  # fmt: skip
    """The most worth over `floor` of a bar whose first kind is `first` (into `found`); steps left.

    The worth is `floor` itself if there is no better bar. With no steps left the search broke off.
    """
    kinds = len(size)
    taken = np.zeros(kinds, np.int64)
    left, value, k = room, 0, first
    while steps > 0:
        steps -= 1
        if k < kinds and value + best[k, left // cell] > floor:
            m = min(most[k], left // size[k])
            if m == 0 and k == first:
                break
            taken[k] = m
            left -= m * size[k]
            value += m * worth[k]
            k += 1
            continue
        if k == kinds and value > floor:
            floor = value
            found[:] = taken
        j = k - 1
        while j >= first and taken[j] <= (1 if j == first else 0):
            left += taken[j] * size[j]
            value -= taken[j] * worth[j]
            taken[j] = 0
            j -= 1
        if j < first:
            break
        taken[j] -= 1
        left += size[j]
        value -= worth[j]
        k = j + 1
    return floor, steps


@compiled
def _is_full(size: Whole, most: Whole, taken: Whole, left: int, slack: int) -> bool:
    """Whether no piece of use fits beside those taken, and the bar is not longer than it need be."""
    if left >= slack:
        return False
    for j in range(len(size) - 1, -1, -1):
        if size[j] > left:
            return True
        if taken[j] < most[j]:
            return False
    return True


@compiled
def list_bars(  # noqa: C901, PLR0913, PLR0915 -- as above
    size: Whole, most: Whole, worth: Whole, best: Whole, cell: int, room: int, least: int, slack: int,
    steps: int, ends: Whole, kinds_of: Whole, counts_of: Whole,
) -> tuple[int, int]:  # fmt: skip
    """How many bars are worth `least` or more, written one after another; -1 if there is no room.

    With a slack of 0 or more only full bars count: no piece of use fits, and less than it is left.
    The second number is what is left of `steps`; at none the list is not complete.
    """
    kinds = len(size)
    taken = np.zeros(kinds, np.int64)
    bars, used = 0, 0
    left, value, k = room, 0, 0
    while steps > 0:
        steps -= 1
        if k < kinds and value + best[k, left // cell] >= least:
            m = min(most[k], left // size[k])
            taken[k] = m
            left -= m * size[k]
            value += m * worth[k]
            k += 1
            continue
        if k == kinds and value >= least and (slack < 0 or _is_full(size, most, taken, left, slack)):
            if bars >= len(ends):
                return -1, steps
            for j in range(kinds):
                if taken[j] > 0:
                    if used >= len(kinds_of):
                        return -1, steps
                    kinds_of[used] = j
                    counts_of[used] = taken[j]
                    used += 1
            ends[bars] = used
            bars += 1
        j = k - 1
        while j >= 0 and taken[j] == 0:
            j -= 1
        if j < 0:
            break
        taken[j] -= 1
        left += size[j]
        value -= worth[j]
        k = j + 1
    return bars, steps
