"""A list saved as text: its separator, its rows, and what keeps them from being read."""

import re
from dataclasses import replace

from pinchrod.ground import Problem, Where
from pinchrod.job.limits import MOST_CELLS_OF_TEXT, MOST_ROWS
from pinchrod.job.names import plain
from pinchrod.job.said import Reading, Said, cell_said
from pinchrod.job.source import Source
from pinchrod.job.tables.csv_cells import Cell, cells_of
from pinchrod.job.tables.grid import Grid, Row, too_many_cells, too_many_rows
from pinchrod.job.words import words_of

SEPARATORS = ",;\t"
TOLD = re.compile(r"\s*sep=([,;\t])[ \t]*$", re.IGNORECASE)


def read_csv(source: Source, columns: tuple[str, ...]) -> Reading[Grid | None]:
    """The list's rows; `columns` are the names by which its separator is told."""
    text = yield from words_of(source, western=True)
    if text is None:
        return None
    separator, text = separator_of(text, columns)
    rows: list[Row] = []
    count = 0
    for cells in cells_of(text, separator):
        count += len(cells)
        problem = _overflow(source, len(rows), count)
        if problem:
            yield problem
            return None
        if not cells[-1].closed:
            yield _open_quote(source, cells[-1])
            return Grid(rows=tuple(rows)) if len(rows) > 1 else None
        row = Row(number=cells[0].line, cells=tuple(_said(source, cell, separator) for cell in cells))
        rows += [row] if any(row.cells) else []
    return Grid(rows=tuple(rows))


def separator_of(text: str, columns: tuple[str, ...]) -> tuple[str, str]:
    """What parts the cells, and the list: some programs say it in a first line `sep=;`, blanked here."""
    first, _, rest = text.partition("\n")
    told = TOLD.match(first)
    if told:
        return told[1], f"\n{rest}"
    header = next((line for line in text.split("\n", 50) if line.strip(" ,;\t")), "")
    known = {plain(name) for name in columns}

    def fits(separator: str) -> tuple[int, int]:
        cells = header.split(separator)
        return sum(plain(cell.strip('" ')) in known for cell in cells), len(cells)

    return max(SEPARATORS, key=fits), text


def _said(source: Source, cell: Cell, separator: str) -> Said | None:
    """What the cell says, or None if it is blank. Words begin at their first letter.

    Words over several lines, or with a doubled mark, cannot be counted off along the line: column 0.
    """
    value = cell.words.strip()
    if not value:
        return None
    where = Where(file=source.name, line=cell.line, column=cell.column)
    before = len(cell.words) - len(cell.words.lstrip()) + cell.quoted
    countable = not (cell.quoted and set(cell.words) & {"\n", '"'})
    words_at = replace(where, column=where.column + before if countable else 0)
    return replace(cell_said(value, where, value), words_at=words_at, decimal_comma=separator == ";")


def _overflow(source: Source, rows: int, cells: int) -> Problem | None:
    if rows >= MOST_ROWS:
        return too_many_rows(source.whole)
    return too_many_cells(source.whole, MOST_CELLS_OF_TEXT) if cells > MOST_CELLS_OF_TEXT else None


def _open_quote(source: Source, cell: Cell) -> Problem:
    where = Where(file=source.name, line=cell.line, column=cell.column)
    what = "a quotation mark opens here and is never closed, so that all that follows is one cell"
    mend = 'close it; an inch mark inside a quoted cell is written twice: "23 5/8"""'
    return Problem(where=where, code="quote-open", what=what, mend=mend)
