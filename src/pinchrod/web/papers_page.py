"""The page of a job's papers: how far the pack is, every paper in it, and what went out."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from urllib.parse import quote

from pinchrod.papers import Paper
from pinchrod.store import revision_at
from pinchrod.web.beside import Work
from pinchrod.web.floor import Floor
from pinchrod.web.in_force import plan_in_force
from pinchrod.web.known import Known
from pinchrod.web.papers_files import how_large, in_words, is_shown
from pinchrod.web.papers_sent import Sending, sendings
from pinchrod.web.planner import State
from pinchrod.web.timber_page import plan_left
from pinchrod.web.time_left import time_left
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.within import Within, within

BESIDE_DRAWINGS = 8  # papers of every pack; with a rack there is one more
TO_PRINT = "To print"
TO_SAVE = "For other programs"
DRAWINGS = "The frames, drawn at true size"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperRow:
    """One paper of the pack."""

    name: str
    words: str
    address: str
    size: str
    shown: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Papers of one kind."""

    title: str
    rows: tuple[PaperRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PapersPage:
    """A revision's papers."""

    within: Within
    newest: int
    state: State
    expected: int  # papers there will be
    left: str  # how long it may still take
    groups: tuple[Group, ...]
    count: int
    seen: str  # the mark of these very papers
    outdated: bool  # whether the plan has changed since they were made
    doubts: int
    sendings: tuple[Sending, ...]
    slips: tuple[Slip, ...] = ()
    note: str = ""
    unticked: frozenset[str] = frozenset()  # papers that are not to go out

    @property
    def old(self) -> bool:
        """Whether a newer revision was saved."""
        return self.within.number < self.newest


def papers_page(floor: Floor, known: Known, slips: tuple[Slip, ...] = ()) -> PapersPage:
    """The page of a revision; with what is not right about sending its papers out."""
    newest = revision_at(floor.store, known.name).number
    state, papers = floor.planner.state(known, Work.PACK), floor.planner.pack_of(known)
    expected = BESIDE_DRAWINGS + bool(known.job.rack) + 2 * len(known.rods.rods)
    return PapersPage(
        within=within(known.revision, "papers"),
        newest=newest,
        state=state,
        expected=expected,
        left=_left(known, state, expected),
        groups=tuple(_groups(known, papers)),
        count=len(papers),
        seen=mark_of(papers),
        outdated=is_outdated(floor, known),
        doubts=len(known.rods.doubts),
        sendings=sendings(floor.store, known.name, newest),
        slips=(*slips_of(state.problems), *slips),
    )


def _left(known: Known, state: State, expected: int) -> str:
    """How long it may still take: of the plan, as long as no paper is made; then of the papers."""
    if state.made:
        return time_left(state.made, expected, state.making)
    return plan_left(known, state)


def unticked(page: PapersPage, ticked: Collection[str]) -> frozenset[str]:
    """The papers on a page that were not ticked."""
    return frozenset(row.name for group in page.groups for row in group.rows if row.name not in ticked)


def is_outdated(floor: Floor, known: Known) -> bool:
    """Whether there are papers, but of another plan than the one in force: a stick gave way to a fault."""
    made_of = floor.planner.pack_plan_of(known)
    return made_of is not None and made_of is not plan_in_force(floor, known)


def mark_of(papers: Iterable[Paper]) -> str:
    """What tells these very papers from all others: none, where there are none."""
    told = "".join(f"{paper.name} {sha256(paper.content).hexdigest()} " for paper in papers)
    return sha256(told.encode()).hexdigest() if told else ""


def _groups(known: Known, papers: tuple[Paper, ...]) -> Iterator[Group]:
    for title in (TO_PRINT, TO_SAVE, DRAWINGS):
        rows = tuple(_row(known, paper) for paper in papers if _title(paper) == title)
        if rows:
            yield Group(title=title, rows=rows)


def _title(paper: Paper) -> str:
    if paper.name.startswith("drawings/"):
        return DRAWINGS
    return TO_PRINT if is_shown(paper.name) else TO_SAVE


def _row(known: Known, paper: Paper) -> PaperRow:
    return PaperRow(
        name=paper.name,
        words=in_words(paper.name),
        address=f"/jobs/{known.name}/papers/made/{known.number}/{quote(paper.name)}",
        size=how_large(paper),
        shown=is_shown(paper.name),
    )
