"""What cannot be machined, and what can only with doubts: told at the frame that asks for it."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.job import Machines, Notcher, Practice, Shop, Slotter
from pinchrod.machining.arrange import setting_step
from pinchrod.machining.fewest import places_of
from pinchrod.machining.pieces import Wood, woods_in
from pinchrod.machining.recesses import recess_strokes
from pinchrod.machining.steps import notches_first
from pinchrod.machining.stops import Hand, StopQuestion, Stroke
from pinchrod.machining.strokes import centres, stroke_along
from pinchrod.setting_out import Member, Notch, Rods

Section = tuple[Mm, Mm, int]
"""Width, thickness, and how many edges are beaded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A machine that the workshop says it has not, and what of a job needs it."""

    machine: str
    what: str
    first: Wood | None  # that needs it; None: none does


def check_machining(rods: Rods, shop: Shop) -> Iterator[Problem]:
    """Every fault and doubt of the machining of a job that is set out.

    (A notch whose floor is narrower than the knife's flat is refused when it is set out.)
    """
    woods = tuple(wood for rod in rods.rods for wood in woods_in(rod))
    yield from _no_machine(woods, shop.machines)
    for wood in woods:
        where = _where(wood)
        yield from _check_notches(wood.member, where, shop)
        yield from _check_recesses(wood.member, where, shop)
        yield from _check_lengths(wood.member, where, shop)
    yield from _check_short(woods, shop)


def _where(wood: Wood) -> Where:
    frame = wood.rod.frame
    return frame.where.called(f"{frame.id}, {wood.member.role} {wood.member.name}")


def _no_machine(woods: Sequence[Wood], machines: Machines) -> Iterator[Problem]:
    """Refuse a job that needs a machine the workshop says it has not: once for each, at the first frame."""
    for need in _needs(woods, machines):
        if need.first is not None:
            frame = need.first.rod.frame
            yield Problem(
                where=frame.where.called(frame.id),
                code="no-machine",
                what=f"{need.what} wants a {need.machine}, and the workshop has none",
                mend=f"have that work done elsewhere, and say have = true under"
                f" [machines.{need.machine.replace(' ', '_')}] in the workshop file",
            )


def _needs(woods: Sequence[Wood], machines: Machines) -> Iterator[Need]:
    """The machines that are not there, each with what needs it."""
    every = next(iter(woods), None)
    beaded = next((wood for wood in woods if wood.member.beads), None)
    notched = next((wood for wood in woods if wood.member.notches), None)
    slotted = next((wood for wood in woods if wood.member.fixings or wood.member.hinge_seats), None)
    tenoned = next((wood for wood in woods if wood.member.low_end.tenon or wood.member.high_end.tenon), None)
    found = (
        (machines.rip_saw.have, "rip saw", "ripping its strips", every),
        (machines.crosscut_saw.have, "crosscut saw", "cutting its members to length", every),
        (machines.planer.have, "planer", "planing its members flat and straight", every),
        (machines.thicknesser.have, "thicknesser", "planing its members to size", every),
        (machines.moulder.have, "moulder", "sticking its beads", beaded),
        (machines.notcher.have or machines.notcher.router_table, "notcher", "cutting its notches", notched),
        (machines.slotter.have, "slotter", "cutting the recesses of its members", slotted),
        (machines.tenoner.have, "tenoner", "cutting its tenons", tenoned),
    )
    yield from (Need(machine=name, what=what, first=first) for have, name, what, first in found if not have)


def _check_notches(member: Member, where: Where, shop: Shop) -> Iterator[Problem]:
    """Refuse a notch that lies further from both ends than the stops can stand."""
    notcher = shop.machines.notcher
    question = _reach(notcher, shop)
    for notch in member.notches:
        far = [stroke for stroke in _strokes(member, notch, notcher.flat) if not places_of(stroke, question)]
        if far:
            yield _out_of_reach(member, where, notch, far[0], notcher)


def _reach(machine: Notcher | Slotter, shop: Shop) -> StopQuestion:
    step = setting_step(shop)
    return StopQuestion(strokes=(), reach_left=machine.reach_left, reach_right=machine.reach_right, step=step)


def _strokes(member: Member, notch: Notch, flat: Mm) -> Iterator[Stroke]:
    for centre in centres(notch, flat):
        yield stroke_along(member, member.name, notch.edge, centre - member.datum)


def _out_of_reach(member: Member, where: Where, notch: Notch, far: Stroke, notcher: Notcher) -> Problem:
    left, right = far.distance(Hand.LEFT), far.distance(Hand.RIGHT)
    wanted = {"reach_left": left, "reach_right": right}
    reaches = " or ".join(f"{name} = {show(_up(size))}" for name, size in wanted.items() if size >= 0)
    return Problem(
        where=where,
        code="out-of-reach",
        what=f"the notch for {notch.takes} lies {show(left)} from the end on the left-hand stop and"
        f" {show(right)} from the end on the right-hand one; they reach {show(notcher.reach_left)} and"
        f" {show(notcher.reach_right)}, and the piece is {show(member.length)} long",
        mend=f"make the frame in two, or, where a stop can be carried that far, say {reaches}"
        " under [machines.notcher] in the workshop file",
    )


def _up(length: Mm) -> Mm:
    """The next tenth above, so that what is advised is enough."""
    return Mm(ceil(length * 10), 10)


def _check_recesses(member: Member, where: Where, shop: Shop) -> Iterator[Problem]:
    """Doubt recesses that no stop reaches: they are marked from the rod and cut by hand."""
    slotter = shop.machines.slotter
    question = _reach(slotter, shop)
    offered = recess_strokes(member, member.name)
    far = Counter(tool.recess for tool, stroke in offered if not places_of(stroke, question))
    for recess, number in far.items():
        yield Problem(
            where=where,
            code="recess-out-of-reach",
            what=f"{number} {recess}{'s' if number > 1 else ''} of a piece {show(member.length)} long"
            f" lie{'s' if number == 1 else ''} further from both ends than the slotter's stops reach"
            f" ({show(slotter.reach_left)} and {show(slotter.reach_right)})",
            mend="mark them from the rod and cut them by hand, or say a longer reach_left or reach_right"
            " under [machines.slotter] in the workshop file",
            stops=False,
        )


def _check_lengths(member: Member, where: Where, shop: Shop) -> Iterator[Problem]:
    """Doubt members longer than any stick, and pieces too short for a machine."""
    practice = shop.practice
    if member.length + 2 * practice.stick_end > practice.longest_stick:
        yield _too_long(member, where, practice)
    if notches_first(shop.machines) and member.beads and member.length < practice.shortest_stick:
        yield Problem(
            where=where,
            code="short-at-moulder",
            what=f"it is {show(member.length)} long when its bead is stuck, since it is cut and notched"
            f" first; less than {show(practice.shortest_stick)} does not go through the moulder by itself",
            mend="pass it over the cutter in a holder, or stick its bead on a longer stick and notch it"
            " after",
            stops=False,
        )


def _too_long(member: Member, where: Where, practice: Practice) -> Problem:
    return Problem(
        where=where,
        code="stick-too-long",
        what=f"a stick for it is {show(member.length + 2 * practice.stick_end)} long, more than the"
        f" {show(practice.longest_stick)} that the workshop can handle",
        mend="make the frame in two, or say a greater longest_stick under [practice] in the workshop file",
        stops=False,
    )


def _check_short(woods: Sequence[Wood], shop: Shop) -> Iterator[Problem]:
    """Doubt pieces with so few others of their section that no stick of them is long enough to go through.

    (Other short pieces share a stick with a longer one.)
    """
    alike: dict[Section, list[Wood]] = defaultdict(list)
    for wood in woods:
        alike[wood.member.width, wood.member.thickness, len(wood.member.beads)].append(wood)
    for found in alike.values():
        longest = _one_stick(found, shop)
        if longest < shop.practice.shortest_stick:
            yield from (_too_short(wood, longest, shop.practice) for wood in found)


def _one_stick(woods: Iterable[Wood], shop: Shop) -> Mm:
    """How long a stick of all these pieces is, with a saw's kerf between each two."""
    lengths = [wood.member.length for wood in woods for _ in wood.marks]
    kerfs = (len(lengths) - 1) * shop.machines.crosscut_saw.kerf
    return 2 * shop.practice.stick_end + sum(lengths, kerfs)


def _too_short(wood: Wood, longest: Mm, practice: Practice) -> Problem:
    return Problem(
        where=_where(wood),
        code="stick-too-short",
        what=f"all pieces {show(wood.member.width)} wide with as many beads give one stick {show(longest)}"
        f" long, and nothing shorter than {show(practice.shortest_stick)} goes safely through planer,"
        " thicknesser and moulder",
        mend="leave waste on the stick until the piece is cut to length, or make the piece as wide as others",
        stops=False,
    )
