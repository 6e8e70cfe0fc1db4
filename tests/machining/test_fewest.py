"""Stop settings: as few as can be, each stroke at one that reaches it, and a proof that holds."""

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm
from pinchrod.machining import Hand, StopQuestion, Stops, by_eye, fewest_settings, flaws_of_stops
from tests.machining.every_way import fewest_by_trying
from tests.machining.wood import DEEP, a_question, a_small_question, a_stroke


def settings(answer: Stops) -> list[tuple[str, float, list[str]]]:
    return [
        (str(setting.hand), float(setting.distance), [stroke.piece for stroke in setting.strokes])
        for setting in answer.settings
    ]


def test_small_cases_have_as_few_settings_as_trying_everything_finds():
    questions = [a_small_question(seed) for seed in range(2000 if DEEP else 300)]

    answers = [fewest_settings(question) for question in questions]

    for question, answer in zip(questions, answers, strict=True):
        assert list(flaws_of_stops(question, answer)) == []
        assert len(answer.settings) == answer.fewest == fewest_by_trying(question)


def test_small_cases_leave_something_to_choose():
    """The trials above would prove little if picking by eye were always as good, or reach never mattered."""
    questions = [a_small_question(seed) for seed in range(300)]

    answers = [fewest_settings(question) for question in questions]

    worse = [len(by_eye(q).settings) > a.fewest for q, a in zip(questions, answers, strict=True)]
    assert sum(worse) >= 3
    assert sum(bool(answer.unreached) for answer in answers) >= 10


def test_by_eye_misses_nothing_and_is_never_better():
    for seed in range(100):
        question = a_small_question(seed)
        eye = by_eye(question)
        made = sum(len(setting.strokes) for setting in eye.settings)

        assert made + len(eye.unreached) == len(question.strokes)
        assert len(eye.settings) >= fewest_settings(question).fewest


@st.composite
def questions(draw: st.DrawFn) -> StopQuestion:
    length = draw(st.sampled_from([300, 720, 2000]))
    places = st.integers(0, length * 3).map(lambda third: Mm(third, 3))
    sides = st.sampled_from(["left", "right", "upper", "lower"])
    cut = draw(st.lists(st.tuples(places, sides), max_size=24))
    strokes = (a_stroke(at, length, side, f"K{n}-M1") for n, (at, side) in enumerate(cut))
    return a_question(*strokes, step=draw(st.sampled_from([0, Mm("0.1"), 1])))


@given(questions())
def test_whatever_is_asked_the_judge_finds_no_flaw(question):
    answer = fewest_settings(question)

    assert list(flaws_of_stops(question, answer)) == []


@given(questions(), st.randoms(use_true_random=False))
def test_the_same_strokes_in_another_order_take_the_same_settings(question, dice):
    shuffled = list(question.strokes)
    dice.shuffle(shuffled)

    one, other = fewest_settings(question), fewest_settings(replace(question, strokes=tuple(shuffled)))

    def places(answer: Stops) -> list[tuple[Hand, Mm]]:
        return [(setting.hand, setting.distance) for setting in answer.settings]

    assert places(one) == places(other)


def test_pieces_alike_take_one_setting_whichever_end_meets_the_stop():
    """A right stile turned end for end meets the other stop; the left stile's own stop serves it as well."""
    answer = fewest_settings(
        a_question(a_stroke(500, edge="right", piece="K1-LS"), a_stroke(500, edge="left", piece="K1-RS"))
    )

    assert answer.fewest == 2  # left 220 or right 500; left 500 or right 220: nothing shared
    assert settings(answer) == [("left", 220, ["K1-LS"]), ("left", 500, ["K1-RS"])]


def test_notches_as_far_from_one_end_as_another_s_from_the_other_share_a_setting():
    answer = fewest_settings(
        a_question(
            a_stroke(100, 720, "left", "K1-M1"),
            a_stroke(100, 900, "left", "K2-M1"),
            a_stroke(1100, 1200, "right", "K3-M1"),
        )
    )

    assert settings(answer) == [("left", 100, ["K1-M1", "K2-M1", "K3-M1"])]


def test_settings_run_outwards_on_the_left_and_then_on_the_right():
    strokes = [a_stroke(at, 1000, "left", f"K{at}-M1") for at in (700, 100, 400)]

    answer = fewest_settings(a_question(*strokes, reach_left=500, reach_right=500))

    assert settings(answer) == [
        ("left", 100, ["K100-M1"]),
        ("left", 400, ["K400-M1"]),
        ("right", 300, ["K700-M1"]),
    ]


