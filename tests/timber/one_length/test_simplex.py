"""The least cost in parts of bars: our own simplex method against HiGHS."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.timber.one_length import cut, flaws
from pinchrod.timber.one_length.exchanges import exchanges
from pinchrod.timber.one_length.programme import Programme
from pinchrod.timber.one_length.simplex import Simplex
from tests.timber.one_length.makers import threes


def take(solver, table, cost):
    """The solver takes these columns in."""
    starts = np.append(0, np.cumsum((table != 0).sum(axis=0)))[:-1]
    values, rows = table.T[table.T != 0], np.nonzero(table.T)[1]
    solver.add(starts, rows, values.astype(float), np.asarray(cost, float))


def settle(solver, table, low):
    """What each column is used and each row is worth, once they are seen to be the best."""
    assert solver.solve()
    times, worth = solver.times(), solver.worth()
    assert (table @ times >= np.array(low) - 1e-5).all()
    assert (worth >= -1e-6).all()
    return times, worth


def test_three_pieces_out_of_bars_of_two_take_a_bar_and_a_half():
    solver, table = Simplex(np.array([3.0])), np.array([[2]])
    take(solver, table, [1.0])

    times, worth = settle(solver, table, [3])

    assert times == pytest.approx([1.5])
    assert worth == pytest.approx([0.5])


def test_where_our_own_method_loses_its_way_highs_goes_on_and_the_bars_are_as_few(monkeypatch):
    question = threes(seed=3)
    usual = cut(question)
    monkeypatch.setattr(Simplex, "_solve", lambda _self: False)

    lost = cut(question)

    assert lost.cost == usual.cost
    assert not list(flaws(question, lost))


def test_what_is_lost_is_begun_again_from_the_beginning():
    solver, table = Simplex(np.array([3.0])), np.array([[2]])
    take(solver, table, [1.0])
    solver._inverse[:] = np.nan  # no way on from here

    times, _ = settle(solver, table, [3])

    assert times == pytest.approx([1.5])


def test_a_programme_that_no_column_can_meet_is_not_called_solved():
    solver = Simplex(np.array([3.0]))
    take(solver, np.array([[-1]]), [1.0])

    assert not solver.solve()


def test_a_column_for_which_another_cost_is_asked_is_no_longer_used():
    solver, table = Simplex(np.array([3.0])), np.array([[1, 1]])
    take(solver, table, [0.0, 1.0])
    settle(solver, table, [3])

    solver.charge(1, 4.0)
    times, worth = settle(solver, table, [3])

    assert times == pytest.approx([0.0, 3.0])
    assert worth == pytest.approx([1.0])


@st.composite
def programmes(draw):
    """Bars of one piece each, then others that come in two lots, and two wants one after the other."""
    rows, bars = draw(st.integers(1, 8)), draw(st.integers(1, 20))
    entry = st.sampled_from((0, 0, 0, 1, 1, 2, 3))
    more = [[draw(entry) for _ in range(bars)] for _ in range(rows)]
    cost = [*([1.0] * rows), *(draw(st.integers(1, 6)) / 4 for _ in range(bars))]
    wants = [[draw(st.integers(0, 30)) for _ in range(rows)] for _ in range(2)]
    return np.hstack((np.eye(rows, dtype=int), more)), cost, np.array(wants, float)


@settings(max_examples=150, deadline=None)
@given(programmes())
def test_both_ways_of_solving_find_the_same_cost_and_the_worths_add_up_to_it(programme):
    table, cost, wants = programme
    first = len(table) + 1
    for solver in (Simplex(wants[0]), Programme(wants[0])):
        take(solver, table[:, :first], cost[:first])
        settle(solver, table[:, :first], wants[0])
        take(solver, table[:, first:], cost[first:]) if len(cost) > first else None
        times, worth = settle(solver, table, wants[0])
        solver.want(wants[1])
        again, worth_again = settle(solver, table, wants[1])

        # What each row is worth holds no column for more than it costs, so nothing can be cheaper.
        assert (worth_again @ table <= np.array(cost) + 1e-6).all()
        assert times @ cost == pytest.approx(worth @ wants[0], abs=1e-4)
        assert again @ cost == pytest.approx(worth_again @ wants[1], abs=1e-4)


def test_a_long_piece_stands_for_the_next_shorter_and_for_two_that_fit_in_its_length():
    size = np.array([90, 60, 50, 40, 30, 7])

    known = exchanges(size)

    assert (0, 1) in known
    assert (0, 2, 3) in known
    assert all(size[one[0]] >= size[list(one[1:])].sum() for one in known)
