"""The rack and the members, measured for the sums: exact places, and lengths in whole cells."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import lcm

import numpy as np

from pinchrod.ground import Mm, Span
from pinchrod.timber.clear import Sides, clear_runs, faults_that_count, places, sides, touched
from pinchrod.timber.kernels import Lengths, Tables, Wood
from pinchrod.timber.records import Board, Fault, Question, Wanted
from pinchrod.timber.sizes import Kind, cells_of_longest, members_by_kind, strip_width
from pinchrod.timber.whole_strip import Strips

CELL = Mm("0.5")  # a length is planned in steps of this


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """What the arrays of `wood` stand for."""

    question: Question
    kinds: tuple[Kind, ...]
    types: tuple[Wanted, ...]
    wood: Wood
    sure: Lengths  # members rounded up: what fits by these, fits
    hopeful: Lengths  # members rounded down: what does not fit by these, does not fit
    places: tuple[Mm, ...]  # offset of each state
    slot_start: tuple[Mm, ...]
    top: int  # cells in the longest stick of all

    @property
    def demand(self) -> "np.ndarray":
        """How many of each type are wanted."""
        return np.array([len(wanted.marks) for wanted in self.types], np.int64)

    @property
    def sticks_at_most(self) -> int:
        """No run holds more sticks."""
        shortest = min(self._least_stick(lengths) for lengths in (self.sure, self.hopeful))
        return int(self.wood.slot_cap.max(initial=0)) // shortest + 2

    @property
    def members_at_most(self) -> int:
        """No board holds more members: as many as are wanted, or as its strips could be filled with."""
        return min(int(self.demand.sum()), self.strips_at_most * self.members_of_strip) + 1

    @property
    def strips_at_most(self) -> int:
        """No board holds more strips."""
        least = min(self._widths()) + self.question.machines.rip_saw.kerf
        return max((int(board.width // least) + 1 for board in self.question.boards), default=1)

    @property
    def members_of_strip(self) -> int:
        """No strip holds more members, if each stick had all to itself: it is filled with the shortest."""
        return _longest_strip(self.wood) // max(int(self.hopeful.size.min(initial=1 << 40)), 1) + 1

    def _least_stick(self, lengths: Lengths) -> int:
        return max(lengths.least, lengths.ends + int(lengths.size.min(initial=1)), 1)

    def _widths(self) -> list[Mm]:
        return [strip_width(self.question, kind) for kind in self.kinds]


class _Bands:
    """Bands and slots as they are found, board by board."""

    def __init__(self) -> None:
        self.band_first, self.board_bands = [0], [0]
        self.slot_width: list[int] = []
        self.slot_cap: list[int] = []
        self.slot_start: list[Mm] = []

    def add(self, width: int, runs: Sequence[Span], kerf: Mm) -> int:
        """A band with these runs, the longest first, as they are cut; its number comes back."""
        for run in sorted(runs, key=lambda run: -run.length):
            self.slot_width.append(width)
            self.slot_cap.append(int((run.length + kerf) // CELL))
            self.slot_start.append(run.low)
        self.band_first.append(len(self.slot_cap))
        return len(self.band_first) - 2


def measure(question: Question) -> Rack:
    """Boards and members as arrays; what cannot be cut from any board is still among the types."""
    by_kind = members_by_kind(question)
    kinds = tuple(by_kind)
    types = tuple(wanted for kind in kinds for wanted in by_kind[kind])
    limit = [[cells_of_longest(question, board, kind, CELL) for kind in kinds] for board in question.boards]
    wood, found, slot_start = _measure_boards(question, kinds, np.array(limit, np.int64))
    return Rack(
        question=question,
        kinds=kinds,
        types=types,
        wood=wood,
        sure=_lengths(question, [by_kind[kind] for kind in kinds], up=True),
        hopeful=_lengths(question, [by_kind[kind] for kind in kinds], up=False),
        places=found,
        slot_start=slot_start,
        top=max((max(row) for row in limit), default=0),
    )


def _lengths(question: Question, groups: Sequence[Sequence[Wanted]], *, up: bool) -> Lengths:
    kerf, practice = question.machines.crosscut_saw.kerf, question.practice
    first = np.cumsum([0] + [len(group) for group in groups])
    size = [_cells(wanted.length + kerf, up=up) for group in groups for wanted in group]
    return Lengths(
        type_first=first.astype(np.int64),
        size=np.array(size, np.int64),
        ends=_cells(2 * practice.stick_end, up=up),
        least=_cells(practice.shortest_stick + kerf, up=up),
    )


def _cells(length: Mm, *, up: bool) -> int:
    return int(-(-length // CELL)) if up else int(length // CELL)


def _measure_boards(
    question: Question, kinds: Sequence[Kind], limit: "np.ndarray"
) -> tuple[Wood, tuple[Mm, ...], tuple[Mm, ...]]:
    widths = sorted({strip_width(question, kind) for kind in kinds}, reverse=True)
    width_first = [sum(strip_width(question, kind) > width for kind in kinds) for width in widths]
    bands, state_first = _Bands(), [0]
    found: list[Mm] = []
    onward: list[list[int]] = []
    band: list[list[int]] = []
    for board in question.boards:
        here = _measure_board(question, board, widths, bands, len(found))
        found.extend(here[0])
        onward.extend(here[1])
        band.extend(here[2])
        state_first.append(len(found))
        bands.board_bands.append(len(bands.band_first) - 1)
    whole = (state_first, bands.band_first, bands.board_bands, bands.slot_width, bands.slot_cap)
    first, band_first, board_bands, slot_width, slot_cap = (np.array(one, np.int64) for one in whole)
    wood = Wood(
        width_first=np.array([*width_first, len(kinds)], np.int64),
        limit=limit,
        state_first=first,
        onward=np.array(onward, np.int64),
        band=np.array(band, np.int64),
        band_first=band_first,
        board_bands=board_bands,
        slot_width=slot_width,
        slot_cap=slot_cap,
    )
    return wood, tuple(found), tuple(bands.slot_start)


def _measure_board(
    question: Question, board: Board, widths: Sequence[Mm], bands: _Bands, first: int
) -> tuple[list[Mm], list[list[int]], list[list[int]]]:
    between, faults = sides(question, board), faults_that_count(board)
    kerf = question.machines.rip_saw.kerf
    scale = _scale(board, between, faults, [*widths, kerf])
    steps = [int((width + kerf) * scale) for width in widths]
    scaled = [int(place * scale) for place in places(between, faults, [width + kerf for width in widths])]
    at = np.array([*scaled, max(int(between.high * scale), scaled[-1] + 1 if scaled else 0)], np.int64)
    onward = np.full((len(at), len(widths)), -1, np.int64)
    band = np.full((len(at), len(widths)), -1, np.int64)
    for index, width in enumerate(widths):
        fits = np.flatnonzero(at + int(width * scale) <= int(between.high * scale))
        after = np.searchsorted(at, at[fits] + steps[index])
        onward[fits, index] = first + np.minimum(after, len(at) - 1)
        low = [Mm(int(at[place]), scale) for place in fits]
        strips = [Span(offset, offset + width) for offset in low]
        band[fits, index] = _bands_of(question, board, strips, bands, index)
    return [Mm(int(place), scale) for place in at], onward.tolist(), band.tolist()


def _scale(board: Board, between: Sides, faults: Sequence[Fault], sizes: Sequence[Mm]) -> int:
    """A whole number that makes whole numbers of all that is measured across this board."""
    crosswise = [edge for fault in faults if fault.across for edge in (fault.across.low, fault.across.high)]
    every = [board.width, between.low, between.high, *sizes, *crosswise]
    return lcm(*(int(size.denominator) for size in every))


def _bands_of(
    question: Question,
    board: Board,
    strips: Sequence[Span],
    bands: _Bands,
    index: int,
) -> list[int]:
    """The band of each of these strips; those that meet the same faults have the same runs."""
    known: dict[tuple[int, ...], int] = {}
    found = []
    faults, kerf = faults_that_count(board), question.machines.crosscut_saw.kerf
    for strip in strips:
        met = touched(faults, strip)
        key = tuple(faults.index(fault) for fault in met)
        if key not in known:
            runs = [
                run for run in clear_runs(board.length, met) if run.length >= question.practice.shortest_stick
            ]
            known[key] = bands.add(index, runs, kerf)
        found.append(known[key])
    return found


def room_for_tables(rack: Rack) -> Tables:
    """Empty tables, large enough for these kinds and this demand."""
    demand, types, kinds = rack.demand, rack.hopeful, len(rack.kinds)
    holds = np.minimum(demand, rack.top // np.maximum(types.size, 1))
    items = np.array([int(most).bit_length() for most in holds], np.int64)
    first = np.concatenate([[0], np.cumsum(items)])[types.type_first]
    wide = rack.top + 1
    return Tables(
        item_first=first.astype(np.int64),
        item_count=np.zeros(kinds, np.int64),
        item_type=np.zeros(int(items.sum()) + 1, np.int64),
        item_times=np.zeros(int(items.sum()) + 1, np.int64),
        take=np.zeros((int(items.sum()) + 1, wide), np.bool_),
        worth=np.zeros((kinds, wide), np.int64),
        filled=np.zeros((kinds, wide), np.int64),
        steps=np.zeros((kinds, wide), np.int64),
        step_count=np.zeros(kinds, np.int64),
        density=np.zeros(kinds, np.float64),
        band_worth=np.zeros(len(rack.wood.band_first) - 1, np.int64),
        state_worth=np.zeros(int(rack.wood.state_first[-1]), np.int64),
        once=np.zeros((rack.wood.onward.shape[1], _longest_strip(rack.wood) + 1), np.int64),
    )


def room_for_strips(rack: Rack) -> Strips:
    """Empty tables, large enough for the strips of any one board."""
    bands, types = int(np.diff(rack.wood.board_bands).max(initial=1)), len(rack.types)
    return Strips(
        after=np.zeros((types, _longest_strip(rack.wood) + 1), np.int64),
        known=np.zeros(bands, np.bool_),
        holds=np.zeros((bands, types), np.int64),
    )


def _longest_strip(wood: Wood) -> int:
    """Cells clear along the strip that has most."""
    clear = np.concatenate([[0], np.cumsum(wood.slot_cap)])[wood.band_first]
    return int(np.diff(clear).max(initial=0))
