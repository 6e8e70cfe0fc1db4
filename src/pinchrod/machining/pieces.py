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
        yield Wood(member=member, rod=rod, marks=marks_of(member.name, rod.frame.quantity))


def marks_of(name: str, quantity: int) -> tuple[str, ...]:
    """The mark of each copy, as its label has it: K1-LS, or K1-LS/1 and K1-LS/2 of two alike frames."""
    return (name,) if quantity == 1 else tuple(f"{name}/{copy}" for copy in range(1, quantity + 1))
