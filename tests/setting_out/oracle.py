"""An independent reckoning of a frame, in exact fractions, sharing no geometry with the program.

It knows a frame only as rectangles in sight sizes: it fills the face with a coarse mosaic of openings and
dividers, then asks of every pair of rectangles that touch which one enters the other.
"""

from fractions import Fraction
from typing import NamedTuple

from pinchrod.job import Frame, Group, Layout, Place, Way


def exact(length: object) -> Fraction:
    """A length as Python's own fraction, so that nothing of the program's reckoning is used."""
    return Fraction(str(length))


class Box(NamedTuple):
    """A rectangle, with what it is."""

    what: str  # "stile", "rail", "muntin" or an opening's kind
    x0: Fraction
    y0: Fraction
    x1: Fraction
    y1: Fraction


def mosaic(frame: Frame) -> list[Box]:
    """Every member (face without what it enters) and every opening."""
    width, height = exact(frame.width), exact(frame.height)
    left, right = exact(frame.left_stile), width - exact(frame.right_stile)
    top = height - exact(frame.top_rail)
    boxes = [
        Box("stile", exact(0), exact(0), left, height),
        Box("stile", right, exact(0), width, height),
        Box("rail", left, top, right, height),
    ]
    bottom = exact(0)
    if frame.bottom_rail:
        bottom = exact(frame.foot) + exact(frame.bottom_rail)
        boxes.append(Box("rail", left, exact(frame.foot), right, bottom))
    return boxes + _fill(frame, frame.layout, (left, bottom, right, top))


def _fill(frame: Frame, layout: Layout, room: tuple[Fraction, Fraction, Fraction, Fraction]) -> list[Box]:
    x0, y0, x1, y1 = room
    if isinstance(layout, Place):
        return [Box(layout.kind.value, x0, y0, x1, y1)]
    sizes, bars = _sizes(frame, layout, y1 - y0 if layout.way is Way.STACK else x1 - x0)
    boxes: list[Box] = []
    at = y1 if layout.way is Way.STACK else x0
    for number, part in enumerate(layout.parts):
        size = sizes[number]
        if layout.way is Way.STACK:
            boxes += _fill(frame, part, (x0, at - size, x1, at))
            at -= size
            if number < len(bars):
                boxes.append(Box("rail", x0, at - bars[number], x1, at))
                at -= bars[number]
        else:
            boxes += _fill(frame, part, (at, y0, at + size, y1))
            at += size
            if number < len(bars):
                boxes.append(Box("muntin", at, y0, at + bars[number], y1))
                at += bars[number]
    return boxes


def _sizes(frame: Frame, group: Group, room: Fraction) -> tuple[list[Fraction], list[Fraction]]:
    usual = exact(frame.mid_rail if group.way is Way.STACK else frame.muntin)
    bars = [usual if bar is None else exact(bar) for bar in group.dividers]
    said = [None if part.size is None else exact(part.size) for part in group.parts]
    rest = room - sum(bars) - sum(size for size in said if size is not None)
    return [rest / said.count(None) if size is None else size for size in said], bars


def openings(boxes: list[Box]) -> list[Box]:
    """The openings of a mosaic."""
    return [box for box in boxes if box.what not in ("stile", "rail", "muntin")]


def members(boxes: list[Box]) -> list[Box]:
    """The members of a mosaic."""
    return [box for box in boxes if box.what in ("stile", "rail", "muntin")]


def lengths(boxes: list[Box], bead: Fraction) -> list[tuple[Fraction, Fraction]]:
    """(length, width) of every member: what it is between its neighbours, and the bead for each it enters."""
    found = []
    for box in members(boxes):
        if box.what == "stile":
            found.append((box.y1 - box.y0, box.x1 - box.x0))
        elif box.what == "rail":
            found.append((box.x1 - box.x0 + bead * _entered(box, boxes), box.y1 - box.y0))
        else:
            found.append((box.y1 - box.y0 + bead * _entered(box, boxes), box.x1 - box.x0))
    return sorted(found)


def _entered(box: Box, boxes: list[Box]) -> int:
    """How many ends of a rail or muntin stand against a member."""
    others = [other for other in members(boxes) if other is not box]
    if box.what == "rail":
        ends = [(box.x0, "x1"), (box.x1, "x0")]
        across = (box.y0, box.y1, "y0", "y1")
    else:
        ends = [(box.y0, "y1"), (box.y1, "y0")]
        across = (box.x0, box.x1, "x0", "x1")
    low, high, other_low, other_high = across
    return sum(
        any(
            getattr(other, side) == place
            and getattr(other, other_low) <= low
            and high <= getattr(other, other_high)
            for other in others
        )
        for place, side in ends
    )


def notch_count(boxes: list[Box]) -> int:
    """How many notches there are: one for every end that enters a member."""
    return sum(_entered(box, boxes) for box in members(boxes) if box.what != "stile")
