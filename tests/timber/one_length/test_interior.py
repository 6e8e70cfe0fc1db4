"""Worths from the middle of all that are best."""

import numpy as np
import pytest

from pinchrod.timber.one_length.interior import Rows, middle_of


def a_programme(*bars, wanted):
    """Bars of price one, each a row of what it makes of each kind."""
    table = np.array(bars, float)
    return Rows(
        starts=np.append(0, np.cumsum((table > 0).sum(axis=1))),
        rows=np.nonzero(table)[1],
        values=table[table > 0],
        cost=np.ones(len(bars)),
        low=np.array(wanted, float),
    )


def test_three_pieces_out_of_bars_of_two_are_worth_half_a_bar_each():
    programme = a_programme([2], wanted=[3])

    assert middle_of(programme, np.array([0.1]), 1e-9) == pytest.approx([0.5], abs=1e-6)


def test_two_pieces_that_fill_a_bar_together_share_its_worth_though_any_share_is_best():
    programme = a_programme([1, 0], [0, 1], [1, 1], wanted=[1, 1])

    assert middle_of(programme, np.array([0.3, 0.3]), 1e-9) == pytest.approx([0.5, 0.5], abs=1e-6)


def test_worths_from_the_middle_hold_no_bar_for_more_than_it_costs_and_add_up_to_the_least_cost():
    programme = a_programme([3, 0, 0], [0, 2, 0], [0, 0, 1], [1, 1, 0], [1, 0, 1], wanted=[6, 5, 4])

    worth = middle_of(programme, np.array([0.2, 0.2, 0.2]), 1e-9)

    assert 3 * worth[0] <= 1 + 1e-6
    assert worth[0] + worth[2] <= 1 + 1e-6
    # Four bars of the last kind give four of the first as well; the other two take two thirds of a bar.
    assert worth @ [6, 5, 4] == pytest.approx(4 + 2 / 3 + 5 / 2, abs=1e-6)
