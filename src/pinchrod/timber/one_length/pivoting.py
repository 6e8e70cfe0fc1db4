"""The steps of the simplex method, for few rows and columns of few entries each, the inverse kept whole.

All is floating point: it suggests worths and bars, and proves nothing. Sums are always added up in the same
order, so that the same programme takes the same steps on any machine.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinchrod.timber.one_length.compiled import compiled

Real = NDArray[np.float64]
Whole = NDArray[np.int64]

TINY = 1e-9  # of a bar, a piece, a price: as good as nought
PIVOT = 1e-6  # the least that is divided by
SAME = 1e-7  # how near the two sums for what is divided by have to come
STUCK, LOST = -1, -2  # there is no way on; the inverse is no longer to be trusted


class Table(NamedTuple):
    """Columns, the rows' own first, and where the method stands: the steps change all but the columns.

    A row's own column takes away what the row makes too much. `inverse` belongs to the columns in `basis`,
    one a row; `where` says in which row a column is, or -1; `level` is how much each of them is used, `loss`
    what each column costs beyond what it holds.
    """

    starts: Whole
    rows: Whole
    values: Real
    inverse: Real
    basis: Whole
    where: Whole
    level: Real
    loss: Real


@compiled
def brought(table: Table, column: int) -> Real:
    """What a use of the column takes away from each column in the basis."""
    inverse = table.inverse
    rows = len(inverse)
    out = np.zeros(rows)
    if column < rows:
        for i in range(rows):
            out[i] = -inverse[i, column]
        return out
    for at in range(table.starts[column - rows], table.starts[column - rows + 1]):
        row, value = table.rows[at], table.values[at]
        for i in range(rows):
            out[i] += value * inverse[i, row]
    return out


@compiled
def held(table: Table, worth: Real) -> Real:
    """What each column holds, if its rows are worth so much; a row's own takes from it."""
    rows = len(worth)
    out = np.empty(len(table.where))
    for i in range(rows):
        out[i] = -worth[i]
    at = 0
    for j in range(rows, len(out)):
        total = 0.0
        end = table.starts[j - rows + 1]
        while at < end:
            total += table.values[at] * worth[table.rows[at]]
            at += 1
        out[j] = total
    return out


@compiled
def times_inverse(left: Real, inverse: Real) -> Real:
    """The rows of the inverse, each so many times, added up."""
    out = np.zeros(len(left))
    for i in range(len(left)):
        if left[i] != 0.0:
            line = inverse[i]
            for c in range(len(out)):
                out[c] += left[i] * line[c]
    return out


@compiled
def inverse_times(inverse: Real, right: Real) -> Real:
    """What solves the rows for this right hand side."""
    out = np.zeros(len(right))
    for i in range(len(right)):
        total = 0.0
        for c in range(len(right)):
            total += inverse[i, c] * right[c]
        out[i] = total
    return out


@compiled
def turn(inverse: Real, row: int, way: Real) -> None:
    """The inverse, once the column that is brought that way has taken the row's place."""
    line = inverse[row] / way[row]
    for i in range(len(way)):
        share = way[i]
        if i != row and share != 0.0:
            other = inverse[i]
            for c in range(len(line)):
                other[c] -= share * line[c]
    inverse[row] = line


@compiled
def differ(one: float, other: float) -> bool:
    """Whether two sums for the same thing are too far apart."""
    return abs(one - other) > SAME * (1.0 + abs(one))


@compiled
def exchange(table: Table, row: int, column: int, way: Real, line: Real) -> None:
    """The column takes the row's place in the basis."""
    leaving = table.basis[row]
    ratio = table.loss[column] / line[column]
    for j in range(len(line)):
        if table.where[j] < 0 or j == leaving:
            table.loss[j] -= ratio * line[j]
    table.loss[column] = 0.0
    share = table.level[row] / way[row]
    for i in range(len(way)):
        table.level[i] -= share * way[i]
    table.level[row] = share
    turn(table.inverse, row, way)
    table.basis[row] = column
    table.where[leaving], table.where[column] = -1, row


@compiled
def dearest(loss: Real, where: Whole, weight: Real) -> int:
    """The column outside the basis that gains most for its weight, or -1."""
    best, at = 0.0, -1
    for j in range(len(loss)):
        if loss[j] < -TINY and where[j] < 0 and loss[j] * loss[j] > best * weight[j]:
            best, at = loss[j] * loss[j] / weight[j], j
    return at


