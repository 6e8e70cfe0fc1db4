"""Where members meet: names, notches and mitres, and the recesses for what draws them together."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, Span
from pinchrod.job import Job, Joint, Shop
from pinchrod.setting_out.divide import Bar
from pinchrod.setting_out.fixings import Drawn, Meeting, draw_together, fixings_of
from pinchrod.setting_out.member import SQUARE, Edge, End, Member, Notch, Role

MARKS = {
    Role.LEFT_STILE: "LS",
    Role.RIGHT_STILE: "RS",
    Role.TOP_RAIL: "TR",
    Role.BOTTOM_RAIL: "BR",
    Role.RAIL: "R",
    Role.MUNTIN: "M",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A bar with its mark and its beaded edges."""

    name: str
    bar: Bar
    beads: tuple[Edge, ...]


def name_bars(frame_id: str, bars: Iterable[Bar], *, foot: bool, beaded: bool) -> tuple[Named, ...]:
    """The bars with their marks: rails from the top down, muntins from the left, each in turn."""
    ordered = sorted(bars, key=_reading_order)
    counts: dict[Role, int] = defaultdict(int)
    named = []
    for bar in ordered:
        counts[bar.role] += 1
        number = str(counts[bar.role]) if bar.role in (Role.RAIL, Role.MUNTIN) else ""
        beads = _beads(bar.role, foot=foot) if beaded else ()
        named.append(Named(name=f"{frame_id}-{MARKS[bar.role]}{number}", bar=bar, beads=beads))
    return tuple(named)


def _reading_order(bar: Bar) -> tuple[int, Mm, Mm]:
    if bar.role.upright:
        return list(Role).index(bar.role), bar.across.low, -bar.along.high
    return list(Role).index(bar.role), -bar.across.high, bar.along.low


def _beads(role: Role, *, foot: bool) -> tuple[Edge, ...]:
    """The edges that meet an opening; over a foot the bottom rail is beaded on both."""
    match role:
        case Role.LEFT_STILE:
            return (Edge.RIGHT,)
        case Role.RIGHT_STILE:
            return (Edge.LEFT,)
        case Role.TOP_RAIL:
            return (Edge.LOWER,)
        case Role.BOTTOM_RAIL:
            return (Edge.LOWER, Edge.UPPER) if foot else (Edge.UPPER,)
        case Role.RAIL:
            return (Edge.LOWER, Edge.UPPER)
        case Role.MUNTIN:
            return (Edge.LEFT, Edge.RIGHT)


def join(named: tuple[Named, ...], job: Job, shop: Shop) -> tuple[Member, ...]:
    """The members, each cut to take its neighbours and to enter them."""
    names = {piece.bar: piece.name for piece in named}
    joints: dict[str, list[Drawn]] = defaultdict(list)
    for piece in named:
        for meeting in _meetings(piece, names, job):
            drawn = draw_together(meeting, job.joint, shop.fixings, job.thickness)
            joints[meeting.receiver].append(drawn)
            joints[meeting.arriving].append(drawn)
    return tuple(_member(piece, joints[piece.name], job, shop) for piece in named)


def _meetings(piece: Named, names: Mapping[Bar, str], job: Job) -> Iterator[Meeting]:
    """The one or two places where a bar enters others: at its datum end, at its far end."""
    near, far = (Edge.UPPER, Edge.LOWER) if piece.bar.role.upright else (Edge.RIGHT, Edge.LEFT)
    for receiver, edge in ((piece.bar.low, near), (piece.bar.high, far)):
        if receiver is not None:
            yield Meeting(
                arriving=piece.name,
                receiver=names[receiver],
                edge=edge,
                mouth=piece.bar.across,
                floor=_floor(piece, job.bead.width),
                depth=job.bead.width,
            )


def _floor(piece: Named, bead: Mm) -> Span:
    """The end of a member: narrower than its face by the bead on each beaded edge."""
    low = bead if any(edge.low for edge in piece.beads) else Mm(0)
    high = bead if any(not edge.low for edge in piece.beads) else Mm(0)
    return Span(piece.bar.across.low + low, piece.bar.across.high - high)


def _member(piece: Named, joints: Sequence[Drawn], job: Job, shop: Shop) -> Member:
    bar, bead = piece.bar, job.bead.width
    meetings = tuple(drawn.meeting for drawn in joints)
    low = _end(piece.name, meetings, job, shop, datum=True)
    high = _end(piece.name, meetings, job, shop, datum=False)
    along = Span(bar.along.low - (bead if low.meets else 0), bar.along.high + (bead if high.meets else 0))
    bare = Member(
        name=piece.name,
        role=bar.role,
        along=along,
        across=bar.across,
        thickness=job.thickness,
        bead=bead,
        beads=piece.beads,
        low_end=low,
        high_end=high,
        notches=_notches(piece.name, meetings),
    )
    return replace(bare, fixings=tuple(fixings_of(bare, joints, job.joint)))


def _end(name: str, meetings: Sequence[Meeting], job: Job, shop: Shop, *, datum: bool) -> End:
    tenon = shop.fixings.mortice_and_tenon.long if job.joint is Joint.MORTICE_AND_TENON else Mm(0)
    for meeting in meetings:
        if meeting.arriving == name and meeting.at_datum_end == datum:
            return End(meets=meeting.receiver, tenon=tenon)
    return SQUARE


def _notches(name: str, meetings: Sequence[Meeting]) -> tuple[Notch, ...]:
    """A member's notches, by edge and then from the datum end; none where nothing is beaded."""
    notches = [
        Notch(edge=it.edge, mouth=it.mouth, floor=it.floor, depth=it.depth, takes=it.arriving)
        for it in meetings
        if it.receiver == name and it.depth
    ]
    return tuple(sorted(notches, key=lambda notch: (not notch.edge.low, notch.mouth.low)))
