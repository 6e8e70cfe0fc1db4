"""Which pieces are alike, turned end for end or not, which are each other's mirror, which nearly alike.

A piece turned end for end in the plane of its face is still the same piece; its mirror is not, since
the face side shows. A piece lies with its datum end to the left, so that a left edge lies uppermost.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain

from pinchrod.ground import Mm
from pinchrod.setting_out.cutting import shop_order
from pinchrod.setting_out.member import Edge, Member
from pinchrod.setting_out.rod import Rod, Rods

NEARLY = Mm(3)  # pieces that differ by less than this are easily taken for each other


@dataclass(frozen=True, slots=True, order=True)
class Work:
    """One thing cut in a piece: places along it from the datum end, one across it, and its sizes."""

    kind: str
    along: tuple[Mm, ...]
    above: Mm  # from the middle of the width towards the left or upper edge
    sizes: tuple[Mm, ...]

    def turned(self, length: Mm) -> "Work":
        """The same work with the piece turned end for end."""
        return replace(self, along=tuple(length - place for place in self.along[::-1]), above=-self.above)

    def mirrored(self) -> "Work":
        """The same work in the piece's mirror image."""
        return replace(self, above=-self.above)


@dataclass(frozen=True, slots=True, order=True)
class Shape:
    """All that makes one piece different from another, free of its name and its place in the frame."""

    thickness: Mm
    width: Mm
    length: Mm
    tenons: tuple[Mm, Mm]  # datum end, far end
    mitred: tuple[bool, bool]  # datum end, far end
    beads: tuple[bool, bool]  # left or upper edge, right or lower edge
    works: tuple[Work, ...]

    def turned(self) -> "Shape":
        """The same piece turned end for end in the plane of its face."""
        return replace(
            self,
            tenons=self.tenons[::-1],
            mitred=self.mitred[::-1],
            beads=self.beads[::-1],
            works=tuple(sorted(work.turned(self.length) for work in self.works)),
        )

    def mirrored(self) -> "Shape":
        """The piece's mirror image."""
        works = tuple(sorted(work.mirrored() for work in self.works))
        return replace(self, beads=self.beads[::-1], works=works)

    def at_rest(self) -> "Shape":
        """The one of the piece's two lies that stands for both."""
        return min(self, self.turned())


def shape_of(member: Member) -> Shape:
    """The shape of a member."""
    upper, lower = (Edge.LEFT, Edge.RIGHT) if member.upright else (Edge.UPPER, Edge.LOWER)
    works = chain(_notches(member), _seats(member), _fixings(member))
    return Shape(
        thickness=member.thickness,
        width=member.width,
        length=member.length,
        tenons=(member.low_end.tenon, member.high_end.tenon),
        mitred=(bool(member.low_end.meets), bool(member.high_end.meets)),
        beads=(upper in member.beads, lower in member.beads),
        works=tuple(sorted(works)),
    )


def _notches(member: Member) -> Iterator[Work]:
    for notch in member.notches:
        places = (notch.mouth.low, notch.floor.low, notch.floor.high, notch.mouth.high)
        along = tuple(place - member.datum for place in places)
        yield Work("notch", along, _at_edge(member, notch.edge), (notch.depth,))


def _seats(member: Member) -> Iterator[Work]:
    for seat in member.hinge_seats:
        yield Work("hinge seat", (seat.at,), _at_edge(member, seat.edge), (seat.long,))


def _fixings(member: Member) -> Iterator[Work]:
    for fixing in member.fixings:
        above_low = fixing.across - member.width / 2
        kind = f"{fixing.recess} in {fixing.face} {'across' if fixing.edge is None else 'along'}"
        sizes = (fixing.long, fixing.wide, fixing.deep)
        yield Work(kind, (fixing.at,), -above_low if member.upright else above_low, sizes)


