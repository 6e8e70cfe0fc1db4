"""The most that a strip gives, to the very member: its sticks filled one member after another. Compiled.

`kernels` lets each stick have all members to itself, `once` lays the runs of a strip end to end. Both promise
more than a strip can hold where members are few and long. Here members go into its sticks one by one, and
out again, until no other way is left that could be better. It takes longer, so it is done only for strips
that the best fences of a board want.
"""

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
    next_strip,
    within,
)
from pinchrod.timber.once import members_once

MOST_STEPS = 4000  # for one strip; if that is not enough, what was promised stands
NEAR = 4000  # a way that could be better only by so small a part of the promise is not followed


class Strips(NamedTuple):
    """Room for the sums: what is known of the strips of one board."""

    after: Array  # by type and cell: the most of it and those behind it of its width, as one stretch
    known: npt.NDArray[np.bool_]  # by band of the board: whether its worth is what it gives
    holds: Array  # by band of the board and type: the members of its best filling


class Filling(NamedTuple):
    """A strip that is being filled, the sticks begun in it, and the members that wait, long before short."""

    lengths: Lengths
    values: Array
    after: Array
    last: int  # the first type that is not of this width
    near: int  # so little more is not looked for
    enough: int  # nor more than this
    told: Array  # the most so far, the steps taken, the sticks begun
    free: Array  # by run
    stick: Array  # by stick begun: its run, its kind, what it takes
    waits: Array  # by member: its type, its kind, how long a stick may be, where the next type begins
    steps: Array  # by step, a row as below
    held: Array  # by type
    best: Array


RUN, KIND, SIZE = 0, 1, 2
TYPE, OF_KIND, LIMIT, BEHIND = 0, 1, 2, 3
MEMBER, WAY, FIRST, BEGUN, VALUE, ROOM, TAKES = 0, 1, 2, 3, 4, 5, 6


@njit(cache=True, nogil=True)
def fill_after(wood: Wood, lengths: Lengths, strips: Strips, values: Array, left: Array) -> None:
    """Work out the most of each type and those behind it of its width, by what is clear."""
    after = strips.after
    for width in range(wood.onward.shape[1]):
        first, last = _types_of(wood, lengths, width)
        for of in range(last - 1, first - 1, -1):
            if of + 1 < last:
                after[of] = after[of + 1]
            else:
                after[of] = 0
            most, times = left[of], 1
            while most > 0 and values[of] > 0:
                times = min(times, most)
                size, value = times * lengths.size[of], times * values[of]
                for cell in range(after.shape[1] - 1, size - 1, -1):
                    after[of, cell] = max(after[of, cell], after[of, cell - size] + value)
                most -= times
                times *= 2


@njit(cache=True, nogil=True)
def whole_boards(
    wood: Wood,
    lengths: Lengths,
    tables: Tables,
    strips: Strips,
    values: Array,
    left: Array,
    boards: Array,
    least: Array,
    counts: Array,
) -> Array:
    """The worth of the best fences of each board, none of its strips promised more than it gives.

    Each strip has all members to itself. The members of the best fences are counted into a row of `counts`.
    A board that promises no more than the least is not looked into. The tables must be of these values.
    """
    found = np.empty(boards.shape[0], np.int64)
    for at in range(boards.shape[0]):
        bands_of_board(wood, lengths, tables, boards[at])
        members_once(wood, lengths, tables, boards[at])
        strips.known[:] = False
        strips.holds[:] = 0
        found[at] = fences_of_board(wood, tables, boards[at])
        while found[at] > least[at] and _strips_known(
            wood, lengths, tables, strips, values, left, boards[at]
        ):
            found[at] = fences_of_board(wood, tables, boards[at])
        _count(wood, tables, strips, boards[at], counts[at])
    return found


