"""The colours of the pages, told apart by eye: reckoned from the style sheet as WCAG 2.2 reckons contrast."""

import re
from itertools import product

import pytest

from pinchrod.web.templates import STATIC

STYLE = (STATIC / "style.css").read_text(encoding="utf-8")
SETS = re.findall(r"\{\s*(--paper:.*?)\n\s*(?:--step|color-scheme)", STYLE, re.DOTALL)
GROUNDS = ("--paper", "--sheet")
STATES = ("--good", "--doubt", "--stop")


def colours(words: str) -> dict[str, str]:
    return dict(re.findall(r"(--[a-z-]+): (#[0-9a-f]{6})", words))


def light_of(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definitions)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, bright = sorted((light_of(one), light_of(other)))
    return (bright + 0.05) / (dark + 0.05)


def weaker(words: str, wanted: float, *pairs: tuple[str, str]) -> list[str]:
    """The pairs that are told apart less than is wanted."""
    said = colours(words)
    seen = [(one, other, contrast(said[one], said[other])) for one, other in pairs]
    return [f"{one} on {other}: {told:.2f}" for one, other, told in seen if told < wanted]


def test_contrast_is_reckoned_as_the_standard_says():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # a published example


def test_light_dark_and_dark_by_the_device_are_all_looked_at():
    light, by_device, dark = SETS

    assert colours(by_device) == colours(dark) != colours(light)


@pytest.mark.parametrize("words", SETS)
def test_words_and_states_are_told_apart_from_what_they_stand_on(words):
    assert weaker(words, 7, *product(("--ink", "--soft"), GROUNDS)) == []
    assert weaker(words, 7, *((state, f"{state}-tint") for state in STATES), ("--link", "--now-tint")) == []
    assert weaker(words, 4.5, *product(("--link", *STATES), GROUNDS), ("--on-press", "--press")) == []


@pytest.mark.parametrize("words", SETS)
def test_borders_of_fields_lines_and_the_ring_of_the_focus_are_told_apart(words):
    assert weaker(words, 3, *product(("--line", "--ring", "--press"), GROUNDS)) == []


def test_no_field_has_the_pale_line_that_only_parts_rows():
    fields = re.findall(r"^[^{}\n]*\b(?:input|select|textarea|button)\b[^{}]*\{[^}]*\}", STYLE, re.MULTILINE)

    assert len(fields) > 10
    assert [rule for rule in fields if "--hair" in rule] == []
