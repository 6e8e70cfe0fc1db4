"""The sums that take the time: knapsacks for sticks, the best sticks of a run, the best fences of a board.

Everything is whole numbers: cells of length, and values scaled to integers, so that every table is exact and
the same on every machine. Compiled on first use and kept beside the package.
"""

from collections.abc import Callable
from typing import NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt
from numba import njit

Array = npt.NDArray[np.int64]

NEVER = -(1 << 60)  # worth of what cannot be
FEW = 512  # lengths that items add up to; with more, going cell by cell is as quick

Made = TypeVar("Made", bound=Callable[..., object])


def within(function: Made) -> Made:
    """A function that only compiled ones call: without a way in from Python it is compiled sooner."""
    options = {"cache": True, "no_cpython_wrapper": True, "no_cfunc_wrapper": True}
    compiled: Made = njit(**options)(function)  # type: ignore[call-overload]  # it does take them
    return compiled


class Wood(NamedTuple):
    """The rack, measured: each board's places across, what a strip there would hold, and where it ends.

    States are places across a board, in order, the last of each board being its far side. A band is a set of
    runs that some strip of one width leaves clear; each of its runs is a slot.
    """

    width_first: Array  # kinds of each strip width
    limit: Array  # longest stick, by board and kind
    state_first: Array  # states of each board
    onward: Array  # by state and width: the state after that strip, -1 where none fits
    band: Array  # by state and width
    band_first: Array  # slots of each band
    board_bands: Array  # bands of each board
    slot_width: Array
    slot_cap: Array


class Lengths(NamedTuple):
    """Members in cells: types of each kind, what each takes, what a stick's ends take, the least stick."""

    type_first: Array
    size: Array
    ends: int
    least: int


class Tables(NamedTuple):
    """Room for the knapsack tables of every kind."""

    item_first: Array
    item_count: Array
    item_type: Array
    item_times: Array
    take: npt.NDArray[np.bool_]  # by item and cell: whether the best filling of the cell has the item
    worth: Array  # by kind and cell: the best stick no longer than that
    filled: Array  # by kind and cell: how long that stick is
    steps: Array  # by kind: the lengths at which worth rises
    step_count: Array
    density: npt.NDArray[np.float64]  # by kind: the most worth in a cell of any stick
    band_worth: Array
    state_worth: Array
    once: Array  # by strip width and cell: the most of a strip with that much clear, each member once


@njit(cache=True, nogil=True)
def fill(
    lengths: Lengths, tables: Tables, kinds: Array, values: Array, left: Array, top: int, padded: bool
) -> None:
    """Work out the tables of these kinds, for sticks up to `top` cells of what is left of each type."""
    for kind in kinds:
        _gather(lengths, tables, kind, left, values, top)
        if not _by_sums(lengths, tables, kind, values, top, padded):
            _by_cells(lengths, tables, kind, values, top, padded)


