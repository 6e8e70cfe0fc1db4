"""One frame set out: its rod, or what keeps it from having one."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, Problem, Where
from pinchrod.job import Frame, Job, Shop, Side
from pinchrod.setting_out.carcase import carcase, carcase_faults
from pinchrod.setting_out.check_fixings import check_joints, check_loose_tenons, check_recesses
from pinchrod.setting_out.check_fronts import check_front, check_opening, check_seats
from pinchrod.setting_out.checks import check_floor, check_notch_webs, check_webs
from pinchrod.setting_out.divide import Bar, Cell, divide
from pinchrod.setting_out.fronts import opening_of
from pinchrod.setting_out.joints import Named, join, name_bars
from pinchrod.setting_out.member import Edge, HingeSeat, Member
from pinchrod.setting_out.rod import Front, Opening, Rod


def set_out_frame(frame: Frame, job: Job, shop: Shop) -> tuple[Rod | None, tuple[Problem, ...]]:
    """The frame's rod and its faults and doubts; no rod where its sizes leave no room for it."""
    faults = carcase_faults(frame)
    if faults:
        return None, faults
    space, outer = carcase(frame)
    laid = tuple(divide(frame.layout, space, frame))
    faults = tuple(thing for thing in laid if isinstance(thing, Problem))
    bars = (*outer, *(thing for thing in laid if isinstance(thing, Bar)))
    if faults:
        return None, (*faults, *_faults_of_widths(frame, bars, job, shop))
    cells = tuple(thing for thing in laid if isinstance(thing, Cell))
    rod = _rod(frame, bars, cells, job, shop)
    return rod, tuple(check_rod(rod, job, shop))


def _faults_of_widths(frame: Frame, bars: Sequence[Bar], job: Job, shop: Shop) -> Iterator[Problem]:
    """What is wrong with members' face widths, which need no lengths to be judged."""
    for member in join(_named(frame, bars, job), job, shop):
        where = _where(frame, f"{member.role} {member.name}")
        yield from check_floor(member, where, flat=shop.machines.notcher.flat)
        yield from check_notch_webs(member, where, least=shop.practice.least_web)


def _named(frame: Frame, bars: Sequence[Bar], job: Job) -> tuple[Named, ...]:
    return name_bars(frame.id, bars, foot=frame.foot > 0, beaded=job.bead.width > 0)


def _rod(frame: Frame, bars: Sequence[Bar], cells: Sequence[Cell], job: Job, shop: Shop) -> Rod:
    named = _named(frame, bars, job)
    names = {piece.bar: piece.name for piece in named}
    openings = tuple(
        opening_of(f"{frame.id}.{number}", cell, job, shop) for number, cell in enumerate(cells, start=1)
    )
    hangings = tuple(
        hanging
        for cell, opening in zip(cells, openings, strict=True)
        for hanging in _hangings(cell, opening, names)
    )
    members = tuple(_with_seats(member, hangings, shop.hinges.long) for member in join(named, job, shop))
    return Rod(frame=frame, members=members, openings=openings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """A door and the upright's edge it hangs on."""

    upright: str
    edge: Edge
    front: Front


def _hangings(cell: Cell, opening: Opening, names: Mapping[Bar, str]) -> Iterator[Hanging]:
    for front in opening.fronts:
        if front.hung is Side.LEFT:
            yield Hanging(upright=names[cell.space.left], edge=Edge.RIGHT, front=front)
        if front.hung is Side.RIGHT:
            yield Hanging(upright=names[cell.space.right], edge=Edge.LEFT, front=front)


def _with_seats(member: Member, hangings: Iterable[Hanging], long: Mm) -> Member:
    """The member with a seat for each hinge let into it, by edge and then from the datum end."""
    seats = [
        HingeSeat(edge=it.edge, at=it.front.corner.y + centre - member.datum, long=long, front=it.front.name)
        for it in hangings
        if it.upright == member.name
        for centre in it.front.hinges
    ]
    ordered = sorted(seats, key=lambda seat: (not seat.edge.low, seat.at))
    return replace(member, hinge_seats=tuple(ordered)) if seats else member


def check_rod(rod: Rod, job: Job, shop: Shop) -> Iterator[Problem]:
    """Every fault and doubt of one frame, member by member, then front by front."""
    for member in rod.members:
        where = _where(rod.frame, f"{member.role} {member.name}")
        yield from check_webs(member, where, least=shop.practice.least_web)
        yield from check_floor(member, where, flat=shop.machines.notcher.flat)
        yield from check_recesses(member, where)
        yield from check_joints(member, where)
        yield from check_loose_tenons(member, where, shop.fixings.loose_tenon)
        yield from check_seats(member, where, clear=shop.hinges.clear_of_notch)
    for opening in rod.openings:
        where = _where(rod.frame, f"{opening.kind} {opening.name}")
        yield from check_opening(opening, where)
        for front in opening.fronts[:1]:  # the leaves of a pair are alike: once said is enough
            yield from check_front(front, where, job, shop.hinges)


def _where(frame: Frame, name: str) -> Where:
    return frame.where.called(f"{frame.id}, {name}")
