"""Recesses for what draws two members together, cut where they meet.

How many to a joint, and where along it: see the table of joints in the room's README.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.job import DovetailKey, Dowel, Fixings, Joint, LooseTenon, MorticeAndTenon, PocketScrew
from pinchrod.setting_out.member import Edge, Face, Fixing, Member, Recess


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Where one member (arriving) enters another's edge, in frame coordinates along that edge."""

    arriving: str
    receiver: str
    edge: Edge  # of the receiver
    mouth: Span
    floor: Span
    depth: Mm

    @property
    def at_datum_end(self) -> bool:
        """Whether it is the arriving member's datum end that enters."""
        return not self.edge.low


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One recess of a joint, the same in both members: its centre along the joint and its sizes."""

    recess: Recess
    centre: Mm
    long: Mm
    wide: Mm
    deep: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A meeting with the recesses that draw it together."""

    meeting: Meeting
    cuts: tuple[Cut, ...]


def draw_together(meeting: Meeting, joint: Joint, fixings: Fixings, thickness: Mm) -> Drawn:
    """The meeting with its recesses, the same for both members."""
    return Drawn(meeting=meeting, cuts=tuple(_cuts(meeting, joint, fixings, thickness)))


def fixings_of(member: Member, joints: Iterable[Drawn], joint: Joint) -> Iterator[Fixing]:
    """Every recess in a member, joint by joint."""
    for drawn in joints:
        receiving = drawn.meeting.receiver == member.name
        if receiving and joint is not Joint.POCKET_SCREW:
            yield from (_in_receiver(member, drawn.meeting, cut) for cut in drawn.cuts)
        if not receiving and joint is not Joint.MORTICE_AND_TENON:
            yield from (_in_arriving(member, drawn.meeting, cut) for cut in drawn.cuts)


def _cuts(meeting: Meeting, joint: Joint, fixings: Fixings, thickness: Mm) -> Iterator[Cut]:
    match joint:
        case Joint.DOVETAIL_KEY:
            return _key_slots(meeting, fixings.dovetail_key)
        case Joint.LOOSE_TENON:
            return _loose_tenon_mortices(meeting, fixings.loose_tenon)
        case Joint.DOWEL:
            return _dowel_holes(meeting, fixings.dowel)
        case Joint.MORTICE_AND_TENON:
            return _mortice(meeting, fixings.mortice_and_tenon, thickness)
        case Joint.POCKET_SCREW:
            return _pockets(meeting, fixings.pocket_screw, thickness)


def _key_slots(meeting: Meeting, key: DovetailKey) -> Iterator[Cut]:
    number = 1 if meeting.mouth.length <= key.one_up_to else 2
    for centre in _quarters(meeting.floor, number):
        yield Cut(recess=Recess.KEY_SLOT, centre=centre, long=key.wide, wide=key.reach, deep=key.deep)


def _loose_tenon_mortices(meeting: Meeting, tenon: LooseTenon) -> Iterator[Cut]:
    number = 1 if meeting.mouth.length <= tenon.one_up_to else 2
    long = tenon_width(meeting.floor, number, tenon)
    for centre in _quarters(meeting.floor, number):
        yield Cut(recess=Recess.MORTICE, centre=centre, long=long, wide=tenon.thick, deep=tenon.deep)


def _dowel_holes(meeting: Meeting, dowel: Dowel) -> Iterator[Cut]:
    size = dowel.diameter
    for centre in _between(meeting, dowel.number, size / 2 + dowel.wall):
        yield Cut(recess=Recess.DOWEL_HOLE, centre=centre, long=size, wide=size, deep=dowel.long / 2)


def _mortice(meeting: Meeting, worked: MorticeAndTenon, thickness: Mm) -> Iterator[Cut]:
    span = haunched(meeting, worked.haunch_share)
    thick = thickness * worked.thickness_share
    yield Cut(recess=Recess.MORTICE, centre=span.middle, long=span.length, wide=thick, deep=worked.long)


def _pockets(meeting: Meeting, screw: PocketScrew, thickness: Mm) -> Iterator[Cut]:
    """Pockets so sloped that the screw leaves the end in the middle of the thickness."""
    size, wide = screw.diameter, screw.from_end
    for centre in _between(meeting, screw.number, size / 2):
        yield Cut(recess=Recess.POCKET, centre=centre, long=size, wide=wide, deep=thickness / 2)


def tenon_width(floor: Span, number: int, tenon: LooseTenon) -> Mm:
    """Width of each loose tenon, in mm: as the shop stocks it, or what the joint has room for."""
    return min(tenon.wide, floor.length / number - 2 * tenon.wall)


def haunched(meeting: Meeting, share: Mm) -> Span:
    """Where a worked tenon stands along its joint: clear of a frame's corner by a haunch."""
    floor, mouth = meeting.floor, meeting.mouth
    haunch = floor.length * share
    low = haunch if mouth.low == floor.low else Mm(0)
    high = haunch if mouth.high == floor.high else Mm(0)
    return floor if low and high else Span(floor.low + low, floor.high - high)


def _quarters(floor: Span, number: int) -> tuple[Mm, ...]:
    """One centre in the middle, or two at the quarter points."""
    if number == 1:
        return (floor.middle,)
    quarter = floor.length / 4
    return floor.low + quarter, floor.high - quarter


def _between(meeting: Meeting, number: int, clear: Mm) -> Iterator[Mm]:
    """Two centres at the third points of the member's width, three at the quarter points, and so on.

    Where one would stand nearer than `clear` to an end of the floor, the part that bears, they are spread
    over what is left of the floor instead.
    """
    mouth, floor = meeting.mouth, meeting.floor
    step = mouth.length / (number + 1)
    first, last = floor.low + clear, floor.high - clear
    if number > 1 and (mouth.low + step < first or mouth.high - step > last):
        spread = (last - first) / (number - 1)
        return (first + spread * each for each in range(number))
    return (mouth.low + step * each for each in range(1, number + 1))


def _in_receiver(member: Member, meeting: Meeting, cut: Cut) -> Fixing:
    """The recess in the edge (a key slot: in the back, from the joint inwards)."""
    back = cut.recess is Recess.KEY_SLOT
    inward = meeting.depth + (cut.wide / 2 if back else 0)
    return Fixing(
        recess=cut.recess,
        face=Face.BACK if back else Face.EDGE,
        at=cut.centre - member.datum,
        across=inward if meeting.edge.low else member.width - inward,
        long=cut.long,
        wide=cut.wide,
        deep=cut.deep,
        edge=meeting.edge,
        to=meeting.arriving,
    )


def _in_arriving(member: Member, meeting: Meeting, cut: Cut) -> Fixing:
    """The recess in the end (a key slot or a pocket: in the back, from the end inwards)."""
    back = cut.recess in (Recess.KEY_SLOT, Recess.POCKET)
    inward = cut.wide / 2 if cut.recess is Recess.KEY_SLOT else cut.wide if back else Mm(0)
    return Fixing(
        recess=cut.recess,
        face=Face.BACK if back else Face.END,
        at=inward if meeting.at_datum_end else member.length - inward,
        across=cut.centre - member.across.low,
        long=cut.long,
        wide=cut.wide,
        deep=cut.deep,
        edge=None,
        to=meeting.receiver,
    )