@within
def _strips_known(
    wood: Wood, lengths: Lengths, tables: Tables, strips: Strips, values: Array, left: Array, board: int
) -> bool:
    """Whether some strip of the best fences gives less than it promised; all of them are known then."""
    wanted, number = np.empty(wood.onward.shape[0], np.int64), 0
    state, last = wood.state_first[board], wood.state_first[board + 1] - 1
    while True:
        state, width = next_strip(wood, tables, state, last)
        if state < 0:
            break
        wanted[number] = wood.band[state, width]
        number += 1
        state = wood.onward[state, width]
    less = False
    for band in wanted[:number]:
        at = band - wood.board_bands[board]
        if not strips.known[at]:
            gives = _gives(wood, lengths, strips, values, left, board, band, tables.band_worth[band])
            less = less or gives < tables.band_worth[band]
            tables.band_worth[band] = gives
            strips.known[at] = True
    return less


@within
def _count(wood: Wood, tables: Tables, strips: Strips, board: int, counts: Array) -> None:
    counts[:] = 0
    state, last = wood.state_first[board], wood.state_first[board + 1] - 1
    while True:
        state, width = next_strip(wood, tables, state, last)
        if state < 0:
            return
        counts += strips.holds[wood.band[state, width] - wood.board_bands[board]]
        state = wood.onward[state, width]


@within
def _types_of(wood: Wood, lengths: Lengths, width: int) -> tuple[int, int]:
    """The first type of a strip width, and the first behind them."""
    first = lengths.type_first[wood.width_first[width]]
    return first, lengths.type_first[wood.width_first[width + 1]]


@within
def _gives(
    wood: Wood,
    lengths: Lengths,
    strips: Strips,
    values: Array,
    left: Array,
    board: int,
    band: int,
    promised: int,
) -> int:
    """The most that a strip gives, or hardly more; its members are written down."""
    now = _begun(wood, lengths, strips, values, left, board, band, promised)
    _fill(now)
    if now.told[0] >= now.enough or now.told[1] > MOST_STEPS:
        return promised
    gives: int = now.told[0] + now.near
    return gives


@within
def _begun(
    wood: Wood,
    lengths: Lengths,
    strips: Strips,
    values: Array,
    left: Array,
    board: int,
    band: int,
    promised: int,
) -> Filling:
    """A strip with nothing in it, and the members that a board like this can give."""
    first, last = wood.band_first[band], wood.band_first[band + 1]
    width, number, near = wood.slot_width[first], 0, promised // NEAR + 1
    types = _types_of(wood, lengths, width)
    most = left[types[0] : types[1]].sum()
    waits = np.empty((most, 4), np.int64)
    for kind in range(wood.width_first[width], wood.width_first[width + 1]):
        limit = wood.limit[board, kind]
        for of in range(lengths.type_first[kind], lengths.type_first[kind + 1]):
            if values[of] > 0 and lengths.ends + lengths.size[of] <= limit:
                behind = number + left[of]
                for member in range(number, behind):
                    waits[member, TYPE], waits[member, OF_KIND] = of, kind
                    waits[member, LIMIT], waits[member, BEHIND] = limit, behind
                number = behind
    return Filling(
        lengths,
        values,
        strips.after,
        types[1],
        near,
        promised - near,
        np.zeros(3, np.int64),
        wood.slot_cap[first:last].copy(),
        np.empty((most, 3), np.int64),
        waits[:number],
        np.zeros((most + 1, 7), np.int64),
        np.zeros(left.shape[0], np.int64),
        strips.holds[band - wood.board_bands[board]],
    )


@within
def _fill(now: Filling) -> None:
    """Put the members into the strip one after another, in every way that could still be better.

    A member joins a stick, begins one in a run, or is left out with all those alike: a step has so many ways.
    """
    steps, level = now.steps, 0
    steps[0, WAY], steps[0, ROOM] = -1, now.free.sum()
    while level >= 0:
        step = steps[level]
        if step[WAY] >= 0:
            _take_back(now, step)
            step[WAY] += 1
        elif _leads_on(now, step):
            step[WAY], step[BEGUN] = step[FIRST], now.told[2]
        else:
            level -= 1
            continue
        if now.told[0] >= now.enough or now.told[1] > MOST_STEPS:
            return
        level += 1 if _go_on(now, step, steps[level + 1]) else -1


