"""The pages about phrases: every example on them is run."""

import re
from pathlib import Path

import pytest

from pinchrod.job import read_phrase
from tests.job.phrase_builders import IN_A_FILE, read

DOCS = Path(__file__).resolve().parents[2] / "docs"
PAGE = (DOCS / "phrase.md").read_text("utf-8")
PROBLEMS = (DOCS / "problems" / "phrase.md").read_text("utf-8")
ENTRIES = dict(part.split("\n", 1) for part in re.split(r"^### ", PROBLEMS, flags=re.MULTILINE)[1:])


def examples(page, sort):
    """The lines of every block of this sort."""
    blocks = re.findall(rf"^```{sort}\n(.*?)^```", page, flags=re.MULTILINE | re.DOTALL)
    return [line for block in blocks for line in block.splitlines()]


def codes(phrase, *, stop):
    _, problems = read_phrase(phrase, IN_A_FILE)
    assert all(problem.stops is stop for problem in problems)
    return [problem.code for problem in problems]


@pytest.mark.parametrize("line", examples(PAGE + PROBLEMS, "phrase"))
def test_phrases_shown_as_the_same_are_read_as_the_same(line):
    first, *others = line.split(" = ")

    assert [read(other) for other in others] == [read(first)] * len(others)


@pytest.mark.parametrize(("sort", "stop"), [("refused", True), ("doubted", False)])
def test_phrases_shown_with_a_problem_have_that_one(sort, stop):
    shown = [line.split(" = ") for line in examples(PAGE, sort)]

    assert shown
    assert [codes(phrase, stop=stop) for phrase, _ in shown] == [[code] for _, code in shown]


@pytest.mark.parametrize("code", ENTRIES)
def test_a_problem_is_shown_with_a_phrase_that_has_it_and_one_that_has_not(code):
    entry = ENTRIES[code]
    refused = [codes(line, stop=True) for line in examples(entry, "refused")]
    doubted = [codes(line, stop=False) for line in examples(entry, "doubted")]

    assert all(code in found for found in refused + doubted)
    assert refused or doubted or code in {"empty-phrase", "long-phrase"}
    assert examples(entry, "phrase") or code in {"too-deep", "too-many-openings"}
