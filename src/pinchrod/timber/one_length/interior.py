"""Worths from the middle of all that are best: an interior point method for many short columns.

Least cost x times, so that each row makes at least `low`; the worths of the rows are what is asked for.
All is floating point: it suggests worths, and proves nothing.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinchrod.timber.one_length.compiled import compiled

Real = NDArray[np.float64]
Whole = NDArray[np.int64]

NOUGHT = 1e-14
SHORT = 0.995  # of the way to the nearest end
LEAST_LOSS = 0.01  # at the start
NEARLY_MADE = 1e-4  # of a piece
FEW = 60  # steps, after which it is given up


class Rows(NamedTuple):
    """The programme: columns one after another, their costs, and what each row makes at least."""

    starts: Whole
    rows: Whole
    values: Real
    cost: Real
    low: Real


class Point(NamedTuple):
    """How often each column is used, what each row makes too much, the worths, and each column's loss."""

    times: Real
    over: Real
    worth: Real
    loss: Real


@compiled
def made(task: Rows, times: Real) -> Real:
    """What each row makes."""
    out = np.zeros(len(task.low))
    for j in range(len(task.cost)):
        for at in range(task.starts[j], task.starts[j + 1]):
            out[task.rows[at]] += task.values[at] * times[j]
    return out


@compiled
def held(task: Rows, worth: Real) -> Real:
    """What each column holds in worth."""
    out = np.zeros(len(task.cost))
    for j in range(len(task.cost)):
        total = 0.0
        for at in range(task.starts[j], task.starts[j + 1]):
            total += task.values[at] * worth[task.rows[at]]
        out[j] = total
    return out


@compiled
def together(one: Real, other: Real) -> float:
    """The sum of the products, always added up in the same order."""
    total = 0.0
    for i in range(len(one)):
        total += one[i] * other[i]
    return total


@compiled
def factor(task: Rows, weight: Real, square: Real) -> None:
    """The rows against each other, each column weighed, on top of `square`'s diagonal; then eliminated."""
    for j in range(len(task.cost)):
        start, end = task.starts[j], task.starts[j + 1]
        for at in range(start, end):
            share = weight[j] * task.values[at]
            for to in range(at, end):
                square[task.rows[at], task.rows[to]] += share * task.values[to]
    rows = len(square)
    for k in range(rows):
        pivot = max(square[k, k], NOUGHT)
        square[k, k] = pivot
        for i in range(k + 1, rows):
            share = square[k, i] / pivot
            if share != 0.0:
                line, above = square[i, i:], square[k, i:]
                for c in range(len(line)):
                    line[c] -= share * above[c]


@compiled
def solved(square: Real, right: Real) -> Real:
    """What solves the eliminated rows for this right hand side."""
    rows = len(right)
    out = np.zeros(rows)
    for k in range(rows):
        out[k] = right[k]
    for k in range(rows):
        share = out[k] / square[k, k]
        if share != 0.0:
            for i in range(k + 1, rows):
                out[i] -= share * square[k, i]
    for k in range(rows - 1, -1, -1):
        total = out[k]
        for i in range(k + 1, rows):
            total -= square[k, i] * out[i]
        out[k] = total / square[k, k]
    return out


def middle_of(task: Rows, worth: Real, near: float) -> Real:
    """Worths that are best but for `near` of the cost, well inside; from some that are all over nought."""
    loss = np.maximum(task.cost - held(task, worth), LEAST_LOSS)
    mu = 0.1 * together(worth, task.low) / (len(loss) + len(worth))
    at = Point(mu / loss, mu / worth, worth, loss)
    for _ in range(FEW):
        short = task.low - made(task, at.times) + at.over
        gap = together(at.times, at.loss) + together(at.over, at.worth)
        if gap <= near * together(at.times, task.cost) and np.abs(short).max() <= NEARLY_MADE:
            break
        at = _step(task, at, short, gap)
    return at.worth


def _step(task: Rows, at: Point, short: Real, gap: float) -> Point:
    """The point after a step: how far a bold one would lead says how near the middle to keep."""
    square = np.diag(at.over / at.worth)
    factor(task, at.times / at.loss, square)
    bold = _way(task, at, square, short, (-at.times * at.loss, -at.over * at.worth))
    there = _after(at, bold, 1.0)
    left = together(there.times, there.loss) + together(there.over, there.worth)
    mu = max(0.0, left / gap) ** 3 * gap / (len(at.loss) + len(at.worth))
    pair = mu - at.times * at.loss - bold.times * bold.loss
    row_pair = mu - at.over * at.worth - bold.over * bold.worth
    return _after(at, _way(task, at, square, short, (pair, row_pair)), SHORT)


def _way(task: Rows, at: Point, square: Real, short: Real, wanted: tuple[Real, Real]) -> Point:
    """The step at which each pair's product becomes what is wanted, and both programmes are met."""
    pair, row_pair = wanted
    off = task.cost - held(task, at.worth) - at.loss
    right = short - made(task, (pair - at.times * off) / at.loss) + row_pair / at.worth
    worth = solved(square, right)
    loss = off - held(task, worth)
    times = (pair - at.times * loss) / at.loss
    return Point(times, (row_pair - at.over * worth) / at.worth, worth, loss)


def _after(at: Point, step: Point, share: float) -> Point:
    """The point after a share of the step, or of what of it can be gone before a level comes to nought."""
    p = share * min(_reach(at.times, step.times), _reach(at.over, step.over))
    d = share * min(_reach(at.worth, step.worth), _reach(at.loss, step.loss))
    return Point(
        at.times + p * step.times, at.over + p * step.over, at.worth + d * step.worth, at.loss + d * step.loss
    )


def _reach(level: Real, step: Real) -> float:
    down = step < 0.0
    return float((-level[down] / step[down]).min(initial=1.0))
