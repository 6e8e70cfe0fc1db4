"""One board laid out: the best strips and sticks for given values, with each member used once. Compiled.

A lay-out is a row of whole numbers, stick by stick: state, width, slot, kind, how many members, their types.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from numba import njit

from pinchrod.timber.kernels import (
    Array,
    Lengths,
    Tables,
    Wood,
    bands_of_board,
    fences_of_board,
    fill,
    members_of_stick,
    next_strip,
    sticks_of_run,
    within,
)
from pinchrod.timber.once import fill_once, members_once

HEAD = 5  # numbers before a stick's members

Marks = npt.NDArray[np.int32]


class Yard(NamedTuple):
    """The rack with its prices, what members are worth, and room for the sums."""

    wood: Wood
    lengths: Lengths
    tables: Tables
    price: Array  # whole numbers, as are the values
    values: Array
    likely: Array  # boards that give most for their price
    top: int  # cells in the longest stick of all
    sticks: int  # no run holds more
    fee: int  # what a strip more counts for: so little that it only settles ties
    once: bool  # whether members are shared by the sticks of a strip: it takes longer, and sees more


@dataclass(frozen=True, slots=True)
class Cut:
    """A stick to be: its slot, its kind, and the types of its members."""

    slot: int
    kind: int
    types: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip to be, and its sticks."""

    state: int
    cuts: tuple[Cut, ...]


def strips_of(marks: list[int]) -> tuple[Strip, ...]:
    """The strips of a lay-out, out of its row of numbers."""
    by_strip = groupby(_cuts(marks), key=lambda one: one[0])
    return tuple(Strip(state, tuple(cut for _, cut in cuts)) for state, cuts in by_strip)


def _cuts(marks: list[int]) -> Iterator[tuple[int, Cut]]:
    at = 0
    while at < len(marks):
        state, _, slot, kind, number = marks[at : at + HEAD]
        at += HEAD + number
        yield state, Cut(slot, kind, tuple(marks[at - number : at]))


@njit(cache=True, nogil=True)
def lay_out(yard: Yard, values: Array, left: Array, board: int, marks: Marks) -> int:
    """Lay a board out, strip by strip from its first edge; what is used is taken from what is left.

    Written into `marks`; how many numbers that took comes back. The tables must be of what is left. They are
    worked out anew only where a stick would use a member twice.
    """
    wood, tables = yard.wood, yard.tables
    state, last = wood.state_first[board], wood.state_first[board + 1] - 1
    counts, cut = np.zeros(left.shape[0], np.int64), np.empty(2 * yard.sticks, np.int64)
    size, stale = 0, True
    while state < last:
        if stale:
            if yard.once:
                fill_once(wood, yard.lengths, tables, values, left)
            bands_of_board(wood, yard.lengths, tables, board)
            if yard.once:
                members_once(wood, yard.lengths, tables, board)
            _charge(wood, tables, board, yard.fee)
            fences_of_board(wood, tables, board)
            stale = False
        place, width = next_strip(wood, tables, state, last)
        if place < 0:
            break
        band = wood.band[place, width]
        for slot in range(wood.band_first[band], wood.band_first[band + 1]):
            before = size
            size, anew = _cut_run(yard, values, left, board, slot, counts, cut, marks, size)
            _write_strip(marks, before, size, place, width)
            stale = stale or anew
        state = wood.onward[place, width]
    return size


@within
def _charge(wood: Wood, tables: Tables, board: int, fee: int) -> None:
    """Let each strip count for a little less, so that of lay-outs worth the same the one with fewer wins."""
    for band in range(wood.board_bands[board], wood.board_bands[board + 1]):
        if tables.band_worth[band] > 0:
            tables.band_worth[band] = max(tables.band_worth[band] - fee, 1)


@within
def _write_strip(marks: Marks, at: int, size: int, place: int, width: int) -> None:
    while at < size:
        marks[at], marks[at + 1] = place, width
        at += HEAD + marks[at + 4]


