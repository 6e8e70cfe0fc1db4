"""The scripts of others that lie here are the very ones that are written down, and no others do."""

import re
from hashlib import sha256
from pathlib import Path

from pinchrod.web.templates import STATIC

TOP = Path(__file__).parents[2]
ROW = re.compile(r"^\| `(\S+\.js)` \| .* \| `([0-9a-f]{64})` \|$", re.MULTILINE)


def test_each_script_of_others_is_as_it_was_taken_in():
    rows = dict(ROW.findall((TOP / "THIRD_PARTY.md").read_text(encoding="utf-8")))

    assert len(rows) == 2
    for file, mark in rows.items():
        assert sha256((TOP / file).read_bytes()).hexdigest() == mark, file


def test_what_pages_are_made_with_asks_for_nothing_elsewhere():
    for file in sorted(STATIC.iterdir()):
        if file.name != "htmx.min.js":
            told = file.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
            assert not re.search(r"https?://|@import|url\((?!#)", told), file.name
