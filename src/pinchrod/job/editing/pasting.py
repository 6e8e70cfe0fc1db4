"""Frames pasted from a spreadsheet, with its header row or without, made a list that is read as any other."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Problem, Where
from pinchrod.job.editing.list_edits import Line, lines_in, longer
from pinchrod.job.editing.rewriting import Patch, line_starts, rewritten
from pinchrod.job.frames import FRAME_KEYS
from pinchrod.job.job_frames import FRAMES
from pinchrod.job.limits import LARGEST_LIST, MOST_CELLS_OF_TEXT, MOST_ROWS
from pinchrod.job.said import cell_said
from pinchrod.job.source import Source
from pinchrod.job.tables.csv_file import SEPARATORS, separator_of
from pinchrod.job.tables.header import with_unit

PASTED = "pasted.csv"
ORDER = FRAME_KEYS[:5]  # of columns without names: id, width, height, layout, quantity
FEWEST = 4  # of them: quantity may be left out
HALF_A_LETTER = re.compile("[\ud800-\udfff]")  # which no file can hold; the reader says so
LINES_TOLD = re.compile(rf"(?P<before>\(line |{re.escape(PASTED)}:)(?P<line>[0-9]+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pasted:
    """The pasted rows as a list, and how many lines of ours stand above them."""

    source: Source
    above: int = 0

    def told(self, problems: Sequence[Problem]) -> tuple[Problem, ...]:
        """The problems of this list, each at the line that it has in the text as it was pasted."""
        return tuple(self._at_its_line(problem) for problem in problems)

    def _at_its_line(self, problem: Problem) -> Problem:
        where = problem.where
        if where.file == self.source.name and where.line:
            where = replace(where, line=self._line(where.line))
        return replace(problem, where=where, what=LINES_TOLD.sub(self._told_line, problem.what))

    def _told_line(self, found: re.Match[str]) -> str:
        """The number of another line that a problem's words tell."""
        return f"{found['before']}{self._line(int(found['line']))}"

    def _line(self, line: int) -> int:
        return max(line - self.above, 1)


def pasted(text: str) -> Pasted:
    """The pasted text as a list, a header row put above it if it has none, short rows filled up.

    A spreadsheet hands its cells on with tabs between; commas and semicolons are read as well.
    """
    text = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    source = Source(name=PASTED, content=text.encode("utf-8", "surrogatepass"))
    if HALF_A_LETTER.search(text) or _too_much(text):
        return Pasted(source=source)
    separator, told = separator_of(text, FRAMES.keys)
    lines = tuple(lines_in(told, line_starts(text), separator))
    if not lines:
        return Pasted(source=source)
    if _is_header(lines[0]):
        return Pasted(source=rewritten(source, _filled(lines, len(lines[0]), separator)))
    names = ORDER[: max(FEWEST, *(len(line) for line in lines))]
    start = lines[0][0].start
    header = Patch(start, start, separator.join(names) + "\n")
    return Pasted(source=rewritten(source, (header, *_filled(lines, len(names), separator))), above=1)


def _too_much(text: str) -> bool:
    """More than is read of any list; the reader will say so."""
    cells = sum(text.count(separator) for separator in SEPARATORS)
    return len(text) > LARGEST_LIST or text.count("\n") > MOST_ROWS or cells > MOST_CELLS_OF_TEXT


def _is_header(line: Line) -> bool:
    """Whether one cell at least is a column's name, be it with a unit behind it."""
    said = [cell_said(cell.words, Where(), cell.words) for cell in line]
    return any(FRAMES.key(cell) or with_unit(cell, FRAMES) for cell in said)


def _filled(lines: Sequence[Line], width: int, separator: str) -> Iterator[Patch]:
    """Blank cells behind rows that end too soon, as when blank cells at their ends were not copied."""
    yield from (longer(line, [""] * width, separator) for line in lines if len(line) < width)
