"""One board laid out: the best strips and sticks for given values, with each member used once."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinchrod.timber.kernels import (
    Lengths,
    Tables,
    fill,
    members_of_stick,
    next_strip,
    sticks_of_run,
    worth_of_boards,
)
from pinchrod.timber.measured import Rack


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
    width: int
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class LayOut:
    """A board to be taken, and its strips."""

    board: int
    strips: tuple[Strip, ...]

    @property
    def types(self) -> tuple[int, ...]:
        """The types of all its members, one for each piece."""
        return tuple(of for strip in self.strips for cut in strip.cuts for of in cut.types)


@dataclass(frozen=True, slots=True)
class Values:
    """What each type is worth, how many are left of it, and whether a stick may be padded to the shortest."""

    rack: Rack
    tables: Tables
    lengths: Lengths
    values: "np.ndarray"
    left: "np.ndarray"
    padded: bool

    def fill(self, kinds: "np.ndarray") -> None:
        """Work out the tables of these kinds."""
        fill(self.lengths, self.tables, kinds, self.values, self.left, self.rack.top, self.padded)

    def worth(self, boards: "np.ndarray") -> "np.ndarray":
        """The most that each of these boards could hold, by the tables as they stand."""
        return worth_of_boards(self.rack.wood, self.lengths, self.tables, boards)


def lay_out(asked: Values, board: int) -> LayOut:
    """A board's lay-out, strip by strip from its first edge; what is used is taken from what is left.

    The tables must be of what is left. They are worked out anew only where a stick would use a member twice.
    """
    rack = asked.rack
    state, last = int(rack.wood.state_first[board]), int(rack.wood.state_first[board + 1]) - 1
    this, strips, stale = np.array([board]), [], True
    while state < last:
        if stale:
            asked.worth(this)
        place, width = next_strip(rack.wood, asked.tables, state, last)
        if place < 0:
            break
        strip, stale = _strip(asked, board, int(place), int(width))
        strips.append(strip)
        state = int(rack.wood.onward[place, width])
    return LayOut(board, tuple(strip for strip in strips if strip.cuts))


def _strip(asked: Values, board: int, state: int, width: int) -> tuple[Strip, bool]:
    """The sticks of a strip, the longest run first; and whether tables were worked out anew."""
    wood = asked.rack.wood
    band = wood.band[state, width]
    slots = range(wood.band_first[band], wood.band_first[band + 1])
    cuts: list[Cut] = []
    anew = False
    for slot in sorted(slots, key=lambda slot: -wood.slot_cap[slot]):
        anew |= _run(asked, board, slot, cuts)
    return Strip(state, width, tuple(cuts)), anew


def _run(asked: Values, board: int, slot: int, cuts: list[Cut]) -> bool:
    """Add the best sticks of a run, of members that are left; whether tables were worked out anew for it."""
    cut = np.empty(64, np.int64)
    wood, width = asked.rack.wood, int(asked.rack.wood.slot_width[slot])
    cap, anew = int(wood.slot_cap[slot]), False
    while cap > 0 and sticks_of_run(wood, asked.lengths, asked.tables, board, width, cap, cut) > 0:
        used, whole = _take(asked, slot, cut, cuts)
        if whole:
            break
        cap -= used
        asked.fill(asked.rack.kinds_of(width))
        anew = True
    return anew


def _take(asked: Values, slot: int, cut: "np.ndarray", cuts: list[Cut]) -> tuple[int, bool]:
    """Take those sticks whose members are left: the cells they use, and whether that was all of them."""
    used, whole = 0, True
    for kind, cell in zip(cut[::2].tolist(), cut[1::2].tolist(), strict=True):
        if kind < 0:
            break
        counts = np.zeros(len(asked.left), np.int64)
        members_of_stick(asked.lengths, asked.tables, kind, cell, counts)
        if (counts > asked.left).any():
            whole = False
            continue
        asked.left[:] -= counts
        types = np.repeat(np.arange(len(counts)), counts).tolist()
        cuts.append(Cut(slot, kind, tuple(types)))
        used += _cells_of(asked.lengths, types)
    return used, whole


def relaxed(asked: Values, board: int) -> "np.ndarray":
    """How many of each type the board would hold if each of its sticks had all members to itself."""
    wood, cut = asked.rack.wood, np.empty(64, np.int64)
    state, last = int(wood.state_first[board]), int(wood.state_first[board + 1]) - 1
    counts = np.zeros(len(asked.left), np.int64)
    while True:
        state, width = next_strip(wood, asked.tables, state, last)
        if state < 0:
            return counts
        band = wood.band[state, width]
        for slot in range(wood.band_first[band], wood.band_first[band + 1]):
            sticks_of_run(wood, asked.lengths, asked.tables, board, width, wood.slot_cap[slot], cut)
            for kind, cell in zip(cut[::2], cut[1::2], strict=True):
                if kind >= 0:
                    members_of_stick(asked.lengths, asked.tables, kind, cell, counts)
        state = wood.onward[state, width]


def _cells_of(lengths: Lengths, types: Sequence[int]) -> int:
    return max(lengths.ends + int(lengths.size[list(types)].sum()), lengths.least)
