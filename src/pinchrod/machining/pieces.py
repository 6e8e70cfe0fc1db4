"""Every piece to be worked, each copy of alike frames by its own mark, in the order of the shop."""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.setting_out import Member, Rod, Rods


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """A member with the marks of all its copies."""

    member: Member
    rod: Rod
    marks: tuple[str, ...]


def woods_of(rods: Rods) -> tuple[Wood, ...]:
    """Every member of a job: thick before thin, wide before narrow, then frame by frame as on the rods.

    So pieces of one section stay together at a machine, and in each section those of one frame.
    """
    found = (wood for rod in rods.rods for wood in woods_in(rod))
    return tuple(sorted(found, key=lambda wood: (-wood.member.thickness, -wood.member.width)))


def woods_in(rod: Rod) -> Iterator[Wood]:
    """The members of one frame, as on its rod."""
    for member in rod.members:
        marks = tuple(f"{member.name}{copy}" for copy in rod.frame.copies)
        yield Wood(member=member, rod=rod, marks=marks)
