"""Frames of a list saved as text changed, added and taken out, row by row, the other rows as they are."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.job.editing.as_said import Words, column_keys
from pinchrod.job.editing.rewriting import Patch, line_starts, rewritten
from pinchrod.job.job_frames import FRAMES
from pinchrod.job.said import gathered
from pinchrod.job.source import Source
from pinchrod.job.tables.csv_cells import Cell, cells_of
from pinchrod.job.tables.csv_file import read_csv, separator_of
from pinchrod.job.words import words_of


@dataclass(frozen=True, slots=True)
class CellAt:
    """A cell's letters in the text, and the words it says."""

    start: int
    end: int
    words: str


Line = tuple[CellAt, ...]
"""The cells of one row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list's text as lines of cells, and the name that each column stands for."""

    text: str
    separator: str
    header: Line
    rows: tuple[Line, ...]
    keys: tuple[str, ...]

    @property
    def width(self) -> int:
        """How many cells the longest line has."""
        return max(len(line) for line in (self.header, *self.rows))


def list_changed(source: Source, at: int, said: Words, words: Words) -> Source:
    """The list in which that row, which said one thing, says the other."""
    source = with_columns(source, (key for key, _ in words))
    listed = listed_in(source)
    return rewritten(source, _row_changed(listed, listed.rows[at], dict(said), dict(words)))


def list_put(source: Source, at: int, rows: Sequence[str]) -> Source:
    """The list with lines, each as it is written, before the row that now stands at that place."""
    listed = listed_in(source)
    end = (listed.header, *listed.rows)[at][-1].end
    return rewritten(source, [Patch(end, end, "".join(f"\n{row}" for row in rows))])


def list_without(source: Source, at: int) -> Source:
    """The list without that row."""
    listed = listed_in(source)
    row = listed.rows[at]
    start, end = row[0].start, row[-1].end
    return rewritten(source, [Patch(start - (end == len(listed.text)), end + 1, "")])


def list_rows(source: Source, rows: Sequence[Words]) -> tuple[str, ...]:
    """New rows as this list writes its rows."""
    listed = listed_in(source)
    return tuple(_row(listed, dict(words)) for words in rows)


def _row(listed: Listed, said: dict[str, str]) -> str:
    return listed.separator.join(written(said.get(key, ""), listed.separator) for key in listed.keys)


def list_taken(source: Source, at: int) -> str:
    """A row as it is written in the list."""
    listed = listed_in(source)
    return listed.text[listed.rows[at][0].start : listed.rows[at][-1].end]


def listed_in(source: Source) -> Listed:
    """The list's lines that hold anything, the first of them the header."""
    text, _ = gathered(words_of(source, western=True))
    separator, told = separator_of(text or "", FRAMES.keys)
    header, *rows = lines_in(told, line_starts(text or ""), separator)
    grid, _ = gathered(read_csv(source, FRAMES.keys))
    keys = tuple(column_keys(grid.rows[0])) if grid is not None else ()
    return Listed(text=text or "", separator=separator, header=header, rows=tuple(rows), keys=keys)


def lines_in(told: str, starts: Sequence[int], separator: str) -> Iterator[Line]:
    """The lines of a text that hold anything; `starts` say where each of its lines begins."""
    for line in cells_of(told, separator):
        if any(cell.words.strip() for cell in line):
            yield tuple(_placed(cell, starts) for cell in line)


def _placed(cell: Cell, starts: Sequence[int]) -> CellAt:
    start = starts[cell.line - 1] + cell.column - 1
    return CellAt(start, start + cell.length, cell.words.strip())


def with_columns(source: Source, names: Iterable[str]) -> Source:
    """The list with a column more, behind all others, for each name that has none."""
    listed = listed_in(source)
    new = [name for name in dict.fromkeys(names) if name not in listed.keys]
    if not new:
        return source
    blank = [""] * (listed.width + len(new))
    lines = [(line, blank) for line in listed.rows]
    named = (listed.header, [*blank[: listed.width], *new])
    return rewritten(source, (longer(line, cells, listed.separator) for line, cells in (named, *lines)))


def longer(line: Line, cells: Sequence[str], separator: str) -> Patch:
    """A line with cells behind it, so that it is as long as these are."""
    end = line[-1].end
    more = (f"{separator}{written(words, separator)}" for words in cells[len(line) :])
    return Patch(end, end, "".join(more))


def _row_changed(listed: Listed, row: Line, said: dict[str, str], words: dict[str, str]) -> Iterator[Patch]:
    """Cells put in others' places, and those behind a row that ends too soon."""
    for key, cell in zip(listed.keys, row, strict=False):
        if key and words.get(key, "") != said.get(key, ""):
            yield Patch(cell.start, cell.end, written(words.get(key, ""), listed.separator))
    cells = [words.get(key, "") for key in listed.keys]
    if any(cells[len(row) :]):
        yield longer(row, cells, listed.separator)


def written(words: str, separator: str) -> str:
    """A cell as a list writes it: in quotes if it holds a separator, a quotation mark or a line's end."""
    if set(words) & {separator, '"', "\n"}:
        return '"' + words.replace('"', '""') + '"'
    return words