def test_a_short_reach_forces_the_other_stop():
    answer = fewest_settings(a_question(a_stroke(900, 1200, "left"), reach_left=800))

    assert settings(answer) == [("right", 300, ["K1-LS"])]


def test_what_neither_stop_reaches_is_named_and_not_planned_around():
    far = a_stroke(1600, 3300, piece="K9-LS")
    question = a_question(far, a_stroke(100, 3300, piece="K9-LS"))

    answer = fewest_settings(question)

    assert answer.unreached == (far,)
    assert list(flaws_of_stops(question, answer)) == []


def test_a_stop_cannot_stand_on_the_other_side_of_the_knife():
    """The one stroke of a very narrow notch that runs out has its middle beyond the piece's end."""
    answer = fewest_settings(a_question(a_stroke(724, 720, "left")))

    assert settings(answer) == [("left", 724, ["K1-LS"])]


def test_thirds_are_settings_of_their_own_unless_the_shop_takes_what_shows_alike_for_one():
    third = a_stroke(Mm(301, 3), 800, piece="K1-M1")  # 100 1/3
    near = a_stroke("100.3", 900, piece="K2-M1")

    exact = fewest_settings(a_question(third, near))
    as_shown = fewest_settings(a_question(third, near, step="0.1"))

    assert exact.fewest == 2
    assert settings(as_shown) == [("left", 100.3, ["K1-M1", "K2-M1"])]


def test_a_piece_with_strokes_on_both_sides_of_the_tie_goes_where_most_go():
    shared = a_stroke(100, 400, piece="K1-M1")  # left 100, right 300
    lefts = [a_stroke(100, 500, piece=f"L{n}-M1") for n in range(3)]
    rights = [a_stroke(200 + n, 500 + n, piece=f"R{n}-M1") for n in range(5)]

    answer = fewest_settings(a_question(shared, *lefts, *rights, reach_left=150))

    assert [(str(each.hand), len(each.strokes)) for each in answer.settings] == [("left", 3), ("right", 6)]


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda a: replace(a, settings=a.settings[1:]), "made 0 times"),
        (lambda a: replace(a, settings=a.settings[::-1]), "one way only"),
        (lambda a: replace(a, settings=(*a.settings, a.settings[0])), "made 2 times"),
        (lambda a: replace(a, proof=a.proof[1:]), "the proof is of"),
        (lambda a: replace(a, proof=(a.proof[0],) * len(a.proof)), "one setting"),
        (lambda a: replace(a, unreached=a.settings[0].strokes[:1]), "it is not"),
        (
            lambda a: replace(a, settings=(replace(a.settings[0], distance=Mm(7)), *a.settings[1:])),
            "cuts",
        ),
        (
            lambda a: replace(a, settings=(replace(a.settings[0], strokes=()), *a.settings[1:])),
            "serves nothing",
        ),
        (lambda a: replace(a, proof=(a_stroke(11), *a.proof[1:])), "not asked for"),
    ],
)
def test_the_judge_sees_a_spoiled_answer(spoil, said):
    question = a_question(*(a_stroke(at, 720 + 2 * at, piece=f"K{at}-M1") for at in (100, 150, 330)))
    answer = fewest_settings(question)

    assert said in " ".join(flaws_of_stops(question, spoil(answer)))


def test_the_judge_sees_a_setting_beyond_reach():
    question = a_question(a_stroke(600, 1100))

    found = flaws_of_stops(replace(question, reach_left=Mm(550)), fewest_settings(question))

    assert "beyond its reach" in " ".join(found)


def test_a_long_chain_of_shared_settings_is_solved_without_running_out_of_room():
    """Each piece shares its left-hand setting with the one before and its right-hand one with the next."""
    strokes, left = [], Mm(100)
    for number in range(4000):
        right = 200 + Mm(number // 2) / 10
        left = 100 + Mm((number + 1) // 2) / 10
        strokes.append(a_stroke(left, left + right, piece=f"K{number}-M1"))
    random.Random(3).shuffle(strokes)
    question = a_question(*strokes)

    answer = fewest_settings(question)

    assert list(flaws_of_stops(question, answer)) == []
    assert answer.fewest == 2000
