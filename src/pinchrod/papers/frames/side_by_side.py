"""A frame as it will stand, small and without words, to be looked at beside the others of its job.

All are drawn to one scale, so that they can be held against each other. What is made from a drawing wants
the frame's own.
"""

from collections.abc import Iterator
from dataclasses import replace

from pinchrod.job import Kind
from pinchrod.papers.frames.elevation_lines import front_lines, member_outline
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import Line, Mark, Path, Pen, Sheet, Spot
from pinchrod.setting_out import Opening, Rod

PER = 30.0  # mm of wood to one of the picture: the widest frame there is has 200
BOLD, FINE, HUNG = Pen(0.25), Pen(0.15), Pen(0.15, (0.9, 0.6))
EDGE = 0.15  # mm of room for the outermost pen
CLOSEST = 15.0  # mm of wood: lines nearer to each other run together
PULL = 90.0  # mm of wood at most across a drawer's pull as drawn: a sign for the drawer, not its size


def standing(rod: Rod) -> Sheet:
    """The frame seen from its face: its members, what stands in its openings, how its doors are hung.

    Its feet stand on the sheet's lower edge, so that frames side by side stand on one floor.
    """
    width, height = float(rod.frame.width) / PER, float(rod.frame.height) / PER
    marks = placed(_marks(rod), scale=1 / PER, dx=EDGE)
    title = f"Frame {rod.frame.id} as it stands"
    return Sheet(width=width + 2 * EDGE, height=height + EDGE, marks=marks, title=title)


def _marks(rod: Rod) -> Iterator[Mark]:
    for opening in rod.openings:
        yield from (_bolder(line) for line in front_lines(opening, CLOSEST))
        if opening.kind is Kind.DRAWER:
            yield _pull(opening)
    yield from (replace(member_outline(member), pen=BOLD, fill="tint") for member in rod.members)


def _bolder(line: Line | Path) -> Mark:
    """The line as bold as the picture needs; dashes stay dashes."""
    return replace(line, pen=HUNG if line.pen is not None and line.pen.dashes else FINE)


def _pull(opening: Opening) -> Line:
    """A short level line in the middle of a drawer's opening."""
    x, y = float(opening.x.middle), float(opening.y.middle)
    half = min(PULL, float(opening.x.length) / 3) / 2
    return Line(Spot(x - half, y), Spot(x + half, y), pen=BOLD, layer="front")
