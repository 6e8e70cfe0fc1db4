"""The job's frames side by side, as they will stand, all to one scale on one floor."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from pinchrod.ground import Mm, Problem, show
from pinchrod.papers import standing, write_svg
from pinchrod.setting_out import Rod
from pinchrod.store import Revision
from pinchrod.web.floor import Floor
from pinchrod.web.frames_form import slip_of
from pinchrod.web.jobs_away import undo_of_new
from pinchrod.web.jobs_saving import frame_address, undo_address, undo_words
from pinchrod.web.known import Known
from pinchrod.web.lengths import in_column
from pinchrod.web.templates import drawing
from pinchrod.web.trouble import Slip
from pinchrod.web.within import Within, within

TENTH = Mm("0.1")
MOST_AT_ONCE = 100  # frames on a page


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingFrame:
    """A frame as it stands among the others: its picture, and what the list says of it."""

    id: str
    address: str
    svg: Markup
    size: str
    width: str  # with as many decimals as all the others
    height: str
    phrase: str
    quantity: int
    doubts: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One of the pages on which a large job's frames stand."""

    address: str
    words: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LastSaved:
    """What was saved last, and how it is taken back for as long as nobody saves again."""

    words: str
    undo: str
    undo_words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FramesPage:
    """All frames of a job."""

    within: Within
    frames: tuple[StandingFrame, ...]
    said: int  # frames of the job, alike ones once
    altogether: int  # alike ones counted each
    pages: tuple[Leaf, ...]
    doubts: tuple[Slip, ...]  # of the whole job
    last: LastSaved | None = None  # None: work on a job of one revision has begun


def frames_page(floor: Floor, known: Known, first: int) -> FramesPage:
    """The frames of a revision in the order in which the job has them, from that one on."""
    doubts, rods = _by_frame(known.rods.doubts), known.rods.rods
    shown = rods[first : first + MOST_AT_ONCE]
    return FramesPage(
        within=within(known.revision, "frames"),
        frames=tuple(
            _standing(known, rod, sizes, len(doubts.get(rod.frame.id, ())))
            for rod, sizes in zip(shown, _sizes(shown), strict=True)
        ),
        said=len(rods),
        altogether=sum(frame.quantity for frame in known.job.frames),
        pages=tuple(_leaves(known, first)),
        doubts=tuple(slip_of(doubt) for doubt in doubts.get("", ())),
        last=_last(floor, known.revision),
    )


def _last(floor: Floor, revision: Revision) -> LastSaved | None:
    """What can be taken back: a job that is new, or was put away; else the newest revision."""
    note = f": {revision.note}" if revision.note else ""
    at = revision.at[:16].replace("T", " ")
    words = f"Revision {revision.number} was saved at {at} UTC by {revision.by}{note}."
    address, button = undo_of_new(floor, revision)
    if address:
        return LastSaved(words=words, undo=address, undo_words=button)
    if revision.number == 1:
        return None
    return LastSaved(words=words, undo=undo_address(revision), undo_words=undo_words(revision))


def _leaves(known: Known, first: int) -> Iterator[Leaf]:
    """The pages of a job that has more frames than stand on one."""
    rods = known.rods.rods
    for start in range(0, len(rods), MOST_AT_ONCE) if len(rods) > MOST_AT_ONCE else ():
        last = rods[min(start + MOST_AT_ONCE, len(rods)) - 1].frame.id
        address = f"/jobs/{known.name}/frames?from={start}"
        yield Leaf(address=address, words=f"{rods[start].frame.id} to {last}", here=start == first)


def _by_frame(problems: Iterable[Problem]) -> Mapping[str, list[Problem]]:
    """Problems by the id of the frame that they are told of."""
    found: dict[str, list[Problem]] = {}
    for problem in problems:
        found.setdefault(problem.where.name.partition(", ")[0], []).append(problem)
    return found


def _sizes(rods: Sequence[Rod]) -> Iterator[tuple[str, str]]:
    """Width and height of each frame, as they stand in columns."""
    widths = in_column((rod.frame.width for rod in rods), TENTH)
    heights = in_column((rod.frame.height for rod in rods), TENTH)
    return zip(widths, heights, strict=True)


def _standing(known: Known, rod: Rod, sizes: tuple[str, str], doubts: int) -> StandingFrame:
    frame = rod.frame
    width, height = sizes
    return StandingFrame(
        id=frame.id,
        address=frame_address(known.name, frame.id),
        svg=drawing(write_svg(standing(rod))),
        size=f"{show(frame.width)} × {show(frame.height)}",
        width=width,
        height=height,
        phrase=frame.phrase,
        quantity=frame.quantity,
        doubts=doubts,
    )
