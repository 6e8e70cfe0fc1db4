"""The choosers on racks like a workshop's: nothing impossible, near the bound, the same each time."""

from dataclasses import replace

import pytest

from pinchrod.ground import Mm
from pinchrod.timber import Effort, break_out, by_eye, flaws
from tests.timber.racks import a_question

SHORTLY = Effort(passes=8, tries=60)


@pytest.mark.parametrize("chooser", [by_eye, lambda question: break_out(question, SHORTLY)])
@pytest.mark.parametrize(("members", "boards", "seed"), [(12, 8, 901), (40, 30, 902), (90, 50, 903)])
def test_no_plan_does_what_wood_and_shop_forbid(chooser, members, boards, seed):
    question = a_question(members, boards, seed)

    answer = chooser(question)

    assert list(flaws(question, answer)) == []
    assert answer.short == ()


def test_a_search_is_cheaper_than_a_plan_by_eye_and_near_its_bound():
    question = a_question(120, 80, 904)

    answer = break_out(question, SHORTLY)

    assert answer.cost < by_eye(question).cost
    assert answer.bound <= answer.cost <= answer.bound * Mm("1.1")


def test_the_same_question_has_the_same_answer():
    question = a_question(60, 40, 905)

    assert break_out(question, SHORTLY) == break_out(question, SHORTLY)


def test_where_the_rack_is_short_the_members_without_wood_are_named():
    question = a_question(120, 3, 906)

    answer = break_out(question, SHORTLY)

    assert answer.short
    assert list(flaws(question, answer)) == []


def test_a_member_longer_than_every_board_is_named_short_and_the_rest_are_cut():
    question = a_question(30, 20, 907)
    long = replace(question.wanted[0], length=Mm(5200), marks=("LONG",))

    answer = break_out(replace(question, wanted=(*question.wanted, long)), SHORTLY)

    assert answer.short == ("LONG",)
    assert list(flaws(replace(question, wanted=(*question.wanted, long)), answer)) == []


def test_a_rack_too_thin_for_the_job_leaves_all_members_short():
    question = a_question(20, 10, 908)
    thin = tuple(replace(board, thickness=Mm(22)) for board in question.boards)

    answer = break_out(replace(question, boards=thin), SHORTLY)

    assert len(answer.short) == 20
    assert answer.sticks == ()
