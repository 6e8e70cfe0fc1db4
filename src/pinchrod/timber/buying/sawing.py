"""The quick planner's sums: board after board as they lie, each cut for the most worth that is wanted.

Whole numbers only: a tenth of a millimetre along a board, gathered in cells; a millimetre across it.
Members are rounded up and wood down, so that what fits here fits. Compiled on first use and kept beside the
package.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from numba import njit

Array = npt.NDArray[np.int64]

CELL = 20  # tenths of a millimetre
NEVER = -(1 << 60)
STICKS = 6  # of a run, at most


class Members(NamedTuple):
    """What is wanted, wide before narrow: kinds by strip width, types by kind."""

    width_first: Array  # kinds of each strip width
    strip: Array  # by width: how wide it is ripped
    pitch: Array  # and with the saw cut behind it
    type_first: Array  # types of each kind
    size: Array  # cells of a member and the crosscut behind it
    thick: npt.NDArray[np.float64]  # by kind: finished, and what cleaning up takes
    ends: int  # cells
    least: int  # cells of the shortest stick
    longest: float  # millimetres of the longest
    kerf: int  # tenths


class Wood(NamedTuple):
    """Boards one after another: between which lines strips may lie, and faults by where they begin."""

    low: Array
    high: Array
    long: Array  # tenths
    thick: npt.NDArray[np.float64]
    bow: npt.NDArray[np.float64]
    fault_first: Array
    fault_from: Array  # tenths
    fault_to: Array
    near: Array
    far: Array


class Tables(NamedTuple):
    """The best stick of each kind by its length in cells, from the members that are left."""

    item_first: Array
    item_count: Array
    item_type: Array
    item_times: Array
    take: npt.NDArray[np.bool_]
    worth: Array
    filled: Array


class Notes(NamedTuple):
    """Sticks as cut, a row each: board, place across, start in tenths, kind, first of its members."""

    stick: Array
    member: Array
    so_far: Array  # sticks and members so far, and boards cut


@njit(cache=True)
def saw(  # noqa: PLR0913 -- compiled functions take all they need by place
    members: Members, wood: Wood, boards: int, values: Array, left: Array, tables: Tables, notes: Notes
) -> int:
    """How many of the boards it took; what could not be cut from them is left."""
    notes.so_far[:] = 0
    for kind in range(members.type_first.shape[0] - 1):
        _fill(members, tables, kind, values, left)
    limit = np.zeros(members.type_first.shape[0] - 1, np.int64)
    for board in range(boards):
        if left.sum() == 0:
            return board
        _limits(members, wood, board, limit)
        _board(members, wood, board, limit, values, left, tables, notes)
    return boards


@njit(cache=True)
def _fill(members: Members, tables: Tables, kind: int, values: Array, left: Array) -> None:
    """The best stick of a kind, by cells: a bounded knapsack over what is left."""
    top = tables.worth.shape[1] - 1
    _gather(members, tables, kind, left, top)
    first, count = tables.item_first[kind], tables.item_count[kind]
    old, new = np.full(top + 1, NEVER, np.int64), np.full(top + 1, NEVER, np.int64)
    old[members.ends] = 0
    reach = members.ends
    for item in range(first, first + count):
        of, times = tables.item_type[item], tables.item_times[item]
        size, value = times * members.size[of], times * values[of]
        reach = min(reach + size, top)
        _with_item(old, new, tables.take[item], size, value, reach)
        old, new = new, old
    _at_most(members, tables, kind, old, reach)


@njit(cache=True)
def _with_item(
    old: Array, new: Array, take: npt.NDArray[np.bool_], size: int, value: int, reach: int
) -> None:
    """By cells: the best with an item or without; in slices, so that several are reckoned at once."""
    few = min(size, reach + 1)
    new[:few] = old[:few]
    take[:few] = False
    count = reach + 1 - size
    if count <= 0:
        return
    below, kept, better, taken = old[:count], old[size:], new[size:], take[size:]
    for cell in range(count):
        with_it = below[cell] + value
        taken[cell] = with_it > kept[cell]
        better[cell] = max(with_it, kept[cell])


@njit(cache=True)
def _gather(members: Members, tables: Tables, kind: int, left: Array, top: int) -> None:
    """The items of a kind: each type in ones, twos, fours, as many as a stick could hold."""
    at = tables.item_first[kind]
    for of in range(members.type_first[kind], members.type_first[kind + 1]):
        most = min(left[of], (top - members.ends) // members.size[of])
        times = 1
        while most > 0:
            times = min(times, most)
            tables.item_type[at] = of
            tables.item_times[at] = times
            at += 1
            most -= times
            times *= 2
    tables.item_count[kind] = at - tables.item_first[kind]


@njit(cache=True)
def _at_most(members: Members, tables: Tables, kind: int, exact: Array, reach: int) -> None:
    """By cells: the best stick no longer than that, and what it fills; none is shorter than the shortest."""
    best, filled = 0, 0
    for cell in range(exact.shape[0]):
        if cell <= reach and exact[cell] > best:
            best, filled = exact[cell], cell
        usable = cell >= members.least
        tables.worth[kind, cell] = best if usable else 0
        tables.filled[kind, cell] = filled if usable else 0


@njit(cache=True)
def _limits(members: Members, wood: Wood, board: int, limit: Array) -> None:
    """By kind: the longest stick that the board lets clean up, in cells; 0 if there is none."""
    for kind in range(limit.shape[0]):
        spare = wood.thick[board] - members.thick[kind]
        longest = members.longest
        if spare < 0:
            longest = 0.0
        elif wood.bow[board] > 0:
            longest = min(longest, wood.long[board] / 10 * np.sqrt(spare / wood.bow[board]) - 1e-6)
        cells = int(10 * longest + members.kerf) // CELL
        limit[kind] = cells if cells >= members.least else 0


@njit(cache=True)
def _board(  # noqa: PLR0913 -- compiled functions take all they need by place
    members: Members,
    wood: Wood,
    board: int,
    limit: Array,
    values: Array,
    left: Array,
    tables: Tables,
    notes: Notes,
) -> None:
    """Cut a board: the first strip of its best fences, then the best fences of the rest, and so on."""
    place = wood.low[board]
    while left.sum() > 0:
        place, width = _first_strip(members, wood, board, limit, tables, place)
        if width < 0:
            return
        _cut_strip(members, wood, board, place, width, limit, values, left, tables, notes)
        place += members.pitch[width]


@njit(cache=True)
def _first_strip(
    members: Members, wood: Wood, board: int, limit: Array, tables: Tables, low: int
) -> tuple[int, int]:
    """Where the first strip of the best fences from a line on lies, and its width; -1: nothing gained."""
    high = wood.high[board]
    if high <= low:
        return low, -1
    choice = _fences(members, wood, board, limit, tables, low)
    for at in range(high - low):
        if choice[at] >= 0:
            return low + at, choice[at]
    return low, -1


@njit(cache=True)
def _fences(members: Members, wood: Wood, board: int, limit: Array, tables: Tables, low: int) -> Array:
    """By line, counted from the lowest: the width of the strip that the best fences have there; -1: none."""
    high = wood.high[board]
    stops = _stops(members, wood, board, low)
    best = np.zeros(high - low + 2, np.int64)
    choice = np.full(high - low + 2, -1, np.int64)
    met = np.full(members.strip.shape[0], -1, np.int64)
    worth = np.zeros(members.strip.shape[0], np.int64)
    for at in range(high - low - 1, -1, -1):
        best[at] = best[at + 1]
        for width in range(members.strip.shape[0]):
            if not stops[at] or low + at + members.strip[width] > high:
                continue
            faults = _met(wood, board, low + at, members.strip[width])
            if faults != met[width]:
                met[width] = faults
                worth[width] = _strip_worth(members, wood, board, low + at, width, limit, tables)
            beyond = min(at + members.pitch[width], high - low + 1)
            if worth[width] > 0 and worth[width] + best[beyond] > best[at]:
                best[at] = worth[width] + best[beyond]
                choice[at] = width
    return choice


@njit(cache=True)
def _stops(members: Members, wood: Wood, board: int, low: int) -> npt.NDArray[np.bool_]:
    """The lines worth a fence: the first edge, a fault's far side, and a strip's width beyond another."""
    high = wood.high[board]
    stops = np.zeros(high - low + 1, np.bool_)
    stops[0] = True
    for fault in range(wood.fault_first[board], wood.fault_first[board + 1]):
        if low < wood.far[fault] < high:
            stops[wood.far[fault] - low] = True
    for at in range(high - low):
        if stops[at]:
            for width in range(members.strip.shape[0]):
                if at + members.pitch[width] <= high - low:
                    stops[at + members.pitch[width]] = True
    return stops


@njit(cache=True)
def _met(wood: Wood, board: int, place: int, wide: int) -> int:
    """A number for the faults that lie in a band: the same faults, the same number."""
    met = 1
    for fault in range(wood.fault_first[board], wood.fault_first[board + 1]):
        if wood.near[fault] < place + wide and place < wood.far[fault]:
            met = (met * 1000003 + fault + 1) & 0x3FFFFFFFFFFFFF
    return met


@njit(cache=True)
def _next_run(wood: Wood, board: int, place: int, wide: int, fault: int, start: int) -> tuple[int, int, int]:
    """The next clear run of a strip from a start on: its start, its end, and the fault to go on from."""
    last = wood.fault_first[board + 1]
    while fault < last:
        if wood.near[fault] < place + wide and place < wood.far[fault]:
            if wood.fault_from[fault] > start:
                return start, wood.fault_from[fault], fault
            start = max(start, wood.fault_to[fault])
        fault += 1
    return start, wood.long[board], last


@njit(cache=True)
def _behind(wood: Wood, board: int, fault: int, end: int) -> tuple[int, int]:
    """Where a strip goes on behind a clear run: beyond the fault that ended it; and the next fault."""
    if fault < wood.fault_first[board + 1]:
        return max(end, wood.fault_to[fault]), fault + 1
    return end, fault


@njit(cache=True)
def _best_stick(members: Members, width: int, cap: int, limit: Array, tables: Tables) -> tuple[int, int]:
    """The kind of the stick worth most in so many cells, and how many of them it may have; -1: none."""
    best, room, worth = -1, 0, 0
    for kind in range(members.width_first[width], members.width_first[width + 1]):
        cells = min(cap, limit[kind], tables.worth.shape[1] - 1)
        if cells > 0 and tables.worth[kind, cells] > worth:
            best, room, worth = kind, cells, tables.worth[kind, cells]
    return best, room


@njit(cache=True)
def _strip_worth(  # noqa: PLR0913 -- compiled functions take all they need by place
    members: Members, wood: Wood, board: int, place: int, width: int, limit: Array, tables: Tables
) -> int:
    """What a strip's runs hold, each as if it had all that is left to itself: sticks one after another."""
    total, start, fault, wide = 0, 0, wood.fault_first[board], members.strip[width]
    while start < wood.long[board]:
        start, end, fault = _next_run(wood, board, place, wide, fault, start)
        cap = (end - start + members.kerf) // CELL
        for _ in range(STICKS):
            kind, cells = _best_stick(members, width, cap, limit, tables)
            if kind < 0:
                break
            total += tables.worth[kind, cells]
            cap -= max(tables.filled[kind, cells], members.least)
        start, fault = _behind(wood, board, fault, end)
    return total


