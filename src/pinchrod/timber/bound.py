"""The proven bound: what each member is worth at least, by a linear programme over whole boards.

The programme only finds good values. The proof is the sum that follows from them, in whole numbers: whatever
the values, no plan costs less than all members' worth, less what each board could be worth over its price.
"""

from dataclasses import dataclass

import highspy
import numpy as np

from pinchrod.ground import Mm
from pinchrod.timber.lay_out import Values, relaxed
from pinchrod.timber.measured import Rack, room_for_tables

ROUNDS = 80  # of pricing, at most
COLUMNS = 80  # new lay-outs a round, at most
CLOSE_ENOUGH = 5e-4  # share of the bound the programme may still lie above it
HOLD = 0.6  # how much of the best values so far goes into the next
SHORT = 30  # times the dearest wood: what a member left short costs


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """What each type is worth, in `scale`-ths of the price's unit, and the bound that follows."""

    cost: Mm
    values: "np.ndarray"
    scale: int


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices of the boards as floats for the programme and, rounded down, as whole numbers for the proof."""

    plain: "np.ndarray"
    whole: "np.ndarray"
    scale: int


def prices(rack: Rack) -> Prices:
    """Prices in units so small that sums of all of them still fit the tables."""
    boards = rack.question.boards
    total = max(sum((board.price for board in boards), Mm(0)), Mm(1))
    scale = 2**50 // (int(total) + 1)
    whole = [int(board.price * scale) for board in boards]
    return Prices(np.array([float(board.price) for board in boards]), np.array(whole, np.int64), scale)


def prove(rack: Rack, demand: "np.ndarray", *, rounds: int = ROUNDS) -> Bound:
    """The best bound found for making that many of each type."""
    priced, master = prices(rack), _Master(rack, demand)
    tables, everything = room_for_tables(rack), np.arange(len(rack.question.boards))
    best, best_values = 0, np.zeros(len(demand), np.int64)
    held = _by_area(rack)
    for _ in range(rounds):
        asked = Values(rack, tables, rack.hopeful, _whole(held, priced.scale), demand, True)
        asked.fill(np.arange(len(rack.kinds)))
        worth = asked.worth(everything)
        proven = int((asked.values * demand).sum() - np.maximum(worth - priced.whole, 0).sum())
        if proven > best:
            best, best_values = proven, asked.values
        cost, duals = master.solve_with(asked, worth)
        if cost * priced.scale <= best * (1 + CLOSE_ENOUGH):
            break
        held = HOLD * best_values / priced.scale + (1 - HOLD) * duals
    return Bound(cost=_rounded_up(rack, Mm(best, priced.scale)), values=best_values, scale=priced.scale)


def _whole(values: "np.ndarray", scale: int) -> "np.ndarray":
    return np.asarray(np.maximum(values * scale, 0), np.int64)


def _by_area(rack: Rack) -> "np.ndarray":
    """A first guess: wood in the strip at the middling price of a square millimetre."""
    boards = rack.question.boards
    rate = float(np.median([float(board.price / (board.width * board.length)) for board in boards]))
    return np.array([rate * float((one.width + 4) * (one.length + 10)) for one in rack.types])


def _rounded_up(rack: Rack, cost: Mm) -> Mm:
    """Every cost is a sum of prices, so a bound may rise to the next multiple of what divides them all."""
    step = Mm(0)
    for board in rack.question.boards:
        step = _common(step, board.price)
    return -(-cost // step) * step if step else cost


def _common(one: Mm, other: Mm) -> Mm:
    while other:
        one, other = other, one % other
    return one


class _Master:
    """The linear programme: a row for each type and board, a column for each lay-out and each shortage."""

    def __init__(self, rack: Rack, demand: "np.ndarray") -> None:
        self.types, self.price = len(demand), prices(rack).plain
        self.solver = highspy.Highs()
        for option, value in (
            ("output_flag", False),
            ("threads", 1),
            ("presolve", "off"),
            ("solver", "simplex"),
        ):
            self.solver.setOptionValue(option, value)
        for count in demand:
            self.solver.addRow(float(count), highspy.kHighsInf, 0, np.array([], np.int32), np.array([]))
        for _ in rack.question.boards:
            self.solver.addRow(-highspy.kHighsInf, 1.0, 0, np.array([], np.int32), np.array([]))
        self.costs: list[float] = []
        dear = SHORT * _by_area(rack)
        for of in range(self.types):
            self._add(float(dear[of]), np.array([of], np.int32), np.array([1.0]))
        self.duals = np.zeros(self.types + len(self.price))

    def solve_with(self, asked: Values, worth: "np.ndarray") -> tuple[float, "np.ndarray"]:
        """The programme's cost and its members' values, with the lay-outs that promise most added."""
        counts = {}
        promise = worth / prices(asked.rack).scale - self.price
        for board in np.argsort(-promise, kind="stable")[:COLUMNS]:
            counts[int(board)] = relaxed(asked, int(board))
        for board, count in counts.items():
            types = np.flatnonzero(count)
            if len(types):
                rows = np.append(types, self.types + board).astype(np.int32)
                self._add(float(self.price[board]), rows, np.append(count[types], 1).astype(float))
        self.solver.run()
        found = self.solver.getSolution()
        self.duals = np.array(found.row_dual)
        return float(np.dot(self.costs, found.col_value)), np.maximum(self.duals[: self.types], 0)

    def _add(self, cost: float, rows: "np.ndarray", entries: "np.ndarray") -> None:
        self.solver.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, entries)
        self.costs.append(cost)
