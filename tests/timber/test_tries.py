"""How many tries a search has is known before it begins, so that a page can say how far it is."""

from dataclasses import replace
from threading import Lock

import pytest

from pinchrod.ground import Mm
from pinchrod.timber import Breakout, Effort, Question, break_out, tries_in
from tests.timber.racks import a_question

LITTLE = Effort(passes=1, tries=2)
OF_ONE_SEARCH = 2 * 2 * 80


def counted(question: Question) -> tuple[Breakout, int]:
    """What a search finds, and how often it asked whether it goes on."""
    turn, asked = Lock(), []

    def goes_on() -> bool:
        with turn:
            asked.append(1)
        return True

    return break_out(question, LITTLE, goes_on), len(asked)


@pytest.mark.parametrize(("members", "boards", "seed", "searches"), [(9, 8, 3, 1), (9, 8, 5, 2)])
def test_a_small_job_is_searched_once_more_where_the_plan_is_far_from_the_bound(
    members, boards, seed, searches
):
    question = a_question(members, boards, seed)

    found, asked = counted(question)

    assert (found.cost > found.bound * Mm(106) / 100) == (searches == 2)
    assert asked == searches * OF_ONE_SEARCH
    assert tries_in(question, LITTLE) == 2 * OF_ONE_SEARCH


def test_a_member_that_no_board_has_room_for_is_no_reason_to_search_once_more():
    question = a_question(9, 8, 3)
    far_too_long = replace(question.wanted[0], marks=("X1",), length=Mm(9_000))

    found, asked = counted(replace(question, wanted=(*question.wanted, far_too_long)))

    assert found.short == ("X1",)
    assert asked == OF_ONE_SEARCH


def test_where_every_way_is_tried_there_is_no_search():
    assert tries_in(a_question(4, 4, 1)) == 0
