"""How many tries a search has is known before it begins, so that a page can say how far it is."""

from threading import Lock

import pytest

from pinchrod.ground import Mm
from pinchrod.timber import Effort, break_out, tries_in
from tests.timber.racks import a_question


@pytest.mark.parametrize(("members", "boards", "seed", "searches"), [(9, 8, 3, 1), (9, 8, 5, 2)])
def test_a_small_job_is_searched_once_more_where_the_plan_is_far_from_the_bound(
    members, boards, seed, searches
):
    question, effort, turn, asked = a_question(members, boards, seed), Effort(passes=1, tries=2), Lock(), []

    def goes_on():
        with turn:
            asked.append(1)
        return True

    found = break_out(question, effort, goes_on)

    assert (found.cost > found.bound * Mm(106) / 100) == (searches == 2)
    assert len(asked) == searches * 2 * 2 * 80
    assert tries_in(question, effort) == 2 * 2 * 2 * 80


def test_where_every_way_is_tried_there_is_no_search():
    assert tries_in(a_question(4, 4, 1)) == 0
