"""What would not hold or could not be cut where members are notched."""

from collections.abc import Iterator
from itertools import product

from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.setting_out.member import Member, Notch


def check_webs(member: Member, where: Where, *, least: Mm) -> Iterator[Problem]:
    """Doubt or refuse what is left behind a notch, and between two notches opposite each other."""
    yield from check_notch_webs(member, where, least=least)
    low, high = _by_edge(member)
    for one, other in product(low, high):
        deep = _deepest(one, other)
        if deep > max(one.depth, other.depth):
            what = f"the notches for {one.takes} and {other.takes}, opposite each other,"
            yield from _web(member, where, deep, least, what)


def check_notch_webs(member: Member, where: Where, *, least: Mm) -> Iterator[Problem]:
    """Doubt or refuse what is left behind each notch by itself."""
    for notch in member.notches:
        yield from _web(member, where, notch.depth, least, f"the notch for {notch.takes}")


def _web(member: Member, where: Where, deep: Mm, least: Mm, cut: str) -> Iterator[Problem]:
    web = member.width - deep
    if web >= least:
        return
    plural = "leave" if cut.endswith(",") else "leaves"
    left = f"{plural} {show(web)} of wood" if web > 0 else f"{plural} no wood"
    yield Problem(
        where=where,
        code="thin-web" if web > 0 else "no-web",
        what=f"{cut} {left} of a width of {show(member.width)}",
        mend=f"make the {member.role} {show(deep + least)} wide or more, or the bead narrower",
        stops=web <= 0,
    )


def _by_edge(member: Member) -> tuple[list[Notch], list[Notch]]:
    low = [notch for notch in member.notches if notch.edge.low]
    return low, [notch for notch in member.notches if not notch.edge.low]


def _deepest(one: Notch, other: Notch) -> Mm:
    """How much of the width two notches opposite each other take, where they take most."""
    if not one.mouth.meets(other.mouth):
        return Mm(0)
    corners = [
        place
        for notch in (one, other)
        for place in (notch.mouth.low, notch.floor.low, notch.floor.high, notch.mouth.high)
    ]
    return max(one.deep_at(place) + other.deep_at(place) for place in corners)


def check_floor(member: Member, where: Where, *, flat: Mm) -> Iterator[Problem]:
    """Refuse a member whose notches would be narrower at the floor than the knife's flat.

    A member beaded on one edge only has a notch that runs out: one stroke against its flank cuts it
    however narrow it is.
    """
    if not member.beads or not (member.low_end.meets or member.high_end.meets):
        return
    taken = member.bead * len(member.beads)
    floor = member.width - taken
    least = flat if len(member.beads) > 1 else Mm(0)
    if floor <= 0 or floor < least:
        wide = f"{show(flat + taken)} wide or more" if least else f"more than {show(taken)} wide"
        knife = f", and the knife's flat is {show(flat)}" if least else ""
        yield Problem(
            where=where,
            code="narrow-floor",
            what=f"the notch that takes it has a floor {show(floor)} wide{knife}",
            mend=f"make the {member.role} {wide}, or the bead narrower",
        )
