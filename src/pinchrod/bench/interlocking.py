"""What each member of a frame takes with it when it is slid one way.

Sets of members are whole numbers, a bit for each member in the order of the rod: a frame has few members
and many sets of them are tried.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.bench.records import Direction, GlueJoint
from pinchrod.bench.sliding import runs_into, seen
from pinchrod.setting_out import Member, Rod

OPPOSITE = {
    Direction.LEFT: Direction.RIGHT,
    Direction.RIGHT: Direction.LEFT,
    Direction.UP: Direction.DOWN,
    Direction.DOWN: Direction.UP,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Interlocking:
    """For each member those it takes with it, way by way, and those it is joined to."""

    left: tuple[int, ...]
    right: tuple[int, ...]
    up: tuple[int, ...]
    down: tuple[int, ...]
    joined: tuple[int, ...]

    @property
    def whole(self) -> int:
        """All members."""
        return (1 << len(self.joined)) - 1

    def taken(self, way: Direction) -> tuple[int, ...]:
        """For each member those it runs into, or is held to, when it slides that way."""
        match way:
            case Direction.LEFT:
                return self.left
            case Direction.RIGHT:
                return self.right
            case Direction.UP:
                return self.up
            case Direction.DOWN:
                return self.down

    def moves(self, first: int, among: int, way: Direction) -> int:
        """All that moves if these members slide that way among the others: what they run into, and so on."""
        return grown(first, among, self.taken(way))

    def connected(self, members: int) -> bool:
        """Whether joints hold these members together, so that they are one thing in the hand."""
        return grown(members & -members, members, self.joined) == members

    def pieces(self, members: int) -> Iterator[int]:
        """What these members fall into if nothing else holds them."""
        while members:
            piece = grown(members & -members, members, self.joined)
            yield piece
            members &= ~piece


def interlocking(rod: Rod, joints: Sequence[GlueJoint], *, straight_in: bool) -> Interlocking:
    """What takes what with it in this frame.

    `straight_in`: a joint opens and closes only along the member that arrives. It has to where a tenon or a
    dowel stands in it; and where nothing does, a joint slid shut along its glued faces is wiped dry.
    """
    places = {member.name: place for place, member in enumerate(rod.members)}
    pairs = [(places[joint.arriving], places[joint.receiver], joint.level) for joint in joints]
    level = _taken(rod.members, [pair[:2] for pair in pairs if straight_in and not pair[2]], level=True)
    upright = _taken(rod.members, [pair[:2] for pair in pairs if straight_in and pair[2]], level=False)
    return Interlocking(
        right=level,
        left=_turned(level),
        up=upright,
        down=_turned(upright),
        joined=_both_ways(len(places), (pair[:2] for pair in pairs)),
    )


def _taken(members: Sequence[Member], held: Iterable[tuple[int, int]], *, level: bool) -> tuple[int, ...]:
    """For each member those it takes with it to the right, or up: it runs into them, or a joint holds."""
    views = [seen(member, level=level) for member in members]
    taken = list(_both_ways(len(members), held))
    for place, moving in enumerate(views):
        for other, view in enumerate(views):
            if other != place and runs_into(moving, view):
                taken[place] |= 1 << other
    return tuple(taken)


def _both_ways(number: int, pairs: Iterable[tuple[int, int]]) -> tuple[int, ...]:
    taken = [0] * number
    for one, other in pairs:
        taken[one] |= 1 << other
        taken[other] |= 1 << one
    return tuple(taken)


def _turned(taken: Sequence[int]) -> tuple[int, ...]:
    """The same slides backwards: what ran into a member is now run into by it."""
    turned = [0] * len(taken)
    for place, others in enumerate(taken):
        for other in bits(others):
            turned[other] |= 1 << place
    return tuple(turned)


def grown(first: int, among: int, neighbours: Sequence[int]) -> int:
    """The members that can be reached from the first ones, step by step among these."""
    reached, fresh = first, first
    while fresh:
        found = 0
        for place in bits(fresh):
            found |= neighbours[place]
        fresh = found & among & ~reached
        reached |= fresh
    return reached


def bits(members: int) -> Iterator[int]:
    """The places of the members in a set, in order."""
    while members:
        lowest = members & -members
        yield lowest.bit_length() - 1
        members ^= lowest