@njit(cache=True)
def _cut_strip(  # noqa: PLR0913 -- compiled functions take all they need by place
    members: Members,
    wood: Wood,
    board: int,
    place: int,
    width: int,
    limit: Array,
    values: Array,
    left: Array,
    tables: Tables,
    notes: Notes,
) -> None:
    """Cut a strip's sticks, and work out anew what each leaves."""
    start, fault, wide = 0, wood.fault_first[board], members.strip[width]
    while start < wood.long[board]:
        start, end, fault = _next_run(wood, board, place, wide, fault, start)
        cap = (end - start + members.kerf) // CELL
        for _ in range(STICKS):
            kind, cells = _best_stick(members, width, cap, limit, tables)
            if kind < 0:
                break
            _note(notes, board, place, start, kind)
            _take(members, tables, kind, cells, left, notes)
            used = max(tables.filled[kind, cells], members.least)
            cap -= used
            start += used * CELL
            _fill(members, tables, kind, values, left)
        start, fault = _behind(wood, board, fault, end)


@njit(cache=True)
def _note(notes: Notes, board: int, place: int, start: int, kind: int) -> None:
    row = notes.stick[notes.so_far[0]]
    row[0], row[1], row[2], row[3], row[4] = board, place, start, kind, notes.so_far[1]
    notes.so_far[0] += 1


@njit(cache=True)
def _take(members: Members, tables: Tables, kind: int, cells: int, left: Array, notes: Notes) -> None:
    """Take the members of the best stick from what is left, and note them."""
    cell = tables.filled[kind, cells]
    first = tables.item_first[kind]
    for item in range(first + tables.item_count[kind] - 1, first - 1, -1):
        if tables.take[item, cell]:
            of, times = tables.item_type[item], tables.item_times[item]
            left[of] -= times
            cell -= times * members.size[of]
            for _ in range(times):
                notes.member[notes.so_far[1]] = of
                notes.so_far[1] += 1
