"""The boards on the rack, as tallied."""

from dataclasses import dataclass, field
from math import isqrt

from pinchrod.ground import Mm, Span, Where

MM3 = 10**9  # in a cubic metre


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A stretch of a board that will not do; `across` is None where it takes the whole width."""

    along: Span
    across: Span | None = None
    back_only: bool = False  # only the back shows it


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A sawn board as tallied. Bow is out of the face, spring out of the edge, both over the whole length.

    Across, everything is measured from the sprung edge: the one that is straightened first.
    """

    name: str
    thickness: Mm
    width: Mm
    length: Mm
    price: Mm  # of the whole board, in any one currency
    bow: Mm = Mm(0)
    spring: Mm = Mm(0)
    faults: tuple[Fault, ...] = ()
    where: Where = field(default_factory=Where, compare=False)  # of its row

    @property
    def volume(self) -> Mm:
        """What it measures, in cubic metres."""
        return self.thickness * self.width * self.length / MM3

    def longest_clean(self, spare: Mm) -> Mm | None:
        """The longest piece that holds no more bow than `spare`; None if there is nothing to spare.

        A board bowed s over L holds s·(l/L)² over l, so that l = L·√(spare/s). The root is taken of a whole
        number, downwards, so that nothing is rounded up.
        """
        if spare < 0:
            return None
        if self.bow <= 0:
            return self.length
        return min(self.length, _root_below(spare * self.length**2 / self.bow))


def _root_below(square: Mm) -> Mm:
    """The square root of an exact number, at most a millionth of a millimetre too small."""
    fine = 10**6
    return Mm(isqrt(int(square * fine * fine)), fine)
