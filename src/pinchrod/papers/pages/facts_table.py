"""Close-set tables of facts beside or under a drawing, as wide as what is in them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import NARROW, Anchor, Line, Mark, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import Band

ROW = 5.5
HEAD = 4.6
LETTERS, HEAD_LETTERS = 3.5, 2.5
PAD = 0.9  # from a column's side to its words
UP = 1.25  # from a rule to the words that stand on it
BETWEEN = 4.0  # two tables side by side


@dataclass(frozen=True, slots=True)
class Heading:
    """The head of a column, and at which side its words stand."""

    text: str
    anchor: Anchor = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class FactsTable:
    """Rows of words under their heads; the first of each is bold."""

    heads: tuple[Heading, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]

    @property
    def width(self) -> float:
        """How wide the whole table is."""
        return sum(self.widths)

    @property
    def height(self) -> float:
        """How high it is with its head."""
        return HEAD + ROW * len(self.rows)

    @property
    def area(self) -> float:
        """How much paper it takes."""
        return self.width * self.height


def facts_table(heads: Sequence[Heading], rows: Sequence[Sequence[str]]) -> FactsTable:
    """The table, each column as wide as its widest words; columns with nothing in them are left out."""
    used = [place for place in range(len(heads)) if any(row[place] for row in rows)]
    kept = tuple(tuple(row[place] for place in used) for row in rows)
    widths = [
        max(
            words_width(heads[place].text, HEAD_LETTERS),
            *(words_width(row[place], LETTERS, bold=place == 0) for row in rows),
        )
        for place in used
    ]
    return FactsTable(
        heads=tuple(heads[place] for place in used),
        rows=kept,
        widths=tuple(width + 2 * PAD for width in widths),
    )


def halves(table: FactsTable) -> tuple[FactsTable, FactsTable]:
    """The table in two, to stand side by side."""
    upper = (len(table.rows) + 1) // 2
    return replace(table, rows=table.rows[:upper]), replace(table, rows=table.rows[upper:])


def table_bands(table: FactsTable) -> tuple[Band, ...]:
    """The table as bands: its head, which is repeated on every page, and its rows."""
    head = Band(height=HEAD, marks=tuple(_head(table)), keeps=True)
    rows = (Band(height=ROW, marks=tuple(_row(table, row)), head=(head,)) for row in table.rows)
    return (head, *rows)


def side_by_side(left: FactsTable, right: FactsTable) -> tuple[Band, ...]:
    """Two tables as one run of bands, row beside row."""
    return tuple(_beside(*table_bands(left), over=table_bands(right), by=left.width + BETWEEN))


def _beside(*bands: Band, over: Iterable[Band], by: float) -> Iterator[Band]:
    head: tuple[Band, ...] = ()
    nothing = Band(height=0.0, marks=())
    for one, other in zip_longest(bands, over, fillvalue=nothing):
        marks = (*one.marks, *placed(other.marks, dx=by))
        both = Band(height=max(one.height, other.height), marks=marks, keeps=not head, head=head)
        head = head or (both,)
        yield both


def _head(table: FactsTable) -> Iterator[Mark]:
    yield _rule(table, 0.0)
    yield _rule(table, -HEAD)
    for heading, left, right in _columns(table):
        yield _words(heading, heading.text, left, right, -HEAD + 1.1, HEAD_LETTERS)


def _row(table: FactsTable, row: Sequence[str]) -> Iterator[Mark]:
    yield _rule(table, -ROW)
    for place, ((heading, left, right), text) in enumerate(zip(_columns(table), row, strict=True)):
        if text:
            words = _words(heading, text, left, right, -ROW + UP, LETTERS)
            yield words if place else replace(words, bold=True)


def _columns(table: FactsTable) -> Iterator[tuple[Heading, float, float]]:
    left = 0.0
    for heading, width in zip(table.heads, table.widths, strict=True):
        yield heading, left, left + width
        left += width


def _words(heading: Heading, text: str, left: float, right: float, y: float, size: float) -> Words:
    x = left + PAD if heading.anchor == "left" else right - PAD
    return Words(Spot(x, y), text, size=size, anchor=heading.anchor, layer="table")


def _rule(table: FactsTable, y: float) -> Line:
    return Line(Spot(0, y), Spot(table.width, y), pen=NARROW, layer="table")
