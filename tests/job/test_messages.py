"""Every problem is told with its place, what was found and how to mend it, in a joiner's words."""

import re
from pathlib import Path

import pytest

from house_codes import codes
from house_sources import read_sources
from tests.job.bad_inputs import GROUPS
from tests.job.test_bad_inputs import GOLDEN, UNKIND, problems_of

TOP = Path(__file__).resolve().parents[2]
CASES = [case for cases in GROUPS.values() for case in cases]
TOLD = [(case, problem) for case in CASES for problem in problems_of(case)[0]]
TOO_GREAT = {"rows-many"}  # built in test_limits alone, being large
OF_EDITS = {"frames-by-hand", "no-such-frame", "rack-nowhere", "workbook-turned"}
"""Not of a file but of a change to one: told in test_editing and test_rack_words."""


def test_there_are_bad_inputs_enough():
    assert len(CASES) >= 400
    assert len({case.name for case in CASES}) >= 400
    assert sum(path.read_text("utf-8").count("\n  not read\n") for path in GOLDEN.glob("*.txt")) > 330


def test_every_problem_this_room_can_tell_is_told_of_some_bad_input():
    known = {
        code
        for source, _, code in codes(read_sources(TOP, "src"))
        if source.room == "job" and "phrases" not in source.path.parts
    }

    assert len(known) > 90
    assert known - {problem.code for _, problem in TOLD} == TOO_GREAT | OF_EDITS


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_every_problem_says_where_what_and_how_to_mend_it_kindly(case):
    files = {case.source.name, *(source.name for source in (*case.joined, case.workshop) if source)}

    for problem in problems_of(case)[0]:
        assert problem.where.file in files
        assert problem.what
        assert problem.mend
        assert not UNKIND.search(f"{problem.what} {problem.mend}".replace("#REF!", ""))
        assert str(problem).isprintable()
        assert len(problem.what) < 400


def test_a_place_in_a_text_is_a_place_that_the_text_has():
    for case, problem in TOLD:
        source = next(
            s for s in (case.source, *case.joined, case.workshop) if s and s.name == problem.where.file
        )
        if problem.where.line and source.content[:2] not in (b"\xff\xfe", b"\xfe\xff"):
            text = source.content.decode(
                "cp1252" if problem.code == "letters-guessed" else "utf-8-sig", "replace"
            )
            lines = re.split(r"\r\n|\r|\n", text)
            assert problem.where.line <= len(lines), case.name
            assert problem.where.column <= len(lines[problem.where.line - 1]) + 1, case.name
