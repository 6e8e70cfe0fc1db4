"""What recesses for fixings would spoil: faces cut through, edges come through, mortices that meet."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from pinchrod.ground import Mm, Problem, Span, Where, show
from pinchrod.job import LooseTenon
from pinchrod.setting_out.member import Face, Fixing, Member, Recess


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far the recesses of one joint go into a member from the edge they are cut from."""

    fixing: Fixing
    from_edge: Mm  # where it begins: the joint, behind the bead
    depth: Mm

    @property
    def stretch(self) -> Span:
        """Where it lies along the member, from the datum end."""
        half = self.fixing.long / 2
        return Span(self.fixing.at - half, self.fixing.at + half)


def check_recesses(member: Member, where: Where) -> Iterator[Problem]:
    """Refuse a recess through the face; doubt those that come through an edge or into each other."""
    yield from (
        _through_face(member, where, fixing) for fixing in member.fixings if _too_deep(member, fixing)
    )
    reaches = tuple(_reaches(member))
    through = [reach for reach in reaches if reach.depth >= member.width]
    yield from (_through_edge(member, where, reach) for reach in through[:1])
    meetings = {(one.fixing.to, other.fixing.to): (one, other) for one, other in _meeting(member, reaches)}
    yield from (_meet(member, where, one, other) for one, other in meetings.values())


def _too_deep(member: Member, fixing: Fixing) -> bool:
    thick = fixing.deep if fixing.face is Face.BACK else fixing.wide
    return thick >= member.thickness


def _reaches(member: Member) -> Iterator[Reach]:
    joint_line = member.bead if member.beads else Mm(0)
    for fixing in member.fixings:
        if fixing.edge is not None:
            inward = fixing.wide if fixing.face is Face.BACK else fixing.deep
            yield Reach(fixing=fixing, from_edge=joint_line, depth=joint_line + inward)


def _meeting(member: Member, reaches: tuple[Reach, ...]) -> Iterator[tuple[Reach, Reach]]:
    """Recesses cut from opposite edges that run into each other."""
    low = [reach for reach in reaches if reach.fixing.edge == member.low_edge]
    high = [reach for reach in reaches if reach.fixing.edge == member.high_edge]
    for one, other in product(low, high):
        if one.depth + other.depth > member.width and one.stretch.meets(other.stretch):
            yield one, other


def _through_face(member: Member, where: Where, fixing: Fixing) -> Problem:
    thick = fixing.deep if fixing.face is Face.BACK else fixing.wide
    return Problem(
        where=where,
        code="recess-through-face",
        what=f"a {fixing.recess} takes {show(thick)} of a thickness of {show(member.thickness)}",
        mend="choose a smaller fixing in the workshop file, or make the frame thicker",
    )


def _through_edge(member: Member, where: Where, reach: Reach) -> Problem:
    return Problem(
        where=where,
        code="recess-through-edge",
        what=f"the {reach.fixing.recess} for {reach.fixing.to} goes {show(reach.depth)} in from the edge"
        f" of a width of {show(member.width)}: it comes out on the other side",
        mend=f"make the {member.role} wider than {show(reach.depth)}, or the {reach.fixing.recess}"
        f" less than {show(member.width - reach.from_edge)} deep in the workshop file",
        stops=False,
    )


def _meet(member: Member, where: Where, one: Reach, other: Reach) -> Problem:
    both = one.depth + other.depth
    return Problem(
        where=where,
        code="recesses-meet",
        what=f"the recesses for {one.fixing.to} and {other.fixing.to} go {show(one.depth)} and"
        f" {show(other.depth)} in from opposite edges of a width of {show(member.width)}: they meet",
        mend=f"make the {member.role} {show(both)} wide or more, or the recesses shallower",
        stops=False,
    )


LEAST_BETWEEN = Mm(2)  # of wood between two recesses of one joint; common practice, no source


def check_joints(member: Member, where: Where) -> Iterator[Problem]:
    """Doubt a joint whose recesses run into each other, or are wider than the end they are cut in."""
    ends: dict[str, list[Fixing]] = defaultdict(list)
    for fixing in member.fixings:
        if fixing.edge is None and fixing.long > 0:  # as it enters another: the same in both
            ends[fixing.to].append(fixing)
    floor = member.width - member.bead * len(member.beads)
    found = (_crowded(member, where, fixings, floor) for fixings in ends.values())
    yield from dict.fromkeys(problem for problem in found if problem)


def _crowded(member: Member, where: Where, fixings: Sequence[Fixing], floor: Mm) -> Problem | None:
    """The doubt about one joint's recesses, if there is one."""
    first = fixings[0]
    places = sorted(fixing.across for fixing in fixings)
    apart = min((b - a for a, b in pairwise(places)), default=None)
    between = None if apart is None else apart - first.long
    if first.long > floor:
        what = f"a {first.recess} {show(first.long)} wide is cut in an end that bears on {show(floor)}"
    elif between is not None and between < LEAST_BETWEEN:
        left = f"{show(between)} of wood" if between > 0 else "no wood"
        what = f"its {len(fixings)} {first.recess}s, {show(first.long)} wide, leave {left} between them"
    else:
        return None
    mend = f"make the {member.role} wider, or choose fewer or smaller fixings in the workshop file"
    return Problem(where=where, code="joint-crowded", what=what, mend=mend, stops=False)


def check_loose_tenons(member: Member, where: Where, tenon: LooseTenon) -> Iterator[Problem]:
    """Doubt a loose tenon cut down to fit its joint; refuse one that would be narrower than it is thick."""
    cut_down = [
        fixing
        for fixing in member.fixings
        if fixing.recess is Recess.MORTICE and fixing.face is Face.END and fixing.long < tenon.wide
    ]
    for long in sorted({fixing.long for fixing in cut_down}):
        room = long >= tenon.thick
        yield Problem(
            where=where,
            code="tenon-cut-down" if room else "no-room-for-tenon",
            what=f"its end has room for a loose tenon {show(long)} wide, not {show(tenon.wide)}"
            if room
            else "its end has no room for a loose tenon",
            mend=f"cut the tenons down to {show(long)}, or make the {member.role} wider"
            if room
            else f"make the {member.role} at least {show(tenon.thick - long)} wider, or choose another joint",
            stops=not room,
        )
