"""In which order a frame goes together: found by taking it apart, and said backwards.

At each step one part is slid off along a straight line and both halves hold together. One member at a time
as long as that can be done, the stiles first and then the longest: so, said backwards, the work goes from
small to large and ends with the stiles. Only where no member comes off by itself is a whole part slid off,
the smallest there is: that is a sub-assembly.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pinchrod.bench.interlocking import OPPOSITE, Interlocking, bits
from pinchrod.bench.records import Direction

Rank = Callable[[int], object]
"""How early a member comes off: the least rank first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parting:
    """One step as it is glued: a part slid onto the rest, both sets of members."""

    onto: int
    part: int
    way: Direction  # the way the part goes on


def gluing_order(held: Interlocking, ranked: tuple[int, ...]) -> tuple[Parting, ...] | None:
    """The steps from loose members to the frame, sub-assemblies first; None if there is no such order.

    `ranked` names the members as they should come off where there is a choice.
    """
    if not held.connected(held.whole):
        return None
    return _order(held.whole, held, ranked)


def _order(members: int, held: Interlocking, ranked: tuple[int, ...]) -> tuple[Parting, ...] | None:
    """The steps that make these members one."""
    growing: list[Parting] = []
    before: list[Parting] = []
    while members & (members - 1):
        parting = _parting(members, held, ranked)
        if parting is None:
            return None
        growing.insert(0, parting)
        steps = _order(parting.part, held, ranked)
        if steps is None:
            return None
        before[:0] = steps
        members = parting.onto
    return *before, *growing


def _parting(members: int, held: Interlocking, ranked: tuple[int, ...]) -> Parting | None:
    """What to slide off these members, first of all; None if nothing comes off."""
    single = next(_single(members, held, ranked), None)
    if single:
        return single
    place = {member: number for number, member in enumerate(ranked)}
    return min(
        _parts(members, held),
        key=lambda each: (each.part.bit_count(), min(place[member] for member in bits(each.part))),
        default=None,
    )


def _single(members: int, held: Interlocking, ranked: tuple[int, ...]) -> Iterator[Parting]:
    """Each member that comes off by itself and leaves the others joined."""
    for member in ranked:
        alone = 1 << member
        rest = members & ~alone
        if alone & members and held.connected(rest):
            for way in Direction:
                if not held.taken(way)[member] & rest:
                    yield Parting(onto=rest, part=alone, way=OPPOSITE[way])


def _parts(members: int, held: Interlocking) -> Iterator[Parting]:
    """Each part that comes off in one, the smaller of the two halves being the part."""
    for way in Direction:
        for member in bits(members):
            moving = held.moves(1 << member, members, way)
            for part in (*held.pieces(moving), *held.pieces(members & ~moving)):
                yield from _slid_off(part, members, held, way if part & moving else OPPOSITE[way])


def _slid_off(part: int, members: int, held: Interlocking, way: Direction) -> Iterator[Parting]:
    rest = members & ~part
    free = held.moves(part, members, way) == part
    if not rest or not free or not held.connected(rest):
        return
    if part.bit_count() > rest.bit_count():
        yield Parting(onto=part, part=rest, way=way)
    else:
        yield Parting(onto=rest, part=part, way=OPPOSITE[way])
