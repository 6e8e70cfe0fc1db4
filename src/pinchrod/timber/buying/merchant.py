"""What is believed of a merchant's boards: what he sent before, and as far as that is little, what is usual.

What is usual, and where it is from:

* Faults on the face take 1.75 % of it: the mean of the two best grades of red oak, 1.2 and 2.3 %
  (Wiedenbeck, Gatchell and Walker, Forest Products Journal 45(3), 1995, by its abstract; the next two
  grades have 6.8 and 9.8 %). It is believed no more firmly than three faults seen would make it, so a
  delivery may well have a third or twice that.
* How uneven knots are in size, how much longer than wide, how many faults are splits (one in five), and
  that boards differ as much as a geometric count: from 6,915 labelled faults of planed beech (Golden 2025,
  doi 10.5281/zenodo.18205890, CC BY 4.0).
* About half of that is wane, named there as one of the three commonest; the middling knot is 40 by 29 mm;
  how ends split, boards bow and spring: common practice, no source.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from pinchrod.job import Board, Fault, Offer


class Spot(NamedTuple):
    """A fault by its size along the board and across it; 0 across: the whole width."""

    along: int
    across: int


class Warp(NamedTuple):
    """Bow and spring, in thousandths of a millimetre for each metre of length squared."""

    bow: int
    spring: int


class Seen(NamedTuple):
    """How often a thing was there, and how often not."""

    yes: int
    no: int


EVENNESS = (0.37, 0.48, 0.56, 0.63, 0.73, 0.86, 1.03, 1.27, 1.66, 2.41)  # of knots, a tenth of them each
USUAL_SPOTS = tuple(
    Spot(round(long * size), round(wide * size))
    for long, wide, often in ((40, 29, 4), (150, 21, 1))
    for size in EVENNESS
    for _ in range(often)
)
USUAL_SPOTS_SEEN, USUAL_SPOTS_OVER = 3, 0.68  # faults over square metres: 0.9 % of the face, wane apart
USUAL_ENDS = tuple(range(20, 101, 10))  # mm of an end that has split
USUAL_ENDS_SEEN = Seen(5, 5)
USUAL_EDGES = tuple(Spot(long, wide) for long in (300, 600, 1000, 1600) for wide in (10, 16, 26))  # wane
USUAL_EDGES_SEEN = Seen(2, 3)
USUAL_BACKS_SEEN = Seen(1, 4)  # spots that only the back shows
USUAL_WARPS = tuple(  # mm over 2 m
    Warp(bow * 250, spring * 250) for bow in (0, 0, 0, 1, 1, 2, 3, 5) for spring in (0, 0, 0, 1, 1, 2, 3, 6)
)
WEIGHT = 8  # boards that what is usual counts for against boards seen
ONE_IN = (
    4  # since boards differ, so many faults seen tell as much of the rate as one that came by chance alone
)
LONG_EDGE = 150  # mm: a fault at an edge, as long or longer, is wane


@dataclass(frozen=True, slots=True, kw_only=True)
class Merchant:
    """What may be expected of an offer's boards. What was seen counts with what is usual."""

    boards: int  # seen
    sizes: tuple[Spot, ...]  # length and width of boards seen
    warps: tuple[Warp, ...]
    spots: tuple[Spot, ...]
    ends: tuple[int, ...]
    edges: tuple[Spot, ...]
    spots_seen: int
    spots_over: float  # square metres
    ends_seen: Seen
    edges_seen: Seen
    backs_seen: Seen

    @property
    def trust(self) -> float:
        """How much of what is drawn should be as seen before, the rest as is usual."""
        return self.boards / (self.boards + WEIGHT)


class _Sorted(NamedTuple):
    """A board's faults by their kind."""

    spots: list[Spot]
    backs: int
    ends: list[int]
    edges: list[Spot]


def merchant_of(offer: Offer) -> Merchant:
    """What the boards this merchant sent before tell of the next ones."""
    boards = offer.history
    found = [_sorted(board) for board in boards]
    spots = [spot for one in found for spot in one.spots]
    ends = [end for one in found for end in one.ends]
    edges = [edge for one in found for edge in one.edges]
    backs = sum(one.backs for one in found)
    area = sum(float(board.width * board.length) for board in boards) / 1e6
    return Merchant(
        boards=len(boards),
        sizes=tuple(Spot(round(board.length), round(board.width)) for board in boards),
        warps=tuple(_warp(board) for board in boards),
        spots=tuple(spots),
        ends=tuple(ends),
        edges=tuple(edges),
        spots_seen=USUAL_SPOTS_SEEN + round(len(spots) / ONE_IN),
        spots_over=USUAL_SPOTS_OVER + area / ONE_IN,
        ends_seen=_more(USUAL_ENDS_SEEN, len(ends), 2 * len(boards)),
        edges_seen=_more(USUAL_EDGES_SEEN, sum(bool(one.edges) for one in found), len(boards)),
        backs_seen=_more(USUAL_BACKS_SEEN, backs, len(spots)),
    )


def _more(usual: Seen, yes: int, of: int) -> Seen:
    return Seen(usual.yes + yes, usual.no + max(of - yes, 0))


def _warp(board: Board) -> Warp:
    square = board.length**2 / 10**6
    return Warp(round(board.bow * 1000 / square), round(board.spring * 1000 / square))


def _sorted(board: Board) -> _Sorted:
    found = _Sorted([], sum(fault.back_only for fault in board.faults), [], [])
    ends = tuple(_ends(board))
    for fault in board.faults:
        long = round(fault.along.length)
        if fault in ends:
            found.ends.append(long)
        elif fault.across is not None and long >= LONG_EDGE and _at_edge(board, fault):
            found.edges.append(Spot(long, round(fault.across.length)))
        else:
            found.spots.append(Spot(long, round(fault.across.length) if fault.across else 0))
    return found


def _ends(board: Board) -> Iterator[Fault]:
    """The faults that take the whole width at an end, one at each end at most."""
    whole = [fault for fault in board.faults if fault.across is None and not fault.back_only]
    yield from _first(fault for fault in whole if fault.along.low == 0)
    yield from _first(fault for fault in whole if fault.along.high == board.length and fault.along.low > 0)


def _first(faults: Iterable[Fault]) -> Iterator[Fault]:
    yield from list(faults)[:1]


def _at_edge(board: Board, fault: Fault) -> bool:
    return fault.across is not None and (fault.across.low == 0 or fault.across.high == board.width)
