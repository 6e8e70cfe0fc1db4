"""A nearer bound for a small job, where the best strips of a board would all use the same few members.

As in `bound`, a programme finds values and the proof is the sum that follows from them. Two things hold down
what a board could be worth. Sticks of a strip share its members: `once`. And strips of a board share them by
tolls: a member pays one on each strip of that board, and the board gets it back once for each time the member
is wanted. A plan uses no member more often, so whatever the tolls, no plan makes more of the board.
"""

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import highspy
import numpy as np

from pinchrod.timber.bound import CLOSE_ENOUGH, CORES, Bound, Columns, Master, bound_of, whole, yard_of
from pinchrod.timber.kernels import fill, worth_of_boards
from pinchrod.timber.lay_out import HEAD, add_relaxed, add_shared
from pinchrod.timber.measured import Rack
from pinchrod.timber.once import fill_once, worth_of_boards_once

ROUNDS = 60
HOLD = 0.6  # how much of the best values so far goes into the next
FIRST, LATER = 20, (0.5, 0.8, 0.9, 0.95)  # so many rounds of that, then in turn
QUIET = 12  # rounds without gain after which it ends
LAY_OUTS = 80  # boards laid out in a round, at most
TOO_OFTEN = 1e-6  # more than this: the programme reckons to no end of digits


@dataclass(frozen=True, slots=True)
class _Best:
    """The best bound so far, and what gave it: values and tolls, in the price's unit."""

    proven: int
    values: "np.ndarray"
    tolls: "np.ndarray"


def nearer(rack: Rack, demand: "np.ndarray", first: Bound) -> Bound:
    """The bound, raised as far as that leads from the values that gave the first one.

    First by tolls alone: that is quick and sure to lead somewhere. Then strips share their members, too.
    """
    tolls = np.zeros((len(rack.question.boards), len(demand)))
    best = _Best(0, first.values / first.scale, tolls)
    halves = [_Half(rack, demand, first, part) for part in range(CORES)]
    for once in (False, True):
        best = _raised(_Shared(rack, demand), halves, best, first.scale, once=once)
    found = bound_of(rack, best.proven, whole(best.values, first.scale), first.scale)
    return max(first, found, key=lambda bound: bound.cost)


def _raised(master: "_Shared", halves: Sequence["_Half"], best: _Best, scale: int, *, once: bool) -> _Best:
    """The best that rounds of the programme lead to; few rounds more where nothing is gained."""
    values, tolls, demand, quiet = whole(best.values, scale), best.tolls, master.demand, 0
    with ThreadPoolExecutor(CORES) as cores:
        for number in range(ROUNDS):
            asked = (values, np.minimum(whole(tolls, scale), values))
            over = sum(cores.map(lambda half, asked=asked: half.look(*asked, once=once), halves))
            proven, quiet = int((values * demand).sum()) - over, quiet + 1
            if proven > best.proven:
                best, quiet = _Best(proven, values / scale, tolls), 0
            cost, duals = master.solve_with([column for half in halves for column in half.found])
            if cost * scale <= best.proven * (1 + CLOSE_ENOUGH) or (number > FIRST and quiet > QUIET):
                break
            hold = HOLD if number < FIRST else LATER[number % len(LATER)]
            values = whole(hold * best.values + (1 - hold) * duals, scale)
            tolls = hold * best.tolls + (1 - hold) * master.tolls
    return best


