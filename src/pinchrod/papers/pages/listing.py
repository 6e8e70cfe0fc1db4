"""Facts with their names, boxes of words, and entries in columns: what a page that sums up is made of."""

from collections.abc import Iterator, Sequence

from pinchrod.papers.marks.sheet import NARROW, Line, Mark, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import PLAIN, Band, boxed, broken, fitting, heading

LABEL = 42.0  # mm from a fact's name to what it is
FACT = 6.2  # mm from fact to fact
ENTRY = 6.0  # mm from line to line of entries
LEAST_COLUMNS, MOST_COLUMNS = 2, 5  # of entries
BETWEEN = 6.0  # mm between them
APART = 3.0  # mm at least between an entry and what stands at its end
MOST_IN_A_BOX = 10  # lines, so that a long box can go on overleaf


def fact(name: str, said: str, width: float) -> Band:
    """A fact: its name, and beside it what it is, in as many lines as it needs."""
    lines = broken(said, PLAIN, width - LABEL)
    words = (Words(Spot(LABEL, -PLAIN - FACT * place), line) for place, line in enumerate(lines))
    return Band(height=FACT * len(lines), marks=(Words(Spot(0.0, -PLAIN), name, bold=True), *words))


def boxes(said: Sequence[tuple[str, bool]], width: float) -> Iterator[Band]:
    """What is said in a box, or in boxes one under another if it is long."""
    lines = [(line, bold) for text, bold in said for line in broken(text, PLAIN, width - 5.0, bold=bold)]
    for start in range(0, len(lines), MOST_IN_A_BOX):
        yield boxed(lines[start : start + MOST_IN_A_BOX], width)


def listed(name: str, entries: Sequence[tuple[str, str]], width: float) -> Iterator[Band]:
    """The entries in as many columns as hold the longest; they read from row to row."""
    if not entries:
        return
    yield heading(name, width)
    again = (heading(f"{name}, continued", width),)
    longest = max(words_width(title, PLAIN) + words_width(number, PLAIN) for title, number in entries)
    columns = max(LEAST_COLUMNS, min(MOST_COLUMNS, int((width + BETWEEN) / (longest + APART + BETWEEN))))
    for start in range(0, len(entries), columns):
        yield _entries(entries[start : start + columns], columns, width, again)


def _entries(row: Sequence[tuple[str, str]], columns: int, width: float, again: tuple[Band, ...]) -> Band:
    wide = (width - BETWEEN * (columns - 1)) / columns
    marks: list[Mark] = []
    for place, (title, number) in enumerate(row):
        marks.extend(_entry(title, number, place * (wide + BETWEEN), wide))
    return Band(height=ENTRY, marks=tuple(marks), head=again)


def _entry(title: str, number: str, left: float, wide: float) -> Iterator[Mark]:
    room = wide - words_width(number, PLAIN) - APART
    size = fitting(title, PLAIN, room)
    yield Words(Spot(left, -PLAIN - 1.0), title, size=size, max_width=room)
    yield Words(Spot(left + wide, -PLAIN - 1.0), number, anchor="right")
    yield Line(Spot(left, -ENTRY + 0.2), Spot(left + wide, -ENTRY + 0.2), pen=NARROW, layer="table")