@within
def _gather(lengths: Lengths, tables: Tables, kind: int, left: Array, values: Array, top: int) -> None:
    """Write down the items of a kind: each type in ones, twos, fours, as many as a stick could hold."""
    at = tables.item_first[kind]
    for of in range(lengths.type_first[kind], lengths.type_first[kind + 1]):
        most = min(left[of], (top - lengths.ends) // lengths.size[of])
        times = 1
        while most > 0 and values[of] > 0:
            times = min(times, most)
            tables.item_type[at] = of
            tables.item_times[at] = times
            at += 1
            most -= times
            times *= 2
    tables.item_count[kind] = at - tables.item_first[kind]


@within
def _by_sums(lengths: Lengths, tables: Tables, kind: int, values: Array, top: int, padded: bool) -> bool:
    """The best sticks, from the lengths that items can add up to; False where these may be more than FEW.

    Where a shorter stick is worth as much, the longer one is dropped; but a length that is too short to be a
    stick drops none, and none of these is dropped, as more items may make it one.
    """
    first = tables.item_first[kind]
    old, new = np.empty((2, FEW), np.int64), np.empty((2, FEW), np.int64)
    old[0, 0], old[1, 0], count = lengths.ends, 0, 1
    low = 0 if padded else lengths.least
    for item in range(first, first + tables.item_count[kind]):
        if 2 * count > FEW:
            return False
        of, times = tables.item_type[item], tables.item_times[item]
        size, value = times * lengths.size[of], times * values[of]
        count = _with_item(old, count, size, value, low, top, new, tables.take[item])
        old, new = new, old
    _best_of_sums(lengths, tables, kind, old, count, padded)
    return True


@within
def _with_item(
    old: Array,
    count: int,
    size: int,
    value: int,
    low: int,
    top: int,
    new: Array,
    take: npt.NDArray[np.bool_],
) -> int:
    """Lengths and worths with one item more, in order of length; how many there are."""
    bare, more, made, best = 0, 0, 0, -1
    while bare < count or more < count:
        longer = old[0, more] + size if more < count else NEVER
        with_it = bare == count or (more < count and longer <= old[0, bare])
        if with_it and bare < count and longer == old[0, bare]:
            with_it = old[1, more] + value > old[1, bare]
            bare, more = bare + with_it, more + (not with_it)  # of two as long the other is passed over
        cell = longer if with_it else old[0, bare]
        worth = old[1, more] + value if with_it else old[1, bare]
        bare, more = bare + (not with_it), more + with_it
        if cell > top or (cell >= low and worth <= best):
            continue
        if cell >= low:
            best = worth
        new[0, made], new[1, made], take[cell] = cell, worth, with_it
        made += 1
    return made


@within
def _best_of_sums(lengths: Lengths, tables: Tables, kind: int, sums: Array, count: int, padded: bool) -> None:
    """Write down the best stick of each length at most, and the lengths at which it gets better."""
    best, filled, start, rises, dense = 0, 0, 0, 0, 0.0
    for at in range(count + 1):
        if at < count and (sums[1, at] <= best or not (padded or sums[0, at] >= lengths.least)):
            continue
        place = max(sums[0, at], lengths.least) if at < count else tables.worth.shape[1]
        if place > start:
            tables.worth[kind, start:place], tables.filled[kind, start:place] = best, filled
            if best > 0:
                tables.steps[kind, rises], rises = start, rises + 1
                dense = max(dense, best / start)
            start = place
        if at < count:
            best, filled = sums[1, at], sums[0, at]
    tables.step_count[kind] = rises
    tables.density[kind] = dense


@within
def _by_cells(lengths: Lengths, tables: Tables, kind: int, values: Array, top: int, padded: bool) -> None:
    """The best stick of each exact length, then of each length at most; none is longer than all items."""
    first = tables.item_first[kind]
    last = first + tables.item_count[kind]
    reach = lengths.ends
    old, new = np.empty(top + 1, np.int64), np.empty(top + 1, np.int64)
    old[:], new[:] = NEVER, NEVER
    old[lengths.ends] = 0
    for item in range(first, last):
        of, times = tables.item_type[item], tables.item_times[item]
        size, value = times * lengths.size[of], times * values[of]
        reach = min(reach + size, top)
        short = min(size, reach + 1)
        new[:short], tables.take[item, :short] = old[:short], False
        _add_item(
            old[: reach + 1 - short],
            value,
            old[short : reach + 1],
            new[short : reach + 1],
            tables.take[item, short : reach + 1],
        )
        old, new = new, old
    _at_most(lengths, tables, kind, old[: reach + 1], top, padded)


@within
def _add_item(shorter: Array, value: int, without: Array, new: Array, take: npt.NDArray[np.bool_]) -> None:
    """By cell: the better of a stick without an item, and of one shorter by the item with it."""
    for cell in range(new.shape[0]):
        with_it = shorter[cell] + value
        take[cell] = with_it > without[cell]
        new[cell] = max(with_it, without[cell])


@within
def _at_most(lengths: Lengths, tables: Tables, kind: int, exact: Array, top: int, padded: bool) -> None:
    """Write down the best stick of each length at most, and the lengths at which it gets better."""
    best, filled, count, before = 0, 0, 0, 0
    dense = 0.0
    for cell in range(min(max(exact.shape[0], lengths.least + 1), top + 1)):
        if cell < exact.shape[0] and exact[cell] > best and (padded or cell >= lengths.least):
            best, filled = exact[cell], cell
        worth = best if cell >= lengths.least else 0
        tables.worth[kind, cell] = worth
        tables.filled[kind, cell] = filled if worth else 0
        if worth > before:
            tables.steps[kind, count] = cell
            count += 1
            dense = max(dense, worth / cell)
            before = worth
    tables.worth[kind, exact.shape[0] :] = before
    tables.filled[kind, exact.shape[0] :] = filled if before else 0
    if exact.shape[0] < lengths.least:
        tables.worth[kind, : lengths.least] = 0
    tables.step_count[kind] = count
    tables.density[kind] = dense


@within
def _one(wood: Wood, tables: Tables, board: int, width: int, cap: int, cut: Array, at: int) -> int:
    """The worth of the best single stick in a run; its kind and length are written in `cut`."""
    best = 0
    cut[at] = -1
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        cell = min(cap, wood.limit[board, kind])
        if cell > 0 and tables.worth[kind, cell] > best:
            best = tables.worth[kind, cell]
            cut[at] = kind
            cut[at + 1] = cell
    return best


@within
def _least_pair(wood: Wood, lengths: Lengths, board: int, width: int) -> tuple[int, int]:
    """Kinds that board takes in a strip; and a length that any two sticks of one kind in a best run exceed.

    Were two of a kind no longer together than the longest stick, one pair of ends saved, they were one.
    """
    pair, kinds = 0, 0
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        if wood.limit[board, kind] > 0:
            kinds += 1
            limit = wood.limit[board, kind] + lengths.ends
            pair = limit if pair == 0 else min(pair, limit)
    return kinds, pair


@within
def _most_sticks(lengths: Lengths, kinds: int, pair: int, cap: int) -> int:
    """No best run needs more sticks than this (4: not known)."""
    if cap <= pair:
        return min(kinds, 4)
    if kinds == 1:
        return 2 if 2 * cap <= 3 * pair else (3 if cap <= 2 * pair else 4)
    return 3 if kinds == 2 and cap <= 2 * pair and 2 * cap <= 3 * pair + 2 * lengths.least else 4


@within
def _densest(wood: Wood, tables: Tables, board: int, width: int) -> float:
    dense = 0.0
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        if wood.limit[board, kind] > 0:
            dense = max(dense, tables.density[kind])
    return dense * (1 + 1e-9)


@within
def _two(wood: Wood, tables: Tables, board: int, width: int, cap: int, cut: Array, at: int, best: int) -> int:
    """The best two sticks in a run, if worth more than `best`, or one that is; written in `cut`."""
    dense = _densest(wood, tables, board, width)
    first, last = wood.width_first[width], wood.width_first[width + 1]
    for kind in range(first, last):
        limit = min(cap, wood.limit[board, kind])
        for step in range(tables.step_count[kind] - 1, -1, -1):
            cell = tables.steps[kind, step]
            worth = tables.worth[kind, cell]
            if cell > limit or worth + dense * (cap - cell) + 1 <= best:
                continue
            if worth > best:
                best = worth
                cut[at], cut[at + 1], cut[at + 2] = kind, cell, -1
            for other in range(first, last):
                rest = min(cap - cell, wood.limit[board, other])
                if rest > 0 and worth + tables.worth[other, rest] > best:
                    best = worth + tables.worth[other, rest]
                    cut[at], cut[at + 1], cut[at + 2], cut[at + 3] = kind, cell, other, rest
    return best


@within
def _three(
    wood: Wood, tables: Tables, board: int, width: int, cap: int, most: int, cut: Array, best: int
) -> int:
    """The best three sticks in a run, if worth more than `best`: one of `most` cells at most, and two."""
    dense = _densest(wood, tables, board, width)
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        limit = min(most, wood.limit[board, kind])
        for step in range(tables.step_count[kind]):
            cell = tables.steps[kind, step]
            if cell > limit:
                break
            worth = tables.worth[kind, cell]
            if worth + dense * (cap - cell) + 1 <= best:
                continue
            more = _two(wood, tables, board, width, cap - cell, cut, 2, best - worth)
            if more > best - worth:
                best = worth + more
                cut[0], cut[1] = kind, cell
    return best


@within
def _many(wood: Wood, tables: Tables, board: int, width: int, cap: int) -> tuple[Array, Array]:
    """By cell: the worth of the best sticks in a run that long, and kind and length of the last of them."""
    best = np.zeros(cap + 1, np.int64)
    last = np.empty((cap + 1, 2), np.int64)
    last[:] = -1
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        if wood.limit[board, kind] > 0:
            _join(tables, kind, wood.limit[board, kind], best, last, 0)
    for cell in range(1, cap + 1):
        if best[cell - 1] >= best[cell]:
            best[cell] = best[cell - 1]
            last[cell, 0], last[cell, 1] = -1, 0
        if last[cell, 0] >= 0:
            _extend(wood, tables, board, width, best, last, cell)
    return best, last


@within
def _join(tables: Tables, kind: int, limit: int, best: Array, last: Array, at: int) -> None:
    for step in range(tables.step_count[kind]):
        cell = tables.steps[kind, step]
        if cell > limit or at + cell >= best.shape[0]:
            return
        if best[at] + tables.worth[kind, cell] > best[at + cell]:
            best[at + cell] = best[at] + tables.worth[kind, cell]
            last[at + cell, 0] = kind
            last[at + cell, 1] = cell


@within
def _extend(wood: Wood, tables: Tables, board: int, width: int, best: Array, last: Array, cell: int) -> None:
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        if wood.limit[board, kind] > 0:
            _join(tables, kind, wood.limit[board, kind], best, last, cell)


@within
def _few(wood: Wood, lengths: Lengths, tables: Tables, board: int, width: int, cap: int, cut: Array) -> int:
    """The worth of the best sticks of a run that needs three at most."""
    kinds, pair = _least_pair(wood, lengths, board, width)
    most = _most_sticks(lengths, kinds, pair, cap)
    best = _one(wood, tables, board, width, cap, cut, 0)
    if most > 1:
        best = _two(wood, tables, board, width, cap, cut, 0, best)
    if most > 2:
        best = _three(wood, tables, board, width, cap, cap - pair if kinds < 3 else cap, cut, best)
    return best


@within
def sticks_of_run(
    wood: Wood, lengths: Lengths, tables: Tables, board: int, width: int, cap: int, cut: Array
) -> int:
    """The worth of the best sticks in a run; `cut` gets kind and length of each, -1 behind the last."""
    cut[:] = -1
    kinds, pair = _least_pair(wood, lengths, board, width)
    if _most_sticks(lengths, kinds, pair, cap) < 4:
        return _few(wood, lengths, tables, board, width, cap, cut)
    best, last = _many(wood, tables, board, width, cap)
    at, cell = 0, cap
    while cell > 0:
        if last[cell, 0] >= 0:
            cut[at], cut[at + 1] = last[cell, 0], last[cell, 1]
            at += 2
        cell -= last[cell, 1] if last[cell, 0] >= 0 else 1
    worth: int = best[cap]
    return worth


@within
def bands_of_board(wood: Wood, lengths: Lengths, tables: Tables, board: int) -> None:
    """Work out the worth of each band of a board; runs that may need many sticks share one table a width."""
    cut = np.empty(8, np.int64)
    tables.band_worth[wood.board_bands[board] : wood.board_bands[board + 1]] = 0
    for width in range(wood.onward.shape[1]):
        kinds, pair = _least_pair(wood, lengths, board, width)
        longest = 0
        for band in range(wood.board_bands[board], wood.board_bands[board + 1]):
            for slot in range(wood.band_first[band], wood.band_first[band + 1]):
                if wood.slot_width[slot] != width or kinds == 0:
                    continue
                if _most_sticks(lengths, kinds, pair, wood.slot_cap[slot]) == 4:
                    longest = max(longest, wood.slot_cap[slot])
                else:
                    tables.band_worth[band] += _few(
                        wood, lengths, tables, board, width, wood.slot_cap[slot], cut
                    )
        if longest > 0:
            _add_many(wood, lengths, tables, board, width, longest)


@within
def _add_many(wood: Wood, lengths: Lengths, tables: Tables, board: int, width: int, longest: int) -> None:
    kinds, pair = _least_pair(wood, lengths, board, width)
    best = _many(wood, tables, board, width, longest)[0]
    for band in range(wood.board_bands[board], wood.board_bands[board + 1]):
        for slot in range(wood.band_first[band], wood.band_first[band + 1]):
            if (
                wood.slot_width[slot] == width
                and _most_sticks(lengths, kinds, pair, wood.slot_cap[slot]) == 4
            ):
                tables.band_worth[band] += best[wood.slot_cap[slot]]


@within
def fences_of_board(wood: Wood, tables: Tables, board: int) -> int:
    """The worth of the best fences from each place on to the far side."""
    first, last = wood.state_first[board], wood.state_first[board + 1] - 1
    worth = tables.state_worth
    worth[last] = 0
    for state in range(last - 1, first - 1, -1):
        best = worth[state + 1]
        for width in range(wood.onward.shape[1]):
            if wood.onward[state, width] >= 0:
                best = max(
                    best, tables.band_worth[wood.band[state, width]] + worth[wood.onward[state, width]]
                )
        worth[state] = best
    whole: int = worth[first]
    return whole


@njit(cache=True, nogil=True)
def worth_of_boards(wood: Wood, lengths: Lengths, tables: Tables, boards: Array) -> Array:
    """The worth of the best lay-out of each of these boards, each as if it had all members to itself."""
    found = np.empty(boards.shape[0], np.int64)
    for at in range(boards.shape[0]):
        bands_of_board(wood, lengths, tables, boards[at])
        found[at] = fences_of_board(wood, tables, boards[at])
    return found


@within
def next_strip(wood: Wood, tables: Tables, state: int, last: int) -> tuple[int, int]:
    """The first strip of the best fences from a place on: its place and width, -1 where there is none."""
    while state < last:
        for width in range(wood.onward.shape[1]):
            onward = wood.onward[state, width]
            if onward >= 0:
                worth = tables.band_worth[wood.band[state, width]]
                if worth > 0 and worth + tables.state_worth[onward] == tables.state_worth[state]:
                    return state, width
        state += 1
    return -1, -1


@within
def members_of_stick(lengths: Lengths, tables: Tables, kind: int, cell: int, counts: Array) -> None:
    """Count into `counts` the members of the best stick of a kind no longer than that."""
    cell = tables.filled[kind, cell]
    first = tables.item_first[kind]
    for item in range(first + tables.item_count[kind] - 1, first - 1, -1):
        if tables.take[item, cell]:
            of, times = tables.item_type[item], tables.item_times[item]
            counts[of] += times
            cell -= times * lengths.size[of]
