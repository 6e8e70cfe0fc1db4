"""Choosing whole bars from a list, by HiGHS: a plan, or the word that the list holds none."""

from dataclasses import dataclass

import highspy
import numpy as np

from pinchrod.timber.one_length.counted import Bar, Counted, Cut, Plan
from pinchrod.timber.one_length.listing import Listed
from pinchrod.timber.one_length.programme import quiet_solver
from pinchrod.timber.one_length.question import Budget

INFINITE = highspy.kHighsInf
OVER = {highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kInfeasible}


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The cheapest plan found, and whether the list holds none that is cheaper."""

    plan: Plan | None
    settled: bool


def choose(counted: Counted, listed: Listed, target: int, *, covering: bool, budget: Budget) -> Chosen:
    """A plan for at most the target from bars of the list.

    Each piece is made exactly as often as wanted or, if covering, at least as often. A time allowed is asked
    of the budget, by whatever clock it goes.
    """
    made = np.zeros(len(counted.size), bool)
    made[listed.kinds] = True
    if (counted.wanted[~made] > 0).any():
        return Chosen(plan=None, settled=True)
    solver = quiet_solver()
    solver.setOptionValue("mip_max_nodes", budget.nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", counted.step * 0.999)
    if budget.seconds_left is not None:
        solver.cbMipInterrupt += lambda event: event.interrupt() if budget.over() else None
    _state(solver, counted, listed, target, covering=covering)
    solver.run()
    status = solver.getModelStatus()
    plan = _read(solver, counted, listed)
    return Chosen(plan=plan, settled=status in OVER)


def _state(solver: highspy.Highs, counted: Counted, listed: Listed, target: int, *, covering: bool) -> None:
    """Tell the solver the list: a column a bar, a row a kind, then the target and each limited stock."""
    exactly = counted.wanted.astype(float)
    supply = counted.supply[counted.limited].astype(float)
    low = np.concatenate((exactly, [0.0], counted.least[counted.limited].astype(float)))
    most = np.full(len(exactly), INFINITE) if covering else exactly
    high = np.concatenate((most, [float(target)], supply))
    nothing = np.zeros(0)
    solver.addRows(len(low), low, high, 0, nothing.astype(np.int32), nothing.astype(np.int32), nothing)
    rows = len(exactly)
    row_of = {int(s): rows + 1 + at for at, s in enumerate(counted.limited)}
    starts, index, value = [0], [], []
    for b, stock in enumerate(listed.stock.tolist()):
        part = slice(listed.starts[b], listed.starts[b + 1])
        index += [*listed.kinds[part].tolist(), rows]
        value += [*listed.counts[part].tolist(), int(counted.price[stock])]
        if stock in row_of:
            index.append(row_of[stock])
            value.append(1)
        starts.append(len(index))
    cost = counted.price[listed.stock].astype(float)
    many = len(cost)
    solver.addCols(
        many, cost, np.zeros(many), np.full(many, INFINITE), len(index),
        np.array(starts[:-1], np.int32), np.array(index, np.int32), np.array(value, float),
    )  # fmt: skip
    whole = np.full(many, highspy.HighsVarType.kInteger)
    solver.changeColsIntegrality(many, np.arange(many, dtype=np.int32), whole)


def _read(solver: highspy.Highs, counted: Counted, listed: Listed) -> Plan | None:
    """The solver's plan, rounded and counted again; None if it has none that is right."""
    times = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64)[: len(listed.stock)]
    if len(times) < len(listed.stock):
        return None
    plan = tuple(_cut(listed, b, int(times[b])) for b in np.flatnonzero(times > 0).tolist())
    made = np.zeros_like(counted.wanted)
    used = np.zeros_like(counted.supply)
    for cut in plan:
        made[cut.bar.kinds] += cut.times * cut.bar.counts
        used[cut.bar.stock] += cut.times
    right = (made >= counted.wanted).all() and (used <= counted.supply).all()
    return plan if right else None


def _cut(listed: Listed, b: int, times: int) -> Cut:
    part = slice(listed.starts[b], listed.starts[b + 1])
    return Cut(Bar(int(listed.stock[b]), listed.kinds[part], listed.counts[part]), times)
