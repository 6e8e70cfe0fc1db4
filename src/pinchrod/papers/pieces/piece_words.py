"""How a piece is spoken of on its page: its ends, its edges, and the pieces it may be taken for."""

from collections.abc import Iterator, Mapping

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.setting_out import End, Member, Pattern


def end_name(member: Member, *, far: bool) -> str:
    """What an end is called as the piece stands in its frame: the datum end is the bottom or the left."""
    if member.upright:
        return "top" if far else "bottom"
    return "right" if far else "left"


def ends_words(member: Member, step: Mm) -> str:
    """How the ends are cut: `Bottom end (datum) square, top end mitred 9`, or `Both ends square`."""
    near, far = _end_words(member, member.low_end, step), _end_words(member, member.high_end, step)
    if near == far:
        return f"Both ends {near}"
    names = end_name(member, far=False).capitalize(), end_name(member, far=True)
    return f"{names[0]} end (datum) {near}, {names[1]} end {far}"


def _end_words(member: Member, end: End, step: Mm) -> str:
    shoulder = f"mitred {show(member.bead, step)}" if end.meets and member.beads else "square"
    return f"tenon {show(end.tenon, step)} long, shoulder {shoulder}" if end.tenon else shoulder


def bead_words(member: Member) -> str:
    """Which edges are beaded."""
    if not member.beads:
        return "No bead"
    edges = " and ".join(edge.value for edge in member.beads)
    return f"Bead on the {edges} {'edge' if len(member.beads) == 1 else 'edges'}"


def cautions(pattern: Pattern, known: Mapping[str, Pattern], step: Mm) -> Iterator[str]:
    """What this piece may be taken for by mistake."""
    if pattern.mirror:
        yield f"Mirror of {pattern.mirror}: do not mix them up."
    for mark in pattern.nearly:
        yield _nearly(pattern.drawn, mark, known[mark].drawn, step)


def _nearly(member: Member, mark: str, other: Member, step: Mm) -> str:
    longer = other.length - member.length
    if not longer:
        return f"Nearly like {mark} and as long: look twice."
    way = "longer" if longer > 0 else "shorter"
    return f"Nearly like {mark}: {show_fixed(abs(longer), step)} {way}. Look twice."