@within
def _cut_run(
    yard: Yard,
    values: Array,
    left: Array,
    board: int,
    slot: int,
    counts: Array,
    cut: Array,
    marks: Marks,
    size: int,
) -> tuple[int, bool]:
    """Write down the best sticks of a run, of members that are left; whether tables were worked out anew."""
    wood, lengths, tables = yard.wood, yard.lengths, yard.tables
    width, cap, anew = wood.slot_width[slot], wood.slot_cap[slot], False
    kinds = np.arange(wood.width_first[width], wood.width_first[width + 1])
    while cap > 0 and sticks_of_run(wood, lengths, tables, board, width, cap, cut) > 0:
        used, whole = 0, True
        for at in range(0, cut.shape[0], 2):
            if cut[at] < 0:
                break
            before = size
            size = _cut_stick(yard, left, slot, cut[at], cut[at + 1], counts, marks, size)
            if size == before:
                whole = False
            else:
                used += _cells(yard, marks, before)
        if whole:
            break
        cap -= used
        fill(lengths, tables, kinds, values, left, yard.top, False)
        anew = True
    return size, anew


@within
def _cut_stick(
    yard: Yard, left: Array, slot: int, kind: int, cell: int, counts: Array, marks: Marks, size: int
) -> int:
    """Write a stick down and take its members; if one of them is no longer left, nothing."""
    first, last = yard.lengths.type_first[kind], yard.lengths.type_first[kind + 1]
    counts[first:last] = 0
    members_of_stick(yard.lengths, yard.tables, kind, cell, counts)
    for of in range(first, last):
        if counts[of] > left[of]:
            return size
    head = size
    size += HEAD
    for of in range(first, last):
        left[of] -= counts[of]
        for _ in range(counts[of]):
            marks[size] = of
            size += 1
    marks[head + 2], marks[head + 3], marks[head + 4] = slot, kind, size - head - HEAD
    return size


@within
def _cells(yard: Yard, marks: Marks, at: int) -> int:
    """The cells that a stick takes of its run."""
    cells = yard.lengths.ends
    for member in range(at + HEAD, at + HEAD + marks[at + 4]):
        cells += yard.lengths.size[marks[member]]
    return max(cells, yard.lengths.least)


@njit(cache=True)
def add_members(marks: Marks, size: int, counts: Array) -> None:
    """Count in the members of a lay-out."""
    at = 0
    while at < size:
        for member in range(at + HEAD, at + HEAD + marks[at + 4]):
            counts[marks[member]] += 1
        at += HEAD + marks[at + 4]


@njit(cache=True)
def handling(marks: Marks, size: int) -> int:
    """How much there is to do on a board: strips first, then widths, sticks, and lengths on each stick."""
    strips, widths, sticks, lengths, at, seen = 0, 0, 0, 0, 0, 0
    state = -1
    while at < size:
        strips += marks[at] != state
        state = marks[at]
        if not seen >> marks[at + 1] & 1:
            widths += 1
            seen |= 1 << marks[at + 1]
        sticks += 1
        before = -1
        for member in range(at + HEAD, at + HEAD + marks[at + 4]):
            lengths += marks[member] != before
            before = marks[member]
        at += HEAD + marks[at + 4]
    return ((strips * 64 + widths) * 512 + sticks) * 4096 + lengths


@njit(cache=True)
def add_relaxed(yard: Yard, board: int, counts: Array) -> None:
    """Count in what the board would hold if each of its sticks had all members to itself."""
    wood, cut = yard.wood, np.empty(2 * yard.sticks, np.int64)
    state, last = wood.state_first[board], wood.state_first[board + 1] - 1
    while True:
        state, width = next_strip(wood, yard.tables, state, last)
        if state < 0:
            return
        band = wood.band[state, width]
        for slot in range(wood.band_first[band], wood.band_first[band + 1]):
            sticks_of_run(wood, yard.lengths, yard.tables, board, width, wood.slot_cap[slot], cut)
            for at in range(0, cut.shape[0], 2):
                if cut[at] < 0:
                    break
                members_of_stick(yard.lengths, yard.tables, cut[at], cut[at + 1], counts)
        state = wood.onward[state, width]
