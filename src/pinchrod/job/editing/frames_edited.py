"""A job's frames said otherwise: one changed, some added, one taken out, one put elsewhere.

Every edit is judged by reading the files again; one that does not pass is not made.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.job.editing.as_said import FrameWords, Holder, Words, holders
from pinchrod.job.editing.files import Files
from pinchrod.job.editing.judge import judged
from pinchrod.job.editing.list_edits import (
    list_changed,
    list_put,
    list_rows,
    list_taken,
    list_without,
    with_columns,
)
from pinchrod.job.editing.toml_edits import (
    toml_changed,
    toml_frames,
    toml_put,
    toml_taken,
    toml_without,
    with_list_named,
)
from pinchrod.job.editing.wanted import wanted_words
from pinchrod.job.editing.workbook_to_list import turned_to_list
from pinchrod.job.reading import joined_files
from pinchrod.job.said import gathered
from pinchrod.job.source import Form, Source

Which: TypeAlias = "str | Where"
"""A frame by its id, or by its place where two have one id or one has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place among the frames: before which one, from 0, of which of the files that hold them."""

    held: tuple[Holder, ...]
    file: int
    at: int

    @property
    def holder(self) -> Holder:
        """The file."""
        return self.held[self.file]

    @property
    def frame(self) -> FrameWords:
        """The frame that stands there."""
        return self.holder.frames[self.at]

    @property
    def among_all(self) -> int:
        """The same place counted through all files."""
        return sum(len(holder.frames) for holder in self.held[: self.file]) + self.at

    @property
    def said(self) -> list[Words]:
        """What all frames of all files say."""
        return [frame.words for holder in self.held for frame in holder.frames]


def with_frame(main: Source, joined: tuple[Source, ...], which: Which, words: Words) -> Files:
    """The files with that frame saying these words, and nothing that is not among them.

    Words left blank are as if they were not given; the id stays unless another is given.
    """
    spot = _spot(main, joined, which)
    wanted = wanted_words(words, spot.frame.words, spot.frame.where)
    before = Files(main=main, joined=joined)
    if dict(wanted) == dict(spot.frame.words):
        return before
    files, source = _open(before, spot.holder)
    change = list_changed if _is_list(source) else toml_changed
    said = spot.said
    said[spot.among_all] = wanted
    new = change(source, spot.at, spot.frame.words, wanted)
    return judged(before, files.with_source(source, new), said)


def with_frames(main: Source, joined: tuple[Source, ...], new: Sequence[Words], after: Which = "") -> Files:
    """The files with further frames behind that one, in its file; without one, behind the last."""
    before = Files(main=main, joined=joined)
    spot = _behind(_spot(main, joined, after)) if after else _end(main, joined)
    rows = [wanted_words(words, (), spot.holder.source.whole) for words in new]
    if not rows:
        return before
    files, source = _open(before, spot.holder)
    said = spot.said
    said[spot.among_all : spot.among_all] = rows
    return judged(before, files.with_source(source, _with_new(source, spot.at, rows)), said)


def without_frame(main: Source, joined: tuple[Source, ...], which: Which) -> Files:
    """The files without that frame and the remarks that stand in it or right above it."""
    spot = _spot(main, joined, which)
    before = Files(main=main, joined=joined)
    files, source = _open(before, spot.holder)
    said = spot.said
    del said[spot.among_all]
    return judged(before, files.with_source(source, _without(source, spot.at)), said)


def moved(main: Source, joined: tuple[Source, ...], which: Which, before: Which = "") -> Files:
    """The files with that frame standing before another, in that one's file; without one, behind the last.

    Within a file it takes its remarks along.
    """
    given = Files(main=main, joined=joined)
    spot = _spot(main, joined, which)
    to = _spot(main, joined, before) if before else _end(main, joined)
    said = spot.said
    said.insert(to.among_all - (spot.among_all < to.among_all), said.pop(spot.among_all))
    files, source = _open(given, spot.holder)
    if spot.file == to.file:
        return judged(given, files.with_source(source, _moved_inside(source, spot.at, to.at)), said)
    files = files.with_source(source, _without(source, spot.at))
    held, _ = gathered(holders(files.main, files.joined))
    files, target = _open(files, held[to.file])
    return judged(given, files.with_source(target, _with_new(target, to.at, [spot.frame.words])), said)


def _is_list(source: Source) -> bool:
    return source.ending == f".{Form.CSV}"


def _with_new(source: Source, at: int, rows: Sequence[Words]) -> Source:
    if _is_list(source):
        source = with_columns(source, (key for words in rows for key, _ in words))
        return list_put(source, at, list_rows(source, rows))
    return toml_put(source, at, toml_frames(source, rows))


def _without(source: Source, at: int) -> Source:
    return list_without(source, at) if _is_list(source) else toml_without(source, at)


def _moved_inside(source: Source, at: int, to: int) -> Source:
    """The file with a frame put before another of the same file, as it is written."""
    put, taken = (list_put, list_taken) if _is_list(source) else (toml_put, toml_taken)
    return put(_without(source, at), to - (at < to), [taken(source, at)])


def _spot(main: Source, joined: tuple[Source, ...], which: Which) -> Spot:
    """Where the frame stands; NotYetRight if none is called so, or more than one."""
    held, problems = gathered(holders(main, joined))
    spots = [
        Spot(held=held, file=file, at=at)
        for file, holder in enumerate(held)
        for at, frame in enumerate(holder.frames)
        if which in (frame.id, frame.where) and which
    ]
    if len(spots) == 1:
        return _sound(spots[0])
    faults = (*problems, *(fault for holder in held for fault in holder.faults))
    raise NotYetRight([_several(spots)] if spots else faults or [_none(main, which)])


def _end(main: Source, joined: tuple[Source, ...]) -> Spot:
    """Behind the last frame of all; in the job's own file if there is none yet."""
    held, problems = gathered(holders(main, joined))
    if not held:
        raise NotYetRight(problems)
    file = max((file for file, holder in enumerate(held) if holder.frames), default=0)
    return _sound(Spot(held=held, file=file, at=len(held[file].frames)))


