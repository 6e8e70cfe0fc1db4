"""The least cost of a programme with few rows, by a simplex method of our own.

Least cost x times, so that each row makes at least `low`. A solver made for any programme takes two to
four times as long over ours, where every column has few entries and there are many more columns than rows.
"""

import numpy as np

from pinchrod.timber.one_length.pivoting import (
    LOST,
    STUCK,
    TINY,
    Real,
    Table,
    Whole,
    cheapen,
    held,
    inverse_times,
    invert,
    make_good,
    times_inverse,
)
from pinchrod.timber.one_length.programme import Programme

LESS = 1e-7  # of a piece, asked for less than is wanted: so that ties are few
GOLD = 0.6180339887498949  # its multiples fall anywhere between whole numbers
SOUND = 1e-7  # of a piece: further off, the inverse is made anew
STEPS = 500  # after which levels and losses are added up anew
OLD = 1_000  # and the inverse made anew
TURNS = 200
KEPT = 3  # columns a row, that lose least
ROUNDS = 50
NEAR = 10 * TINY


class Simplex:
    """A programme that grows by columns and may ask for other amounts, solved each time from where it stood.

    It is solved over the columns that lose little; any other that gains by what comes out joins them.
    """

    def __init__(self, low: Real) -> None:
        """No columns yet but the rows' own."""
        rows = len(low)
        self._low = low
        self._less = LESS * (1.0 + np.arange(1, rows + 1) * GOLD % 1.0)
        self._cost = np.zeros(rows)
        self._starts, self._rows, self._values = np.zeros(1, np.int64), np.zeros(0, np.int64), np.zeros(0)
        self._begin()

    def _begin(self) -> None:
        """Stand at the beginning, with the rows' own columns alone."""
        rows, self._steps = len(self._low), 0
        self._inverse, self._basis = -np.eye(rows), np.arange(rows)

    def add(self, starts: Whole, rows: Whole, values: Real, cost: Real) -> None:
        """Take columns in: those at starts[j] up to starts[j + 1], the last up to the end."""
        self._cost = np.append(self._cost, cost)
        self._starts = np.append(self._starts, np.append(starts[1:], len(rows)) + len(self._rows))
        self._rows, self._values = np.append(self._rows, rows), np.append(self._values, values)

    def want(self, low: Real) -> None:
        """Ask for other amounts."""
        self._low = low

    def charge(self, first: int, cost: float) -> None:
        """Ask another cost for each of the first so many columns."""
        self._cost[len(self._low) :][:first] = cost

    def solve(self) -> bool:
        """Whether the least cost was found, from where it stood or else from the beginning."""
        if self._solve():
            return True
        self._begin()
        return self._solve()

    def solved_otherwise(self) -> Programme | None:
        """The same programme, solved by HiGHS: slower, and not so easily lost; None if not by it either."""
        other = Programme(self._low)
        other.add(self._starts[:-1], self._rows, self._values, self._cost[len(self._low) :])
        return other if other.solve() else None

    def _solve(self) -> bool:
        """Whether the least cost was found: over more columns until none is left that gains."""
        order = np.argsort(self._losses(), kind="stable")
        known = order[: KEPT * len(self._low)]
        for _ in range(ROUNDS):
            if not self._settle(known) and not self._settle(order):
                return False
            gaining = np.flatnonzero(self._losses() < -NEAR)
            if not gaining.size:
                return True
            known = np.append(known, gaining)
        return False

    def worth(self) -> Real:
        """What each row is worth."""
        return times_inverse(self._cost[self._basis], self._inverse)

    def times(self) -> Real:
        """How often each column is used."""
        return np.maximum(0.0, self._levels(self._low)[len(self._low) :])

    def _settle(self, known: Whole) -> bool:
        """Enough made, then for the least cost, over these columns and those in the basis."""
        chosen = self._chosen(known)
        table, cost = self._part(chosen), self._cost[chosen]
        for _ in range(TURNS):
            steps = self._step(table, cost)
            self._steps += abs(steps)
            self._basis = chosen[table.basis]
            if steps == STUCK:
                return False
            sound = steps != LOST and self._is_sound()
            if sound and steps < STEPS:
                return True
            if not sound or self._steps > OLD:
                invert(table)
                self._basis, self._steps = chosen[table.basis], 0
        return False

    def _step(self, table: Table, cost: Real) -> int:
        """So many steps, first until enough is made; fewer than are allowed only if all is done."""
        table.level[:] = inverse_times(table.inverse, self._low - self._less)
        if (table.level < -SOUND).any():
            table.loss[:] = np.maximum(0.0, _losses_of(table, cost))
            return min(make_good(table, STEPS), 0) or STEPS
        table.loss[:] = _losses_of(table, cost)
        return cheapen(table, STEPS)

    def _chosen(self, known: Whole) -> Whole:
        """These columns, the rows' own, and those in the basis, in their order."""
        among = np.zeros(len(self._cost), bool)
        among[: len(self._low)], among[known], among[self._basis] = True, True, True
        return np.flatnonzero(among)

    def _part(self, chosen: Whole) -> Table:
        """The programme with these columns alone."""
        rows = len(self._low)
        mine = chosen[rows:] - rows
        many = self._starts[mine + 1] - self._starts[mine]
        starts = np.append(0, np.cumsum(many))
        at = np.arange(starts[-1]) + np.repeat(self._starts[mine] - starts[:-1], many)
        basis, where = np.searchsorted(chosen, self._basis), np.full(len(chosen), -1)
        where[basis] = np.arange(rows)
        return Table(
            starts=starts, rows=self._rows[at], values=self._values[at], inverse=self._inverse, basis=basis,
            where=where, level=np.zeros(rows), loss=np.zeros(len(chosen)),
        )  # fmt: skip

    def _losses(self) -> Real:
        """What each column costs beyond what it holds."""
        return _losses_of(self._part(np.arange(len(self._cost))), self._cost)

    def _levels(self, low: Real) -> Real:
        level = np.zeros(len(self._cost))
        level[self._basis] = inverse_times(self._inverse, low)
        return level

    def _is_sound(self) -> bool:
        """Whether what the inverse says is used makes what is asked for."""
        low, rows = self._low - self._less, len(self._low)
        level = self._levels(low)
        each = np.repeat(level[rows:], np.diff(self._starts))
        made = np.bincount(self._rows, self._values * each, rows) - level[:rows]
        return bool(np.abs(made - low).max(initial=0.0) <= SOUND)


def _losses_of(table: Table, cost: Real) -> Real:
    """What each column costs beyond what it holds; those in the basis nothing."""
    loss = cost - held(table, times_inverse(cost[table.basis], table.inverse))
    loss[table.basis] = 0.0
    return loss
