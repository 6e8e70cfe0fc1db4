"""A member cut across, as it stands on a rod: its face width, its thickness, the beads on its face."""

from collections.abc import Iterator
from functools import cache
from math import cos, pi, sin

from pinchrod.job import Bead
from pinchrod.papers.marks.sheet import WIDE, Path, Spot
from pinchrod.setting_out import Member

STEPS = 8  # straight lines that draw a bead's half round
DEEPEST = 0.6  # of the thickness: a bead wider than that goes is drawn flatter than round


def section(member: Member, bead: Bead) -> Path:
    """The member's section with its face on the rod's edge (y = 0) and its place along the rod."""
    low, high = float(member.across.low), float(member.across.high)
    thick = float(member.thickness)
    profile = bead_profile(float(bead.width), float(bead.quirk), thick * DEEPEST)
    start = [Spot(low + x, y) for x, y in profile] if member.low_edge in member.beads else [Spot(low, 0)]
    end = [Spot(high - x, y) for x, y in profile] if member.high_edge in member.beads else [Spot(high, 0)]
    corners = (Spot(low, thick), *start, *reversed(end), Spot(high, thick))
    return Path(corners, pen=WIDE, fill="tint", layer="section")


@cache
def bead_profile(width: float, quirk: float, deepest: float) -> tuple[Spot, ...]:
    """A bead from its member's edge inwards: a half round flush with the face, then the quirk beside it."""
    return tuple(_corners(width, quirk, deepest))


def _corners(width: float, quirk: float, deepest: float) -> Iterator[Spot]:
    half = max((width - quirk) / 2, 0.0)
    deep = min(half, deepest)
    for step in range(STEPS + 1):
        turn = pi * step / STEPS
        yield Spot(half - half * cos(turn), deep - deep * sin(turn))
    if quirk:  # cut down to where the half round begins
        yield Spot(width, deep)
    yield Spot(width, 0.0)
