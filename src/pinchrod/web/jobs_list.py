"""A job as the list of jobs shows it: how far it is, what is next, whether its papers are outdated."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pinchrod.ground import NotYetRight
from pinchrod.store import STEPS, Deed, Entry, Revision, Standing, issued
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known

WIDE = 100  # of one step's part of the bar, in the bar's own measure
GAP = 4
TO_DO = {
    Deed.BROKEN_OUT: "to break out",
    Deed.PASSED: "to pass",
    Deed.MOULDED: "to mould",
    Deed.CUT: "to cut",
    Deed.NOTCHED: "to notch",
    Deed.SLOTTED: "to slot",
    Deed.GLUED: "to glue",
    Deed.CHECKED: "to check",
    Deed.DELIVERED: "to deliver",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone:
    """One step of all pieces: how many want it, how many had it, and its part of the bar."""

    word: str
    done: int
    of: int
    left: int
    filled: int

    @property
    def whole(self) -> bool:
        """Whether every piece that wants it had it."""
        return self.done == self.of


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFar:
    """How far a job is: counted from what was said of its pieces."""

    frames: int
    pieces: int
    steps: tuple[StepDone, ...]
    following: str
    spoiled: int
    long: int  # of the bar

    @property
    def begun(self) -> tuple[StepDone, ...]:
        """The steps of which anything is done."""
        return tuple(step for step in self.steps if step.done)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRow:
    """A job in the list."""

    revision: Revision
    customer: str = ""
    day: str = ""  # as the title block has it
    far: JobFar | None = None  # None: it cannot be set out any more
    papers: str = ""
    outdated: bool = False

    @property
    def address(self) -> str:
        """Where the job is."""
        return f"/jobs/{self.revision.job}"

    @property
    def saved(self) -> str:
        """When its newest revision was saved, as people read it."""
        return f"{self.revision.at[:16].replace('T', ' ')} UTC"


def row_of(floor: Floor, revision: Revision) -> JobRow:
    """The job's row; one that this program cannot set out is still there, and leads to its words."""
    papers, outdated = _papers(floor, revision)
    try:
        known = floor.job(revision.job, revision.number)
    except NotYetRight:
        return JobRow(revision=revision, papers=papers, outdated=outdated)
    day = known.job.issue.date
    return JobRow(
        revision=revision,
        customer=known.job.customer,
        day=day.isoformat() if day else "",
        far=far_of(known, floor.standings.of(revision.job)),
        papers=papers,
        outdated=outdated,
    )


def far_of(known: Known, standings: Mapping[str, Standing]) -> JobFar:
    """How far the pieces are that the revision wants."""
    entries = known.roll.entries
    done = {mark: {event.deed for event in standing.done} for mark, standing in standings.items()}
    steps = tuple(_steps(entries, done))
    spoiled = sum(entry.mark in standings and standings[entry.mark].spoiled is not None for entry in entries)
    return JobFar(
        frames=sum(frame.quantity for frame in known.job.frames),
        pieces=len(entries),
        steps=steps,
        following=_following(steps),
        spoiled=spoiled,
        long=len(steps) * (WIDE + GAP) - GAP,
    )


def _steps(entries: Iterable[Entry], done: Mapping[str, set[Deed]]) -> Iterable[StepDone]:
    """The steps that any piece wants, in their usual order, each beside the one before."""
    wanted = {step: [entry.mark for entry in entries if step in entry.steps] for step in STEPS}
    for place, (step, marks) in enumerate((step, marks) for step, marks in wanted.items() if marks):
        had = sum(step in done.get(mark, ()) for mark in marks)
        left = place * (WIDE + GAP)
        yield StepDone(word=str(step), done=had, of=len(marks), left=left, filled=had * WIDE // len(marks))


def _following(steps: Iterable[StepDone]) -> str:
    """What there is to do next: the first step that some piece still wants."""
    for step in steps:
        if not step.whole:
            left = step.of - step.done
            return f"{left:,} {'piece' if left == 1 else 'pieces'} {TO_DO[Deed(step.word)]}"
    return ""


def _papers(floor: Floor, revision: Revision) -> tuple[str, bool]:
    """Of which revision papers went out last, and whether it is an older one."""
    went = issued(floor.store, revision.job)
    if not went:
        return "No papers went out yet", False
    last = max(paper.revision for paper in went)
    if last == revision.number:
        return f"Papers of revision {last} went out", False
    return f"Papers are of revision {last}; the job is at {revision.number}", True
