"""The page that holds our pages against the standard: no line of it is left out, and all that it names is there."""

import re
from collections import Counter
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
PAGE = (TOP / "docs" / "asvs.md").read_text(encoding="utf-8")
STATES = ("met", "not here", "accepted", "open")
ROW = re.compile(r"^\| (\d+\.\d+\.\d+) \| (.+?) \| (.+?) \|$", re.MULTILINE)
ROWS = ROW.findall(PAGE)
NAMED = re.compile(r"`(?P<file>[\w./]+)`|(?<!\*)\*(?P<test>\w+)\*(?!\*)")

LINES = (
    "1.1.1-2 1.2.1-9 1.3.1-11 1.4.1-3 1.5.1-2 2.1.1-3 2.2.1-3 2.3.1-4 2.4.1-1 3.2.1-2 3.3.1-4 3.4.1-6 3.5.1-5"
    " 3.7.1-2 4.1.1-3 4.2.1-1 4.3.1-2 4.4.1-4 5.1.1-1 5.2.1-3 5.3.1-2 5.4.1-3 7.1.1-3 7.2.1-4 7.3.1-2 7.4.1-5"
    " 7.5.1-2 7.6.1-2 8.1.1-2 8.2.1-3 8.3.1-1 8.4.1-1 13.1.1-1 13.2.1-5 13.3.1-2 13.4.1-5 15.1.1-3 15.2.1-3"
    " 15.3.1-7 16.1.1-1 16.2.1-5 16.3.1-4 16.4.1-3 16.5.1-3"
)
"""Every line of level 1 or 2 in the chapters that are gone through, counted from the standard's own text."""


def wanted() -> list[str]:
    ranges = [re.fullmatch(r"(\d+\.\d+)\.(\d+)-(\d+)", each) for each in LINES.split()]
    return [f"{found[1]}.{n}" for found in ranges if found for n in range(int(found[2]), int(found[3]) + 1)]


def state_of(here: str) -> str:
    return next((state for state in STATES if re.match(rf"{state}\b", here)), "")


def test_every_line_is_gone_through_once_and_in_order():
    assert [number for number, _, _ in ROWS] == wanted()
    assert [number for number, asks, here in ROWS if not asks.strip() or not state_of(here)] == []


def test_the_counts_are_right():
    counted = Counter(state_of(here) for _, _, here in ROWS)

    assert f"| {' | '.join(str(counted[state]) for state in STATES)} |" in PAGE


@pytest.mark.parametrize(("number", "here"), [(number, here) for number, _, here in ROWS])
def test_what_a_line_names_is_there(number, here):
    test = ""
    for named in NAMED.finditer(here):
        if named["file"]:
            found = place_of(named["file"])
            test = found.read_text(encoding="utf-8") if found and found.name.startswith("test_") else test
        else:
            assert re.search(rf"^def test_\w*{named['test']}", test, re.MULTILINE), named["test"]


def place_of(name: str) -> Path | None:
    """The file that is named so: a test of ours, a part of the program, or a file of the checkout."""
    places = (TOP / "tests" / f"{name}.py", TOP / "src" / "pinchrod" / name, TOP / name)
    found = next((place for place in places if place.is_file()), None)
    assert found or not re.search(r"\w/\w|\.(py|lock)$", name) or name in FOLDERS, name
    return found


FOLDERS = ("web/static",)
