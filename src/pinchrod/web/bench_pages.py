"""The bench: a field to scan into, and the frames by what can be done with them now."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import quote

from pinchrod.store import SHAPING, Deed, Standing
from pinchrod.web.bench_frames import FrameStands, Stage, frames_stand
from pinchrod.web.known import Known
from pinchrod.web.scans_touches import Touch
from pinchrod.web.within import Within, within

NAMED = 3  # so many missing pieces are named in a row
EMPTY = {
    Stage.GLUE: "No frame has all its pieces ready. Scan pieces as they come from the machines.",
    Stage.CHECK: "No frame waits to be taped: frames come here when they are glued.",
    Stage.DELIVER: "No frame waits to go out: frames come here when their diagonals are taped.",
    Stage.WAITING: "No frame waits for pieces.",
    Stage.GONE: "Nothing went out yet.",
}
SIGNS = {Stage.GLUE: "●", Stage.CHECK: "◆", Stage.DELIVER: "▶", Stage.WAITING: "◌", Stage.GONE: "✓"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a scan can say of its piece; nothing: it shows it."""

    deed: str
    words: str


CHOICES = (
    Choice(deed="", words="shows the piece"),
    *(Choice(deed=str(deed), words=f"says it is {deed}") for deed in SHAPING),
    Choice(deed=str(Deed.GLUED), words="says its frame is glued"),
    Choice(deed=str(Deed.DELIVERED), words="says its frame is delivered"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """The field to scan into, what a scan says there, and what came of the last one if it was refused."""

    job: str = ""  # only pieces of this job; empty: of any
    back: str = "/bench"
    code: str = ""
    deed: str = ""
    refused: str = ""  # why, in words
    asks: bool = False  # whether it may go on all the same
    again: tuple[tuple[str, str], ...] = ()  # what is sent then
    choices: tuple[Choice, ...] = CHOICES

    @property
    def says(self) -> str:
        """What a scan does, as chosen."""
        return next((choice.words for choice in self.choices if choice.deed == self.deed), CHOICES[0].words)


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameRow:
    """A frame in a list."""

    frame: str
    job_name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The frames with which the same can be done."""

    title: str
    sign: str
    rows: tuple[FrameRow, ...]
    empty: str
    folded: bool  # long lists that nothing can be done about


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPage:
    """The bench, of one job or of all."""

    within: Within | None
    box: Box
    groups: tuple[Group, ...]
    undo: Touch | None
    no_job: bool


def bench_page(
    jobs: Iterable[tuple[Known, Mapping[str, Standing]]], box: Box, undo: Touch | None
) -> BenchPage:
    """The page: of one job if its name is in the box."""
    found = tuple(jobs)
    rows: dict[Stage, list[FrameRow]] = {stage: [] for stage in Stage}
    for known, standings in found:
        for stands in frames_stand(known.roll, standings):
            rows[stands.stage].append(_row(known, stands))
    return BenchPage(
        within=within(found[0][0].revision, "bench") if box.job else None,
        box=box,
        groups=tuple(_groups(rows)),
        undo=undo,
        no_job=not found,
    )


def _groups(rows: Mapping[Stage, list[FrameRow]]) -> Iterator[Group]:
    for stage, found in rows.items():
        if found or stage is not Stage.GONE:
            yield Group(
                title=str(stage).capitalize(),
                sign=SIGNS[stage],
                rows=tuple(found),
                empty=EMPTY[stage],
                folded=stage in (Stage.WAITING, Stage.GONE),
            )


def _row(known: Known, stands: FrameStands) -> FrameRow:
    return FrameRow(
        frame=stands.frame,
        job_name=known.revision.name,
        address=frame_address(known.name, stands.frame),
        words=_words(stands),
    )


def frame_address(job: str, frame: str) -> str:
    """Where a frame of a job is shown at the bench."""
    return f"/jobs/{job}/bench/frames/{quote(frame)}"


def _words(stands: FrameStands) -> str:
    if not stands.missing:
        return f"{stands.pieces} pieces"
    named = ", ".join(f"{each.piece} {each.next}" for each in stands.missing[:NAMED])
    more = f" and {len(stands.missing) - NAMED} more" if len(stands.missing) > NAMED else ""
    return f"{stands.ready} of {stands.pieces} ready; missing {named}{more}"
