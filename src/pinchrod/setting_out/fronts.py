"""Doors and drawer fronts: an opening's sight size less its gaps, their parts and their hinges."""

from collections.abc import Iterator
from dataclasses import replace

from pinchrod.ground import Mm, Point, Span
from pinchrod.job import Doors, Hinges, HingeStep, Job, Kind, Shop, Side
from pinchrod.setting_out.divide import Cell
from pinchrod.setting_out.rod import DoorPart, DoorPartRole, Front, Opening


def opening_of(name: str, cell: Cell, job: Job, shop: Shop) -> Opening:
    """The opening of a cell, with what hangs or slides in it."""
    x, y = cell.space.x, cell.space.y
    fronts = tuple(_fronts(name, cell, job, shop))
    return Opening(name=name, kind=cell.place.kind, x=x, y=y, fronts=fronts)


def _fronts(name: str, cell: Cell, job: Job, shop: Shop) -> Iterator[Front]:
    edge = job.gaps.edge
    clear = Span(cell.space.x.low + edge, cell.space.x.high - edge)
    match cell.place.kind:
        case Kind.DOOR:
            yield _door(name, clear, cell.hung, cell, job, shop)
        case Kind.PAIR:
            leaf = (clear.length - job.gaps.meeting) / 2
            yield _door(f"{name}L", Span(clear.low, clear.low + leaf), Side.LEFT, cell, job, shop)
            yield _door(f"{name}R", Span(clear.high - leaf, clear.high), Side.RIGHT, cell, job, shop)
        case Kind.DRAWER:
            yield _plain(name, clear, cell, job)
        case Kind.PANEL | Kind.OPEN:
            return


def _plain(name: str, x: Span, cell: Cell, job: Job) -> Front:
    low, high = cell.space.y.low + job.gaps.edge, cell.space.y.high - job.gaps.edge
    return Front(
        name=name,
        kind=cell.place.kind,
        corner=Point(x.low, low),
        width=x.length,
        height=high - low,
        thickness=job.front_thickness,
    )


def _door(name: str, x: Span, hung: Side, cell: Cell, job: Job, shop: Shop) -> Front:
    plain = _plain(name, x, cell, job)
    door = replace(plain, hung=hung, parts=tuple(_parts(plain, job.doors)) if job.doors else ())
    number = hinge_number(door, job, shop.hinges)
    return replace(door, hinges=hinge_centres(door.height, number, shop.hinges))


def _parts(door: Front, made: Doors) -> Iterator[DoorPart]:
    """The five pieces: rails run into the stiles' groove, the panel stands loose in all four."""
    between = door.width - 2 * made.stile + 2 * made.groove
    up = door.height - made.top_rail - made.bottom_rail + 2 * made.groove
    sizes = (
        (DoorPartRole.LEFT_STILE, "LS", door.height, made.stile, door.thickness),
        (DoorPartRole.RIGHT_STILE, "RS", door.height, made.stile, door.thickness),
        (DoorPartRole.TOP_RAIL, "TR", between, made.top_rail, door.thickness),
        (DoorPartRole.BOTTOM_RAIL, "BR", between, made.bottom_rail, door.thickness),
        (DoorPartRole.PANEL, "P", up - 2 * made.end_room, between - 2 * made.side_room, made.panel),
    )
    for role, mark, length, width, thickness in sizes:
        yield DoorPart(name=f"{door.name}-{mark}", role=role, length=length, width=width, thickness=thickness)


def door_weight(door: Front, density: Mm | None) -> Mm:
    """Weight of a door in kg from its timber's density in kg/m3; 0 where none is published."""
    slab = door.width * door.height * door.thickness
    wood = sum((part.length * part.width * part.thickness for part in door.parts), Mm(0)) or slab
    return wood * (density or 0) / 10**9


def hinge_number(door: Front, job: Job, hinges: Hinges) -> int:
    """How many hinges a door's height and its weight ask for, whichever is more."""
    weight = door_weight(door, job.timber.density)
    return max(_number(door.height, hinges.by_height), _number(weight, hinges.by_weight))


def _number(measure: Mm, steps: tuple[HingeStep, ...]) -> int:
    for step in steps:
        if measure <= step.up_to:
            return step.number
    return steps[-1].number + 1


def hinge_centres(height: Mm, number: int, hinges: Hinges) -> tuple[Mm, ...]:
    """Hinge centres from a door's lower end, in mm, equally spaced.

    The outer ones stand one hinge and its half from the door's ends (common practice, no source), on
    a low door at a quarter of its height if that is less.
    """
    outer = min(hinges.long * 3 / 2, height / 4)
    step = (height - 2 * outer) / (number - 1)
    return tuple(outer + step * i for i in range(number))
