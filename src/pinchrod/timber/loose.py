"""Members that have lost their wood, and what any of them together need of a strip.

They are few and of one kind, so that every choice of them can be tried: a choice is a number whose bits are
the members. Sizes are counted in units so small that every length is a whole number of them, and nothing is
rounded but the room, downwards.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import lcm
from typing import NamedTuple

from pinchrod.ground import Mm
from pinchrod.timber.bench import Piece
from pinchrod.timber.records import Question
from pinchrod.timber.sizes import Kind, kind_of


class Way(NamedTuple):
    """How some members lie in a stretch: what that takes of it, who joins the stick there, the new sticks."""

    room: int
    grown: int
    sticks: tuple[int, ...]


NOTHING = Way(0, 0, ())


class Loose:
    """The members, and what every choice of them needs."""

    def __init__(self, question: Question, pieces: Sequence[Piece], unit: int) -> None:
        self.pieces = tuple(pieces)
        self.kind = kind_of(pieces[0].wanted)
        self.whole = (1 << len(pieces)) - 1
        self.unit = unit
        practice, kerf = question.practice, question.machines.crosscut_saw.kerf
        self.kerf = self.units(kerf)
        self._ends = self.units(2 * practice.stick_end)
        self._least = self.units(practice.shortest_stick + kerf)
        self.totals = [0]
        for piece in self.pieces:
            self.totals += [total + self.units(piece.wanted.length + kerf) for total in self.totals]
        self._new: dict[int, list[Way | None]] = {}

    def units(self, size: Mm) -> int:
        """A size in whole units, rounded down; the members' own are never rounded."""
        return int(size * self.unit // 1)

    def of(self, choice: int) -> list[Piece]:
        """The members of a choice, as they came: longest first."""
        return [piece for at, piece in enumerate(self.pieces) if choice >> at & 1]

    def held(self, pieces: Iterable[Piece]) -> int:
        """What members that stand on a stick already take of it, each with its saw cut."""
        return sum(self.units(piece.wanted.length) + self.kerf for piece in pieces)

    def need(self, choice: int, held: int = 0) -> int:
        """What they take as one stick, with those it holds already and the cut behind it."""
        return max(self._ends + held + self.totals[choice], self._least)

    def least_more(self, held: int) -> int:
        """What the shortest of them takes beside those that a stick holds already; less is no room at all."""
        return self.need(1 << (len(self.pieces) - 1), held) - (self.need(0, held) if held else 0)

    def ways(self, limit: int, held: int = 0) -> list[Way | None]:
        """For every choice the way that takes least, no stick longer than the limit; None if there is none.

        `held` is what a stick that may grow holds already, 0 if there is none. One stick never takes more
        than two, so members are shared out only where one stick would be too long.
        """
        new = self._new_sticks(min(limit, self.need(self.whole) - self.kerf))
        if not held:
            return new
        stands = self.need(0, held)
        return [self._least_grown(choice, limit, held, stands, new) for choice in range(self.whole + 1)]

    def _least_grown(
        self, choice: int, limit: int, held: int, stands: int, new: Sequence[Way | None]
    ) -> Way | None:
        if self.need(choice, held) - self.kerf <= limit:
            return Way(self.need(choice, held) - stands, choice, ())
        found = []
        for grown in (0, *some_of(choice)):
            rest = new[choice ^ grown]
            if rest is not None and (not grown or self.need(grown, held) - self.kerf <= limit):
                found.append(Way(self.need(grown, held) - stands + rest.room, grown, rest.sticks))
        return min(found, default=None)

    def _new_sticks(self, limit: int) -> list[Way | None]:
        if limit not in self._new:
            ways: list[Way | None] = [NOTHING]
            for choice in range(1, self.whole + 1):
                ways.append(self._shared_out(choice, limit, ways))
            self._new[limit] = ways
        return self._new[limit]

    def _shared_out(self, choice: int, limit: int, ways: Sequence[Way | None]) -> Way | None:
        if self.need(choice) - self.kerf <= limit:
            return Way(self.need(choice), 0, (choice,))
        first, found = choice & -choice, []
        for some in some_of(choice):
            rest = ways[choice ^ some] if some & first and some != choice else None
            if rest is not None and self.need(some) - self.kerf <= limit:
                found.append(Way(self.need(some) + rest.room, 0, (some, *rest.sticks)))
        return min(found, default=None)


def unit_of(question: Question, kind: Kind) -> int:
    """The units in a millimetre, so many that no size a stick of that kind is made up of is rounded."""
    practice, kerf = question.practice, question.machines.crosscut_saw.kerf
    alike = [wanted.length for wanted in question.wanted if kind_of(wanted) == kind]
    sizes = (kerf, practice.stick_end, practice.shortest_stick, *alike)
    return lcm(*(size.denominator for size in sizes))


def some_of(choice: int) -> Iterator[int]:
    """Every choice of members among those chosen, all of them first; not the empty one."""
    some = choice
    while some:
        yield some
        some = (some - 1) & choice


def largest(choices: Iterable[int]) -> list[int]:
    """Those choices that are no part of another: what takes some members takes fewer, too."""
    kept: list[int] = []
    for choice in sorted(choices, key=lambda one: (-one.bit_count(), one)):
        if choice and all(choice & ~other for other in kept):
            kept.append(choice)
    return kept
