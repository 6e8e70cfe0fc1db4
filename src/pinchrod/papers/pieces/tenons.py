"""Tenons worked on a piece's ends: as wide, as thick and just where the mortices are that take them."""

from collections.abc import Mapping
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.setting_out import End, Member


@dataclass(frozen=True, slots=True)
class Tenon:
    """A tenon: its place across the piece from the left or lower edge, its length and thickness."""

    across: Span
    long: Mm
    thick: Mm


Tenons = tuple[Tenon | None, Tenon | None]
"""At the datum end, and at the far one."""

NO_TENONS: Tenons = (None, None)


def tenons_of(member: Member, members: Mapping[str, Member]) -> Tenons:
    """The tenons of a member, by the mortices in those it meets; `members` are the job's, by their marks."""
    return _tenon(member, member.low_end, members), _tenon(member, member.high_end, members)


def _tenon(member: Member, end: End, members: Mapping[str, Member]) -> Tenon | None:
    if not end.tenon:
        return None
    receiver = members[end.meets]
    mortice = next(fixing for fixing in receiver.fixings if fixing.to == member.name)
    middle = receiver.datum + mortice.at - member.across.low
    across = Span(middle - mortice.long / 2, middle + mortice.long / 2)
    return Tenon(across, end.tenon, mortice.wide)
