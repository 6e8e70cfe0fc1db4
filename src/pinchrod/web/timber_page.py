"""The timber of a job on one page: what is planned and how near that is to the least, and every board."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm, Problem, show, show_fixed
from pinchrod.job import Board, by_volume
from pinchrod.papers import (
    bound_words,
    by_eye_words,
    facts_words,
    fault_words,
    figure_rows,
    size_words,
    total_of,
)
from pinchrod.timber import question_of, tries_in
from pinchrod.web.beside import Work
from pinchrod.web.known import Known
from pinchrod.web.lengths import in_column
from pinchrod.web.planner import State
from pinchrod.web.sticks import InForce
from pinchrod.web.timber_done import done_sticks
from pinchrod.web.timber_drawn import Picture, Rack, board_address, rack_of_page, stick_address
from pinchrod.web.time_left import time_left
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

MOST_LEFT = 100  # boards left on the rack that are shown at once
CENT = Mm("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class StickShown:
    """A stick as a way to its page."""

    name: str
    address: str
    members: str
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardShown:
    """A board with its pictures, for small screens first, and what is to be known of it."""

    name: str
    address: str
    size: str
    facts: str
    faults: str
    alt: str
    pictures: tuple[Picture, ...]
    sticks: tuple[StickShown, ...] = ()
    doubts: tuple[Slip, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Planning:
    """How far planning is, and what came of it."""

    home: str
    state: State
    percent: int
    left: str  # how long it may still take
    figures: tuple[tuple[str, str, str], ...] = ()
    bound: str = ""
    by_eye: str = ""
    short: tuple[str, ...] = ()
    problems: tuple[Slip, ...] = ()
    faults: int = 0  # found since and planned around
    strays: int = 0  # found in another plan of this revision
    dearer: str = ""
    stopped_early: bool = False

    @property
    def planned(self) -> bool:
        """Whether there is a plan."""
        return bool(self.figures)


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """The boards: those taken in the order in which they are ripped, and those left on the rack."""

    home: str
    seen: str
    taken: tuple[BoardShown, ...]
    left: tuple[BoardShown, ...]
    left_altogether: int
    offcuts: tuple[tuple[str, str, str, str, str], ...]  # name, length, width, thickness, faults

    @property
    def more(self) -> int:
        """How many are left on the rack and not shown."""
        return self.left_altogether - len(self.left)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberPage:
    """The whole page; a job without a rack has neither boards nor a plan."""

    within: Within
    planning: Planning | None
    boards: Boards | None
    doubts: tuple[Slip, ...]


def timber_page(visit: Visit, known: Known) -> TimberPage:
    """The page of a revision."""
    if not known.job.rack:
        return TimberPage(within=within(known.revision, "timber"), planning=None, boards=None, doubts=())
    names = {board.name for board in known.job.rack}
    whole = (doubt for doubt in _of_rack(known) if doubt.where.name not in names)
    return TimberPage(
        within=within(known.revision, "timber"),
        planning=planning_of(visit, known),
        boards=boards_of(visit, known),
        doubts=slips_of(whole),
    )


def planning_of(visit: Visit, known: Known) -> Planning:
    """How far planning is, and the figures of the plan in force."""
    state = visit.floor.planner.state(known, Work.PLAN)
    stands = visit.floor.sticks.of(known)
    most = most_ways(known) if state.running else 0
    planning = Planning(
        home=f"/jobs/{known.name}/timber",
        state=state,
        percent=min(99, 100 * state.tried // most) if most else 0,
        left=time_left(state.tried, most, state.seconds),
        problems=slips_of(state.problems),
    )
    return planning if stands is None else _planned(visit, known, planning, stands)


def plan_left(known: Known, state: State) -> str:
    """How long planning may still take; nothing while nothing was tried."""
    return time_left(state.tried, most_ways(known), state.seconds) if state.tried else ""


def most_ways(known: Known) -> int:
    """How many ways of sawing are looked at, at most; 0 where nothing is sawn from a rack."""
    return tries_in(question_of(known.job, known.shop, known.rods)) if known.job.rack else 0


def _planned(visit: Visit, known: Known, planning: Planning, stands: InForce) -> Planning:
    sawn = visit.floor.sticks.sawn(known)
    assert sawn is not None  # noqa: S101 -- sticks stand
    priced = not by_volume(known.job.rack)
    plan, eye = total_of(stands.breakout), total_of(visit.floor.sticks.by_eye(known))
    return Planning(
        home=planning.home,
        state=planning.state,
        percent=planning.percent,
        left=planning.left,
        figures=tuple(figure_rows(plan, eye, priced=priced)),
        bound=bound_words(sawn, priced=priced),
        by_eye=by_eye_words(plan, eye, priced=priced),
        short=stands.breakout.short,
        faults=len(stands.found),
        strays=len(stands.strays),
        dearer=show_fixed(stands.dearer, CENT) if stands.dearer else "",
        stopped_early=stands.breakout.stopped,
    )


def boards_of(visit: Visit, known: Known) -> Boards:
    """Every board, taken or left."""
    rack = rack_of_page(visit, known)
    done = done_sticks(visit.floor, known)
    doubts = _of_rack(known)
    taken = tuple(each.board for each in rack.sawn.boards)
    left = tuple(board for board in rack.sawn.question.boards if board not in taken)
    shown = left if visit.said("left") == "all" else left[:MOST_LEFT]
    return Boards(
        home=f"/jobs/{known.name}/timber",
        seen=rack.seen,
        taken=tuple(_shown(rack, board, doubts, done) for board in taken),
        left=tuple(_shown(rack, board, doubts, done) for board in shown),
        left_altogether=len(left),
        offcuts=tuple(_offcuts(rack)),
    )


def board_shown(visit: Visit, known: Known, rack: Rack, board: Board) -> BoardShown:
    """One board."""
    return _shown(rack, board, _of_rack(known), done_sticks(visit.floor, known))


def _shown(rack: Rack, board: Board, doubts: Iterable[Problem], done: frozenset[str]) -> BoardShown:
    sawn = rack.on_rack(board).sawn
    size = size_words(board, rack.step)
    faults = "; ".join(fault_words(fault, rack.step) for fault in board.faults)
    sticks = sawn.sticks if sawn else ()
    out_of_it = (
        f"{len(sticks)} sticks: {', '.join(one.name for one in sticks)}"
        if sticks
        else "nothing is sawn from it"
    )
    return BoardShown(
        name=board.name,
        address=board_address(rack.job, board.name),
        size=size,
        facts=facts_words(sawn, rack.sawn, rack.step) if sawn else _own_facts(board, rack),
        faults=faults,
        alt=f"Board {board.name}, {size}: {out_of_it}",
        pictures=tuple(rack.pictures(board)),
        sticks=tuple(
            StickShown(
                name=one.name,
                address=stick_address(rack.job, one.name),
                members=", ".join(one.members),
                done=one.name in done,
            )
            for one in sticks
        ),
        doubts=slips_of(doubt for doubt in doubts if doubt.where.name == board.name),
    )


def _own_facts(board: Board, rack: Rack) -> str:
    """How bent a board is that is not taken, and what it costs."""
    bent = f"bow {show(board.bow, rack.step)} · spring {show(board.spring, rack.step)}"
    priced = not by_volume(rack.sawn.question.boards)
    return f"{bent} · costs {show_fixed(board.price, CENT)}" if priced else bent


def _offcuts(rack: Rack) -> Iterator[tuple[str, str, str, str, str]]:
    boards = tuple(offcut.board for offcut in rack.sawn.offcuts)
    columns = (
        in_column((getattr(board, side) for board in boards), rack.step)
        for side in ("length", "width", "thickness")
    )
    for board, length, width, thickness in zip(boards, *columns, strict=True):
        faults = "; ".join(fault_words(fault, rack.step) for fault in board.faults)
        yield board.name, length, width, thickness, faults or "none"


def _of_rack(known: Known) -> tuple[Problem, ...]:
    """What is doubtful in the list of the rack."""
    files = {board.where.file for board in known.job.rack}
    return tuple(
        doubt for doubt in known.rods.doubts if doubt.where.file in files and doubt.code != "no-wood"
    )
