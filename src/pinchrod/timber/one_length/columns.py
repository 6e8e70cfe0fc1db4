"""Finding the bars worth knowing: column generation, with worths held near the best so far."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pinchrod.timber.one_length.counted import Bar, Counted
from pinchrod.timber.one_length.master import Master, Solved, in_whole_numbers
from pinchrod.timber.one_length.worths import Worths, price_out

SAME = 1e-10  # of the cost: nearer than this the bound and the cost in parts of bars are one


@dataclass(frozen=True, slots=True, kw_only=True)
class Converged:
    """The last solution, the worths with the best bound, and whether no bar is left to find."""

    solved: Solved
    worths: Worths
    bound: int
    optimal: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How many rounds, how many bars at each, and how much of the best worths is kept in the next."""

    rounds: int
    many: int
    hold: float


def by_length(counted: Counted, scale: int) -> Worths:
    """Worths in proportion to length, at the cheapest price a length: the first guess."""
    rate = float((counted.price / counted.room).min())
    piece = (counted.size * rate).astype(np.float64)
    return in_whole_numbers(piece, np.zeros(len(counted.room)), scale)


def converge(
    counted: Counted, master: Master, start: Worths, pace: Pace, *, enough: Callable[[Converged], bool]
) -> Converged:
    """Bars found until none gains, or what is known is enough, or the rounds are used up."""
    seeker = Seeker(counted, master, start, pace)
    now = seeker.look()
    for _ in range(1, pace.rounds):
        if now.optimal or enough(now):
            break
        now = seeker.look()
    return now


class Seeker:
    """Looks for bars that gain, round by round, and remembers the best worths met."""

    def __init__(self, counted: Counted, master: Master, start: Worths, pace: Pace) -> None:
        """Start from these worths."""
        self._counted, self._master = counted, master
        self._centre, self._fair, self._value = start, start, -1.0
        self._scale, self._hold, self._many = start.scale, pace.hold, pace.many

    def look(self) -> Converged:
        """What is known after another round."""
        solved = self._master.solve()
        pure = in_whole_numbers(solved.piece, solved.scarce, self._scale)
        optimal = False
        if not self._take(_between(self._centre, pure, self._hold), pure):
            self._hold = max(0.0, self._hold - 0.1)
            found = self._take(pure, pure)
            optimal = not found or solved.cost - self._value < SAME * solved.cost
        bound = self._counted.up(self._fair.total(self._counted), self._fair.scale)
        return Converged(solved=solved, worths=self._fair, bound=bound, optimal=optimal)

    def _take(self, worths: Worths, pure: Worths) -> int:
        """How many new bars, found with some worths, gain by the pure ones; better worths are kept."""
        priced = price_out(self._counted, worths, self._many)
        value = priced.fair.total(self._counted) / priced.fair.scale
        if value > self._value:
            self._value, self._centre, self._fair = value, worths, priced.fair
        return self._master.add([bar for bar in priced.bars if _gains(bar, pure, self._counted)])


def _between(centre: Worths, pure: Worths, hold: float) -> Worths:
    """Worths part of the way from the centre to these."""
    return Worths(
        piece=(hold * centre.piece + (1 - hold) * pure.piece).astype(np.int64),
        scarce=(hold * centre.scarce + (1 - hold) * pure.scarce).astype(np.int64),
        scale=pure.scale,
    )


def _gains(bar: Bar, worths: Worths, counted: Counted) -> bool:
    """Whether the bar holds more worth than it costs."""
    charge = int(counted.price[bar.stock]) * worths.scale + int(worths.scarce[bar.stock])
    return int(worths.piece[bar.kinds] @ bar.counts) > charge
