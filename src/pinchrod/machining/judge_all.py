"""The judge of a job's set-ups: looks at the wood, and at what they do to it.

Shares no code with what arranged them.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise

from pinchrod.ground import Mm, show
from pinchrod.job import Shop
from pinchrod.machining.arrange import Machining
from pinchrod.machining.judge import flaws_of_stops, flaws_of_strokes
from pinchrod.machining.judge_passes import flaws_of_passes
from pinchrod.machining.passes import Planing
from pinchrod.machining.recesses import Tool
from pinchrod.machining.roughs import Rough
from pinchrod.machining.stops import StopQuestion, Stops, Stroke
from pinchrod.setting_out import Member, Rods

Recess = tuple[str, bool, Mm, Mm]
"""What is cut, whether in an end, how long, and where."""


def flaws(machining: Machining, shop: Shop, rods: Rods) -> Iterator[str]:
    """Say what a job's set-ups miss, cut twice, cut elsewhere or do out of order."""
    yield from _notching_flaws(machining, shop, rods)
    yield from _recess_flaws(machining, shop, rods)
    yield from _length_flaws(machining, rods)
    yield from _planing_flaws(machining, shop)
    yield from _order_flaws(machining, shop)


def _notching_flaws(machining: Machining, shop: Shop, rods: Rods) -> Iterator[str]:
    """Copy by copy, since each of alike frames is cut by itself."""
    notcher, strokes = shop.machines.notcher, _all_of(machining.notching)
    of_copy: dict[int, list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        of_copy[int(stroke.piece.partition("/")[2] or 1)].append(stroke)
    for copy in range(1, max((rod.frame.quantity for rod in rods.rods), default=0) + 1):
        members = [member for rod in rods.rods if rod.frame.quantity >= copy for member in rod.members]
        yield from flaws_of_strokes(members, of_copy.pop(copy, ()), notcher.flat)
    yield from (f"strokes in a copy {copy}, and there is none" for copy in of_copy)
    twice = [stroke for stroke, times in Counter(strokes).items() if times > 1]
    yield from (f"{stroke.piece} at {show(stroke.at)}: cut twice" for stroke in twice)
    yield from flaws_of_stops(
        _asked(strokes, notcher.reach_left, notcher.reach_right, shop), machining.notching
    )


def _all_of(stops: Stops) -> tuple[Stroke, ...]:
    made = (stroke for setting in stops.settings for stroke in setting.strokes)
    return (*made, *stops.unreached)


def _asked(strokes: tuple[Stroke, ...], left: Mm, right: Mm, shop: Shop) -> StopQuestion:
    practice = shop.practice
    step = practice.resolution if practice.settings_as_shown else Mm(0)
    return StopQuestion(strokes=strokes, reach_left=left, reach_right=right, step=step)


def _recess_flaws(machining: Machining, shop: Shop, rods: Rods) -> Iterator[str]:
    slotter, made = shop.machines.slotter, Counter[tuple[str, Recess]]()
    for each in machining.recessing:
        strokes = _all_of(each.stops)
        made.update((stroke.piece, _recess_made(each.tool, stroke)) for stroke in strokes)
        yield from flaws_of_stops(_asked(strokes, slotter.reach_left, slotter.reach_right, shop), each.stops)
    wanted = Counter((mark, recess) for mark, member in _marked(rods) for recess in _recesses(member))
    for piece, recess in wanted - made:
        yield f"{piece}: no {recess[0]} at {show(recess[3])}"
    for piece, recess in made - wanted:
        yield f"{piece}: a {recess[0]} at {show(recess[3])}, where none is wanted"


def _recess_made(tool: Tool, stroke: Stroke) -> Recess:
    return tool.recess, tool.in_end, tool.long, stroke.at


def _recesses(member: Member) -> Iterator[Recess]:
    for it in member.fixings:
        in_end = it.edge is None
        yield str(it.recess), in_end, it.long, it.across if in_end else it.at
    yield from (("hinge seat", False, seat.long, seat.at) for seat in member.hinge_seats)


def _marked(rods: Rods) -> Iterator[tuple[str, Member]]:
    """Every piece by the mark on its label."""
    for rod in rods.rods:
        for copy in range(1, rod.frame.quantity + 1):
            of_many = f"/{copy}" if rod.frame.quantity > 1 else ""
            yield from ((member.name + of_many, member) for member in rod.members)


def _length_flaws(machining: Machining, rods: Rods) -> Iterator[str]:
    """Each piece once, to its own length, and the stop moving one way."""
    cut = Counter((mark, stop.length) for stop in machining.lengths for mark in stop.pieces)
    wanted = Counter((mark, member.length) for mark, member in _marked(rods))
    for mark, length in (cut - wanted).keys() | (wanted - cut).keys():
        yield f"{mark}: not cut once to its length, {show(length)}"
    if any(later.length >= earlier.length for earlier, later in pairwise(machining.lengths)):
        yield "the length stop does not move one way only"


def _planing_flaws(machining: Machining, shop: Shop) -> Iterator[str]:
    flat, on_edge = machining.passes
    machine = shop.machines.thicknesser
    yield from flaws_of_passes(tuple(_flat(machining.roughs)), flat, machine)
    yield from flaws_of_passes(tuple(_on_edge(machining.roughs)), on_edge, machine)


def _flat(roughs: Iterable[Rough]) -> Iterator[Planing]:
    for it in roughs:
        yield Planing(name=it.name, sawn=it.thickness, finished=it.finished_thickness)


def _on_edge(roughs: Iterable[Rough]) -> Iterator[Planing]:
    for it in roughs:
        yield Planing(name=it.name, sawn=it.width, finished=it.finished_width)


def _order_flaws(machining: Machining, shop: Shop) -> Iterator[str]:
    """Sawn, planed and only then shaped; what the workshop's notcher asks for first comes first."""
    machines = [step.machine for step in machining.steps]
    notcher = shop.machines.notcher
    notches = "router table" if notcher.router_table else "notcher"
    early = notcher.router_table or notcher.notches_before_bead
    order = ("rip saw", "planer", "thicknesser", *((notches, "moulder") if early else ("moulder", notches)))
    found = [machines.index(machine) for machine in order if machine in machines]
    if found != sorted(found):
        yield f"steps out of order: {', '.join(machines)}"
