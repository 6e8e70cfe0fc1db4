"""The linear programme over the bars known so far."""

from dataclasses import dataclass

import numpy as np

from pinchrod.timber.one_length.counted import Bar, Counted
from pinchrod.timber.one_length.exchanges import exchanges
from pinchrod.timber.one_length.pivoting import Real, Whole
from pinchrod.timber.one_length.programme import Programme
from pinchrod.timber.one_length.simplex import Simplex
from pinchrod.timber.one_length.worths import Worths

ROWS = 700  # over which the inverse is too large to be kept whole
NEVER = 4  # times the dearest bar, for what is not to be used


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """How often each bar is cut, in parts of a bar, and the worths that go with it."""

    cost: float
    times: Real
    piece: Real
    scarce: Real


class Master:
    """Bars known so far, and how often to cut each so that enough of every kind is made.

    A row a kind; then, for each stock that is limited, one for at most so many bars and one for at least.
    At first the longer may stand for the shorter, until told otherwise.
    """

    def __init__(self, counted: Counted) -> None:
        """No bars yet."""
        self.counted = counted
        self.bars: list[Bar] = []
        self._known: set[tuple[int, bytes, bytes]] = set()
        self._unit = float(counted.price[counted.price > 0].min(initial=counted.price.max()) or 1)
        rows = len(counted.size)
        self._row_of = {int(s): rows + 2 * at for at, s in enumerate(counted.limited)}
        low = _low(counted)
        self._solver: Simplex | Programme = Simplex(low) if len(low) <= ROWS else Programme(low)
        self._loose = self._let_stand()

    def _let_stand(self) -> int:
        """How many exchanges were taken in: each gives one piece up and makes shorter ones, at no cost."""
        known = exchanges(self.counted.size)
        if known:
            values = [np.array([-1.0, *(1.0 for _ in one[1:])]) for one in known]
            self._take([np.array(one) for one in known], values, np.zeros(len(known)))
        return len(known)

    def strictly(self) -> None:
        """From now on nothing stands for anything else."""
        self._solver.charge(self._loose, NEVER * float(self.counted.price.max()) / self._unit)

    def add(self, bars: tuple[Bar, ...] | list[Bar]) -> int:
        """How many of the bars were new; they are taken in."""
        fresh = [bar for bar in bars if self._is_new(bar)]
        if not fresh:
            return 0
        index, value = [], []
        for bar in fresh:
            row = self._row_of.get(bar.stock)
            index.append(bar.kinds if row is None else np.append(bar.kinds, (row, row + 1)))
            value.append(bar.counts if row is None else np.append(bar.counts, (-1, 1)))
        self._take(index, value, self.counted.price[[bar.stock for bar in fresh]] / self._unit)
        self.bars.extend(fresh)
        return len(fresh)

    def _take(self, index: list[Whole], value: list[Whole] | list[Real], cost: Real) -> None:
        ends = np.cumsum([len(part) for part in index])
        starts = np.append(0, ends[:-1])
        self._solver.add(starts, np.concatenate(index), np.concatenate(value).astype(float), cost)

    def _is_new(self, bar: Bar) -> bool:
        key = (bar.stock, bar.kinds.tobytes(), bar.counts.tobytes())
        new = key not in self._known
        self._known.add(key)
        return new

    def want(self, counted: Counted) -> None:
        """Ask for other numbers of pieces, and allow other numbers of bars."""
        self.counted = counted
        self._solver.want(_low(counted))

    def solve(self) -> Solved:
        """The least cost in parts of bars."""
        if not self._solver.solve():
            self._solver = self._solved_otherwise()
        times, worth = self._solver.times()[self._loose :], self._solver.worth() * self._unit
        price = self.counted.price[[bar.stock for bar in self.bars]]
        rows = len(self.counted.size)
        scarce = np.zeros(len(self.counted.room))
        scarce[self.counted.limited] = worth[rows::2] - worth[rows + 1 :: 2]
        return Solved(
            cost=float(times @ price), times=times, piece=np.maximum(0, worth[:rows]), scarce=scarce
        )

    def _solved_otherwise(self) -> Programme:
        """The programme solved by HiGHS, which goes on with it from here."""
        other = self._solver.solved_otherwise() if isinstance(self._solver, Simplex) else None
        if other is None:
            raise ArithmeticError("the linear programme came to no end")
        return other


def _low(counted: Counted) -> Real:
    """What each row makes at least."""
    most = np.minimum(counted.supply, counted.wanted.sum() + counted.least)[counted.limited]
    pairs = np.stack((-most, counted.least[counted.limited]), axis=1).ravel()
    return np.concatenate((counted.wanted, pairs)).astype(float)


def in_whole_numbers(piece: Real, scarce: Real, scale: int) -> Worths:
    """The same worths in whole numbers, rounded so that no bar gains by it."""
    return Worths(
        piece=np.floor(piece * scale).astype(np.int64),
        scarce=np.ceil(scarce * scale).astype(np.int64),
        scale=scale,
    )
