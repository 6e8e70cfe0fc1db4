"""Whether a door's panel has room to swell in its groove, and stays in it when it shrinks."""

from collections.abc import Iterator
from math import ceil

from pinchrod.fit.movement import DRIEST_KNOWN, WETTEST_KNOWN, change_across
from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.job import Doors, Job, Moisture, Shop
from pinchrod.setting_out import DoorPart, DoorPartRole, Rod, Rods

LEAST_HOLD = Mm(2)  # of a panel's edge in its groove when driest; common practice, no source


def check_panels(rods: Rods, job: Job, shop: Shop) -> Iterator[Problem]:
    """Doubts about every frame's panels: the widest panel of each frame decides."""
    if job.doors is None or job.timber.tangential is None or not _known(shop.moisture):
        return
    for rod in rods.rods:
        panel = _widest_panel(rod)
        if panel is not None:
            where = rod.frame.where.called(f"{rod.frame.id}, {panel.role} {panel.name}")
            yield from _check(panel, job.doors, job.timber.tangential, shop.moisture, where)


def _known(moisture: Moisture) -> bool:
    return all(
        DRIEST_KNOWN <= each <= WETTEST_KNOWN for each in (moisture.made, moisture.driest, moisture.wettest)
    )


def _up(length: Mm) -> Mm:
    """The next half millimetre above, so that what is advised is enough."""
    return Mm(ceil(length * 2), 2)


def _widest_panel(rod: Rod) -> DoorPart | None:
    panels = [part for front in rod.fronts for part in front.parts if part.role is DoorPartRole.PANEL]
    return max(panels, key=lambda part: part.width, default=None)


def _check(
    panel: DoorPart, doors: Doors, coefficient: Mm, moisture: Moisture, where: Where
) -> Iterator[Problem]:
    swells = change_across(panel.width, coefficient, moisture.made, moisture.wettest)
    shrinks = -change_across(panel.width, coefficient, moisture.made, moisture.driest)
    room = 2 * doors.side_room
    if swells > room:
        yield Problem(
            where=where,
            code="panel-swells",
            what=f"{show(panel.width)} of panel swells {show(swells)} from {show(moisture.made)} to"
            f" {show(moisture.wettest)} % moisture, and has room for {show(room)}",
            mend=f"make side_room under [doors] {show(_up(swells / 2))} or more",
            stops=False,
        )
    hold = doors.groove - doors.side_room - shrinks / 2
    if hold < LEAST_HOLD:
        yield Problem(
            where=where,
            code="panel-slips-out",
            what=f"{show(panel.width)} of panel shrinks {show(shrinks)} from {show(moisture.made)} to"
            f" {show(moisture.driest)} % moisture, and then stands {show(hold)} deep in its grooves",
            mend=f"make groove under [doors] {show(_up(doors.groove + LEAST_HOLD - hold))} or more",
            stops=False,
        )
