"""A bound for a small job nearer still: boards are taken whole or not at all.

Whatever the members are valued at, the boards of a plan together must give as much as all members are worth;
each look at the rack says for other values how much each board could give. Which boards do, for the least
price, is searched by halves: with a board and without it, the cheapest half first. Where boards are found
that could give enough by all that is known, a programme looks for values at which they do not. What is proven
of a half is a sum in whole numbers: the multipliers of a linear programme make one look of many.
"""

from dataclasses import dataclass, replace
from heapq import heappush, heapreplace

import highspy
import numpy as np

from pinchrod.timber.bound import Bound, bound_of, whole
from pinchrod.timber.measured import Rack
from pinchrod.timber.nearer import Looking, Shared, raised

HALVES = 1500  # looked at, at most
SETS = 60  # of boards tried at values of their own, at most
ROUNDS = 16  # of the programme for one set
DEEP = 0.5  # values that show so much of what is missing are good enough
WHOLE = 1e-6  # so near, a part of a board is none or all of it
CLEARLY = 1e-3  # a row is added only where so great a part is missing
MOST_ROWS = 400  # of the programme
NOTHING = 1e-4  # of all members' worth: if no more than this finds no place, all may


@dataclass(frozen=True, slots=True, order=True)
class _Half:
    """Plans that take some boards for certain, and some not; what they cost at least."""

    proven: int
    number: int
    taken: frozenset[int] = frozenset()
    without: frozenset[int] = frozenset()


def nearest(rack: Rack, demand: "np.ndarray", first: Bound) -> Bound:
    """The bound raised in every way there is, from the values that gave the first one."""
    looking, shared, best = raised(rack, demand, first)
    proven = by_boards(looking, shared, max(best.proven, int(first.cost * first.scale)))
    return bound_of(rack, proven, whole(best.values, first.scale), first.scale)


def by_boards(looking: Looking, shared: Shared, proven: int) -> int:
    """The bound, raised by settling which boards are taken; in whole numbers of the scale."""
    choice, sets = _Choice(looking), _Sets(looking, shared, proven)
    waiting, number, tried = [_Half(proven, 0)], 0, 0
    for _ in range(HALVES):
        half = waiting[0]
        least, shares = choice.least(half)
        if least > half.proven:
            heapreplace(waiting, replace(half, proven=least))
            continue
        if choice.told_of_rest(shares):
            continue
        board = _most_in_doubt(shares, looking.price)
        if board is not None:
            heapreplace(waiting, replace(half, number=number + 1, taken=half.taken | {board}))
            heappush(waiting, replace(half, number=number + 2, without=half.without | {board}))
            number += 2
        elif tried == SETS or not sets.give_too_little(np.flatnonzero(shares > WHOLE)):
            break
        else:
            tried += 1
    return waiting[0].proven


def _most_in_doubt(shares: "np.ndarray", price: "np.ndarray") -> int | None:
    """The board whose being taken is least clear, a dear one first; None if all is clear."""
    doubt = np.minimum(shares, 1 - shares)
    board = int(np.argmax(np.where(doubt > WHOLE, doubt * price, 0)))
    return board if doubt[board] > WHOLE else None


