"""Members and boards as the quick planner's whole numbers: members rounded up, wood rounded down."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinchrod.ground import Mm
from pinchrod.job import Board
from pinchrod.timber.buying.records import ToBuy
from pinchrod.timber.buying.sawing import CELL, Array, Members, Notes, Tables, Wood
from pinchrod.timber.clear import faults_that_count
from pinchrod.timber.records import Question, Wanted
from pinchrod.timber.sizes import Kind, members_by_kind, strip_width

LONG_WORTH = 0.6  # how much more than its wood the longest member is worth at first: it is hardest to place
FAR = 1 << 40  # beyond every board


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """What the arrays of `members` stand for."""

    question: Question  # of which the boards are left out
    kinds: tuple[Kind, ...]
    types: tuple[Wanted, ...]
    members: Members

    @property
    def demand(self) -> Array:
        """How many of each type are wanted."""
        return np.array([len(one.marks) for one in self.types], np.int64)

    @property
    def kind_of_type(self) -> Array:
        """By type: its kind."""
        return np.repeat(np.arange(len(self.kinds)), np.diff(self.members.type_first))

    def values(self) -> Array:
        """What members are worth at first: the wood they take, and more for the long ones."""
        width = np.searchsorted(self.members.width_first, self.kind_of_type, side="right") - 1
        wood = self.members.size * self.members.pitch[width]
        share = self.members.size / max(int(self.members.size.max()), 1)
        return np.asarray(np.round(16 * wood * (1 + LONG_WORTH * share)), np.int64)

    def room(self) -> tuple[Tables, Notes]:
        """Room for the sums and for what is cut."""
        return _tables(self), _notes(self)


def question_of_purchase(asked: ToBuy, wanted: Sequence[Wanted], boards: Sequence[Board] = ()) -> Question:
    """The same members as they are asked of a rack."""
    return Question(
        wanted=tuple(wanted), boards=tuple(boards), practice=asked.practice, machines=asked.machines
    )


def wants_of(question: Question) -> Wants:
    """The members, measured."""
    by_kind = members_by_kind(question)
    kinds = tuple(by_kind)
    types = tuple(one for kind in kinds for one in by_kind[kind])
    members = _members(question, kinds, [len(by_kind[kind]) for kind in kinds], types)
    return Wants(question=question, kinds=kinds, types=types, members=members)


def _members(
    question: Question, kinds: Sequence[Kind], counts: Sequence[int], types: Sequence[Wanted]
) -> Members:
    practice, kerf = question.practice, question.machines.crosscut_saw.kerf
    widths = sorted({strip_width(question, kind) for kind in kinds}, reverse=True)
    of = [strip_width(question, kind) for kind in kinds]
    return Members(
        width_first=_ints([*(of.index(width) for width in widths), len(kinds)]),
        strip=_ints([_up(width) for width in widths]),
        pitch=_ints([_up(width + question.machines.rip_saw.kerf) for width in widths]),
        type_first=_ints(np.cumsum([0, *counts]).tolist()),
        size=_ints([cells_up(one.length + kerf) for one in types]),
        thick=np.array([float(kind.thickness + practice.skim) for kind in kinds]),
        ends=cells_up(2 * practice.stick_end),
        least=cells_up(practice.shortest_stick + kerf),
        longest=float(practice.longest_stick),
        kerf=int(10 * kerf),
    )


def _ints(numbers: Sequence[int]) -> Array:
    return np.array(numbers, np.int64)


def _up(length: Mm) -> int:
    return int(-(-length // 1))


def cells_up(length: Mm) -> int:
    """The length in whole cells, no less than it is."""
    return int(-(-10 * length // CELL))


def wood_of(question: Question, boards: Sequence[Board]) -> Wood:
    """Boards one after another, measured."""
    edge = question.practice.board_edge
    faults = [
        sorted(faults_that_count(board), key=lambda fault: (fault.along.low, fault.along.high))
        for board in boards
    ]
    flat = [fault for found in faults for fault in found]
    return Wood(
        low=_ints([_up(edge + board.spring) for board in boards]),
        high=_ints([int((board.width - edge) // 1) for board in boards]),
        long=_ints([int(10 * board.length) for board in boards]),
        thick=np.array([float(board.thickness) for board in boards]),
        bow=np.array([float(board.bow) for board in boards]),
        fault_first=_ints(np.cumsum([0, *map(len, faults)]).tolist()),
        fault_from=_ints([int(10 * fault.along.low) for fault in flat]),
        fault_to=_ints([_up(10 * fault.along.high) for fault in flat]),
        near=_ints([int(fault.across.low // 1) if fault.across else -1 for fault in flat]),
        far=_ints([_up(fault.across.high) if fault.across else FAR for fault in flat]),
    )


def _tables(wants: Wants) -> Tables:
    members = wants.members
    top = int(10 * members.longest + members.kerf) // CELL
    holds = np.minimum(wants.demand, top // members.size)
    items = np.array([int(most).bit_length() for most in holds], np.int64)
    first = np.concatenate([[0], np.cumsum(items)])[members.type_first]
    total = int(items.sum()) + 1
    return Tables(
        item_first=np.asarray(first, np.int64),
        item_count=np.zeros(len(wants.kinds), np.int64),
        item_type=np.zeros(total, np.int64),
        item_times=np.zeros(total, np.int64),
        take=np.zeros((total, top + 1), np.bool_),
        worth=np.zeros((len(wants.kinds), top + 1), np.int64),
        filled=np.zeros((len(wants.kinds), top + 1), np.int64),
    )


def _notes(wants: Wants) -> Notes:
    pieces = int(wants.demand.sum())
    return Notes(
        stick=np.zeros((pieces + 1, 5), np.int64),
        member=np.zeros(pieces + 1, np.int64),
        so_far=np.zeros(2, np.int64),
    )