@within
def _leads_on(now: Filling, step: Array) -> bool:
    """Whether what comes after this step could still be better; the best so far is written down."""
    now.told[1] += 1
    if step[VALUE] > now.told[0]:
        now.told[0] = step[VALUE]
        now.best[:] = now.held
    if step[MEMBER] == now.waits.shape[0]:
        return False
    more: bool = step[VALUE] + _could(now, step[MEMBER], step[ROOM]) > now.told[0] + now.near
    return more


@within
def _go_on(now: Filling, step: Array, onward: Array) -> bool:
    """Take the next way that can be taken; whether there is one."""
    member = now.waits[step[MEMBER]]
    out = step[BEGUN] + now.free.shape[0]
    size, onward[WAY] = now.lengths.size[member[TYPE]], -1
    while step[WAY] < out:
        stick = min(step[WAY], step[BEGUN])
        takes = _join(now, member, stick) if step[WAY] < step[BEGUN] else _begin(now, member, step)
        if takes >= 0:
            ends = 0 if step[WAY] < step[BEGUN] else now.lengths.ends
            step[TAKES] = takes
            now.held[member[TYPE]] += 1
            onward[MEMBER], onward[VALUE] = step[MEMBER] + 1, step[VALUE] + now.values[member[TYPE]]
            onward[ROOM] = step[ROOM] - size - ends
            onward[FIRST] = stick if member[BEHIND] > step[MEMBER] + 1 else 0
            return True
        step[WAY] += 1
    onward[MEMBER], onward[VALUE], onward[ROOM], onward[FIRST] = member[BEHIND], step[VALUE], step[ROOM], 0
    way: bool = step[WAY] == out
    return way


@within
def _join(now: Filling, member: Array, stick: int) -> int:
    """Put a member on a stick: how much more of its run that takes; -1 if it cannot be."""
    least, before = now.lengths.least, now.stick[stick, SIZE]
    grown = before + now.lengths.size[member[TYPE]]
    takes: int = max(grown, least) - max(before, least)
    run = now.stick[stick, RUN]
    if now.stick[stick, KIND] != member[OF_KIND] or grown > member[LIMIT] or takes > now.free[run]:
        return -1
    now.stick[stick, SIZE] = grown
    now.free[run] -= takes
    return takes


@within
def _begin(now: Filling, member: Array, step: Array) -> int:
    """Begin a stick with a member in a run: how much of it that takes; -1 if it cannot be."""
    run, stick = step[WAY] - step[BEGUN], step[BEGUN]
    size = now.lengths.ends + now.lengths.size[member[TYPE]]
    takes: int = max(size, now.lengths.least)
    if takes > now.free[run]:
        return -1
    now.stick[stick, RUN], now.stick[stick, KIND], now.stick[stick, SIZE] = run, member[OF_KIND], size
    now.free[run] -= takes
    now.told[2] = stick + 1
    return takes


@within
def _take_back(now: Filling, step: Array) -> None:
    """Take out what this step put in."""
    of, begun = now.waits[step[MEMBER], TYPE], step[BEGUN]
    if step[WAY] >= begun + now.free.shape[0]:
        return
    stick = min(step[WAY], begun)
    now.stick[stick, SIZE] -= now.lengths.size[of]
    now.free[now.stick[stick, RUN]] += step[TAKES]
    now.held[of] -= 1
    now.told[2] = begun


@within
def _could(now: Filling, member: int, room: int) -> int:
    """No more than this could this member and those behind it add, if all room were in one stretch.

    If no stick of their kinds is begun, one more pair of ends is lost.
    """
    of, sticks, most, number = now.waits[member, TYPE], now.told[2], 0, 0
    if sticks == 0 or now.stick[sticks - 1, KIND] < now.waits[member, OF_KIND]:
        room -= now.lengths.ends
    while room >= 0 and number <= now.waits[member, BEHIND] - member:
        rest = now.after[of + 1, room] if of + 1 < now.last else 0
        most = max(most, number * now.values[of] + rest)
        number, room = number + 1, room - now.lengths.size[of]
    return most
