"""The nearer bound of small jobs: no board promises less than it gives, and boards are taken whole or not at all."""

import random

import numpy as np
import pytest

from pinchrod.timber.bound import prove
from pinchrod.timber.measured import measure
from pinchrod.timber.nearer import Looking
from pinchrod.timber.which_boards import nearest
from tests.timber.racks import a_question
from tests.timber.tiny import _cuttable, a_tiny_question, cheapest

SCALE = 1000


@pytest.mark.parametrize("seed", range(7000, 7060))
def test_no_board_promises_less_than_trying_everything_gets_out_of_it(seed):
    question, chance = a_tiny_question(seed), random.Random(seed)
    rack = measure(question)
    values = np.array([chance.randint(0, 900) for _ in rack.types])
    tolls = np.array([[chance.randint(0, value) // 3 for value in values] for _ in question.boards])
    worth_of = {mark: value for one, value in zip(rack.types, values, strict=True) for mark in one.marks}
    members = [worth_of[one.marks[0]] for one in question.wanted]
    looking, none = Looking(rack, rack.demand, SCALE), np.zeros(len(question.boards), np.int64)

    strictly, _ = looking.look(values, tolls, looking.every, none)
    freely, _ = looking.look(values, tolls, looking.every, None)

    for board, most, loosely in zip(question.boards, strictly, freely, strict=True):
        gives = max(
            sum(worth for at, worth in enumerate(members) if some >> at & 1)
            for some in _cuttable(question, board)
        )
        assert gives <= most <= loosely


@pytest.mark.parametrize("seed", range(7100, 7160))
def test_the_nearest_bound_is_not_below_the_first_nor_above_the_cheapest_way(seed):
    question = a_tiny_question(seed)
    rack, least = measure(question), cheapest(question)
    if least is None:
        pytest.skip("there is not wood for all")

    first = prove(rack, rack.demand)

    assert first.cost <= nearest(rack, rack.demand, first).cost <= least


def test_for_a_job_of_a_few_boards_the_nearest_bound_is_clearly_nearer():
    rack = measure(a_question(40, 60, 902))

    first = prove(rack, rack.demand)

    assert nearest(rack, rack.demand, first).cost > first.cost * 108 / 100