def _behind(spot: Spot) -> Spot:
    return replace(spot, at=spot.at + 1)


def _sound(spot: Spot) -> Spot:
    """The spot, if nothing keeps its file from being edited."""
    if spot.holder.faults:
        raise NotYetRight(spot.holder.faults)
    return spot


def _none(main: Source, which: Which) -> Problem:
    called = f"called {quoted(which)}" if isinstance(which, str) else f"at {which}"
    mend = "look at the job as it stands now: someone may have renamed it or taken it out"
    return Problem(where=main.whole, code="no-such-frame", what=f"the job has no frame {called}", mend=mend)


def _several(spots: Sequence[Spot]) -> Problem:
    first, second = spots[0].frame, spots[1].frame
    what = f"the id {quoted(second.id)} stands already at {first.where}"
    return Problem(where=second.where, code="id-twice", what=what, mend="give each frame an id of its own")


def _open(files: Files, holder: Holder) -> tuple[Files, Source]:
    """The files and the one to edit, a workbook having become a list."""
    if holder.form is not Form.XLSX:
        return files, holder.source
    old, main = holder.source, files.main
    name = _free_name(files, old)
    turned = turned_to_list(old, name)
    if old != main:
        main = with_list_named(main, name)
    files = replace(files, main=main, notes=(*files.notes, *turned.notes))
    return files.with_source(old, turned.source), turned.source


def _free_name(files: Files, workbook: Source) -> str:
    """The workbook's name with the ending of a list, and a number if a file is called so already."""
    taken = {*joined_files(files.main), *(source.name for source in files.joined)}
    stem = workbook.name[: -len(workbook.ending)]
    names = [f"{stem}.csv", *(f"{stem}-{number}.csv" for number in range(2, len(taken) + 3))]
    return next(name for name in names if name not in taken)
