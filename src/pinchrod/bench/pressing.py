"""Which clamps a frame wants, where, how far open, and how hard they press."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.bench.records import Clamp, GlueJoint
from pinchrod.ground import Mm, Span
from pinchrod.job import Glue, Joint, Timber
from pinchrod.setting_out import Member, Rod

Pressure = tuple[Mm, Mm]
"""The least and the most, in MPa, which is N for each mm²."""

Line = tuple[Member, ...]
"""Members in one line, each ending at the member where the next begins: one clamp presses them all."""


def pressure_for(timber: Timber, glue: Glue) -> Pressure:
    """How hard a joint in this timber is pressed: soft wood is crushed by what hard wood needs."""
    return glue.soft_pressure if is_soft(timber, glue) else glue.hard_pressure


def is_soft(timber: Timber, glue: Glue) -> bool:
    """Whether a timber is pressed as soft wood; by its density, for a soft hardwood is crushed as easily.

    One whose density is not known is taken for soft: pressed too little, a joint can be pressed again.
    """
    return timber.density is None or timber.density < glue.soft_below


def is_clamped(joint: Joint, timber: Timber, glue: Glue) -> bool:
    """Whether the joints want clamps: screws pull by themselves, and keys do except in soft wood."""
    if joint is Joint.POCKET_SCREW:
        return False
    return joint is not Joint.DOVETAIL_KEY or is_soft(timber, glue)


def clamps_of(rod: Rod, joints: Sequence[GlueJoint], pressure: Pressure) -> tuple[Clamp, ...]:
    """A clamp along every line of arriving members: across first, from below; then upright, from the left."""
    clamps = (_clamp(line, rod, joints, pressure) for line in _lines(rod.members))
    return tuple(sorted(clamps, key=lambda clamp: (not clamp.level, clamp.at, clamp.start)))


def _lines(members: Sequence[Member]) -> Iterator[Line]:
    """The members that arrive somewhere, line by line."""
    arriving = [member for member in members if member.low_end.meets or member.high_end.meets]
    arriving.sort(
        key=lambda member: (member.upright, member.across.low, member.across.high, member.along.low)
    )
    line: list[Member] = arriving[:1]
    for before, member in pairwise(arriving):
        if not _goes_on(before, member):
            yield tuple(line)
            line = []
        line.append(member)
    if line:
        yield tuple(line)


def _goes_on(before: Member, member: Member) -> bool:
    """Whether a member lies in the line of the one before, on the other side of what both enter."""
    in_line = before.upright == member.upright and before.across == member.across
    return in_line and bool(before.high_end.meets) and before.high_end.meets == member.low_end.meets


def _clamp(line: Line, rod: Rod, joints: Sequence[GlueJoint], pressure: Pressure) -> Clamp:
    held = _held(line, rod)
    names = {member.name for member in line}
    largest = max(joint.area for joint in joints if joint.arriving in names)
    least, most = pressure
    return Clamp(
        level=not line[0].upright,
        at=line[0].across.middle,
        start=held.low,
        opens=held.length,
        newtons=(least * largest, most * largest),
    )


def _held(line: Line, rod: Rod) -> Span:
    """From jaw to jaw: the far edges of the first and last members entered, or an end that stands free."""
    first, last = line[0], line[-1]
    low, high = first.low_end.meets, last.high_end.meets
    return Span(
        rod.member(low).across.low if low else first.along.low,
        rod.member(high).across.high if high else last.along.high,
    )
