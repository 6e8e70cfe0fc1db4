"""Tiny racks, held against a reckoning that tries everything and shares no code with the choosers."""

import os

from pinchrod.timber import Effort, Question, break_out, flaws
from pinchrod.timber.search import search
from tests.timber.tiny import a_tiny_question, cheapest

A_LITTLE = Effort(passes=2, tries=1)
TINY_RACKS = 2000 if os.environ.get("PINCHROD_DEPTH") == "deep" else 300


def test_tiny_racks_are_cut_as_cheaply_as_can_be():
    questions = [a_tiny_question(seed) for seed in range(TINY_RACKS)]

    answers = [break_out(question) for question in questions]

    for question, answer in zip(questions, answers, strict=True):
        assert list(flaws(question, answer)) == []
        assert cheapest(question) == (None if answer.short else answer.cost)
        assert answer.short or answer.bound == answer.cost


def test_the_bound_of_the_search_is_never_above_the_cheapest_way():
    questions = [a_tiny_question(seed) for seed in range(5000, 5000 + TINY_RACKS // 5)]

    answers = [search(question, A_LITTLE) for question in questions]

    for question, answer in zip(questions, answers, strict=True):
        least = cheapest(question)
        assert list(flaws(question, answer)) == []
        assert answer.short or least is None or answer.bound <= least <= answer.cost


def test_nothing_wanted_takes_no_board():
    question = a_tiny_question(1)

    answer = break_out(Question(wanted=(), boards=question.boards))

    assert (answer.sticks, answer.short, answer.cost, answer.bound) == ((), (), 0, 0)
