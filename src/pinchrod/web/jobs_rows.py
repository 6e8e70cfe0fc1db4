"""Rows pasted from a spreadsheet, looked at before they are saved: each with what is wrong or doubtful."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import (
    Files,
    FrameWords,
    Pasted,
    Words,
    frames_in,
    pasted,
    read_what_stands,
    with_frames,
)
from pinchrod.plan import check
from pinchrod.store import JobFiles
from pinchrod.web.frames_form import LABELS
from pinchrod.web.trouble import Slip, slips_of

SHOWN = ("id", "width", "height", "layout", "quantity")
FIELD = "rows"
NOTHING = "nothing is pasted yet; copy the rows in the spreadsheet, with their header, and paste them here"


@dataclass(frozen=True, slots=True, kw_only=True)
class PastedRow:
    """A row as it was understood, cell by cell, and what is said of it."""

    line: int
    cells: tuple[str, ...]
    more: str
    slips: tuple[Slip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastedRows:
    """The rows that were pasted; `files` is the job with them, if nothing keeps it from being saved."""

    rows: tuple[PastedRow, ...]
    slips: tuple[Slip, ...]  # of no row
    files: JobFiles | None

    @property
    def faults(self) -> tuple[Slip, ...]:
        """All that has to be mended, row by row, each with its line."""
        of_rows = (slip for row in self.rows for slip in row.slips)
        return tuple(slip for slip in (*self.slips, *of_rows) if not slip.doubt)


def rows_into(files: JobFiles, text: str) -> PastedRows:
    """The rows of a text, and the job with them behind its last frame: all of them, or none."""
    if not text.strip():
        return PastedRows(rows=(), slips=(Slip(words=NOTHING, field=FIELD),), files=None)
    found = pasted(text)
    frames = frames_in(found.source)
    _, _, problems = read_what_stands(found.source)
    if any(problem.stops for problem in problems):
        return _told(found, frames, found.told(problems), None)
    try:
        new = _with_rows(files, frames)
        doubts = check(*new.read()).doubts
    except NotYetRight as trouble:
        return _told(
            found, frames, found.told([_at_its_row(each, frames) for each in trouble.problems]), None
        )
    return _told(found, frames, found.told([_at_its_row(each, frames) for each in doubts]), new)


def _with_rows(files: JobFiles, frames: Iterable[FrameWords]) -> JobFiles:
    added: Files = with_frames(files.main, files.joined, [frame.words for frame in frames])
    return replace(files, main=added.main, joined=added.joined)


def _at_its_row(problem: Problem, frames: Iterable[FrameWords]) -> Problem:
    """A problem of a frame that was pasted, at the line that says the frame; others where they are."""
    owner = problem.where.name.partition(", ")[0]
    found = next((frame for frame in frames if frame.id and frame.id == owner), None)
    if found is None:
        return problem
    return replace(problem, where=found.where.called(problem.where.name))


def _told(
    found: Pasted, frames: Iterable[FrameWords], problems: tuple[Problem, ...], files: JobFiles | None
) -> PastedRows:
    """Every row with the problems of its line; those of no row by themselves."""
    lines = {frame.where.line - found.above for frame in frames}
    of_rows = [problem for problem in problems if problem.where.line in lines]
    rest = tuple(problem for problem in problems if problem not in of_rows)
    rows = tuple(_row(frame, frame.where.line - found.above, of_rows) for frame in frames)
    return PastedRows(rows=rows, slips=slips_of(rest, FIELD), files=files)


def _row(frame: FrameWords, line: int, problems: Iterable[Problem]) -> PastedRow:
    said: Words = frame.words
    more = (f"{LABELS.get(key, key).lower()} {word}" for key, word in said if key not in SHOWN)
    slips = slips_of((problem for problem in problems if problem.where.line == line), FIELD)
    return PastedRow(
        line=line,
        cells=tuple(frame.word(key) for key in SHOWN),
        more=", ".join(more),
        slips=tuple(replace(slip, place=f"line {line}") for slip in slips),
    )
