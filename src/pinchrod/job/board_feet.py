"""What boards count for, and cost: by volume, by length, by the piece, and in board feet as they are tallied.

A board foot is a foot by a foot by an inch. Hardwood is not sold by the true one: a tally rounds, board by
board, and each way of tallying rounds differently. `docs/tallies.md` has the rules with their sources.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import FOOT, INCH, Mm, rounded
from pinchrod.job.boards import MM3, Board
from pinchrod.job.offers import Offer, Per, Tallying
from pinchrod.job.quarters import quarters_of

BOARD_FOOT = 144 * INCH**3 / MM3
"""In cubic metres: 0.002359737216, exactly."""

HALF = Mm(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyLine:
    """A board as a tally has it: inches wide, feet long, square feet of surface, quarters thick."""

    board: Board
    width: Mm
    length: Mm
    surface: Mm
    quarters: int

    @property
    def board_feet(self) -> Mm:
        """Surface by nominal thickness."""
        return self.surface * self.quarters / 4


def tally_of(boards: Sequence[Board], tallying: Tallying) -> tuple[TallyLine, ...]:
    """The boards as this way of tallying has them, from the top of the tally down."""
    widths = [board.width / INCH for board in boards]
    lengths = [board.length / FOOT for board in boards]
    if tallying is Tallying.EXPORT:
        widths = list(_nearest(widths))
    if tallying is not Tallying.UNROUNDED:
        lengths = [_whole(length) for length in lengths]
    exact = [width * length / 12 for width, length in zip(widths, lengths, strict=True)]
    surfaces = exact if tallying is Tallying.UNROUNDED else list(_nearest(exact))
    return tuple(
        TallyLine(
            board=board, width=width, length=length, surface=surface, quarters=quarters_of(board.thickness)
        )
        for board, width, length, surface in zip(boards, widths, lengths, surfaces, strict=True)
    )


def board_feet_of(lines: Sequence[TallyLine], tallying: Tallying) -> Mm:
    """The board feet of a tally: each thickness added up, and to the nearest whole one where it rounds."""
    thicknesses = sorted({line.quarters for line in lines})
    sums = [
        sum((line.board_feet for line in lines if line.quarters == thickness), Mm(0))
        for thickness in thicknesses
    ]
    return sum(sums if tallying is Tallying.UNROUNDED else [rounded(feet, Mm(1)) for feet in sums], Mm(0))


def measure(board: Board, per: Per, tallying: Tallying = Tallying.SURFACE) -> Mm:
    """How much a board is of what a price is for. In board feet: what it counts for in the middle.

    An exact half goes up in one line of a tally and down in the next, so a board alone counts for the mean.
    """
    match per:
        case Per.CUBIC_METRE:
            return board.volume
        case Per.METRE:
            return board.length / 1000
        case Per.BOARD:
            return Mm(1)
        case Per.BOARD_FOOT:
            return _surface_alone(board, tallying) * quarters_of(board.thickness) / 4


def measure_of_delivery(boards: Sequence[Board], per: Per, tallying: Tallying = Tallying.SURFACE) -> Mm:
    """How much a whole delivery is of what a price is for; in board feet as its tally has it."""
    if per is Per.BOARD_FOOT:
        return board_feet_of(tally_of(boards, tallying), tallying)
    return sum((measure(board, per) for board in boards), Mm(0))


def price_of(offer: Offer, board: Board) -> Mm:
    """What one board of an offer costs; by the board foot, what it costs in the middle of a tally."""
    return offer.price * measure(board, offer.per, offer.tallying)


def price_of_delivery(offer: Offer, boards: Sequence[Board]) -> Mm:
    """What these boards cost delivered together, tallied in this order."""
    return offer.price * measure_of_delivery(boards, offer.per, offer.tallying)


def _nearest(sizes: Iterable[Mm]) -> Iterator[Mm]:
    """Each size to the nearest whole one; exact halves up one time, down the next."""
    up = True
    for size in sizes:
        whole, rest = divmod(size, 1)
        if rest == HALF:
            yield Mm(whole + up)
            up = not up
        else:
            yield _whole(size + HALF)


def _surface_alone(board: Board, tallying: Tallying) -> Mm:
    width, length = board.width / INCH, board.length / FOOT
    if tallying is Tallying.UNROUNDED:
        return width * length / 12
    feet = _whole(length)
    if tallying is Tallying.SURFACE:
        return _middle(width * feet / 12)
    widths = [width - HALF, width + HALF] if width % 1 == HALF else [_whole(width + HALF)]
    return sum((_middle(wide * feet / 12) for wide in widths), Mm(0)) / len(widths)


def _middle(size: Mm) -> Mm:
    """The nearest whole size; an exact half as it is, which is the mean of up and down."""
    return size if size % 1 == HALF else _whole(size + HALF)


def _whole(size: Mm) -> Mm:
    return Mm(size // 1)
