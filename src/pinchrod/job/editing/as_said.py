"""Every frame of a job as it was said, key by key, whatever is wrong with it."""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Problem, Where
from pinchrod.job.job_frames import FRAMES
from pinchrod.job.joined import file_name, given
from pinchrod.job.reading import JOINED, job_said
from pinchrod.job.said import Number, Reading, Said, Table, gathered
from pinchrod.job.source import LISTS, Form, Source, form_of
from pinchrod.job.tables.csv_file import read_csv
from pinchrod.job.tables.grid import Grid, Row
from pinchrod.job.tables.header import with_unit
from pinchrod.job.tables.list_file import read_list
from pinchrod.job.tables.xlsx_file import read_xlsx

Words = tuple[tuple[str, str], ...]
"""Names and what is said under each, as it is typed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameWords:
    """A frame as it was said: every name that was given, with its words; no id if none can be told."""

    id: str
    words: Words
    where: Where  # as the frame's own, once it is read

    def word(self, key: str) -> str:
        """What is said under that name; nothing if it was left out."""
        return dict(self.words).get(key, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """A file that holds frames: the job's own, or its list. `faults` keep frames from being told apart."""

    source: Source
    form: Form
    frames: tuple[FrameWords, ...]
    faults: tuple[Problem, ...] = ()


def frames_as_said(main: Source, joined: tuple[Source, ...] = ()) -> tuple[FrameWords, ...]:
    """The frames of the job file, then those of its list, in the order in which the job has them.

    What is wrong in them is told by reading the job; here stands whatever can be told apart.
    """
    found, _ = gathered(holders(main, joined))
    return tuple(frame for holder in found for frame in holder.frames)


def frames_in(source: Source) -> tuple[FrameWords, ...]:
    """The frames of one list, as said."""
    return frames_as_said(source)


def holders(main: Source, joined: tuple[Source, ...]) -> Reading[tuple[Holder, ...]]:
    """The files that hold the job's frames; what is yielded keeps one of them from being found."""
    form = yield from form_of(main, tuple(Form))
    if form in LISTS:
        return (_list_holder(main, form),)
    said = None if form is None else (yield from job_said(main))
    if said is None:
        return ()
    own = Holder(source=main, form=Form.TOML, frames=tuple(_inline(said)))
    listed = yield from _list_of(said, joined)
    form = None if listed is None else (yield from form_of(listed, LISTS))
    return (own,) if listed is None or form is None else (own, _list_holder(listed, form))


def _list_of(said: Table, joined: tuple[Source, ...]) -> Reading[Source | None]:
    """The list that the job file joins, if it joins one that is there."""
    place = said.table("job").get("frames")
    name = None if place is None else (yield from file_name(place, "frames", JOINED["frames"]))
    return None if place is None or name is None else (yield from given(place, name, joined))


def _inline(said: Table) -> Iterator[FrameWords]:
    """The frames of the job file itself."""
    found = said.get("frame")
    places = found.value if found is not None and isinstance(found.value, tuple) else ()
    for place in places:
        if isinstance(place.value, Table):
            yield _as_said(place, place.value.said.items())


def _list_holder(source: Source, form: Form) -> Holder:
    """A list with its rows, and whatever stops it from being taken row by row."""
    grid, problems = gathered(read_xlsx(source) if form is Form.XLSX else read_csv(source, FRAMES.keys))
    if grid is None or not grid.rows or not is_header(grid.rows[0]):
        _, problems = gathered(read_list(source, FRAMES))
    faults = tuple(problem for problem in problems if problem.stops)
    return Holder(source=source, form=form, frames=tuple(_rows(grid)), faults=faults)


def _rows(grid: Grid | None) -> Iterator[FrameWords]:
    """Every row below a header that names a column, a total or a second header with them."""
    if grid is None or not grid.rows:
        return
    header, *rows = grid.rows
    keys = tuple(column_keys(header))
    if is_header(header):
        for row in rows:
            yield _as_said(row.first, _named(row, keys))


def is_header(row: Row) -> bool:
    """Whether a row names at least one of the columns that are read."""
    return any(FRAMES.key(cell) for cell in row.cells)


def column_keys(header: Row) -> Iterator[str]:
    """The name that each column stands for: ours, or its own where we read none; nothing if it has none.

    Of two columns of one name the first counts, as in reading.
    """
    taken = {""}
    for cell in header.cells:
        unit = with_unit(cell, FRAMES)
        key = FRAMES.key(cell) or (unit.key if unit else "") or (cell.shown if cell else "")
        yield "" if key in taken else key
        taken.add(key)


def cell_words(key: str, said: Said | None) -> str:
    """A cell's words as the joiner would type them: a size by its digits, however they are shown."""
    if said is None:
        return ""
    if isinstance(said.value, Number) and key not in FRAMES.words:
        return said.value.text
    return said.shown


def _named(row: Row, keys: tuple[str, ...]) -> Iterator[tuple[str, Said]]:
    for key, cell in zip(keys, row.cells, strict=False):
        if key and cell is not None:
            yield key, cell


def _as_said(place: Said, said: Iterable[tuple[str, Said]]) -> FrameWords:
    """The frame of these values, under the id that reading would give it."""
    values = dict(said)
    spelled = unicodedata.normalize("NFC", cell_words("id", values.get("id")).strip())
    words = tuple((key, _typed(key, value)) for key, value in values.items())
    return FrameWords(id=spelled, words=words, where=values.get("id", place).at.called(spelled))


def _typed(key: str, said: Said) -> str:
    """The words under a name: a number of a job file as it was typed there, of a list by its digits."""
    return cell_words(key, said) if said.at.cell else said.shown
