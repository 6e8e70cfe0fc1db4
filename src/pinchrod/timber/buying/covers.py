"""Whether boards in hand give every member, and how few of a delivery are enough: the quick planner."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from pinchrod.ground import Mm
from pinchrod.job import Board
from pinchrod.timber.buying.measured import Wants, wood_of
from pinchrod.timber.buying.sawing import Array, Notes, Tables, Wood, saw
from pinchrod.timber.joiner import answer
from pinchrod.timber.records import Breakout, Stick
from pinchrod.timber.sizes import room_needed, strip_width

RISE = 0.25  # by how much a member left over is worth more the next time
SCARCE = 4  # times as much as others


@dataclass(frozen=True, slots=True)
class Found:
    """That so many boards give every member that is not left, and how."""

    boards: int
    notes: Notes
    left: Array


@dataclass(frozen=True, slots=True)
class Cutter:
    """The quick planner at work on one job."""

    wants: Wants
    tables: Tables
    notes: Notes
    first_values: Array

    @property
    def finished(self) -> Mm:
        """Finished wood in all members, in cubic metres."""
        return sum((one.volume * len(one.marks) for one in self.wants.types), Mm(0))

    def fewest(
        self, boards: Sequence[Board], first: int, tries: int, *, at_once: bool = False
    ) -> Found | None:
        """How few of the boards, from the first on, are enough; those before `first` are there anyway.

        None if all are not enough (`at_once`: as they are first cut). The boards are used in their order:
        one board fewer is tried, with what was left over worth more, until so many tries in a row came to
        nothing.
        """
        wood, values = wood_of(self.wants.question, boards), self.first_values.copy()
        best, failed = self._tried(wood, len(boards), values), 0
        while best.left.any() and not at_once and failed < tries:
            best, failed = self._tried(wood, len(boards), values), failed + 1
        if best.left.any():
            return None
        while best.boards > first and failed < tries:
            fewer = self._tried(wood, best.boards - 1, values)
            best, failed = (best, failed + 1) if fewer.left.any() else (fewer, 0)
        return replace(best, boards=max(best.boards, first))

    def _tried(self, wood: Wood, boards: int, values: Array) -> Found:
        """The boards cut at these values, which rise for what is left over."""
        left = self.wants.demand
        used = saw(self.wants.members, wood, boards, values, left, self.tables, self.notes)
        short = left > 0
        values[short] += np.asarray(np.round(RISE * values[short]), np.int64)
        return Found(used, Notes(*(one.copy() for one in self.notes)), left)

    def most(self, boards: Sequence[Board], tries: int) -> Found:
        """The boards cut so that few members are left over."""
        wood, values = wood_of(self.wants.question, boards), self.first_values.copy()
        found = [self._tried(wood, len(boards), values) for _ in range(tries + 1)]
        return min(found, key=lambda one: int((one.left * self.first_values).sum()))

    def breakout(self, found: Found, boards: Sequence[Board]) -> Breakout:
        """What was found as sticks of these boards, in their exact sizes."""
        question = replace(self.wants.question, boards=tuple(boards))
        marks = [list(reversed(one.marks)) for one in self.wants.types]
        sticks = tuple(self._sticks(found.notes, boards, marks))
        return answer(question, sticks, [mark for rest in marks for mark in rest], bound=Mm(0))

    def _sticks(self, notes: Notes, boards: Sequence[Board], marks: list[list[str]]) -> Iterator[Stick]:
        wants, (sticks, pieces) = self.wants, notes.so_far.tolist()
        if not sticks:
            return
        ends = [*notes.stick[1:sticks, 4].tolist(), pieces]
        rows = notes.stick[:sticks].tolist()
        for number, ((board, place, start, kind, first), end) in enumerate(
            zip(rows, ends, strict=True), start=1
        ):
            types = notes.member[first:end].tolist()
            length = room_needed(wants.question, [wants.types[of].length for of in types])
            yield Stick(
                name=f"S{number}",
                board=boards[board].name,
                start=Mm(start, 10),
                length=length - wants.question.machines.crosscut_saw.kerf,
                offset=Mm(place),
                width=strip_width(wants.question, wants.kinds[kind]),
                thickness=boards[board].thickness,
                members=tuple(marks[of].pop() for of in types),
            )


def cutter_of(wants: Wants, scarce: Sequence[bool]) -> Cutter:
    """A quick planner for these members; the scarce, which only boards in hand give, come first."""
    values = wants.values()
    values[np.array(scarce, np.bool_)] *= SCARCE
    return Cutter(wants, *wants.room(), values)
