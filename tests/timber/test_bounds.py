"""The compiled sums with their looks on: numba looks at no index unless it is told to, and ours must need none.

It compiles everything anew, which takes minutes of a processor: so it is done where all is tried at length.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
LOOKED = """
import numpy
from numba import njit
from pinchrod.timber import Effort, break_out, flaws
from pinchrod.timber.buying import buy, buying_flaws
from tests.timber.buying.offers import FEW, an_offer, to_buy
from tests.timber.racks import a_question

@njit
def beyond(row, place):
    return row[place]

try:
    beyond(numpy.zeros(3), 3)
except IndexError:
    print("an index beyond its row is seen")
for members, boards, seed in ((12, 8, 901), (40, 30, 902), (30, 2, 906)):
    question = a_question(members, boards, seed)
    assert not list(flaws(question, break_out(question, Effort(passes=2, tries=3))))
asked = to_buy(an_offer())
assert not list(buying_flaws(asked, buy(asked, FEW)))
print("nothing of ours reached beyond")
"""


@pytest.mark.skipif(
    os.environ.get("PINCHROD_DEPTH") != "deep", reason="compiles for minutes: PINCHROD_DEPTH=deep"
)
def test_no_compiled_sum_reaches_beyond_its_rows(tmp_path):
    looking = {"NUMBA_BOUNDSCHECK": "1", "NUMBA_CACHE_DIR": str(tmp_path), "PYTHONPATH": str(TOP / "src")}

    done = subprocess.run(
        [sys.executable, "-c", LOOKED],
        cwd=TOP,
        env={**os.environ, **looking},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.stdout.splitlines() == ["an index beyond its row is seen", "nothing of ours reached beyond"]
    assert done.returncode == 0, done.stderr
