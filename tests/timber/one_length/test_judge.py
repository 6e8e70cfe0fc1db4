"""The judge of a cutting finds what is wrong with it."""

from dataclasses import replace

from pinchrod.ground import Mm
from pinchrod.timber.one_length import Answer, Pattern, Proof, Question, Share, Stock, cut, flaws
from tests.timber.one_length.makers import a_question, threes

QUESTION = a_question([300, 300, 400, 700], 1000, kerf=0)
ANSWER = cut(QUESTION)


def only_flaw(answer: Answer, question: Question = QUESTION) -> str:
    [flaw] = flaws(question, answer)
    return flaw


def test_a_right_answer_has_no_flaw():
    assert list(flaws(QUESTION, ANSWER)) == []


def test_a_bar_left_out_is_missed_piece_by_piece():
    answer = replace(ANSWER, patterns=ANSWER.patterns[1:], cost=Mm(1), bound=Mm(1), proof=Proof.NONE)

    said = list(flaws(QUESTION, answer))

    assert all("is made or named missing" in flaw for flaw in said)
    assert said


def test_more_on_a_bar_than_its_length_is_seen():
    shares = tuple(Share(mark=p.mark, count=p.wanted) for p in QUESTION.pieces)
    answer = replace(
        ANSWER, patterns=(Pattern(stock="bar", shares=shares, times=1),), cost=Mm(1), bound=Mm(1)
    )
    answer = replace(answer, proof=Proof.NONE)

    assert "1700 is cut from a bar" in only_flaw(answer)


def test_the_kerf_counts_on_a_bar():
    wide = replace(QUESTION, kerf=Mm(1))

    assert any("is cut from a bar" in flaw for flaw in flaws(wide, ANSWER))


def test_a_cost_told_wrongly_is_seen():
    assert "the bars cost 2, not 3" in only_flaw(replace(ANSWER, cost=Mm(3), proof=Proof.NONE))


def test_more_bars_than_there_are_is_seen():
    few = replace(QUESTION, stocks=(replace(QUESTION.stocks[0], supply=1),))

    assert "2 bars of bar are cut, and there are 1" in only_flaw(replace(ANSWER, proof=Proof.NONE), few)


def test_worths_with_which_a_bar_gains_prove_nothing():
    raised = replace(ANSWER.certificate, worths=tuple(2 * w for w in ANSWER.certificate.worths))

    assert any(
        "can hold more than it costs" in flaw for flaw in flaws(QUESTION, replace(ANSWER, certificate=raised))
    )


def test_worths_too_low_for_the_bound_are_seen():
    lowered = replace(ANSWER.certificate, worths=tuple(w // 3 for w in ANSWER.certificate.worths))

    assert "the worths prove 1, not 2" in only_flaw(replace(ANSWER, certificate=lowered))


def test_a_stock_without_limit_cannot_be_scarce():
    scarce = replace(ANSWER.certificate, scarcity=(1,))

    assert any("cannot be scarce" in flaw for flaw in flaws(QUESTION, replace(ANSWER, certificate=scarce)))


def test_a_plan_called_proven_over_its_bound_is_seen():
    said = list(flaws(QUESTION, replace(ANSWER, bound=Mm(1), proof=Proof.SEARCH)))

    assert said == ["called proven, and the bound 1 is under the cost 2"]


def test_an_unknown_stock_is_seen():
    other = replace(QUESTION, stocks=(Stock(mark="other", length=Mm(1000), price=Mm(1)),))

    assert "there is no stock bar" in list(flaws(other, ANSWER))


def test_the_worths_of_bars_without_waste_are_added_up_again():
    question = threes(4)

    answer = cut(question)

    assert answer.proof is Proof.WORTHS
    assert list(flaws(question, answer)) == []
