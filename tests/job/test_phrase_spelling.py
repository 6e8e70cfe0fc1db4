"""Layouts said again as phrases, and what is no layout."""

import pytest

from pinchrod.ground import INCH, Mm
from pinchrod.job import read_phrase, spell_phrase
from pinchrod.job.phrases.grammar import read_chain
from pinchrod.job.phrases.meaning import layout_of
from pinchrod.job.phrases.words import words_of
from tests.job.phrase_builders import IN_A_FILE, drawer, opening, panel, stack

SAID_AGAIN = {
    "Door": "door",
    "1 door left 500": "door 500 left",
    "drawer 5 1/2 in over doors": "drawer 139.7 mm over door",
    "door beside door beside pair": "2 doors beside pair",
    "door left beside door left beside door": "2 doors left beside door",
    "door beside [80] door beside door": "door beside[80] 2 doors",
    "drawer 140 over drawer 140 over drawer 150": "2 drawers 140 over drawer 150",
    "3 drawers 140": "3 drawers 140",
    "3 drawers 300 beside door": "(3 drawers) 300 beside door",
    "2 doors over drawer": "(2 doors) over drawer",
    "3 panels over door": "panel over 2 panels over door",
    "door beside 3 open": "door beside 3 openings",
    "panel beside panel beside panel": "panel beside 2 panels",
    "door over door": "door over door",
    "(drawer over drawer) over (drawer over drawer)": "(2 drawers) over (2 drawers)",
    "((drawer over door) 300)": "(drawer over door) 300",
}


@pytest.mark.parametrize("phrase", SAID_AGAIN)
def test_a_layout_is_said_again_in_few_words(phrase):
    layout, _ = read_phrase(phrase, IN_A_FILE)

    assert layout
    assert spell_phrase(layout) == SAID_AGAIN[phrase]


def test_a_size_is_bare_in_whole_millimetres_and_else_has_its_unit():
    layout = stack(drawer(140), drawer(INCH), opening(Mm(500) / 3), panel(), rails=["0.5", 80, INCH / 64])

    phrase = spell_phrase(layout)

    assert phrase == (
        "drawer 140 over[0.5 mm] drawer 25.4 mm over[80] open 166 2/3 mm over[0.396875 mm] panel"
    )


def test_a_phrase_with_a_fault_has_no_layout_and_to_ask_for_one_is_our_own_mistake():
    said, _ = read_chain(words_of("door over"))

    with pytest.raises(ValueError, match=r"^a phrase with a fault in it has no layout$"):
        layout_of(said)
