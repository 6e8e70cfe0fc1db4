"""The proven bound: what each member is worth at least, by a linear programme over whole boards.

The programme only finds good values. The proof is the sum that follows from them, in whole numbers: whatever
the values, no plan costs less than all members' worth, less what each board could be worth over its price.
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import highspy
import numpy as np

from pinchrod.ground import Mm
from pinchrod.timber.kernels import fill, worth_of_boards
from pinchrod.timber.lay_out import Yard, add_relaxed
from pinchrod.timber.measured import Rack, room_for_tables

ROUNDS = 80  # of pricing, at most
COLUMNS = 80  # new lay-outs a round, at most
CLOSE_ENOUGH = 5e-4  # share of the bound the programme may still lie above it
HOLD = 0.6  # how much of the best values so far goes into the next
SHORT = 30  # times what the largest member is worth: what a member left short costs
CORES = 2  # parts that boards are looked over in at the same time


Columns = list[tuple[int, "np.ndarray"]]
"""Boards with lay-outs: how many members of each type each holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """What each type is worth, in `scale`-ths of the price's unit, and the bound that follows."""

    cost: Mm
    values: "np.ndarray"
    scale: int


def yard_of(rack: Rack, values: "np.ndarray", scale: int, *, sure: bool) -> Yard:
    """The rack with prices in whole numbers and room for the sums; members rounded up if it is to be sure."""
    price = np.array([int(board.price * scale) for board in rack.question.boards], np.int64)
    return Yard(
        wood=rack.wood,
        lengths=rack.sure if sure else rack.hopeful,
        tables=room_for_tables(rack),
        price=price,
        values=values,
        likely=np.arange(len(price)),
        top=rack.top,
        sticks=rack.sticks_at_most,
        fee=int(price.sum()) // 10**7 if sure else 0,
        once=False,
    )


def prove(rack: Rack, demand: "np.ndarray", *, rounds: int = ROUNDS) -> Bound:
    """The best bound found for making that many of each type."""
    scale, held = _scale(rack, demand), _by_area(rack)
    yard, master = yard_of(rack, whole(held, scale), scale, sure=False), Master(rack, demand)
    best, best_values = 0, np.zeros(len(demand), np.int64)
    for _ in range(rounds):
        values = whole(held, scale)
        worth = _worth(yard, values, demand)
        proven = int((values * demand).sum() - np.maximum(worth - yard.price, 0).sum())
        if proven > best:
            best, best_values = proven, values
        cost, duals = master.solve_with(_relaxed(yard, worth - yard.price))
        if cost * scale <= best * (1 + CLOSE_ENOUGH):
            break
        held = HOLD * best_values / scale + (1 - HOLD) * duals
    return bound_of(rack, best, best_values, scale)


def bound_of(rack: Rack, proven: int, values: "np.ndarray", scale: int) -> Bound:
    """The bound that was proven in whole numbers with these values."""
    return Bound(cost=_rounded_up(rack, Mm(proven, scale)), values=values, scale=scale)


def _relaxed(yard: Yard, promise: "np.ndarray") -> Columns:
    """Lay-outs of the boards that promise most, as if each stick had all members to itself."""
    found = []
    for board in np.argsort(-promise, kind="stable")[:COLUMNS].tolist():
        count = np.zeros_like(yard.values)
        add_relaxed(yard, board, count)
        found.append((board, count))
    return found


def _worth(yard: Yard, values: "np.ndarray", demand: "np.ndarray") -> "np.ndarray":
    """The most that each board could hold, each as if it had all members to itself; by halves of the rack."""
    fill(yard.lengths, yard.tables, np.arange(len(yard.wood.limit[0])), values, demand, yard.top, True)
    halves = np.array_split(np.arange(len(yard.price)), CORES)
    with ThreadPoolExecutor(CORES) as cores:
        found = cores.map(lambda half: worth_of_boards(yard.wood, yard.lengths, yard.tables, half), halves)
        return np.concatenate(list(found))


def _scale(rack: Rack, demand: "np.ndarray") -> int:
    """Prices and values are counted in units so small that sums of all of them still fit the tables."""
    boards = rack.question.boards
    total = max(sum((board.price for board in boards), Mm(0)), Mm(1))
    return int(2**50 // (int(total) + int((_dear(rack) * demand).sum()) + 1))


def whole(values: "np.ndarray", scale: int) -> "np.ndarray":
    """Values in whole numbers of the scale."""
    return np.asarray(np.maximum(values * scale, 0), np.int64)


def _dear(rack: Rack) -> "np.ndarray":
    """What a member left short costs: the same for each, that as few as can be are left short."""
    return np.full(len(rack.types), SHORT * float(_by_area(rack).max(initial=0.0)))


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


class Master:
    """The linear programme: a row for each type and board, a column for each lay-out and each shortage."""

    def __init__(self, rack: Rack, demand: "np.ndarray", short: "np.ndarray | None" = None) -> None:
        """Begin with what members left short cost; where that is said, boards cost nothing."""
        self.types = len(demand)
        free = 0 if short is not None else 1
        self.price = np.array([free * float(board.price) for board in rack.question.boards])
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
        dear = _dear(rack) if short is None else short
        for of in range(self.types):
            self._add(float(dear[of]), np.array([of], np.int32), np.array([1.0]))

    def solve_with(self, lay_outs: Columns) -> tuple[float, "np.ndarray"]:
        """The programme's cost and its members' values, with these lay-outs added."""
        for board, count in lay_outs:
            if count.any():
                self._add_lay_out(board, count)
        self.solver.run()
        found = self.solver.getSolution()
        duals = np.array(found.row_dual)[: self.types]
        return float(np.dot(self.costs, found.col_value)), np.maximum(duals, 0)

    def _add_lay_out(self, board: int, count: "np.ndarray") -> None:
        types = np.flatnonzero(count)
        rows = np.append(types, self.types + board).astype(np.int32)
        self._add(float(self.price[board]), rows, np.append(count[types], 1).astype(float))

    def _add(self, cost: float, rows: "np.ndarray", entries: "np.ndarray") -> None:
        self.solver.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, entries)
        self.costs.append(cost)
