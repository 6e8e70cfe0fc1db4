"""A job on one page before its papers go out: each part of it with the way to change it."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import NotYetRight, show
from pinchrod.job import Change, changes_between
from pinchrod.papers import facts, total_of
from pinchrod.setting_out import patterns
from pinchrod.store import issued, revision_at
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.within import Within, within

MOST_CHANGES = 30  # the others stand where revisions are compared
MANY = 12  # rows that are folded together
MEMBERS = (
    ("stile", "Stiles"),
    ("top_rail", "Top rail"),
    ("mid_rail", "Rails between"),
    ("bottom_rail", "Bottom rail"),
    ("muntin", "Muntins"),
)
Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of the job: what it comes to, line by line, and where it is changed."""

    title: str
    rows: Rows
    change: str
    change_words: str

    @property
    def many(self) -> bool:
        """Whether it is so much that it is folded together."""
        return len(self.rows) > MANY


@dataclass(frozen=True, slots=True, kw_only=True)
class Since:
    """What was changed since papers went out last."""

    words: str
    changes: tuple[Change, ...] = ()
    more: int = 0
    compare: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The papers that are to go out, by name, and what was said with them."""

    papers: tuple[str, ...]
    seen: str  # the mark of the pack that they are of
    note: str
    despite: tuple[str, ...]  # doubts that were shown


@dataclass(frozen=True, slots=True, kw_only=True)
class OverPage:
    """All of a job that is to go out, and the papers that were chosen."""

    within: Within
    newest: int
    parts: tuple[Part, ...]
    doubts: tuple[Slip, ...]
    since: Since
    chosen: Chosen
    slips: tuple[Slip, ...] = ()

    @property
    def old(self) -> bool:
        """Whether a newer revision was saved."""
        return self.within.number < self.newest


def over_page(floor: Floor, known: Known, chosen: Chosen) -> OverPage:
    """The job as it stands in the revision of which these papers are."""
    return OverPage(
        within=within(known.revision, "papers"),
        newest=revision_at(floor.store, known.name).number,
        parts=tuple(_parts(floor, known)),
        doubts=slips_of(known.rods.doubts),
        since=_since(floor, known),
        chosen=chosen,
    )


def _parts(floor: Floor, known: Known) -> Iterator[Part]:
    home = f"/jobs/{known.name}"
    yield Part(title="The job", rows=_job(known), change=f"{home}/words", change_words="Change the words")
    yield Part(
        title="Members, unless a frame says otherwise",
        rows=_members(known),
        change=f"{home}/words",
        change_words="Change the usual sizes",
    )
    yield Part(title="Frames", rows=_frames(known), change=f"{home}/frames", change_words="Change the frames")
    yield Part(
        title="Timber", rows=_timber(floor, known), change=f"{home}/timber", change_words="Change the timber"
    )
    if known.job.assumed:
        yield Part(
            title="Taken as usual, since nothing was said",
            rows=tuple((said, "") for said in known.job.assumed),
            change=f"{home}/words",
            change_words="Say it in the words",
        )


def _job(known: Known) -> Rows:
    job = known.job
    day = job.issue.date.isoformat() if job.issue.date else ""
    said = (("Name", job.name), ("Customer", job.customer), ("Dated", day))
    named = tuple((what, words or "not said") for what, words in said)
    return (*named, *facts(job, known.rods, patterns(known.rods), known.shop))


def _members(known: Known) -> Rows:
    return tuple((word, f"{show(getattr(known.usual, name))} mm") for name, word in MEMBERS)


def _frames(known: Known) -> Rows:
    return tuple(
        (
            f"{frame.id} ×{frame.quantity}" if frame.quantity > 1 else frame.id,
            f"{show(frame.width)} × {show(frame.height)} mm, {frame.phrase}",
        )
        for frame in known.job.frames
    )


def _timber(floor: Floor, known: Known) -> Rows:
    if not known.job.rack:
        return (("Rack", "none is entered: no paper says which board a member comes out of"),)
    rack = ("Boards on the rack", str(len(known.job.rack)))
    stands = floor.sticks.of(known)
    if stands is None:
        return (rack, ("Plan", "not made"))
    total = total_of(stands.breakout)
    sawn = ("Sawn from", f"{total.boards} boards, {total.sticks} sticks")
    short = ", ".join(stands.breakout.short) or "none"
    return (rack, sawn, ("Members without wood", short), ("Faults planned around", str(len(stands.found))))


def _since(floor: Floor, known: Known) -> Since:
    """Against the revision whose papers went out last."""
    went = issued(floor.store, known.name)
    last = went[-1].revision if went else 0
    if not last:
        return Since(words="Nothing of this job went out yet.")
    if last == known.number:
        return Since(words=f"Papers of this very revision, {last}, went out before.")
    compare = f"/jobs/{known.name}/words/compare?old={last}&new={known.number}"
    try:
        changes = changes_between(floor.job(known.name, last).job, known.job)
    except NotYetRight:
        words = f"Revision {last}, which went out last, cannot be made any more, and is not compared."
        return Since(words=words)
    return Since(
        words=f"Revision {last} went out last.",
        changes=changes[:MOST_CHANGES],
        more=len(changes) - len(changes[:MOST_CHANGES]),
        compare=compare,
    )
