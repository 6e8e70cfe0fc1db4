"""Whether an edit did what was wanted and nothing else, seen by reading the files again."""

import tomllib
from collections.abc import Sequence

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job.editing.as_said import Words, holders
from pinchrod.job.editing.files import Files
from pinchrod.job.said import gathered
from pinchrod.job.source import Form, Source
from pinchrod.job.words import words_of

TOO_MUCH = (
    "file-too-large",
    "file-too-long",
    "rows-many",
    "cells-many",
    "columns-many",
)  # an edit's own faults


def judged(before: Files, after: Files, wanted: Sequence[Words]) -> Files:
    """The edited files, if their frames say just what was wanted and the job file all else as before.

    NotYetRight if not: a way of writing frames that we cannot edit is left to a text editor.
    """
    found, problems = gathered(holders(after.main, after.joined))
    said = [dict(frame.words) for holder in found for frame in holder.frames]
    if said == [dict(words) for words in wanted] and _rest(before.main) == _rest(after.main):
        return after
    faults = (*problems, *(fault for holder in found for fault in holder.faults))
    raise NotYetRight([fault for fault in faults if fault.code in TOO_MUCH] or [_not_edited(before)])


def _rest(source: Source) -> object:
    """All that a job file says but its frames and where its list is; nothing of a list."""
    text, _ = gathered(words_of(source))
    if source.ending != f".{Form.TOML}" or text is None:
        return None
    try:
        said = tomllib.loads(text, parse_float=str)
    except tomllib.TOMLDecodeError as trouble:
        return str(trouble)
    job = said.get("job")
    named = {key: value for key, value in job.items() if key != "frames"} if isinstance(job, dict) else job
    return {key: value for key, value in said.items() if key != "frame"} | {"job": named}


def _not_edited(files: Files) -> Problem:
    what = "the frames are written in a way that no page can change"
    mend = (
        "begin each frame with [[frame]] and put each name on a line of its own, or change the file by hand"
    )
    return Problem(where=files.main.whole, code="frames-by-hand", what=what, mend=mend)
