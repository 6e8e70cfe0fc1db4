"""The same sheet gives the same bytes, wherever and whenever it is written."""

import os
import subprocess
import sys
from hashlib import sha256

import pytest

from pinchrod.papers import write_dxf, write_pdf, write_svg
from tests.papers.drawing import a_frame, a_page, a_sheet, some_papers


def digests() -> str:
    frame, page = a_sheet(*a_frame()), a_page()
    written = (write_pdf(some_papers(page, frame)), write_svg(page).encode(), write_dxf(frame, lettering=10))
    return " ".join(sha256(each).hexdigest() for each in written)


def test_writing_twice_gives_the_same_bytes():
    assert digests() == digests()


@pytest.mark.parametrize(
    ("zone", "seed", "epoch"), [("Pacific/Chatham", "1", "0"), ("America/St_Johns", "4711", "1700000000")]
)
def test_another_place_and_time_give_the_same_bytes(zone, seed, epoch, tmp_path):
    elsewhere = {
        **os.environ,
        "TZ": zone,
        "PYTHONHASHSEED": seed,
        "SOURCE_DATE_EPOCH": epoch,
        "LC_ALL": "C.UTF-8" if seed == "1" else "POSIX",
        "RL_useA85": "1",
        "PYTHONPATH": os.pathsep.join(path for path in sys.path if path),
    }
    program = "from tests.papers.test_sheet_bytes import digests; print(digests())"

    told = subprocess.run(
        [sys.executable, "-c", program],
        env=elsewhere,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )

    assert told.stdout.strip() == digests()
