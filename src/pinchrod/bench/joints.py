"""The joints of a frame, as they are glued: who arrives at whom, along which line, with what."""

from collections.abc import Iterator

from pinchrod.bench.records import GlueJoint
from pinchrod.ground import Mm
from pinchrod.setting_out import End, Member, Rod


def joints_of(rod: Rod) -> tuple[GlueJoint, ...]:
    """Every joint, member by member, its datum end first."""
    by_name = {member.name: member for member in rod.members}
    return tuple(
        _joint(member, by_name[end.meets], end)
        for member in rod.members
        for end in (member.low_end, member.high_end)
        if end.meets
    )


def _joint(arriving: Member, receiver: Member, end: End) -> GlueJoint:
    """A rail arrives level, a muntin upright; pressed is the end as far as it bears, without its mitres."""
    bears = arriving.width - arriving.bead * len(arriving.beads)
    return GlueJoint(
        arriving=arriving.name,
        receiver=receiver.name,
        fixings=max(_recesses(arriving, receiver), _recesses(receiver, arriving), bool(end.tenon)),
        level=not arriving.upright,
        area=max(bears, Mm(0)) * arriving.thickness,
    )


def _recesses(member: Member, other: Member) -> int:
    return sum(fixing.to == other.name for fixing in member.fixings)


def closed_by(part: set[str], onto: set[str], joints: tuple[GlueJoint, ...]) -> Iterator[GlueJoint]:
    """The joints between two lots."""
    for joint in joints:
        ends = joint.arriving, joint.receiver
        if any(one in part and other in onto for one, other in (ends, ends[::-1])):
            yield joint
