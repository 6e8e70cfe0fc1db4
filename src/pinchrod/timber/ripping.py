"""Boards as they go over the rip saw, in the order that moves the fence least.

The sprung edge is straightened first; from then on the sawn edge runs along the fence, and each rip comes
off as wide as the fence is set. Where a fault keeps the next strip away, what lies between is ripped off.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from pinchrod.ground import Mm, Span
from pinchrod.timber.clear import sides
from pinchrod.timber.records import Board, Breakout, Question, Stick
from pinchrod.timber.trails import fewest_trails


@dataclass(frozen=True, slots=True, kw_only=True)
class Rip:
    """One pass along the fence: the wood that comes off, and the sticks marked on it, from its datum end."""

    band: Span  # across the board, from the sprung edge
    sticks: tuple[Stick, ...] = ()  # none: waste, or an offcut
    trimmed: Mm = Mm(0)  # off the edge before it, saw cut and all: too little for a waste strip

    @property
    def fence(self) -> Mm:
        """What the fence is set to."""
        return self.band.length


@dataclass(frozen=True, slots=True, kw_only=True)
class RippedBoard:
    """A board taken, with its rips in order from the sprung edge, and what is left at the far edge."""

    board: Board
    first_edge: Mm  # where the sprung edge is straightened to
    rips: tuple[Rip, ...]
    rest: Span

    @property
    def sticks(self) -> tuple[Stick, ...]:
        """All its sticks, strip by strip."""
        return tuple(stick for rip in self.rips for stick in rip.sticks)

    @property
    def settings(self) -> tuple[Mm, ...]:
        """What the fence is set to, rip by rip."""
        return tuple(rip.fence for rip in self.rips)


def ripped(question: Question, breakout: Breakout) -> tuple[RippedBoard, ...]:
    """The boards taken, in the order in which they are best ripped.

    A board is ripped whole before the next is picked up. Boards follow each other so that as often as can be
    the next begins with the setting at which the last one ended: no order moves the fence less often.
    """
    boards = {board.name: board for board in question.boards}
    by_board = groupby(sorted(breakout.sticks, key=lambda stick: stick.board), key=lambda stick: stick.board)
    found = {name: _ripped(question, boards[name], tuple(sticks)) for name, sticks in by_board}
    standing = [found[board.name] for board in question.boards if board.name in found]
    ends = [(board.settings[0], board.settings[-1]) for board in standing]
    return tuple(standing[place] for trail in fewest_trails(ends) for place in trail)


def fence_moves(boards: Sequence[RippedBoard]) -> int:
    """How often the fence is set for boards ripped in that order, the first setting counted."""
    settings = [setting for board in boards for setting in board.settings]
    return sum(one != other for one, other in pairwise([None, *settings]))


def _ripped(question: Question, board: Board, sticks: Sequence[Stick]) -> RippedBoard:
    kerf, edge = question.machines.rip_saw.kerf, sides(question, board).low
    rips = tuple(_rips(sticks, edge, kerf))
    rest = min(rips[-1].band.high + kerf, board.width)
    return RippedBoard(board=board, first_edge=edge, rips=rips, rest=Span(rest, board.width))


def _rips(sticks: Sequence[Stick], edge: Mm, kerf: Mm) -> Iterator[Rip]:
    """Strip after strip from the straightened edge, and the waste between them."""
    in_order = sorted(sticks, key=lambda stick: (stick.offset, stick.start))
    for (offset, width), strip in groupby(in_order, key=lambda stick: (stick.offset, stick.width)):
        between, trimmed = offset - edge, Mm(0)
        if between > kerf:
            yield Rip(band=Span(edge, offset - kerf))
        else:
            trimmed = between
        yield Rip(band=Span(offset, offset + width), sticks=tuple(strip), trimmed=trimmed)
        edge = offset + width + kerf
