"""Frames no phrase says: bars laid by hand, in windmills too, notched and mitred as the rule of the house has it."""

import random
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.setting_out import Edge, End, Member, Notch, Rod, Role
from tests.builders import a_frame

WIDE = 40


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar by its face without what enters its neighbours, and the bars its ends meet."""

    name: str
    role: Role
    x: tuple[int, int]
    y: tuple[int, int]
    low: str = ""
    high: str = ""

    @property
    def edges(self) -> tuple[Edge, ...]:
        match self.role:
            case Role.LEFT_STILE:
                return (Edge.RIGHT,)
            case Role.RIGHT_STILE:
                return (Edge.LEFT,)
            case Role.TOP_RAIL:
                return (Edge.LOWER,)
            case Role.BOTTOM_RAIL:
                return (Edge.UPPER,)
            case Role.RAIL:
                return (Edge.LOWER, Edge.UPPER)
        return (Edge.LEFT, Edge.RIGHT)


def a_hand_made_rod(bars, bead=9):
    """The rod of these bars."""
    members = tuple(_member(bar, bars, bead) for bar in bars)
    wide, high = (max(bar.x[1] for bar in bars), max(bar.y[1] for bar in bars))
    return Rod(frame=a_frame(width=wide, height=high), members=members, openings=())


def _member(bar, bars, bead):
    along, across = (bar.y, bar.x) if bar.role.upright else (bar.x, bar.y)
    edges = bar.edges if bead else ()
    low = along[0] - (bead if bar.low else 0)
    high = along[1] + (bead if bar.high else 0)
    notches = [notch for other in bars for notch in _notches(bar, other, bead)] if bead else []
    return Member(
        name=bar.name,
        role=bar.role,
        along=Span(Mm(low), Mm(high)),
        across=Span(Mm(across[0]), Mm(across[1])),
        thickness=Mm(22),
        bead=Mm(bead),
        beads=edges,
        low_end=End(meets=bar.low),
        high_end=End(meets=bar.high),
        notches=tuple(sorted(notches, key=lambda notch: (not notch.edge.low, notch.mouth.low))),
    )


def _notches(bar, other, bead):
    """What the other bar's ends cut into this one."""
    mouth = other.x if other.role.upright else other.y
    low, high = (Edge.LEFT, Edge.RIGHT) if other.role.upright else (Edge.LOWER, Edge.UPPER)
    floor = (mouth[0] + (bead if low in other.edges else 0), mouth[1] - (bead if high in other.edges else 0))
    for end, edges in ((other.low, (Edge.UPPER, Edge.RIGHT)), (other.high, (Edge.LOWER, Edge.LEFT))):
        if end == bar.name:
            yield Notch(
                edge=edges[1] if bar.role.upright else edges[0],
                mouth=Span(Mm(mouth[0]), Mm(mouth[1])),
                floor=Span(Mm(floor[0]), Mm(floor[1])),
                depth=Mm(bead),
                takes=other.name,
            )


def stiles_and_rails(wide, high):
    """The four outer bars, the room they leave, and its walls: left, right, low, high."""
    bars = [
        Bar("LS", Role.LEFT_STILE, (0, WIDE), (0, high)),
        Bar("RS", Role.RIGHT_STILE, (wide - WIDE, wide), (0, high)),
        Bar("TR", Role.TOP_RAIL, (WIDE, wide - WIDE), (high - WIDE, high), "LS", "RS"),
        Bar("BR", Role.BOTTOM_RAIL, (WIDE, wide - WIDE), (0, WIDE), "LS", "RS"),
    ]
    return bars, (WIDE, wide - WIDE, WIDE, high - WIDE), ("LS", "RS", "BR", "TR")


def a_random_hand_made(dice: random.Random, *, most: int, windmills: float):
    """Bars in stiles and rails, the inside divided by bars that run through, or by windmills of four."""
    while True:
        wide, high = dice.randint(600, 1200), dice.randint(600, 1200)
        bars, inside, walls = stiles_and_rails(wide, high)
        _divide(inside, walls, bars, dice, windmills)
        if 5 <= len(bars) <= most:
            return bars


def _divide(room, walls, bars, dice, windmills):
    left, right, low, high = room
    if min(right - left, high - low) < 5 * WIDE or dice.random() < 0.35:
        return
    if dice.random() < windmills:
        inside, inner = add_windmill(bars, room, walls, turned=dice.random() < 0.5)
        _divide(inside, inner, bars, dice, windmills)
    elif dice.random() < 0.5:
        at = dice.randint(left + 2 * WIDE, right - 3 * WIDE)
        name = _add(bars, Role.MUNTIN, (at, at + WIDE), (low, high), walls[2], walls[3])
        _divide((left, at, low, high), (walls[0], name, *walls[2:]), bars, dice, windmills)
        _divide((at + WIDE, right, low, high), (name, *walls[1:]), bars, dice, windmills)
    else:
        at = dice.randint(low + 2 * WIDE, high - 3 * WIDE)
        name = _add(bars, Role.RAIL, (left, right), (at, at + WIDE), walls[0], walls[1])
        _divide((left, right, low, at), (*walls[:3], name), bars, dice, windmills)
        _divide((left, right, at + WIDE, high), (*walls[:2], name, walls[3]), bars, dice, windmills)


def add_windmill(bars, room, walls, *, turned):
    """Four bars, each ending at the next, one way round or the other; the room left inside and its walls."""
    left, right, low, high = room
    x, y = left + WIDE + (right - left) // 4, low + WIDE + (high - low) // 4
    x2, y2 = right - (right - left) // 4, high - (high - low) // 4
    number = len(bars)
    a, b, c, d = (f"{kind}{number + place}" for place, kind in enumerate("RMRM"))
    if turned:
        bars += [
            Bar(a, Role.RAIL, (x, right), (y - WIDE, y), b, walls[1]),
            Bar(b, Role.MUNTIN, (x - WIDE, x), (low, y2 - WIDE), walls[2], c),
            Bar(c, Role.RAIL, (left, x2 - WIDE), (y2 - WIDE, y2), walls[0], d),
            Bar(d, Role.MUNTIN, (x2 - WIDE, x2), (y, high), a, walls[3]),
        ]
        return (x, x2 - WIDE, y, y2 - WIDE), (b, d, a, c)
    bars += [
        Bar(a, Role.RAIL, (left, x2 - WIDE), (y - WIDE, y), walls[0], b),
        Bar(b, Role.MUNTIN, (x2 - WIDE, x2), (low, y2 - WIDE), walls[2], c),
        Bar(c, Role.RAIL, (x, right), (y2 - WIDE, y2), d, walls[1]),
        Bar(d, Role.MUNTIN, (x - WIDE, x), (y, high), a, walls[3]),
    ]
    return (x, x2 - WIDE, y, y2 - WIDE), (d, b, a, c)


def _add(bars, role, x, y, low, high):
    name = f"{'M' if role.upright else 'R'}{len(bars)}"
    bars.append(Bar(name, role, x, y, low, high))
    return name
