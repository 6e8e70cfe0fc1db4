"""The dearest rack that may be said: the compiled sums are whole numbers of 64 bits, and must not run over."""

from dataclasses import replace

import numpy as np
import pytest

from pinchrod.ground import Mm
from pinchrod.timber import Effort, break_out, flaws
from pinchrod.timber.bound import SHORT, _by_area, _scale
from pinchrod.timber.measured import measure
from tests.timber.racks import a_question

DEAREST = Mm(1_000_000)  # a board, as all of these: docs/limits.md
MOST_MEMBERS, MOST_BOARDS = 40_000, 2_000
ROOM = 2**60  # what the sums take for "cannot be"; values are raised fourfold at most on the way


def dearest(members: int = 12, boards: int = 8):
    question = a_question(members, boards, 901)
    return replace(question, boards=tuple(replace(board, price=DEAREST) for board in question.boards))


def test_boards_at_the_highest_price_are_cut_as_soundly_as_cheap_ones():
    question = dearest()

    answer = break_out(question, Effort(passes=2, tries=3))

    assert list(flaws(question, answer)) == []
    assert answer.short == ()
    assert answer.cost % DEAREST == 0
    assert 0 < answer.bound <= answer.cost


@pytest.mark.parametrize("tiny", [False, True])
def test_sums_of_all_there_may_be_stay_within_their_room(tiny):
    question = dearest()
    if tiny:  # boards so small that a square millimetre costs what nobody has
        small = {"width": Mm(20), "length": Mm(100), "faults": ()}
        large = {"width": Mm(300), "length": Mm(6000)}
        question = replace(
            question,
            boards=tuple(replace(board, **small) for board in question.boards),
            wanted=tuple(replace(one, **large) for one in question.wanted),
        )
    rack = measure(question)
    demand = np.full(len(rack.types), MOST_MEMBERS // len(rack.types))

    scale = _scale(rack, demand)

    everything = SHORT * float(_by_area(rack).max()) * MOST_MEMBERS + MOST_BOARDS * float(DEAREST)
    assert scale >= 1
    assert 4 * scale * everything < ROOM
