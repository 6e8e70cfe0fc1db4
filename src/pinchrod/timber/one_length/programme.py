"""The least cost of a programme with many rows, by HiGHS, which does not leave this module."""

import highspy
import numpy as np

from pinchrod.timber.one_length.pivoting import Real, Whole

DUAL, PRIMAL = 1, 4  # other amounts leave the dual feasible, new columns the primal
DEVEX = 1  # a quarter quicker here


def quiet_solver() -> highspy.Highs:
    """HiGHS on one thread, saying nothing."""
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 1)
    return solver


class Programme:
    """The same as a `Simplex`: it grows by columns and may ask for other amounts."""

    def __init__(self, low: Real) -> None:
        """No columns yet."""
        self._solver = quiet_solver()
        self._solver.setOptionValue("solver", "simplex")
        self._solver.setOptionValue("presolve", "off")
        self._solver.setOptionValue("simplex_primal_edge_weight_strategy", DEVEX)
        never, ever = np.zeros(0, np.int32), np.zeros(0)
        self._solver.addRows(len(low), low, np.full(len(low), highspy.kHighsInf), 0, never, never, ever)

    def add(self, starts: Whole, rows: Whole, values: Real, cost: Real) -> None:
        """Take columns in: those at starts[j] up to starts[j + 1], the last up to the end."""
        many = len(cost)
        self._solver.addCols(
            many, cost, np.zeros(many), np.full(many, highspy.kHighsInf), len(rows),
            starts.astype(np.int32), rows.astype(np.int32), values,
        )  # fmt: skip
        self._solver.setOptionValue("simplex_strategy", PRIMAL)

    def want(self, low: Real) -> None:
        """Ask for other amounts."""
        self._solver.setOptionValue("simplex_strategy", DUAL)
        high = np.full(len(low), highspy.kHighsInf)
        self._solver.changeRowsBounds(len(low), np.arange(len(low), dtype=np.int32), low, high)

    def charge(self, first: int, cost: float) -> None:
        """Ask another cost for each of the first so many columns."""
        self._solver.setOptionValue("simplex_strategy", PRIMAL)
        self._solver.changeColsCost(first, np.arange(first, dtype=np.int32), np.full(first, cost))

    def solve(self) -> bool:
        """Whether the least cost was found."""
        if self._runs_to_the_end():
            return True
        self._solver.clearSolver()  # it lost its way from where it stood: from the beginning, then
        self._solver.setOptionValue("simplex_strategy", DUAL)
        return self._runs_to_the_end()

    def _runs_to_the_end(self) -> bool:
        self._solver.run()
        return bool(self._solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)

    def worth(self) -> Real:
        """What each row is worth."""
        return np.array(self._solver.getSolution().row_dual)

    def times(self) -> Real:
        """How often each column is used."""
        return np.array(self._solver.getSolution().col_value)
