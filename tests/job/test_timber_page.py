"""The page of timbers shows the table as it is.

After a change of the table, PINCHROD_BLESS=1 writes the page's two lists anew; then read what has changed.
"""

import os
import re
from pathlib import Path

from pinchrod.ground import Mm, show_fixed
from tests.job.test_published_timbers import kinds_of
from tests.job.test_timbers import ROWS

PAGE = Path(__file__).resolve().parents[2] / "docs" / "timbers.md"
HEAD = (
    "| timber | density | C_R | C_T | 100 mm gains | | from |\n| --- | --- | --- | --- | --- | --- | --- |\n"
)
KIND = re.compile(r"^(density|movement|radial|tangential) (printed|derived|memory): ")
GRAVITY = re.compile(r", 1120 x G12 of (0\.[0-9]+)")


def sayings(row):
    """What a row says of its sources: of which figure, how it is known, and from where."""
    for part in re.split(r"; (?=density|movement|radial|tangential|no density)", row["source"]):
        found = KIND.match(part)
        if found:
            rest = part[found.end() :]
            yield found[1], GRAVITY.sub("", rest), "".join(GRAVITY.findall(rest))
        else:
            yield "", part, ""


SOURCES = sorted({source for row in ROWS for _, source, _ in sayings(row)})


def line(row):
    kinds = kinds_of(row)
    figures = [f"{row['density']} {row['density_kind'][:1]}".strip()]
    figures += [f"{row[way]} {kinds[way][:1]}".strip() for way in ("radial", "tangential")]
    moves = [show_fixed(100 * 4 * Mm(row[way])) if row[way] else "" for way in ("radial", "tangential")]
    sources = [
        f"{SOURCES.index(source) + 1}{f' (G₁₂ {gravity})' if gravity else ''}"
        for _, source, gravity in sayings(row)
    ]
    return f"| {' | '.join([row['name'], *figures, *moves, ', '.join(sources)])} |"


def between(mark, inside, page):
    return re.sub(
        rf"(<!-- {mark} -->\n).*?(<!-- {mark} end -->)",
        lambda found: found[1] + inside + found[2],
        page,
        flags=re.DOTALL,
    )


def test_the_page_shows_every_timber_with_its_figures_and_sources():
    page = PAGE.read_text("utf-8")
    table = HEAD + "".join(f"{line(row)}\n" for row in ROWS)
    listed = "".join(f"{number}. {source}\n" for number, source in enumerate(SOURCES, start=1))

    shown = between("sources", listed, between("timbers", table, page))

    if os.environ.get("PINCHROD_BLESS") == "1":
        assert os.environ.get("CI") != "true", "pages are blessed by a person, not by CI"
        PAGE.write_text(shown, encoding="utf-8")
    assert shown == PAGE.read_text("utf-8")
