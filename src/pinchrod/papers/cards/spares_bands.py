"""Spare pieces to make while each stop is set: which, how many, and why so many."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from pinchrod.bench import Spares
from pinchrod.papers.pages.bands import (
    LARGE,
    Band,
    Column,
    blank,
    heading,
    narrowed,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.marks_list import Marked, shared_rows

TITLE = "Spare pieces"


def spares_bands(spares: Sequence[Spares], width: float, *, sticks_known: bool) -> Iterator[Band]:
    """A row for each pattern of which spare pieces are made."""
    made = [each for each in spares if each.spare]
    yield blank(4.0)
    yield heading(TITLE, width)
    if not made:
        yield paragraph("None: few enough of each kind are wanted for all to come out good.", width)
        return
    number = sum(each.spare for each in made)
    yield paragraph(
        f"{number} in all, cut and worked with the others while each stop is set. {capital(made[0].why)}.",
        width,
    )
    if sticks_known:
        yield paragraph("No stick holds them: rip and plane as much more for them.", width, bold=True)
    columns = _columns(made, width)
    head = table_head(columns)
    again = (heading(f"{TITLE}, continued", width), head)
    yield head
    for each in made:
        for row in _rows(each, columns[-1]):
            yield table_row(columns, row, again)


def spares_by_piece(spares: Iterable[Spares]) -> dict[str, Spares]:
    """The spares to make, by each piece that they are like."""
    return {name: each for each in spares if each.spare for name in each.like}


def spares_with(marks: Iterable[str], spares: Mapping[str, Spares]) -> tuple[Spares, ...]:
    """The spares that go through with these pieces: those that are like one of them."""
    names = (mark.partition("/")[0] for mark in marks)  # every copy of a piece is alike
    return tuple(dict.fromkeys(spares[name] for name in names if name in spares))


def with_spares(marks: Sequence[str], spares: Mapping[str, Spares]) -> tuple[str, ...]:
    """The pieces that go through at a setting, and after them their spares, to be ticked like pieces."""
    return (*marks, *(f"+{each.spare} {each.like[0]}" for each in spares_with(marks, spares)))


def _columns(made: Sequence[Spares], width: float) -> tuple[Column, ...]:
    pattern = narrowed(Column("like", 30.0, LARGE), [each.pattern for each in made])
    fixed = (pattern, number_column("needed", 20.0, LARGE), number_column("spare", 18.0, LARGE, bold=True))
    return (*fixed, Column("pieces", width - sum(column.width for column in fixed), LARGE))


def _rows(each: Spares, column: Column) -> Iterator[tuple[str, ...]]:
    first = (each.pattern, str(each.needed), f"+{each.spare}")
    for _, marks in shared_rows([Marked(name, 1) for name in each.like], column):
        yield (*first, marks)
        first = ("", "", "")


def capital(text: str) -> str:
    """The words with a capital at their head."""
    return text[:1].upper() + text[1:]
