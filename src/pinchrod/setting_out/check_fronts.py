"""What would not hang or slide: fronts with no size, doors too small for their parts or hinges."""

from collections.abc import Iterator
from itertools import product

from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.job import Doors, Hinges, Job, Kind
from pinchrod.setting_out.member import HingeSeat, Member
from pinchrod.setting_out.rod import DoorPartRole, Front, Opening

SMALL = Mm(40)  # sight size below which an opening is more likely a slip of units; common practice, no source


def check_opening(opening: Opening, where: Where) -> Iterator[Problem]:
    """Doubt an opening so small that its size was perhaps meant in inches."""
    if any(min(front.width, front.height) <= 0 for front in opening.fronts):
        return  # refused anyway
    for side, sight in (("wide", opening.x.length), ("high", opening.y.length)):
        if sight < SMALL:
            yield Problem(
                where=where,
                code="small-opening",
                what=f"the opening is only {show(sight)} mm {side}",
                mend="if a size was meant in inches, write its mark; else look at the sizes beside it",
                stops=False,
            )


def check_front(front: Front, where: Where, job: Job, hinges: Hinges) -> Iterator[Problem]:
    """Every fault and doubt of one front."""
    if min(front.width, front.height) <= 0:
        yield _no_front(front, where)
        return
    if front.parts and job.doors:
        yield from _check_parts(front, where, job.doors)
    if front.hung:
        yield from _check_hinges(front, where, hinges)


def _no_front(front: Front, where: Where) -> Problem:
    side, left = ("width", front.width) if front.width <= 0 else ("height", front.height)
    leaves = 2 if front.kind is Kind.PAIR and side == "width" else 1
    return Problem(
        where=where,
        code="no-front-left",
        what=f"its gaps leave the {front.kind} front a {side} of {show(left)}",
        mend=f"give the opening more than {show(-left * leaves)} more {side}, or make the gaps smaller",
    )


def _check_parts(front: Front, where: Where, made: Doors) -> Iterator[Problem]:
    panel = next(part for part in front.parts if part.role is DoorPartRole.PANEL)
    for side, left in (("width", panel.width), ("height", panel.length)):
        if left <= 2 * made.groove:
            yield Problem(
                where=where,
                code="no-panel-left",
                what=f"the parts of a five-piece door leave its panel a {side} of {show(left)},"
                f" of which {show(2 * made.groove)} stand in the grooves",
                mend=f"make the door's {side} greater, or its stiles and rails narrower under [doors]",
            )


def _check_hinges(front: Front, where: Where, hinges: Hinges) -> Iterator[Problem]:
    first, second = front.hinges[:2]
    if second - first < hinges.long or first < hinges.long / 2:
        # hinges at a quarter of the height and equally between just touch when this high
        least = hinges.long * 2 * (len(front.hinges) - 1)
        yield Problem(
            where=where,
            code="door-too-low",
            what=f"a door {show(front.height)} high has no room for"
            f" {len(front.hinges)} hinges of {show(hinges.long)}",
            mend=f"use shorter hinges, or make the opening so high that the door is {show(least)} or more",
            stops=False,
        )
    if front.height > hinges.by_height[-1].up_to:
        yield Problem(
            where=where,
            code="door-too-tall",
            what=f"a door {show(front.height)} high is taller than the workshop's table of hinges goes"
            f" ({show(hinges.by_height[-1].up_to)}); {len(front.hinges)} are drawn",
            mend="divide the opening, or add a step to by_height under [hinges] in the workshop file",
            stops=False,
        )


def check_seats(member: Member, where: Where, *, clear: Mm) -> Iterator[Problem]:
    """Doubt a hinge nearer to a notch in the same edge than the shop's clearance."""
    for seat, notch in product(member.hinge_seats, member.notches):
        if seat.edge == notch.edge:
            centre, apart = seat.at + member.datum, seat.long / 2 + clear
            if notch.mouth.low - apart < centre < notch.mouth.high + apart:
                yield _near_notch(where, seat, notch.takes, clear)


def _near_notch(where: Where, seat: HingeSeat, takes: str, clear: Mm) -> Problem:
    return Problem(
        where=where,
        code="hinge-near-notch",
        what=f"a hinge of {seat.front}, centred {show(seat.at)} from the datum end, comes within"
        f" {show(clear)} of the notch for {takes}",
        mend="use shorter hinges, or a higher opening",
        stops=False,
    )
