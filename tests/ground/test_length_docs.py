"""The pages about lengths: every example on them is run, and every refusal has its heading."""

import re
from pathlib import Path

import pytest

from pinchrod.ground import NotALength, read_length
from tests.ground.test_refusing import REFUSED

DOCS = Path(__file__).resolve().parents[2] / "docs"
PAGE = (DOCS / "lengths.md").read_text("utf-8")
PROBLEMS = (DOCS / "problems" / "lengths.md").read_text("utf-8")
ENTRIES = dict(part.split("\n", 1) for part in re.split(r"^### ", PROBLEMS, flags=re.MULTILINE)[1:])


def examples(page, sort):
    """The lines of every block of this sort."""
    blocks = re.findall(rf"^```{sort}\n(.*?)^```", page, flags=re.MULTILINE | re.DOTALL)
    return [line for block in blocks for line in block.splitlines()]


def code_of(text):
    with pytest.raises(NotALength) as caught:
        read_length(text)
    return caught.value.code


@pytest.mark.parametrize("line", examples(PAGE + PROBLEMS, "length"))
def test_lengths_shown_as_the_same_are_read_as_the_same(line):
    assert len({read_length(text) for text in line.split(" = ")}) == 1


@pytest.mark.parametrize("line", examples(PAGE, "refused"))
def test_a_length_shown_as_refused_is_refused_for_that_reason(line):
    text, code = line.split(" = ")

    assert code_of(text) == code


@pytest.mark.parametrize("code", ENTRIES)
def test_every_text_shown_with_a_problem_has_that_one(code):
    refused = examples(ENTRIES[code], "refused")

    assert {code_of(text) for text in refused} <= {code}
    assert refused or code in {"length-empty", "length-too-long", "length-unseen"}
    assert examples(ENTRIES[code], "length")


def test_every_refusal_has_its_heading_and_every_heading_its_refusal():
    assert set(ENTRIES) == {code for _, code, _, _ in REFUSED}
