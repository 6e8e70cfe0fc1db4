"""The most that a strip could give with each member used once. Compiled.

The sums of `kernels` let each stick of a strip have all members to itself. Here all sticks of a kind in a
strip are one long stick with one pair of ends, whatever length a board lets clean up. What that gives is a
bound, too: where there is little of each length, by far the nearer one.
"""

import numpy as np
from numba import njit

from pinchrod.timber.kernels import Array, Lengths, Tables, Wood, within


@njit(cache=True, nogil=True)
def fill_once(wood: Wood, lengths: Lengths, tables: Tables, values: Array, left: Array) -> None:
    """Work out the most of a strip of each width by what is clear of it, of what is left of each type."""
    for width in range(wood.onward.shape[1]):
        most = tables.once[width]
        most[:] = 0
        for kind in range(wood.width_first[width], wood.width_first[width + 1]):
            _share_out(most, _as_one(lengths, kind, values, left, most.shape[0]))


@within
def _as_one(lengths: Lengths, kind: int, values: Array, left: Array, room: int) -> Array:
    """By cell: the most of one stick no longer than that, however long."""
    best = np.zeros(room, np.int64)
    for of in range(lengths.type_first[kind], lengths.type_first[kind + 1]):
        most, times = left[of], 1
        while most > 0 and values[of] > 0:
            times = min(times, most)
            size, value = times * lengths.size[of], times * values[of]
            for cell in range(room - 1, lengths.ends + size - 1, -1):
                best[cell] = max(best[cell], best[cell - size] + value)
            most -= times
            times *= 2
    best[: lengths.least] = 0
    return best


@within
def _share_out(most: Array, kind: Array) -> None:
    """Let sticks of one more kind have a part of the strip; together they rise only where one does."""
    places, alone = _rises(most), _rises(kind)
    before = most[places]
    for cell in alone:
        for at in range(places.shape[0]):
            whole = cell + places[at]
            if whole >= most.shape[0]:
                break
            most[whole] = max(most[whole], before[at] + kind[cell])
    for cell in range(1, most.shape[0]):
        most[cell] = max(most[cell], most[cell - 1])


@within
def _rises(worth: Array) -> Array:
    """The first cell, and each at which there is more than at all before it."""
    places, number, top = np.zeros(worth.shape[0], np.int64), 1, worth[0]
    for cell in range(1, worth.shape[0]):
        if worth[cell] > top:
            places[number] = cell
            number, top = number + 1, worth[cell]
    return places[:number]


@within
def members_once(wood: Wood, lengths: Lengths, tables: Tables, board: int) -> None:
    """Let no band of a board be worth more than its members, each used once, could give."""
    for band in range(wood.board_bands[board], wood.board_bands[board + 1]):
        if tables.band_worth[band] > 0:
            tables.band_worth[band] = min(tables.band_worth[band], _most(wood, lengths, tables, board, band))


@within
def _most(wood: Wood, lengths: Lengths, tables: Tables, board: int, band: int) -> int:
    """The most of a band, its runs used from the longest, one or more, with a stick or more in each.

    Of each kind one pair of ends is counted already; every stick more has its own.
    """
    width = wood.slot_width[wood.band_first[band]]
    first, last = wood.width_first[width], wood.width_first[width + 1]
    longest, clear, most = wood.limit[board, first:last].max(), 0, 0
    for slot in range(wood.band_first[band], wood.band_first[band + 1]):
        clear += wood.slot_cap[slot]
        sticks = slot - wood.band_first[band] + 1
        while True:
            room = min(clear, sticks * longest) - max(sticks - last + first, 0) * lengths.ends
            if room > 0:
                most = max(most, tables.once[width, room])
            if sticks * longest >= clear:
                break
            sticks += 1
    return most
