"""Marks of pieces in a table's cell: whole, with how many each, in as many rows as they need."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from pinchrod.papers.pages.bands import Column, filled

MOST_LINES = 12  # in a row: longer ones become two, so that none needs a page of its own


class Marked(NamedTuple):
    """A piece's mark, and how many are made under it."""

    name: str
    quantity: int

    def __str__(self) -> str:
        """The mark as printed: with how many, if it is not one."""
        return self.name if self.quantity == 1 else f"{self.name} ×{self.quantity}"


def shared_rows(marks: Sequence[Marked], column: Column) -> Iterator[tuple[int, str]]:
    """How many pieces, and their marks in lines: one row, or several if there are very many marks."""
    while marks:
        most = len(marks)
        while most > 1 and len(_lines(marks[:most], column)) > MOST_LINES:
            most = most * 4 // 5
        yield sum(marked.quantity for marked in marks[:most]), "\n".join(_lines(marks[:most], column))
        marks = marks[most:]


def _lines(marks: Sequence[Marked], column: Column) -> tuple[str, ...]:
    return filled(map(str, marks), column.size, column.room)