@compiled
def first_used_up(level: Real, way: Real) -> int:
    """The row that comes to nought first on the way, the one with the largest share among almost equals."""
    most = np.inf
    for i in range(len(way)):
        if way[i] > PIVOT:
            most = min(most, (level[i] + TINY) / way[i])
    at, share = -1, 0.0
    for i in range(len(way)):
        if way[i] > PIVOT and way[i] > share and level[i] <= most * way[i]:
            at, share = i, way[i]
    return at


@compiled
def cheapen(table: Table, limit: int) -> int:
    """How many steps down to the least cost, from where enough is made; at the limit it may not be there."""
    weight = np.ones(len(table.loss))
    for step in range(limit):
        column = dearest(table.loss, table.where, weight)
        if column < 0:
            return step
        way = brought(table, column)
        row = first_used_up(table.level, way)
        if row < 0:
            return STUCK
        line = held(table, table.inverse[row])
        if differ(way[row], line[column]):
            return LOST
        heavy, leaving = weight[column], table.basis[row]
        for j in range(len(line)):
            share = line[j] / line[column]
            weight[j] = max(weight[j], share * share * heavy)
        weight[leaving] = max(heavy / (line[column] * line[column]), 1.0)
        exchange(table, row, column, way, line)
    return limit


@compiled
def shortest(level: Real, weight: Real) -> int:
    """The row that falls short most for its weight, or -1."""
    best, at = 0.0, -1
    for i in range(len(level)):
        if level[i] < -TINY and level[i] * level[i] > best * weight[i]:
            best, at = level[i] * level[i] / weight[i], i
    return at


@compiled
def least_loss(loss: Real, where: Whole, line: Real) -> int:
    """The column that makes good for the least loss, the one with the largest share among almost equals."""
    most = np.inf
    for j in range(len(line)):
        if where[j] < 0 and line[j] < -PIVOT:
            most = min(most, (loss[j] + TINY) / -line[j])
    at, share = -1, 0.0
    for j in range(len(line)):
        if where[j] < 0 and line[j] < -PIVOT and -line[j] > share and loss[j] <= most * -line[j]:
            at, share = j, -line[j]
    return at


@compiled
def make_good(table: Table, limit: int) -> int:
    """How many steps until enough is made, from where no column gains; at the limit it may not be."""
    weight = np.ones(len(table.level))
    for step in range(limit):
        row = shortest(table.level, weight)
        if row < 0:
            return step
        line = held(table, table.inverse[row])
        column = least_loss(table.loss, table.where, line)
        if column < 0:
            return STUCK
        way = brought(table, column)
        if differ(way[row], line[column]):
            return LOST
        heavy = weight[row]
        for i in range(len(way)):
            share = way[i] / way[row]
            weight[i] = max(weight[i], share * share * heavy)
        weight[row] = max(heavy / (way[row] * way[row]), 1.0)
        exchange(table, row, column, way, line)
    return limit


@compiled
def clear(table: Table) -> None:
    """The inverse where only rows' own columns are in the basis, those that were in it before."""
    rows = len(table.inverse)
    table.inverse[:] = 0.0
    table.where[:] = -1
    own = table.basis[table.basis < rows]
    table.basis[:] = -1
    for i in range(rows):
        table.inverse[i, i] = -1.0
    for column in own:
        table.basis[column], table.where[column] = column, column


@compiled
def freest(basis: Whole, way: Real) -> int:
    """The row with no column yet that has the largest share of the way, or -1."""
    at, share = -1, PIVOT
    for i in range(len(way)):
        if basis[i] < 0 and abs(way[i]) > share:
            at, share = i, abs(way[i])
    return at


@compiled
def invert(table: Table) -> None:
    """The inverse anew, from the rows' own columns; one that does not fit in stays out of the basis."""
    rows = len(table.inverse)
    bars = table.basis[table.basis >= rows]
    clear(table)
    for column in bars:
        way = brought(table, column)
        row = freest(table.basis, way)
        if row >= 0:
            turn(table.inverse, row, way)
            table.basis[row], table.where[column] = column, row
    for i in range(rows):
        if table.basis[i] < 0:
            table.basis[i], table.where[i] = i, i
