"""How much a phrase may hold, and that hostile ones are refused at once."""

from time import process_time

import pytest

from pinchrod.job import Group, read_phrase
from tests.job.phrase_builders import IN_A_FILE, door, faults, read, stack


def test_a_phrase_of_1000_letters_is_read_and_one_more_is_too_long():
    longest = "door over door".rjust(1000)

    assert read(longest) == stack(door(), door())
    assert faults(longest + " ") == [("long-phrase", 1)]


def test_a_frame_has_200_openings_and_not_one_more():
    layout = read("100 doors beside 100 pairs")

    assert isinstance(layout, Group)
    assert len(layout.parts) == 200
    assert faults("100 doors beside 100 pairs beside 2 panels beside door") == [("too-many-openings", 35)]


@pytest.mark.parametrize(
    ("phrase", "letter", "openings"),
    [
        ("200 doors over 200 doors", 16, 400),
        ("(100 doors) over (100 drawers over door)", 36, 201),
        ("(200 drawers over door) beside door", 19, 202),
    ],
)
def test_openings_are_counted_through_brackets_before_any_is_made(phrase, letter, openings):
    layout, [problem] = read_phrase(phrase, IN_A_FILE)

    assert layout is None
    assert (problem.code, problem.where.column) == ("too-many-openings", IN_A_FILE.column + letter - 1)
    assert f"{openings} openings" in problem.what


def test_200_of_a_thing_are_read():
    layout = read("200 drawers")

    assert isinstance(layout, Group)
    assert len(layout.parts) == 200


def test_brackets_stand_32_deep_and_no_deeper():
    read("(" * 32 + "door" + ")" * 32)

    assert faults("(" * 33 + "door" + ")" * 33) == [("too-deep", 33)]
    assert faults("(" * 33 + "door" + ")" * 33 + " over (dor)") == [("too-deep", 33), ("unknown-word", 78)]
    assert faults("door over " + "(" * 32 + "((door) over dor)" + ")" * 32 + " left") == [
        ("too-deep", 43),
        ("side-of-brackets", 93),
    ]


def test_brackets_too_deep_that_are_not_closed_are_told_with_the_rest():
    found = faults("(" * 33 + "door")

    assert found == [*(("bracket-not-closed", letter) for letter in range(1, 33)), ("too-deep", 33)]


@pytest.mark.parametrize(
    "phrase",
    [
        "(" * 100_000,
        "(" * 1000,
        ")" * 1000,
        "()" * 500,
        "[" * 1000,
        "over[" * 200,
        "over " * 200,
        "door " * 200,
        "1 " * 500,
        "9" * 1000,
        "1/" * 500,
        "#" * 1000,
        "door(" * 200,
        "200 doors over " * 66,
        "(door over door beside " * 43,
        "a" * 1000,
        "\u202e" * 1000,
    ],
    ids=lambda phrase: f"{phrase[:12]!r} {len(phrase)} letters",
)
def test_a_hostile_phrase_is_refused_in_a_moment(phrase):
    before = process_time()

    layout, problems = read_phrase(phrase, IN_A_FILE)

    assert layout is None
    assert all(problem.stops for problem in problems)
    assert 1 <= len(problems) <= 1000
    assert process_time() - before < 1
