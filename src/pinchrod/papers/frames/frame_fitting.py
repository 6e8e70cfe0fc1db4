"""Where a frame's tables and words find room: each in what the drawing and those before it leave free.

It goes as with boards: what is set down takes a corner of a free place, and what is left is cut in two,
either across or along. All ways are tried in their order, and the first that holds everything is taken.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Marks
from pinchrod.papers.pages.bands import Band, gathered, height_of

BESIDE = 4.0  # mm of white between two things side by side
UNDER = 2.0  # mm of white between one and the next beneath it
ENOUGH = 1e-6  # mm, lost in reckoning


@dataclass(frozen=True, slots=True)
class Lot:
    """Bands that stay together: what they are at a width, and how wide they may be."""

    bands: Callable[[float], tuple[Band, ...]]
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Stood:
    """A lot that has its place."""

    bands: tuple[Band, ...]
    box: Box

    @property
    def marks(self) -> Marks:
        """Its marks on the page."""
        room = Box(self.box.left, self.box.bottom - 1.0, self.box.right, self.box.top)
        return gathered(self.bands, room, room)[0]


def fitted(lots: Sequence[Lot], free: Sequence[Box]) -> tuple[Stood, ...] | None:
    """Every lot in one of the free places or what is left of it; None if no way is found."""
    if not lots:
        return ()
    for place, box in enumerate(free):
        stood = _stood(lots[0], box)
        for left_over in _left_over(box, stood.box) if stood else ():
            rest = fitted(lots[1:], (*free[:place], *left_over, *free[place + 1 :]))
            if stood and rest is not None:
                return (stood, *rest)
    return None


def _stood(lot: Lot, box: Box) -> Stood | None:
    """The lot in the box's upper left corner, if it has room."""
    width = min(box.right - box.left, lot.most)
    if width < lot.least - ENOUGH:
        return None
    bands = lot.bands(width)
    bottom = box.top - height_of(bands)
    return Stood(bands, Box(box.left, bottom, box.left + width, box.top)) if bottom >= box.bottom else None


def _left_over(box: Box, taken: Box) -> Iterator[tuple[Box, Box]]:
    """What is left of a box whose upper left corner is taken: beside that and under it, cut either way."""
    right, under = taken.right + BESIDE, taken.bottom - UNDER
    yield Box(right, box.bottom, box.right, box.top), Box(box.left, box.bottom, taken.right, under)
    yield Box(right, taken.bottom, box.right, box.top), Box(box.left, box.bottom, box.right, under)
