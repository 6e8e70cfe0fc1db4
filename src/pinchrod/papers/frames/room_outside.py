"""How much paper dimensions take outside the frame they stand round, without drawing them."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from pinchrod.papers.marks.chains import PITCH, spread
from pinchrod.papers.marks.dimensions import BESIDE, ROOM, Local, fits, printed
from pinchrod.papers.marks.overlaps import Margins
from pinchrod.papers.marks.sheet import Chain, Dimension, Measuring, Rows, RunningDimension
from pinchrod.papers.marks.stacking import beyond, stacked
from pinchrod.papers.marks.type import words_width

AIR = 1.0  # mm of paper round it all


def room_outside(rows: Iterable[Rows]) -> Margins:
    """What rows of dimensions take on each side of the frame from whose edges they start."""
    taken = {"left": AIR, "right": AIR, "bottom": AIR, "top": AIR}
    for row in rows:
        for side, room in _taken(row):
            taken[side] = max(taken[side], room + AIR)
    return Margins(**taken)


def _taken(row: Rows) -> Iterator[tuple[str, float]]:
    level = row.dimensions[0].axis == "x"
    last = stacked(row)[-1]
    outward = ("bottom", "top") if level else ("left", "right")
    yield outward[row.first > 0], abs(last.away) + beyond(last)
    before, after = ("left", "right") if level else ("bottom", "top")
    for mark in row.dimensions:
        low, high = past_the_ends(mark)
        yield before, low
        yield after, high


def past_the_ends(mark: Measuring) -> tuple[float, float]:
    """How far the mark's numbers stand out beyond its own first and last point, along its line."""
    match mark:
        case Chain():
            return _chain_ends(mark)
        case RunningDimension():
            return running_ends(mark)
        case Dimension():
            return 0.0, 0.0 if fits(mark) else BESIDE * mark.size + words_width(printed(mark), mark.size)


def _chain_ends(mark: Chain) -> tuple[float, float]:
    local = Local(mark.axis)
    at = [local.u(spot) for spot in mark.points]
    gaps = [high - low for low, high in pairwise(at)]
    wide = [words_width(text, mark.size) for text in mark.texts]
    no_room = [w if w + ROOM * mark.size > gap else 0.0 for w, gap in zip(wide, gaps, strict=True)]
    before, *inner, after = no_room if len(no_room) > 1 else (*no_room, 0.0)
    lifted = sum(number + mark.size for number in inner if number)
    low, high = (number + BESIDE * mark.size if number else 0.0 for number in (before, after))
    return low, max(high, lifted - (at[-1] - at[0]))


def running_ends(mark: RunningDimension) -> tuple[float, float]:
    """How far running numbers, spread so that none touch, stand out beyond their first and last point."""
    local = Local(mark.axis)
    at = sorted(local.u(spot) for spot in (mark.datum, *mark.points))
    stands = spread(at, [PITCH * mark.size] * len(at))
    return at[0] - stands[0] + mark.size / 2, stands[-1] + mark.size / 2 - at[-1]
