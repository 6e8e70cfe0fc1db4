"""A board on the page: lying face up, its datum end to the left, the sprung edge uppermost.

It is drawn at one scale in both directions, and parted into lanes one under another where it is too long for
the page, so that strips are wide enough to write on.
"""

from dataclasses import dataclass
from itertools import pairwise

from pinchrod.ground import Mm, Span
from pinchrod.papers.marks.boxes import Box
from pinchrod.timber import Board, Offcut, RippedBoard

SCALES = (2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100)
RIGHT = 6.0  # mm right of the board, for half a number under its end


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardLying:
    """A board with its place on a page: where its left end lies, its scale, and its lanes along it."""

    sawn: RippedBoard
    kept: tuple[Offcut, ...]
    left: float
    scale: int
    lanes: tuple[Span, ...]

    @property
    def board(self) -> Board:
        """The board itself."""
        return self.sawn.board

    @property
    def high(self) -> float:
        """How high a lane is on paper."""
        return float(self.board.width) / self.scale

    def on_paper(self, size: Mm) -> float:
        """How large a length is on paper."""
        return float(size) / self.scale

    def box(self, lane: Span, along: Span, across: Span) -> Box | None:
        """Where in a lane a rectangle of the board lies, if any of it does; the lane's top is at nought."""
        low, high = max(along.low, lane.low), min(along.high, lane.high)
        if low >= high:
            return None
        left, right = (self.left + self.on_paper(end - lane.low) for end in (low, high))
        return Box(left, -self.on_paper(across.high), right, -self.on_paper(across.low))


def lying_at(
    sawn: RippedBoard, kept: tuple[Offcut, ...], left: float, right: float, scale: int
) -> BoardLying:
    """The board at that scale between two sides of the page, in as few lanes as it needs, all as long."""
    most = Mm(int((right - left - RIGHT) * scale))
    number = -(-sawn.board.length // most)
    long = Mm(-(-sawn.board.length // number))  # whole millimetres: the last lane may be a little shorter
    ends = [min(long * place, sawn.board.length) for place in range(int(number) + 1)]
    lanes = tuple(Span(low, high) for low, high in pairwise(ends))
    return BoardLying(sawn=sawn, kept=kept, left=left, scale=scale, lanes=lanes)
