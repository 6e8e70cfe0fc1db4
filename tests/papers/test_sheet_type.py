"""Widths of words, and letters the fonts lack."""

from importlib.resources import as_file, files

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.papers import missing_letters, shorten_middle, shown, words_width
from pinchrod.papers.marks.type import CAPITAL


def read_otherwise(name: str) -> TTFont:
    with as_file(files("pinchrod.papers") / "fonts" / f"{name}.ttf") as path:
        return TTFont(path, lazy=False)


@pytest.mark.parametrize("name", ["DejaVuSans", "DejaVuSans-Bold"])
def test_a_capital_is_as_high_as_another_reader_of_the_font_says(name):
    outlines = read_otherwise(name)

    assert outlines["glyf"]["H"].yMax / outlines["head"].unitsPerEm == CAPITAL


@pytest.mark.parametrize(("name", "bold"), [("DejaVuSans", False), ("DejaVuSans-Bold", True)])
def test_words_are_as_wide_as_another_reader_of_the_font_says(name, bold):
    outlines = read_otherwise(name)
    names, advances = outlines.getBestCmap(), outlines["hmtx"].metrics
    text = "Étagère 23⅝ W"

    units = sum(advances[names[ord(letter)]][0] for letter in text)

    assert words_width(text, 3.5, bold=bold) == pytest.approx(units / 2048 * 3.5 / CAPITAL)


def test_all_figures_are_equally_wide():
    assert len({words_width(figure, 5) for figure in "0123456789"}) == 1


@pytest.mark.parametrize(
    ("text", "printed", "missing"),
    [
        ("K1-LS", "K1-LS", ""),
        ("e\u0301tage\u0300re", "étagère", ""),
        ("two\nlines\t", "two□lines□", "\n\t"),
        ("\u202egnorw\u200f", "□gnorw□", "\u202e\u200f"),
        ("漢 漢", "□ □", "漢"),
        ("\U0001f600", "□", "\U0001f600"),
        ("\ud800\x00", "□□", "\ud800\x00"),
    ],
)
def test_letters_that_cannot_be_printed_show_as_boxes(text, printed, missing):
    assert shown(text) == printed
    assert missing_letters(text) == missing


@given(st.text())
def test_what_is_shown_can_be_printed(text):
    assert missing_letters(shown(text)) == ""


def test_a_short_name_is_left_alone():
    assert shorten_middle("left stile", 3.5, 100) == "left stile"


@given(st.text(min_size=1), st.floats(5, 80))
def test_a_shortened_name_has_room(text, width):
    assert words_width(shorten_middle(text, 3.5, width), 3.5) <= width


def test_a_shortened_name_keeps_its_beginning_and_its_end():
    short = shorten_middle("stile of the pantry frame by the window, K17-LS", 3.5, 60)

    assert short.startswith("stile of")
    assert short.endswith("K17-LS")


def test_without_room_even_for_a_letter_a_name_is_an_ellipsis():
    assert shorten_middle("left stile", 3.5, 1) == "…"
