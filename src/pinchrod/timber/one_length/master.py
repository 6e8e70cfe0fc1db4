"""The linear programme over the bars known so far; HiGHS solves it, and does not leave this module."""

from dataclasses import dataclass

import highspy
import numpy as np
from numpy.typing import NDArray

from pinchrod.timber.one_length.counted import PLENTY, Bar, Counted
from pinchrod.timber.one_length.worths import Worths

Real = NDArray[np.float64]
DUAL, PRIMAL = 1, 4  # new numbers leave the dual feasible, new bars the primal


def quiet_solver() -> highspy.Highs:
    """HiGHS on one thread, saying nothing."""
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 1)
    return solver


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """How often each bar is cut, in parts of a bar, and the worths that go with it."""

    cost: float
    times: Real
    piece: Real
    scarce: Real


class Master:
    """Bars known so far, and how often to cut each so that enough of every kind is made."""

    def __init__(self, counted: Counted) -> None:
        self.counted = counted
        self.bars: list[Bar] = []
        self._known: set[tuple[int, bytes, bytes]] = set()
        self._solver = quiet_solver()
        self._solver.setOptionValue("solver", "simplex")
        self._solver.setOptionValue("presolve", "off")
        self._solver.setOptionValue("simplex_primal_edge_weight_strategy", 1)  # a quarter quicker here
        rows = len(counted.size)
        never, ever = np.zeros(0, np.int32), np.zeros(0)
        at_least = counted.wanted.astype(float)
        self._solver.addRows(rows, at_least, np.full(rows, highspy.kHighsInf), 0, never, never, ever)
        supply = counted.supply[counted.limited].astype(float)
        self._solver.addRows(len(supply), np.zeros(len(supply)), supply, 0, never, never, ever)
        self._row_of = {int(s): rows + at for at, s in enumerate(counted.limited)}

    def add(self, bars: tuple[Bar, ...] | list[Bar]) -> int:
        """How many of the bars were new; they are taken in."""
        fresh = [bar for bar in bars if self._is_new(bar)]
        if not fresh:
            return 0
        index = [np.append(bar.kinds, self._row_of[bar.stock]) if bar.stock in self._row_of else bar.kinds
                 for bar in fresh]  # fmt: skip
        value = [np.append(bar.counts, 1) if bar.stock in self._row_of else bar.counts for bar in fresh]
        ends = np.cumsum([len(part) for part in index])
        cost = self.counted.price[[bar.stock for bar in fresh]].astype(float)
        self._solver.addCols(
            len(fresh), cost, np.zeros(len(fresh)), np.full(len(fresh), highspy.kHighsInf), int(ends[-1]),
            np.append(0, ends[:-1]).astype(np.int32), np.concatenate(index).astype(np.int32),
            np.concatenate(value).astype(float),
        )  # fmt: skip
        self.bars.extend(fresh)
        self._solver.setOptionValue("simplex_strategy", PRIMAL)
        return len(fresh)

    def _is_new(self, bar: Bar) -> bool:
        key = (bar.stock, bar.kinds.tobytes(), bar.counts.tobytes())
        new = key not in self._known
        self._known.add(key)
        return new

    def want(self, counted: Counted) -> None:
        """Ask for other numbers of pieces, and allow other numbers of bars."""
        self.counted = counted
        rows = len(counted.wanted)
        self._solver.setOptionValue("simplex_strategy", DUAL)
        low = np.append(counted.wanted, counted.least[counted.limited]).astype(float)
        high = np.append(np.full(rows, highspy.kHighsInf), counted.supply[counted.limited].astype(float))
        self._solver.changeRowsBounds(len(low), np.arange(len(low), dtype=np.int32), low, high)

    def _runs_to_the_end(self) -> bool:
        self._solver.run()
        return bool(self._solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)

    def solve(self) -> Solved:
        """The least cost in parts of bars."""
        if not self._runs_to_the_end():
            self._solver.clearSolver()  # it lost its way from where it stood: from the beginning, then
            self._solver.setOptionValue("simplex_strategy", DUAL)
            if not self._runs_to_the_end():
                raise ArithmeticError(f"the linear programme ended as {self._solver.getModelStatus()}")
        answer = self._solver.getSolution()
        times, dual = np.array(answer.col_value), np.array(answer.row_dual)
        price = self.counted.price[[bar.stock for bar in self.bars]]
        rows = len(self.counted.size)
        scarce = _scarcity(self.counted, dual[rows:])
        return Solved(cost=float(times @ price), times=times, piece=np.maximum(0, dual[:rows]), scarce=scarce)


def in_whole_numbers(piece: Real, scarce: Real, scale: int) -> Worths:
    """The same worths in whole numbers, rounded so that no bar gains by it."""
    return Worths(
        piece=np.floor(piece * scale).astype(np.int64),
        scarce=np.ceil(scarce * scale).astype(np.int64),
        scale=scale,
    )


def _scarcity(counted: Counted, dual: Real) -> Real:
    """What one bar more of each stock would save; under nought where so many have to be used."""
    scarce = np.zeros(len(counted.room))
    scarce[counted.limited] = -dual
    scarce = np.where(counted.supply < PLENTY, scarce, np.minimum(0, scarce))
    return np.where(counted.least > 0, scarce, np.maximum(0, scarce))
