"""The order of work: every step at its machine, with its settings in order and its cautions.

Where a guillotine notches, the bead is stuck first: faults show up before any notch is paid for. A router
table must notch first: then a piece spoiled at the moulder costs a second notching set-up. The order follows
from the machines that the workshop has.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm, show
from pinchrod.job import Job, Joint, Machines, Shop
from pinchrod.machining import cautions
from pinchrod.machining.lengths import LengthStop
from pinchrod.machining.moulder import Moulding
from pinchrod.machining.passes import Passes
from pinchrod.machining.pieces import Wood
from pinchrod.machining.recesses import HINGE_SEAT, Recessing, Tool
from pinchrod.machining.roughs import Rough
from pinchrod.machining.stops import Stops, StopSetting, Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSetting:
    """One thing to set, what it is set to, and what goes through before it is changed."""

    of: str
    to: Mm
    unit: str = "mm"
    through: tuple[str, ...] = ()  # sticks or pieces; none: set once for the whole step
    stop: StopSetting | None = None  # where it is a stop: every stroke made against it
    back_up: bool = False  # how the pieces lie: usually with the face up


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work, at one machine."""

    machine: str
    title: str
    why: str
    settings: tuple[StepSetting, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """All set-ups of a job, from which the steps are told."""

    job: Job
    shop: Shop
    woods: tuple[Wood, ...]
    roughs: tuple[Rough, ...]
    sticks_known: bool
    passes: tuple[Passes, ...]
    moulding: Moulding | None
    lengths: tuple[LengthStop, ...]
    notching: Stops
    recessing: tuple[Recessing, ...]


def notches_first(machines: Machines) -> bool:
    """Whether notches are cut before the bead is stuck."""
    return machines.notcher.notches_before_bead or machines.notcher.router_table


def steps_of(work: Work) -> tuple[Step, ...]:
    """Every step in order, from the sawn board to the bench; those with nothing to do are left out."""
    return (*_to_size(work), *_bead_and_notch(work), *_tenons(work), *_recesses(work))


def _to_size(work: Work) -> Iterator[Step]:
    yield _rip(work)
    if work.sticks_known:
        yield _to_sticks(work)
    yield _face_and_edge(work)
    if work.shop.machines.planer.combined and any(passes.passes for passes in work.passes):
        yield _change_over()
    yield from (_plane(passes, work) for passes in work.passes if passes.passes)


def _bead_and_notch(work: Work) -> Iterator[Step]:
    bead = [_stick_bead(work, work.moulding)] if work.moulding else []
    notch = [_notch(work)] if work.notching.settings else []
    if notches_first(work.shop.machines):
        yield from (_cut_to_length(work), *notch, *bead)
    else:
        yield from (*bead, _cut_to_length(work), *notch)
    yield from _mitre(work)


def _rip(work: Work) -> Step:
    return Step(
        machine="rip saw",
        title="Rip strips",
        why="Each strip is as wide as its pieces and the allowance; wide strips first."
        + _sticks_by_piece(work),
        settings=_by_size("fence", ((rough.width, rough.name) for rough in work.roughs)),
        cautions=cautions.at_rip_saw(),
    )


def _sticks_by_piece(work: Work) -> str:
    """What is taken for granted where no rack says which pieces share a stick."""
    if work.sticks_known:
        return ""
    shortest = show(work.shop.practice.shortest_stick)
    return f" No rack is named, so each piece counts as a stick by itself, none shorter than {shortest} mm."


def _to_sticks(work: Work) -> Step:
    return Step(
        machine="crosscut saw",
        title="Crosscut into sticks",
        why="Bow grows with the square of the length, so a short stick cleans up where a long one runs out"
        " of wood.",
        settings=_by_size("length", ((rough.length, rough.name) for rough in work.roughs)),
        cautions=cautions.at_crosscut_saw(),
    )


def _by_size(of: str, named: Iterable[tuple[Mm, str]]) -> tuple[StepSetting, ...]:
    """One setting for each size, from large to small."""
    through: dict[Mm, list[str]] = defaultdict(list)
    for size, name in named:
        through[size].append(name)
    return tuple(
        StepSetting(of=of, to=size, through=tuple(through[size])) for size in sorted(through, reverse=True)
    )


def _face_and_edge(work: Work) -> Step:
    return Step(
        machine="planer",
        title="Face and edge",
        why="A face planed flat, then an edge square to it: all later settings refer to the two marked here.",
        settings=(),
        cautions=cautions.at_planer(work.shop.practice),
    )


def _change_over() -> Step:
    return Step(
        machine="planer",
        title="Change the planer over to thicknessing",
        why="One machine does both; once everything is faced and edged it is changed over, and not back.",
        settings=(),
        cautions=cautions.at_changing_over(),
    )


def _plane(passes: Passes, work: Work) -> Step:
    first = (
        "Everything goes through before the bed moves, and the bed only comes up."
        if passes.of == "thickness"
        else "On edge, wide before narrow: the bed moves one way through all widths."
    )
    return Step(
        machine="thicknesser",
        title=f"Plane to {passes.of}",
        why=first,
        settings=tuple(
            StepSetting(of="height", to=each.height, through=each.through) for each in passes.passes
        ),
        cautions=cautions.at_thicknesser(work.shop.practice),
    )


def _stick_bead(work: Work, moulding: Moulding) -> Step:
    machines, first = work.shop.machines, notches_first(work.shop.machines)
    why = (
        "The notches are cut already: a piece spoiled here costs a second notching set-up."
        if first
        else "Faults show up here, before any notch is paid for."
    )
    return Step(
        machine="moulder",
        title="Stick the bead",
        why=f"{why} Cutter and fence are set once for every width; what has two beads is turned end for end"
        " for the second.",
        settings=(
            StepSetting(of="bead", to=moulding.bead),
            StepSetting(of="speed", to=machines.moulder.speed, unit="rev/min"),
            StepSetting(of="feed", to=machines.moulder.feed, unit="m/min"),
            *(
                StepSetting(of=f"width, {_beads(run.beads)}", to=run.width, through=run.through)
                for run in moulding.runs
            ),
        ),
        cautions=cautions.at_moulder(machines, work.shop.practice, pieces_cut=first),
    )


def _beads(number: int) -> str:
    return "one bead" if number == 1 else "two beads"


def _cut_to_length(work: Work) -> Step:
    return Step(
        machine="crosscut saw",
        title="Cut to length",
        why="Long before short: the stop moves one way, and a piece with a split at its end may still give a"
        " shorter one.",
        settings=tuple(StepSetting(of="stop", to=stop.length, through=stop.pieces) for stop in work.lengths),
        cautions=cautions.at_crosscut_saw(),
    )


def _notch(work: Work) -> Step:
    router_table = work.shop.machines.notcher.router_table
    depth = StepSetting(of="depth", to=work.job.bead.width)
    return Step(
        machine="router table" if router_table else "notcher",
        title="Notch the beaded edges",
        why=f"{work.notching.fewest} settings reach every notch, and no fewer would: each is set once.",
        settings=(depth, *_stop_settings(work.notching.settings), *_by_hand(work.notching.unreached)),
        cautions=cautions.at_notcher(router_table=router_table),
    )


def _stop_settings(settings: Iterable[StopSetting], *, back_up: bool = False) -> Iterator[StepSetting]:
    for setting in settings:
        pieces = tuple(dict.fromkeys(stroke.piece for stroke in setting.strokes))
        yield StepSetting(
            of=f"{setting.hand} stop", to=setting.distance, through=pieces, stop=setting, back_up=back_up
        )


def _by_hand(strokes: Iterable[Stroke]) -> Iterator[StepSetting]:
    """What no stop reaches is marked from the rod and cut to the mark."""
    for stroke in strokes:
        yield StepSetting(of=f"by hand, from the {_from(stroke)}", to=stroke.at, through=(stroke.piece,))


def _from(stroke: Stroke) -> str:
    return "left or lower edge" if stroke.side in ("datum end", "far end") else "datum end"


def _mitre(work: Work) -> Iterator[Step]:
    mitred = [
        mark
        for wood in work.woods
        if wood.member.beads and (wood.member.low_end.meets or wood.member.high_end.meets)
        for mark in wood.marks
    ]
    if not mitred:
        return
    router_table = work.shop.machines.notcher.router_table
    yield Step(
        machine="router table" if router_table else "notcher",
        title="Mitre the bead",
        why="At every end that enters another piece; a mitre is as long as the bead is wide, so one setting"
        " does them all.",
        settings=(StepSetting(of="mitre", to=work.job.bead.width, through=tuple(mitred)),),
        cautions=cautions.at_notcher(router_table=router_table),
    )


def _tenons(work: Work) -> Iterator[Step]:
    if work.job.joint is not Joint.MORTICE_AND_TENON:
        return
    ends = ((end.tenon, wood) for wood in work.woods for end in (wood.member.low_end, wood.member.high_end))
    named = ((tenon, mark) for tenon, wood in ends if tenon for mark in wood.marks)
    settings = _by_size("shoulder", dict.fromkeys(named))
    if settings:
        yield Step(
            machine="tenoner",
            title="Cut the tenons",
            why="Every shoulder stands as far from its end, so the stop is set once.",
            settings=settings,
            cautions=("Clamp the piece in the carriage.", cautions.ISOLATE),
        )


def _recesses(work: Work) -> Iterator[Step]:
    """One step for each cutter as it is set up; several of one kind are counted."""
    kinds: dict[str, list[Recessing]] = defaultdict(list)
    for each in work.recessing:
        kinds[_title(each.tool)].append(each)
    for title, found in kinds.items():
        for number, each in enumerate(found, start=1):
            yield _recess(each, f"{title}, {number} of {len(found)}" if len(found) > 1 else title)


def _recess(each: Recessing, title: str) -> Step:
    return Step(
        machine="slotter",
        title=title,
        why="As few settings as reach them all: each stop is set once, and every piece that needs it goes"
        f" through.{_as_the_hinge(each.tool)}",
        settings=tuple(_tool_settings(each)),
        cautions=cautions.at_slotter(),
    )


def _as_the_hinge(tool: Tool) -> str:
    return " As wide and as deep as the hinge itself is." if tool.recess == HINGE_SEAT else ""


def _title(tool: Tool) -> str:
    if tool.recess == HINGE_SEAT:
        return "Hinge seats"
    place = "the ends" if tool.in_end else "the edges"
    return f"{tool.recess.capitalize()}s in {place}{', back up' if tool.face == 'back' else ''}"


def _tool_settings(each: Recessing) -> Iterator[StepSetting]:
    tool = each.tool
    yield StepSetting(of="length of cut", to=tool.long)
    known = (("width of cut", tool.wide), ("depth", tool.deep), ("fence to middle", tool.fence))
    yield from (StepSetting(of=name, to=size) for name, size in known if size)
    yield from _stop_settings(each.stops.settings, back_up=tool.face == "back")
    yield from _by_hand(each.stops.unreached)
