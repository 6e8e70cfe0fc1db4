"""The choosers on racks like a workshop's: nothing impossible, near the bound, the same each time."""

from dataclasses import replace
from functools import partial

import pytest

from pinchrod.ground import Mm
from pinchrod.timber import Effort, break_out, by_eye, flaws
from tests.timber.racks import a_faulty_rack, a_narrow_rack, a_question, just_enough

SHORTLY = Effort(passes=2, tries=3)


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


def test_where_not_all_find_wood_as_many_are_cut_as_by_eye_or_more():
    questions = [a_question(60, 5, seed) for seed in (911, 912, 913)]

    answers = [break_out(question, SHORTLY) for question in questions]

    for question, answer in zip(questions, answers, strict=True):
        assert len(answer.short) <= len(by_eye(question).short)
        assert list(flaws(question, answer)) == []
        assert answer.bound <= answer.cost


def test_members_of_two_thicknesses_come_out_of_boards_thick_enough():
    question = a_question(40, 40, 914)
    thin = tuple(
        replace(one, thickness=Mm(18)) if number % 2 else one for number, one in enumerate(question.wanted)
    )

    answer = break_out(replace(question, wanted=thin), SHORTLY)

    assert answer.short == ()
    assert list(flaws(replace(question, wanted=thin), answer)) == []


def test_a_search_of_more_tries_is_never_dearer_than_by_eye():
    question = a_question(30, 25, 915)

    costs = [break_out(question, Effort(passes=1, tries=tries)).cost for tries in (0, 1, 6)]

    assert max(costs) <= by_eye(question).cost


def test_a_rack_too_thin_for_the_job_leaves_all_members_short():
    question = a_question(20, 10, 908)
    thin = tuple(replace(board, thickness=Mm(22)) for board in question.boards)

    answer = break_out(replace(question, boards=thin), SHORTLY)

    assert len(answer.short) == 20
    assert answer.sticks == ()


@pytest.mark.parametrize("rack", [a_narrow_rack, a_faulty_rack, partial(just_enough, effort=SHORTLY)])
def test_narrow_and_faulty_racks_and_such_as_hold_hardly_more_are_cut_soundly(rack):
    question = rack(30, 40, 916)

    answer = break_out(question, SHORTLY)

    assert list(flaws(question, answer)) == []
    assert answer.short == ()
    assert answer.bound <= answer.cost