def _at_edge(member: Member, edge: Edge) -> Mm:
    half = member.width / 2
    return half if edge in (Edge.LEFT, Edge.UPPER) else -half


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One member of a frame with the number of alike frames it is wanted for."""

    member: Member
    quantity: int
    turned: bool  # end for end against its pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Pieces that are one and the same to make; the first is the one drawn."""

    mark: str
    pieces: tuple[Piece, ...]
    mirror: str  # the pattern that is its mirror image; empty: none, or its own
    nearly: tuple[str, ...]  # patterns easily taken for it

    @property
    def drawn(self) -> Member:
        """The member that the pattern's page shows."""
        return self.pieces[0].member

    @property
    def quantity(self) -> int:
        """How many pieces are made to it."""
        return sum(piece.quantity for piece in self.pieces)


def patterns(rods: Rods) -> tuple[Pattern, ...]:
    """Every distinct member of a job: thick before thin, wide before narrow, long before short."""
    return _patterns(rods.rods)


@lru_cache(maxsize=1)  # the bench and several papers ask for those of one job
def _patterns(rods: tuple[Rod, ...]) -> tuple[Pattern, ...]:
    groups: dict[Shape, list[tuple[Member, Rod]]] = defaultdict(list)
    for rod in rods:
        for member in rod.members:
            groups[shape_of(member).at_rest()].append((member, rod))
    for group in groups.values():
        group.sort(key=lambda found: shop_order(found[0].name))
    ordered = sorted(groups, key=lambda shape: _pattern_order(shape, groups[shape][0][0]))
    # a mark that no frame's id can be
    marks = {shape: f"#{number}" for number, shape in enumerate(ordered, start=1)}
    nearly = _nearly_alike(ordered)
    return tuple(
        Pattern(
            mark=marks[shape],
            pieces=_pieces(groups[shape]),
            mirror=_mirror_of(shape, marks),
            nearly=tuple(marks[other] for other in nearly[shape]),
        )
        for shape in ordered
    )


def _pattern_order(shape: Shape, first: Member) -> tuple[object, ...]:
    return -shape.thickness, -shape.width, -shape.length, shop_order(first.name)


def _pieces(group: Sequence[tuple[Member, Rod]]) -> tuple[Piece, ...]:
    drawn = shape_of(group[0][0])
    return tuple(
        Piece(member=member, quantity=rod.frame.quantity, turned=shape_of(member) != drawn)
        for member, rod in group
    )


def _mirror_of(shape: Shape, marks: dict[Shape, str]) -> str:
    mirror = shape.mirrored().at_rest()
    return "" if mirror == shape else marks.get(mirror, "")


def _nearly_alike(ordered: Sequence[Shape]) -> dict[Shape, tuple[Shape, ...]]:
    """For each shape, those of its section that differ from it everywhere by less than NEARLY."""
    by_length = sorted(ordered, key=lambda shape: (_kind(shape), shape.length))
    near: dict[Shape, list[Shape]] = {shape: [] for shape in ordered}
    for number, shape in enumerate(by_length):
        for other in by_length[number + 1 :]:
            if _kind(other) != _kind(shape) or other.length - shape.length >= NEARLY:
                break
            if _easily_swapped(shape, other):
                near[shape].append(other)
                near[other].append(shape)
    place = {shape: number for number, shape in enumerate(ordered)}
    return {shape: tuple(sorted(others, key=place.__getitem__)) for shape, others in near.items()}


def _kind(shape: Shape) -> tuple[Mm, Mm, int, int]:
    return shape.thickness, shape.width, sum(shape.beads), len(shape.works)


def _easily_swapped(shape: Shape, other: Shape) -> bool:
    return any(_within(shape, lie) for lie in (other, other.turned()))


def _within(shape: Shape, other: Shape) -> bool:
    """Whether two pieces, lying as they do, have the same work in nearly the same places."""
    if shape.beads != other.beads:
        return False
    return all(
        one.kind == two.kind
        and abs(one.above - two.above) < NEARLY
        and all(abs(a - b) < NEARLY for a, b in zip(one.along, two.along, strict=True))
        for one, two in zip(shape.works, other.works, strict=True)
    )
