"""What is said of every known bad input, held as text in golden/.

After a change of wording, PINCHROD_BLESS=1 writes the golden files anew; then read what has changed.
"""

import os
import re
from pathlib import Path

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.job import read_job
from tests.job.bad_inputs import GROUPS

GOLDEN = Path(__file__).parent / "golden"
UNKIND = re.compile(
    r"\b((in)?valid|please|sorry|oops|illegal|forbidden|null|unspecified|error|required)\b", re.IGNORECASE
)


def problems_of(case):
    """What is wrong with an input, and what stands if nothing stops the work."""
    try:
        job, _ = read_job(case.source, case.joined, workshop=case.workshop)
    except NotYetRight as trouble:
        return trouble.problems, "not read"
    sizes = ", ".join(f"{frame.id} {frame.width} x {frame.height}" for frame in job.frames[:3])
    return job.doubts, f"read: {sizes}"


def told(case):
    problems, end = problems_of(case)
    lines = [f"  {problem.code}{'' if problem.stops else ' (doubt)'}: {problem}" for problem in problems]
    return "\n".join([f"== {case.name}", *lines, f"  {end}"])


@pytest.mark.parametrize("group", GROUPS)
def test_what_is_said_of_bad_inputs_is_what_the_golden_file_says(group):
    golden = GOLDEN / f"{group}.txt"

    said = "\n\n".join(told(case) for case in GROUPS[group]) + "\n"

    if os.environ.get("PINCHROD_BLESS") == "1":
        assert os.environ.get("CI") != "true", "golden files are blessed by a person, not by CI"
        golden.write_text(said, encoding="utf-8")
    assert said == golden.read_text(encoding="utf-8")
