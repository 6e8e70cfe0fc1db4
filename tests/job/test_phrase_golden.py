"""The very words in which phrases are refused or doubted, held as text in golden/phrases.txt.

Each entry there is a phrase, written as in JSON, and below it what is said of it.
"""

import json
import re
from inspect import getsource
from pathlib import Path

from pinchrod.job import read_phrase
from pinchrod.job.phrases import faults as phrase_faults
from tests.job.phrase_builders import IN_A_FILE

GOLDEN = Path(__file__).parent / "golden" / "phrases.txt"
UNKIND = re.compile(
    r"\b(in)?valid|please|sorry|oops|illegal|forbidden|null|unspecified|error|required", re.IGNORECASE
)


def entries():
    return [json.loads(line) for line in GOLDEN.read_text("utf-8").splitlines() if line.startswith('"')]


def told(phrase):
    _, problems = read_phrase(phrase, IN_A_FILE)
    lines = [f"  {problem.code}{'' if problem.stops else ' (doubt)'}: {problem}" for problem in problems]
    return "\n".join([json.dumps(phrase), *lines])


def test_what_is_said_of_a_phrase_is_what_the_golden_file_says():
    said = "\n\n".join(told(phrase) for phrase in entries())

    assert said + "\n" == GOLDEN.read_text("utf-8")


def test_the_golden_file_has_every_fault_there_is():
    codes = set(re.findall(r'Fault\(\s*\w+,\s*"([a-z-]+)"', getsource(phrase_faults)))

    said = {problem.code for phrase in entries() for problem in read_phrase(phrase, IN_A_FILE)[1]}

    assert len(codes) > 25
    assert codes <= said


def test_nobody_is_scolded_and_no_two_faults_are_told_alike():
    problems = [problem for phrase in entries() for problem in read_phrase(phrase, IN_A_FILE)[1]]
    own = [problem for problem in problems if not problem.code.startswith("length-")]

    assert not [problem.what for problem in own if UNKIND.search(f"{problem.what} {problem.mend}")]
    codes_of = {problem.what: {other.code for other in own if other.what == problem.what} for problem in own}
    assert all(len(codes) == 1 for codes in codes_of.values())
