"""A nearer bound for a small job, where the best strips of a board would all use the same few members.

As in `bound`, a programme finds values and the proof is the sum that follows from them. Two things hold down
what a board could be worth. No strip promises more than it gives: `whole_strip`. And strips of a board share
members by tolls: a member pays one on each strip of that board, and the board gets it back once for each time
the member is wanted. A plan uses none more often, so whatever the tolls, no plan makes more of the board.
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import highspy
import numpy as np

from pinchrod.timber.bound import CLOSE_ENOUGH, CORES, Bound, Columns, Master, whole, yard_of
from pinchrod.timber.kernels import fill, worth_of_boards
from pinchrod.timber.lay_out import add_relaxed
from pinchrod.timber.measured import Rack, room_for_strips
from pinchrod.timber.once import fill_once
from pinchrod.timber.whole_strip import fill_after, whole_boards

ROUNDS = 60
HOLD = 0.6  # how much of the best values so far goes into the next
FIRST, LATER = 20, (0.5, 0.8, 0.9, 0.95)  # so many rounds of that, then in turn
QUIET = 12  # rounds without gain after which it ends
NOT_WORTH_IT = 0.95  # of its price: a board that promises no more is not looked into
LAY_OUTS = 80  # boards laid out in a round, at most
TOO_OFTEN = 1e-6  # more than this: the programme reckons to no end of digits


@dataclass(frozen=True, slots=True)
class Best:
    """The best bound so far, and what gave it: values and tolls, in the price's unit."""

    proven: int
    values: "np.ndarray"
    tolls: "np.ndarray"


class Looking:
    """The rack looked over for values and tolls, in halves beside each other; and what was seen, kept."""

    def __init__(self, rack: Rack, demand: "np.ndarray", scale: int) -> None:
        self.rack, self.demand, self.scale = rack, demand, scale
        self.halves = [_Half(rack, demand, scale) for _ in range(CORES)]
        self.price = self.halves[0].yard.price
        self.every = np.arange(len(self.price))
        self.seen: list[tuple[int, np.ndarray]] = []  # what all are worth, what each board could be

    def look(
        self, values: "np.ndarray", tolls: "np.ndarray", boards: "np.ndarray", least: "np.ndarray | None"
    ) -> tuple["np.ndarray", Columns]:
        """The most that each of the boards could be worth, and a lay-out of each.

        No strip is promised more than it gives on boards that promise more than the least; without a least,
        sticks are not even looked at together.
        """
        parts = [np.arange(at, len(boards), CORES) for at in range(CORES)]
        with ThreadPoolExecutor(CORES) as cores:
            found = cores.map(
                lambda half, part: half.look(
                    values, tolls, boards[part], None if least is None else least[part]
                ),
                self.halves,
                parts,
            )
            worth, counts = (np.concatenate(both) for both in zip(*found, strict=True))
        order = np.argsort(np.concatenate(parts), kind="stable")
        worth, counts = worth[order], counts[order]
        if len(boards) == len(self.price):
            self.seen.append((int((values * self.demand).sum()), worth))
        return worth, list(zip(boards.tolist(), counts, strict=True))


def raised(rack: Rack, demand: "np.ndarray", first: Bound) -> tuple[Looking, "Shared", Best]:
    """The bound, raised as far as that leads from the values that gave the first one; and what was seen.

    First by tolls alone: that is quick and sure to lead somewhere. Then no strip may promise too much.
    """
    looking, tolls = Looking(rack, demand, first.scale), np.zeros((len(rack.question.boards), len(demand)))
    best = Best(0, first.values / first.scale, tolls)
    for strictly in (False, True):
        master = Shared(rack, demand)
        best = _raised(master, looking, best, strictly=strictly)
    return looking, master, best


def _raised(master: "Shared", looking: Looking, best: Best, *, strictly: bool) -> Best:
    """The best that rounds of the programme lead to; few rounds more where nothing is gained."""
    scale, demand, price = looking.scale, looking.demand, looking.price
    values, tolls, quiet = whole(best.values, scale), best.tolls, 0
    least = np.asarray(price * NOT_WORTH_IT, np.int64) if strictly else None
    for number in range(ROUNDS):
        asked = np.minimum(whole(tolls, scale), values)
        worth, lay_outs = looking.look(values, asked, looking.every, least)
        over = worth - price
        proven, quiet = int((values * demand).sum() - np.maximum(over, 0).sum()), quiet + 1
        if proven > best.proven:
            best, quiet = Best(proven, values / scale, tolls), 0
        most = np.argsort(-over, kind="stable")[:LAY_OUTS]
        cost, duals = master.solve_with([lay_outs[at] for at in most])
        if cost * scale <= best.proven * (1 + CLOSE_ENOUGH) or (number > FIRST and quiet > QUIET):
            break
        hold = HOLD if number < FIRST else LATER[number % len(LATER)]
        values = whole(hold * best.values + (1 - hold) * duals, scale)
        tolls = hold * best.tolls + (1 - hold) * master.tolls
    return best


class _Half:
    """One who looks over boards, with tables of its own."""

    def __init__(self, rack: Rack, demand: "np.ndarray", scale: int) -> None:
        self.yard, self.strips = yard_of(rack, demand, scale, sure=False), room_for_strips(rack)
        self.demand, self.kinds = demand, np.arange(len(rack.kinds))

    def look(
        self, values: "np.ndarray", tolls: "np.ndarray", boards: "np.ndarray", least: "np.ndarray | None"
    ) -> tuple["np.ndarray", "np.ndarray"]:
        """The most that each of the boards could be worth, and the members of a lay-out of each."""
        worth, counts = self._worth(values, boards, least)
        for at in np.flatnonzero(tolls[boards].any(axis=1)).tolist():
            toll, one = tolls[boards[at]], slice(at, at + 1)
            back = int((toll * self.demand).sum())
            more, count = self._worth(
                values - toll, boards[one], None if least is None else least[one] - back
            )
            worth[at] = min(worth[at], int(more[0]) + back)
            counts[at] = count[0]
        return worth, counts

    def _worth(
        self, values: "np.ndarray", boards: "np.ndarray", least: "np.ndarray | None"
    ) -> tuple["np.ndarray", "np.ndarray"]:
        yard, demand, counts = self.yard, self.demand, np.zeros((len(boards), len(values)), np.int64)
        wood, lengths, tables = yard.wood, yard.lengths, yard.tables
        fill(lengths, tables, self.kinds, values, demand, yard.top, True)
        if least is not None:
            fill_once(wood, lengths, tables, values, demand)
            fill_after(wood, lengths, self.strips, values, demand)
            worth = whole_boards(wood, lengths, tables, self.strips, values, demand, boards, least, counts)
            return np.asarray(worth), counts
        worth = np.empty(len(boards), np.int64)
        for at in range(len(boards)):
            worth[at : at + 1] = worth_of_boards(wood, lengths, tables, boards[at : at + 1])
            add_relaxed(yard, boards[at], counts[at])
        return worth, counts


class Shared(Master):
    """The programme with a row more for each member that a board would use more often than it is wanted."""

    def __init__(self, rack: Rack, demand: "np.ndarray", short: "np.ndarray | None" = None) -> None:
        self.columns: list[tuple[int, np.ndarray]] = [(-1, demand)] * len(demand)
        self.rows: dict[int, dict[int, int]] = {board: {} for board in range(len(rack.question.boards))}
        self.demand, self.tolls = demand, np.zeros((len(rack.question.boards), len(demand)))
        super().__init__(rack, demand, short)

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
