"""How many tries a search has is known before it begins, so that a page can say how far it is."""

from threading import Lock

from pinchrod.timber import Effort, break_out, tries_in
from tests.timber.racks import a_question


def test_a_search_asks_before_each_of_the_tries_that_were_promised():
    question, effort, turn, asked = a_question(9, 8, 3), Effort(passes=1, tries=2), Lock(), []

    def goes_on():
        with turn:
            asked.append(1)
        return True

    break_out(question, effort, goes_on)

    assert len(asked) == tries_in(question, effort) == 2 * 2 * 80


def test_where_every_way_is_tried_there_is_no_search():
    assert tries_in(a_question(4, 4, 1)) == 0
