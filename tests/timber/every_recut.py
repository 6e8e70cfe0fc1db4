"""Tiny strips with a fault in one stick, and every way there is to settle its members, tried out.

A board is one strip wide. Everything is in whole millimetres of which each is free or not. Shares no code
with the choosers.
"""

import random
from itertools import combinations

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Fault, Question, Wanted, by_eye
from tests.timber.tiny import SMALL_SAWS, SMALL_SHOP

LEAST, MOST, THICK = 5, 24, 4  # the shop's shortest and longest stick, and a member's thickness


def a_tiny_fault_found(seed: int):
    """A question, its plan, a stick of it, where the fault is and what is done; None if nothing is cut."""
    chance = random.Random(f"strips {seed}")
    boards = tuple(_a_strip(f"B{n}", chance) for n in range(1, chance.randint(2, 5) + 1))
    question = Question(
        wanted=tuple(_members(chance.randint(2, 6), chance)),
        boards=boards,
        practice=SMALL_SHOP,
        machines=SMALL_SAWS,
    )
    plan = by_eye(question)
    if not plan.sticks:
        return None
    stick = chance.choice(plan.sticks)
    at = chance.randrange(int(stick.length))
    fault = Span(Mm(at), Mm(min(int(stick.length), at + chance.randint(1, 4))))
    done = {one.name for one in plan.sticks if chance.random() < 0.4} - {stick.name}
    return question, plan, stick, fault, done


def _a_strip(name: str, chance: random.Random) -> Board:
    length = chance.randint(8, 40)
    at = chance.randrange(length - 2)
    fault = Fault(along=Span(Mm(at), Mm(at + chance.randint(1, 2))))
    return Board(
        name=name,
        thickness=Mm(chance.choice((6, 8))),
        width=Mm(5),
        length=Mm(length),
        price=Mm(chance.randint(3, 9)),
        bow=Mm(chance.choice((0, 0, 0, 2, 4))),
        faults=(fault,) if chance.random() < 0.4 else (),
    )


def _members(number: int, chance: random.Random):
    for n in range(1, number + 1):
        yield Wanted(
            marks=(f"M{n}",),
            width=Mm(2),
            thickness=Mm(THICK),
            length=Mm(chance.randint(2, 12)),
            beads=chance.choice((1, 1, 1, 2)),
        )


class Tried:
    """Every way to settle the loose members: how many go short at least, and at what least price."""

    def __init__(self, question, plan, stick, fault, done):
        self.long = {one.marks[0]: int(one.length) for one in question.wanted}
        self.beads = {one.marks[0]: one.beads for one in question.wanted}
        self.question, self.plan, self.hand, self.done = question, plan, stick, done
        self.fault = range(int(stick.start + fault.low), int(stick.start + fault.high))

    def least(self):
        """How many go short and the price: as things stand, or by one exchange that saves every new board."""
        found = self.settled(self.hand.members, None)
        for other in self.plan.sticks:
            if found > (0, 0) and other != self.hand and other.name not in self.done and self._like(other):
                both = (*self.hand.members, *other.members)
                if self.settled(both, other) == (0, 0):
                    return 0, 0
        return found

    def _like(self, stick):
        return self.beads[stick.members[0]] == self.beads[self.hand.members[0]]

    def settled(self, loose, changed):
        """The fewest short and the least price of any way; with a stick changed no board may be bought."""
        taken = {stick.board for stick in self.plan.sticks}
        ways: dict[frozenset[str], int] = {frozenset(): 0}
        for board in self.question.boards:
            price = 0 if board.name in taken else int(board.price)
            if price and changed:
                continue
            sets = self._of_board(board, frozenset(loose), changed)
            ways = cheapest_of(
                (made | more, cost + (price if more else 0))
                for made, cost in ways.items()
                for more in sets
                if not made & more
            )
        kept = [way for way in ways.items() if not changed or way[0] == frozenset(loose)]
        return min(((len(loose) - len(made), cost) for made, cost in kept), default=(len(loose), 0))

    def _of_board(self, board, loose, changed):
        sets: set[frozenset[str]] = {frozenset()}
        for start, length in self._stretches(board):
            held = self._standing(board, start, changed)
            here = [some for some in subsets(loose) if self._fits(board, some, length, held)]
            if changed and (changed.board, changed.start) == (board.name, start):
                here.remove(frozenset())
            sets = {one | other for one in sets for other in here if not one & other}
        return sets

    def _stretches(self, board):
        """Where each stretch of free millimetres starts, and how long it is."""
        free, start = [self._free(board, at) for at in range(int(board.length))] + [False], 0
        for at, good in enumerate(free):
            if not good:
                if at > start:
                    yield start, at - start
                start = at + 1

    def _free(self, board, at):
        if any(fault.along.low <= at < fault.along.high for fault in board.faults):
            return False
        if board.name == self.hand.board and at in self.fault:
            return False
        for stick in self.plan.sticks:
            start, end = int(stick.start), int(stick.start + stick.length)
            if stick.board == board.name and (
                at == start - 1
                or (at == end and (stick.name in self.done or stick == self.hand))
                or (start <= at < end and stick.name in self.done)
            ):
                return False
        return True

    def _standing(self, board, start, changed):
        """The stick that stands at the start of a stretch, unless its members are loose."""
        for stick in self.plan.sticks:
            if (stick.board, stick.start) == (board.name, start) and stick not in {self.hand, changed}:
                return stick
        return None

    def _fits(self, board, some, length, held):
        if held is None:
            return self._new(board, some, length)
        for more in subsets(some) if self._like(held) else [frozenset()]:
            stands = self._stick(board, (*held.members, *more)) if more else int(held.length)
            if stands is not None and stands <= length and self._new(board, some - more, length - stands - 1):
                return True
        return False

    def _new(self, board, some, length):
        """Whether they fit as new sticks, a saw cut apart."""
        if not some:
            return True
        for first in subsets(some):
            stick = self._stick(board, first) if first else None
            if stick is not None and stick <= length and self._new(board, some - first, length - stick - 1):
                return True
        return False

    def _stick(self, board, members):
        """How long their stick is; None if it is too long for the shop or too bowed."""
        long = max(LEAST, 2 + sum(self.long[mark] for mark in members) + len(members) - 1)
        spare = board.thickness - 1 - THICK
        good = long <= MOST and board.bow * long * long <= spare * board.length * board.length
        return long if good else None


def subsets(some):
    """Every choice of them, the empty one first."""
    return (frozenset(one) for number in range(len(some) + 1) for one in combinations(sorted(some), number))


def cheapest_of(ways):
    """Each set once, at the least price it was reached."""
    best: dict[frozenset[str], int] = {}
    for made, cost in ways:
        best[made] = min(cost, best.get(made, cost))
    return best
