"""The order of work as a page shows it: every step, how far it is, and where to go on."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, show
from pinchrod.machining import WHO_DECIDES, Step
from pinchrod.papers import machine_words
from pinchrod.plan import Plan
from pinchrod.store import Entry, Gone, Roll, Standing, Turn, gone, is_through, turns_of
from pinchrod.web.known import Known
from pinchrod.web.planner import State
from pinchrod.web.scans_touches import Touch
from pinchrod.web.timber_page import plan_left
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.within import Within, within

SIGNS = {"not begun": ("○", "past"), "under way": ("◐", "now"), "all through": ("●", "good")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A step, or a setting of one, with how far it is."""

    number: int
    title: str
    aside: str
    address: str
    far: int
    of: int
    unit: str = ""

    @property
    def state(self) -> str:
        """In a word."""
        if self.of and self.far == self.of:
            return "all through"
        return "under way" if self.far else "not begun"

    @property
    def sign(self) -> str:
        """In a shape."""
        return SIGNS[self.state][0]

    @property
    def kind(self) -> str:
        """In a colour."""
        return SIGNS[self.state][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsPage:
    """The order of work."""

    within: Within
    rows: tuple[Row, ...]
    next: Row | None  # the first that is not all through
    undo: Touch | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Once:
    """A thing that is set once for the whole step."""

    of: str
    to: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPage:
    """One step, before its first setting."""

    within: Within
    number: int
    of: int
    title: str
    machine: str
    why: str
    words: tuple[str, ...]
    cautions: tuple[str, ...]
    decides: str
    once: tuple[Once, ...]
    rows: tuple[Row, ...]
    next: Row | None
    back: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanningPage:
    """How far the plan is, while there is none."""

    within: Within
    state: State
    slips: tuple[Slip, ...]
    has_rack: bool
    left: str  # how long it may still take


def steps_page(known: Known, plan: Plan, standings: Mapping[str, Standing], undo: Touch | None) -> StepsPage:
    """Every step with the number of its settings that all has gone through."""
    by_step = defaultdict(list)
    for turn in turns_of(plan.machining):
        by_step[turn.step].append(turn)
    far, entries = far_of(standings), entries_of(known.roll)
    rows = tuple(
        _step_row(f"/jobs/{known.name}/machines/{number}", number, step, by_step[number], (entries, far))
        for number, step in enumerate(plan.machining.steps, start=1)
    )
    waiting = (row for row in rows if row.of and row.state != "all through")
    return StepsPage(
        within=within(known.revision, "machines"), rows=rows, next=next(waiting, None), undo=undo
    )


def far_of(standings: Mapping[str, Standing]) -> Mapping[str, Gone]:
    """How far each piece has come of which anything was said."""
    return {piece: gone(standing) for piece, standing in standings.items()}


def entries_of(roll: Roll) -> Mapping[str, Entry]:
    """The pieces by their marks."""
    return {entry.mark: entry for entry in roll.entries}


def left_in(turn: Turn, entries: Mapping[str, Entry], far: Mapping[str, Gone]) -> tuple[str, ...]:
    """The pieces that have still to go through a setting, in its order; spoiled ones are not waited for."""
    nothing = Gone()
    return tuple(
        piece
        for lot in turn.lots
        for piece in lot.pieces
        if piece in entries
        and not far.get(piece, nothing).spoiled
        and not is_through(turn, entries[piece], far.get(piece, nothing))
    )


def _step_row(
    address: str,
    number: int,
    step: Step,
    turns: Sequence[Turn],
    so_far: tuple[Mapping[str, Entry], Mapping[str, Gone]],
) -> Row:
    return Row(
        number=number,
        title=step.title,
        aside=step.machine,
        address=address,
        far=sum(not left_in(turn, *so_far) for turn in turns),
        of=len(turns),
    )


def step_page(known: Known, plan: Plan, number: int, standings: Mapping[str, Standing]) -> StepPage:
    """One step: what it is, what to take care of, what is set once, and its settings."""
    step, steps = plan.machining.steps[number - 1], len(plan.machining.steps)
    turns = [turn for turn in turns_of(plan.machining) if turn.step == number]
    rows = tuple(_setting_rows(known, turns, far_of(standings)))
    home = f"/jobs/{known.name}/machines"
    waiting = (row for row in rows if row.state != "all through")
    return StepPage(
        within=within(known.revision, "machines"),
        number=number,
        of=steps,
        title=step.title,
        machine=step.machine,
        why=step.why,
        words=tuple(machine_words(step, plan.machining)),
        cautions=step.cautions,
        decides=WHO_DECIDES,
        once=once_of(step, known.shop.practice.resolution),
        rows=rows,
        next=next(waiting, None),
        back=f"{home}/{number - 1}" if number > 1 else home,
        after=f"{home}/{number + 1}" if number < steps else home,
    )


def once_of(step: Step, resolution: Mm) -> tuple[Once, ...]:
    """What is set once for the whole step."""
    return tuple(
        Once(of=setting.of, to=show(setting.to, resolution), unit=setting.unit)
        for setting in step.settings
        if not setting.through
    )


def _setting_rows(known: Known, turns: Iterable[Turn], far: Mapping[str, Gone]) -> Iterable[Row]:
    entries = entries_of(known.roll)
    for turn in turns:
        every = sum(len(lot.pieces) for lot in turn.lots)
        setting = turn.setting
        yield Row(
            number=turn.number,
            title=show(setting.to, known.shop.practice.resolution) if setting else "everything",
            unit=setting.unit if setting else "",
            aside=setting.of if setting else "",
            address=f"/jobs/{known.name}/machines/{turn.step}/{turn.number}",
            far=every - len(left_in(turn, entries, far)),
            of=every,
        )


def planning_page(known: Known, state: State) -> PlanningPage:
    """How far the plan is."""
    return PlanningPage(
        within=within(known.revision, "machines"),
        state=state,
        slips=slips_of(state.problems),
        has_rack=bool(known.job.rack),
        left=plan_left(known, state),
    )
