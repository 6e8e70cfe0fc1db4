"""A layout laid into the space between stiles and rails: where each divider and each opening comes.

Everything here is in sight sizes; how far a member enters its neighbours is `joints`' business.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, Problem, Span, Where, show
from pinchrod.job import Frame, Group, Kind, Layout, Place, Side, Way
from pinchrod.setting_out.member import Role

SOME = Mm(1000)  # stands for a share that is not known


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bar:
    """A member before its joints: its run between its neighbours' edges, and those neighbours.

    `low` and `high` are the bars it enters at its datum and far end; None where it stands free.
    Two bars are the same only if they are one piece, however alike.
    """

    role: Role
    along: Span
    across: Span
    low: "Bar | None" = None
    high: "Bar | None" = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """A clear space and the bars that bound it; no lower bar where there is no bottom rail.

    `lost` names the ways in which its size is not known, since sizes above it do not add up: what is in
    it is laid out all the same, so that its other faults can be told in the same go.
    """

    x: Span
    y: Span
    left: Bar
    right: Bar
    lower: Bar | None
    upper: Bar
    lost: tuple[Way, ...] = ()

    def run(self, way: Way) -> Span:
        """The span that parts lying this way share out."""
        return self.y if way is Way.STACK else self.x


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One opening as it falls: its words, its space, and the side it hangs on if it is a door."""

    place: Place
    space: Space
    hung: Side


def divide(layout: Layout, space: Space, frame: Frame) -> Iterator[Bar | Cell | Problem]:
    """Each divider, opening and fault, in the order the phrase names them."""
    if isinstance(layout, Place) and layout.size is not None and layout.size != space.y.length:
        yield _does_not_add_up(Way.STACK, frame, layout.at, layout.size, Mm(0), space.y.length)
    yield from _fill(layout, space, frame, Side.LEFT)


def _fill(layout: Layout, space: Space, frame: Frame, hand: Side) -> Iterator[Bar | Cell | Problem]:
    if isinstance(layout, Place):
        yield Cell(place=layout, space=space, hung=layout.hung or hand)
        return
    shares = None if layout.way in space.lost else _shares(layout, space, frame)
    if isinstance(shares, Problem):
        yield shares
    if isinstance(shares, Problem) or shares is None:
        space = replace(space, lost=(*space.lost, layout.way))
        shares = tuple(SOME if part.size is None else part.size for part in layout.parts)
    yield from _lay_out(layout, shares, space, frame, hand)


def _lay_out(
    group: Group, shares: tuple[Mm, ...], space: Space, frame: Frame, hand: Side
) -> Iterator[Bar | Cell | Problem]:
    """Cut the parts off the space one after another, from the top down or from the left."""
    rest = space
    for part, share, wide, side in zip(
        group.parts, shares, (*_widths(group, frame), None), _hands(group, hand), strict=True
    ):
        if wide is None:
            yield from _fill(part, rest, frame, side)
        else:
            here, bar, rest = _cut_off(rest, group.way, share, wide)
            yield bar
            yield from _fill(part, here, frame, side)


def _cut_off(space: Space, way: Way, share: Mm, wide: Mm) -> tuple[Space, Bar, Space]:
    """The part cut off, the divider after it, and the space that is left."""
    if way is Way.STACK:
        top = space.y.high
        across = Span(top - share - wide, top - share)
        rail = Bar(role=Role.RAIL, along=space.x, across=across, low=space.left, high=space.right)
        here = replace(space, y=Span(across.high, top), lower=rail)
        return here, rail, replace(space, y=Span(space.y.low, across.low), upper=rail)
    left = space.x.low
    across = Span(left + share, left + share + wide)
    muntin = Bar(role=Role.MUNTIN, along=space.y, across=across, low=space.lower, high=space.upper)
    here = replace(space, x=Span(left, across.low), right=muntin)
    return here, muntin, replace(space, x=Span(across.high, space.x.high), left=muntin)


def _widths(group: Group, frame: Frame) -> tuple[Mm, ...]:
    usual = frame.mid_rail if group.way is Way.STACK else frame.muntin
    return tuple(usual if divider is None else divider for divider in group.dividers)


def _shares(group: Group, space: Space, frame: Frame) -> tuple[Mm, ...] | Problem:
    """The sight size of each part; what has no size shares what is left, equally."""
    room = space.run(group.way).length
    said = sum((part.size for part in group.parts if part.size is not None), Mm(0))
    dividers = sum(_widths(group, frame), Mm(0))
    left = room - said - dividers
    sharers = sum(part.size is None for part in group.parts)
    if (sharers and left <= 0) or (not sharers and left != 0):
        return _does_not_add_up(group.way, frame, group.at, said, dividers, room)
    return tuple(left / sharers if part.size is None else part.size for part in group.parts)


def _hands(group: Group, hand: Side) -> tuple[Side, ...]:
    """Which way doors of each part hang unless said: in a row, the outermost hang on its ends."""
    if group.way is Way.STACK:
        return (hand,) * len(group.parts)
    doors = [_has_door(part) for part in group.parts]
    ends_right = doors[-1] and any(doors[:-1])
    return (Side.LEFT,) * (len(doors) - 1) + (Side.RIGHT if ends_right else Side.LEFT,)


def _has_door(layout: Layout) -> bool:
    """Whether a door hangs in this part of a row: alone, or in a stack."""
    if isinstance(layout, Place):
        return layout.kind is Kind.DOOR
    return layout.way is Way.STACK and any(_has_door(part) for part in layout.parts)


def _does_not_add_up(way: Way, frame: Frame, at: int, said: Mm, dividers: Mm, room: Mm) -> Problem:
    size, bars = ("height", "rails") if way is Way.STACK else ("width", "muntins")
    total = said + dividers
    if dividers:
        made = f"sizes of {show(said)} and {bars} of {show(dividers)} come to {show(total)}"
    else:
        made = f"a size of {show(said)} stands"
    outcome, mend = _difference(total - room, bars)
    return Problem(
        where=_in_phrase(frame, at),
        code="does-not-add-up",
        what=f"{made} in a sight {size} of {show(room)}: {outcome}",
        mend=mend,
    )


def _difference(over: Mm, bars: str) -> tuple[str, str]:
    """What the difference is, and how to mend it."""
    if over > 0:
        return (
            f"{show(over)} too much",
            f"make the sizes or {bars} more than {show(over)} smaller in all, or the frame larger",
        )
    if over < 0:
        return (
            f"{show(-over)} too little",
            f"make the sizes {show(-over)} larger in all, or leave one out to take what is left",
        )
    return (
        "nothing is left for the parts without a size",
        f"make the sizes or {bars} smaller, or the frame larger",
    )


def _in_phrase(frame: Frame, at: int) -> Where:
    where = frame.layout_where.called(frame.id)
    return replace(where, column=where.column + at) if where.column else where
