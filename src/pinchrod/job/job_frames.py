"""All frames of a job: those in its job file, then those of the list that it joins."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Problem, Where
from pinchrod.job.fields import tables_in
from pinchrod.job.frames import FRAME_KEYS, NEEDED, Members, read_frame, read_id
from pinchrod.job.job_file import KNOWN
from pinchrod.job.keys import unknown_names
from pinchrod.job.limits import FRAME_SIZES, MOST_FRAMES, MOST_PIECES
from pinchrod.job.names import check_unlike
from pinchrod.job.records import Frame, Group, Layout
from pinchrod.job.said import Reading, Said, Table, gathered
from pinchrod.job.source import Source
from pinchrod.job.tables.header import Sort
from pinchrod.job.tables.list_file import Rows, read_list

FRAMES = Sort(
    one="frame",
    keys=FRAME_KEYS,
    needed=NEEDED,
    words=("id", "layout"),
    lengths=tuple(FRAME_SIZES),
    code="no-frames",
)


def read_frames(
    said: Table, source: Source, joined: Source | None, usual: Members
) -> Reading[tuple[Frame, ...]]:
    """The frames with nothing wrong. A source that is itself a list counts as one that is joined."""
    listed = source if not said.said and source.ending != ".toml" else joined
    inline = yield from _inline(said)
    rows = (*inline, *((yield from read_list(listed, FRAMES)) if listed is not None else ()))
    if len(rows) > MOST_FRAMES:
        what = f"the job has {len(rows)} frames; at most {MOST_FRAMES} are read"
        yield Problem(where=source.whole, code="frames-many", what=what, mend="split the job")
        return ()
    if listed is None and said.get("frame") is None and said.table("job").get("frames") is None:
        mend = 'begin each frame with [[frame]], or name a list: frames = "frames.xlsx" in [job]'
        yield Problem(where=source.whole, code="no-frames", what="the job has no frames", mend=mend)
    frames = []
    for place, row in rows:
        frame = yield from _faultless(place, row, usual)
        frames += [frame] if frame is not None else []
    alike = tuple(check_unlike(tuple(_ids(rows))))
    yield from alike
    taken = {problem.where for problem in alike if problem.stops}
    good = tuple(frame for frame in frames if frame.where not in taken)
    problem = _too_many_pieces(good, source.whole)
    if problem:
        yield problem
    return () if problem else good


def _faultless(place: Said, row: Table, usual: Members) -> Reading[Frame | None]:
    """The frame, if nothing at all is wrong with what is said of it."""
    frame, problems = gathered(read_frame(place, row, usual))
    _, unknown = gathered(unknown_names(row, "[frame]", KNOWN))
    yield from (*unknown, *problems)
    return None if any(problem.stops for problem in (*unknown, *problems)) else frame


def _inline(said: Table) -> Reading[Rows]:
    """The frames of the job file itself."""
    found = said.get("frame")
    return () if found is None else (yield from tables_in(found, "frame"))


def _ids(rows: Rows) -> Iterator[tuple[str, Where]]:
    """Every id that can be one, with its place, whatever else is wrong with the frame."""
    for place, row in rows:
        name, _ = gathered(read_id(place, row))
        if name is not None:
            yield name, row.said["id"].at.called(name)


def _too_many_pieces(frames: Sequence[Frame], where: Where) -> Problem | None:
    """What is said of more members than can be planned."""
    pieces = sum(frame.quantity * (3 + bool(frame.bottom_rail) + _dividers(frame.layout)) for frame in frames)
    if pieces <= MOST_PIECES:
        return None
    what = f"the job has {pieces} members; at most {MOST_PIECES} are planned"
    return Problem(where=where, code="pieces-many", what=what, mend="split the job")


def _dividers(layout: Layout) -> int:
    """The rails and muntins between a frame's openings."""
    if not isinstance(layout, Group):
        return 0
    return len(layout.dividers) + sum(_dividers(part) for part in layout.parts)
