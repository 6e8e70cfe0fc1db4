"""Checks of the docs: every problem has its words, every link leads somewhere, every page is in the index."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from house_codes import codes
from house_sources import Fault, Source

LINK = re.compile(r"\]\(([^)\s#]+)(?:#[^)]*)?\)")
HEADING = re.compile(r"^#+\s+`?([a-z0-9]+(?:-[a-z0-9]+)*)`?\s*$", re.MULTILINE)
DRAWING = re.compile(r"^```.*?^```", re.MULTILINE | re.DOTALL)
PROBLEMS, INDEX = Path("docs/problems"), Path("docs/README.md")


def faults_of_docs(top: Path, code: tuple[Source, ...]) -> Iterator[Fault]:
    """Everything wrong with the docs of a checkout."""
    yield from problems_without_words(top, code)
    yield from words_without_problems(top, code)
    yield from dead_links(top)
    yield from pages_left_out(top)
    yield from rooms_without_a_page(top)


def explained(top: Path) -> dict[str, Path]:
    """Every code that has a heading in docs/problems, and the page it stands on."""
    pages = sorted((top / PROBLEMS).glob("*.md"))
    return {
        code: page.relative_to(top)
        for page in pages
        for code in HEADING.findall(DRAWING.sub("", page.read_text(encoding="utf-8")))
    }


def problems_without_words(top: Path, code: tuple[Source, ...]) -> Iterator[Fault]:
    """Codes the program gives that no page explains."""
    known = explained(top)
    for source, line, name in codes(code):
        if name not in known:
            known[name] = source.path  # said once is enough
            yield source.fault(line, f"problem {name!r} has no heading in {PROBLEMS.as_posix()}")


def words_without_problems(top: Path, code: tuple[Source, ...]) -> Iterator[Fault]:
    """Headings for codes that the program no longer knows."""
    said = {node.value for source in code for node in ast.walk(source.tree) if isinstance(node, ast.Constant)}
    for name, page in explained(top).items():
        if name not in said:
            yield Fault(page, 1, f"no problem is called {name!r} any more")


def dead_links(top: Path) -> Iterator[Fault]:
    """Links in our pages that lead to no file."""
    for page in pages(top):
        for line, target in links(top / page):
            if not (top / page.parent / target).exists():
                yield Fault(page, line, f"the link to {target} leads nowhere")


def pages_left_out(top: Path) -> Iterator[Fault]:
    """Pages under docs and of rooms that the index does not name."""
    listed = {(top / INDEX.parent / target).resolve() for _, target in links(top / INDEX)}
    for page in pages(top):
        if page.parts[0] in ("docs", "src") and page != INDEX and (top / page).resolve() not in listed:
            yield Fault(page, 1, f"{INDEX.as_posix()} does not name this page")


def rooms_without_a_page(top: Path) -> Iterator[Fault]:
    """Rooms that do not say what comes in, what goes out and which rules of the trade they keep."""
    for door in sorted((top / "src/pinchrod").glob("*/__init__.py")):
        page = door.with_name("README.md")
        if not page.exists():
            yield Fault(page.relative_to(top), 1, "the room has no page")


def pages(top: Path) -> list[Path]:
    """Every page of ours, from the top of the checkout."""
    places = (*top.glob("*.md"), *(top / "docs").rglob("*.md"), *(top / "src").rglob("*.md"))
    return sorted(page.relative_to(top) for page in places)


def links(page: Path) -> Iterator[tuple[int, str]]:
    """Each link of a page to another file of ours, with its line."""
    if not page.exists():
        return
    text = DRAWING.sub(lambda drawing: "\n" * drawing[0].count("\n"), page.read_text(encoding="utf-8"))
    for number, line in enumerate(text.splitlines(), start=1):
        yield from ((number, target) for target in LINK.findall(line) if "://" not in target)
