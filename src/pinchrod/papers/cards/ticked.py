"""Marks of pieces in rows, each with a box to tick."""

from collections.abc import Iterator, Sequence

from pinchrod.papers.marks.sheet import WIDE, Mark, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import BOX, LARGE, PLAIN, Band, broken, tick_box

TO_WORDS = 1.6
APART = 6.0  # from a mark to the next box
ROW = 8.6
PITCH = 5.6  # from line to line of a long mark: room for accents
BASE = 6.4  # from a row's top to its baseline


def ticked(marks: Sequence[str], width: float, left: float = 0.0) -> Iterator[Band]:
    """The marks in as many columns as hold the longest; they read from row to row."""
    columns = columns_of(marks, width - left)
    wide = (width - left + APART) / columns
    for start in range(0, len(marks), columns):
        yield _row(marks[start : start + columns], wide, left)


def columns_of(marks: Sequence[str], room: float) -> int:
    """How many of the marks stand side by side."""
    longest = max((words_width(mark, LARGE, bold=True) for mark in marks), default=0.0)
    return max(1, int((room + APART) // (BOX + TO_WORDS + longest + APART)))


def _row(row: Sequence[str], wide: float, left: float) -> Band:
    """A row of boxes with their marks; one too long for its place is set smaller, on lines of its own."""
    room = wide - APART - BOX - TO_WORDS
    found: list[Mark] = []
    most = 1
    for place, mark in enumerate(row):
        x = left + place * wide
        fits = words_width(mark, LARGE, bold=True) <= room
        size, lines = (LARGE, (mark,)) if fits else (PLAIN, broken(mark, PLAIN, room, bold=True))
        most = max(most, len(lines))
        found.append(tick_box(Spot(x, -BASE), pen=WIDE))
        for down, line in enumerate(lines):
            at = Spot(x + BOX + TO_WORDS, -BASE - PITCH * down)
            found.append(Words(at, line, size=size, bold=True))
    return Band(height=ROW + PITCH * (most - 1), marks=tuple(found))