class _Half:
    """Half of the rack, looked over beside the other half with tables of its own."""

    def __init__(self, rack: Rack, demand: "np.ndarray", first: Bound, part: int) -> None:
        self.yard = yard_of(rack, first.values, first.scale, sure=False)
        self.demand, self.kinds = demand, np.arange(len(rack.kinds))
        self.boards = np.arange(part, len(self.yard.price), CORES)
        self.marks = np.zeros(rack.strips_at_most * rack.members_of_strip * (HEAD + 1), np.int32)
        self.once, self.found = False, Columns()

    def look(self, values: "np.ndarray", tolls: "np.ndarray", *, once: bool) -> int:
        """The most that the boards could be worth over their prices; lay-outs of the best go into `found`."""
        price, self.once = self.yard.price[self.boards], once
        over = self._worth(values, self.boards) - price
        free = [at for at in np.argsort(-over, kind="stable").tolist() if not tolls[self.boards[at]].any()]
        self.found = list(self._laid_out(values, self.boards[free[: LAY_OUTS // CORES]]))
        for at in np.flatnonzero(tolls[self.boards].any(axis=1)).tolist():
            board, less = self.boards[at : at + 1], values - tolls[self.boards[at]]
            back = int((tolls[self.boards[at]] * self.demand).sum())
            over[at] = min(over[at], int(self._worth(less, board)[0]) + back - price[at])
            self.found.extend(self._laid_out(less, board))
        return int(np.maximum(over, 0).sum())

    def _worth(self, values: "np.ndarray", boards: "np.ndarray") -> "np.ndarray":
        yard = self.yard
        fill(yard.lengths, yard.tables, self.kinds, values, self.demand, yard.top, True)
        if self.once:
            fill_once(yard.wood, yard.lengths, yard.tables, values, self.demand)
        worth = worth_of_boards_once if self.once else worth_of_boards
        return np.asarray(worth(yard.wood, yard.lengths, yard.tables, boards))

    def _laid_out(self, values: "np.ndarray", boards: "np.ndarray") -> Iterator[tuple[int, "np.ndarray"]]:
        """Lay-outs of boards whose worth was worked out last, each strip with all members to itself."""
        for board in boards.tolist():
            count = np.zeros_like(self.demand)
            if self.once:
                add_shared(self.yard, values, self.demand, board, self.marks, count)
            else:
                add_relaxed(self.yard, board, count)
            yield board, count


class _Shared(Master):
    """The programme with a row more for each member that a board would use more often than it is wanted."""

    def __init__(self, rack: Rack, demand: "np.ndarray") -> None:
        self.columns: list[tuple[int, np.ndarray]] = [(-1, demand)] * len(demand)
        self.rows: dict[int, dict[int, int]] = {board: {} for board in range(len(rack.question.boards))}
        self.demand, self.tolls = demand, np.zeros((len(rack.question.boards), len(demand)))
        super().__init__(rack, demand)

    def solve_with(self, lay_outs: Columns) -> tuple[float, "np.ndarray"]:
        """The programme's cost and its members' values, with these lay-outs added; tolls go into `tolls`."""
        super().solve_with(lay_outs)
        self._add_rows()
        cost, duals = super().solve_with([])
        rows = self.solver.getSolution().row_dual
        for board, types in self.rows.items():
            for of, row in types.items():
                self.tolls[board, of] = max(-rows[row], 0.0)
        return cost, duals

    def _add_lay_out(self, board: int, count: "np.ndarray") -> None:
        self.columns.append((board, count))
        types, more = np.flatnonzero(count), self.rows[board]
        over = [
            (row, count[of] - self.demand[of]) for of, row in more.items() if count[of] != self.demand[of]
        ]
        rows = [*types, self.types + board, *(row for row, _ in over)]
        entries = [*count[types], 1, *(entry for _, entry in over)]
        self._add(float(self.price[board]), np.array(rows, np.int32), np.array(entries, float))

    def _add_rows(self) -> None:
        """Rows for what the programme's answer uses too often."""
        shares = np.array(self.solver.getSolution().col_value)
        over: dict[int, np.ndarray] = {}
        for at in np.flatnonzero(shares > TOO_OFTEN).tolist():
            board, count = self.columns[at]
            if board >= 0:
                over[board] = over.get(board, 0) + shares[at] * (count - self.demand)
        for board, more in over.items():
            for of in np.flatnonzero(more > TOO_OFTEN).tolist():
                if of not in self.rows[board]:
                    self._add_row(board, of)

    def _add_row(self, board: int, of: int) -> None:
        self.rows[board][of] = self.solver.getNumRow()
        less = [
            (at, count[of] - self.demand[of]) for at, (on, count) in enumerate(self.columns) if on == board
        ]
        at = np.array([column for column, entry in less if entry], np.int32)
        entries = np.array([entry for _, entry in less if entry], float)
        self.solver.addRow(-highspy.kHighsInf, 0.0, len(at), at, entries)
