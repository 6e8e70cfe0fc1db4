"""Every single piece of a job, alike frames counted each, in the order in which the saw gives them.

A frame made once has pieces K1-LS, K1-RS; of a frame made twice they are K1-LS/1 and K1-LS/2.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.job import Frame, Kind
from pinchrod.setting_out import DoorPart, Front, Member, Rod, Rods, patterns, shop_order


@dataclass(frozen=True, slots=True, kw_only=True)
class OnePiece:
    """One piece as it lies on the bench: a member, a front, or a part of a five-piece door."""

    name: str
    copy: int  # which of the alike frames' pieces it is, from 1; 0: there is only one
    frame: str
    made: Member | Front | DoorPart
    pattern: str = ""

    @property
    def mark(self) -> str:
        """What is written on it."""
        return f"{self.name}/{self.copy}" if self.copy else self.name

    @property
    def role(self) -> str:
        """What it is, in words."""
        return front_role(self.made) if isinstance(self.made, Front) else str(self.made.role)

    @property
    def length(self) -> Mm:
        """Its length, along the grain."""
        return self.made.sawn_size[0] if isinstance(self.made, Front) else self.made.length

    @property
    def width(self) -> Mm:
        """Its width, across the grain."""
        return self.made.sawn_size[1] if isinstance(self.made, Front) else self.made.width

    @property
    def thickness(self) -> Mm:
        """Its thickness."""
        return self.made.thickness

    @property
    def beads(self) -> int:
        """How many of its edges are beaded."""
        return len(self.made.beads) if isinstance(self.made, Member) else 0


def front_role(front: Front) -> str:
    """What a front is: `drawer front`, `door, hung left`, `leaf of a pair, hung right`."""
    if front.hung is None:
        return "drawer front"
    return f"{'leaf of a pair' if front.kind is Kind.PAIR else 'door'}, hung {front.hung}"


def single_members(rods: Rods) -> tuple[OnePiece, ...]:
    """Every stile, rail and muntin, with its pattern."""
    mark_of = {piece.member.name: pattern.mark for pattern in patterns(rods) for piece in pattern.pieces}
    pieces = (
        OnePiece(name=member.name, copy=copy, frame=rod.frame.id, made=member, pattern=mark_of[member.name])
        for rod in rods.rods
        for member in rod.members
        for copy in _copies(rod.frame)
    )
    return _as_sawn(pieces)


def single_fronts(rods: Rods) -> tuple[OnePiece, ...]:
    """Every door, leaf and drawer front."""
    return _as_sawn(piece for rod in rods.rods for piece in _each(rod, rod.fronts))


def single_parts(rods: Rods) -> tuple[OnePiece, ...]:
    """Every piece of every five-piece door."""
    return _as_sawn(piece for rod in rods.rods for front in rod.fronts for piece in _each(rod, front.parts))


def _each(rod: Rod, made: Iterable[Front | DoorPart]) -> Iterator[OnePiece]:
    for one in made:
        for copy in _copies(rod.frame):
            yield OnePiece(name=one.name, copy=copy, frame=rod.frame.id, made=one)


def _copies(frame: Frame) -> Iterator[int]:
    return iter((0,)) if frame.quantity == 1 else iter(range(1, frame.quantity + 1))


def _as_sawn(pieces: Iterable[OnePiece]) -> tuple[OnePiece, ...]:
    return tuple(sorted(pieces, key=_saw_order))


def _saw_order(piece: OnePiece) -> tuple[object, ...]:
    sizes = (-piece.thickness, -piece.width, -piece.beads, -piece.length)
    return *sizes, shop_order(piece.name), piece.copy
