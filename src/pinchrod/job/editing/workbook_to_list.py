"""A workbook's frames as a list saved as text: of a workbook, pages change no cell."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import NotYetRight, Problem, quoted
from pinchrod.job.editing.as_said import cell_words, column_keys
from pinchrod.job.editing.list_edits import written
from pinchrod.job.said import Amiss, gathered
from pinchrod.job.source import Source
from pinchrod.job.tables.grid import Grid, Row
from pinchrod.job.tables.xlsx_file import read_xlsx


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """The list that a workbook became, and what is to be known of it."""

    source: Source
    notes: tuple[Problem, ...]


def turned_to_list(source: Source, name: str) -> Turned:
    """The workbook's rows as a list of that name; NotYetRight if one of its cells cannot be told in words."""
    grid, problems = gathered(read_xlsx(source))
    amiss = tuple(_amiss(grid)) if grid is not None else ()
    if grid is None or amiss or any(problem.stops for problem in problems):
        raise NotYetRight((*problems, *amiss))
    text = "".join(f"{line}\n" for line in _lines(grid))
    what = f"the workbook {quoted(source.name)} is kept as the list {quoted(name)} from now on"
    mend = "change the list from here on, and no longer the workbook"
    note = Problem(where=source.whole, code="workbook-turned", what=what, mend=mend, stops=False)
    return Turned(source=Source(name=name, content=text.encode()), notes=(note, *problems))


def _amiss(grid: Grid) -> Iterator[Problem]:
    """Cells that hold something and show nothing."""
    for said in (cell for row in grid.rows for cell in row.cells if cell is not None):
        if isinstance(said.value, Amiss):
            yield Problem(where=said.at, code=said.value.code, what=said.value.what, mend=said.value.mend)


def _lines(grid: Grid) -> Iterator[str]:
    """The rows, each as long as the header."""
    header, *rows = grid.rows
    keys = (*column_keys(header), *[""] * max(len(row.cells) for row in grid.rows))
    yield _line(header, [""] * len(keys), header.width)
    yield from (_line(row, keys, header.width) for row in rows)


def _line(row: Row, keys: tuple[str, ...] | list[str], width: int) -> str:
    cells = [cell_words(key, said) for key, said in zip(keys, row.cells, strict=False)]
    return ",".join(written(words, ",") for words in (*cells, *[""] * (width - len(cells))))