class _Choice:
    """The programme that takes boards, or parts of them, that give enough however they are looked at."""

    def __init__(self, looking: Looking) -> None:
        self.looking, self.rows, self.told = looking, list[tuple[int, np.ndarray]](), 0
        price = looking.price / looking.scale
        self.solver = highspy.Highs()
        for option, value in (("output_flag", False), ("threads", 1), ("presolve", "off")):
            self.solver.setOptionValue(option, value)
        none = np.array([], np.int32), np.array([])
        for one in price:
            self.solver.addCol(float(one), 0.0, 1.0, 0, *none)
        self.solver.addCol(float(price.sum()), 0.0, highspy.kHighsInf, 0, *none)  # what is left short

    def least(self, half: _Half) -> tuple[int, "np.ndarray"]:
        """What plans of a half cost at least, proven, and the part of each board that is taken."""
        self._add_seen()
        number = len(self.looking.price)
        low, high = np.zeros(number), np.ones(number)
        low[list(half.taken)], high[list(half.without)] = 1.0, 0.0
        self.solver.changeColsBounds(number, np.arange(number, dtype=np.int32), low, high)
        self.solver.run()
        found = self.solver.getSolution()
        return self._proven(np.array(found.row_dual), half), np.array(found.col_value)[:number]

    def told_of_rest(self, shares: "np.ndarray") -> bool:
        """Whether something is said of the rest when some boards are taken whole: it is added then.

        What these lack, the others must give, whether all of these are taken or not; and none of the others
        counts for more than that.
        """
        sure, best, kept = np.flatnonzero(shares > 1 - WHOLE), None, 1 - CLEARLY
        for wanted, gives in self.rows if len(self.rows) < MOST_ROWS else ():
            rest = wanted - int(gives[sure].sum())
            if rest > 0:
                others = np.minimum(gives, rest)
                others[sure] = 0
                part = float((others * shares).sum()) / rest
                if part < kept:
                    best, kept = (rest, others), part
        if best is not None:
            self._add(*best)
        return best is not None

    def _add_seen(self) -> None:
        """A row for each look that has none yet, in parts of what is wanted."""
        for wanted, gives in self.looking.seen[self.told :]:
            self.told += 1
            if wanted > 0:
                self._add(wanted, np.minimum(gives, wanted))  # a board that could give all gives no more

    def _add(self, wanted: int, gives: "np.ndarray") -> None:
        self.rows.append((wanted, gives))
        parts = np.append(gives / wanted, 1.0)
        every = np.arange(len(parts), dtype=np.int32)
        self.solver.addRow(1.0, highspy.kHighsInf, len(parts), every, parts)

    def _proven(self, multipliers: "np.ndarray", half: _Half) -> int:
        """What is wanted by these multipliers, and what boards cost over what they give of it.

        A look counts so many whole units; what a board gives of them is rounded up. A board not settled is
        taken if that makes the sum less.
        """
        total, over = 0, self.looking.price.astype(object)
        for (wanted, gives), times in zip(self.rows, multipliers, strict=True):
            units = int(max(times, 0.0) * self.looking.scale)
            if units:
                total += units
                over -= -(-gives.astype(object) * units // wanted)
        over[list(half.without)] = 0
        taken = list(half.taken)
        return int(total + np.minimum(over, 0).sum() + np.maximum(over[taken], 0).sum())


class _Sets:
    """Boards that could give enough by all that is known, tried at values of their own."""

    def __init__(self, looking: Looking, shared: Shared, proven: int) -> None:
        self.looking = looking
        self.lay_outs = [column for column in shared.columns if column[0] >= 0]
        area = np.array([float(one.length * one.width) for one in looking.rack.types])
        self.dear = area * (proven / looking.scale) / float((area * looking.demand).sum())

    def give_too_little(self, taken: "np.ndarray") -> bool:
        """Whether values were found at which these boards give too little; all boards were looked at."""
        looking, master = self.looking, Shared(self.looking.rack, self.looking.demand, self.dear)
        lay_outs = [column for column in self.lay_outs if column[0] in taken]
        least = NOTHING * float((self.dear * looking.demand).sum())
        for _ in range(ROUNDS):
            short, duals = master.solve_with(lay_outs)
            if short < least:
                return False
            values = whole(duals, looking.scale)
            tolls = np.minimum(whole(master.tolls, looking.scale), values)
            worth, lay_outs = looking.look(values, tolls, taken, np.zeros(len(taken), np.int64))
            self.lay_outs += lay_outs
            missing = int((values * looking.demand).sum()) - int(worth.sum())
            if missing > DEEP * short * looking.scale:
                none = np.zeros_like(looking.price)
                self.lay_outs += looking.look(values, tolls, looking.every, none)[1]
                return True
        return False
