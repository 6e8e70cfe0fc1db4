"""What is ordered is said in what its price is for."""

from pinchrod.ground import Mm
from pinchrod.job import Board, Offer, Per, measure

STEPS = {
    Per.CUBIC_METRE: Mm("0.005"),
    Per.METRE: Mm("0.1"),
    Per.BOARD: Mm(1),
    Per.BOARD_FOOT: Mm(1),
}
"""What an order is rounded up to."""


def measured(offer: Offer, board: Board) -> Mm:
    """How much of what an offer's price is for a board of it is."""
    return measure(board, offer.per, offer.tallying)


def rounded_up(quantity: Mm, per: Per) -> Mm:
    """The quantity in whole steps of an order."""
    step = STEPS[per]
    return -(-quantity // step) * step


def measure_of_bar(offer: Offer) -> Mm:
    """How much of what its price is for one board of a fixed size is."""
    width, length = offer.width.low, offer.length.low
    return measured(offer, Board(name="", thickness=offer.thickness, width=width, length=length, price=Mm(0)))


def price_of_bar(offer: Offer) -> Mm:
    """What one board of a fixed size costs."""
    return offer.price * measure_of_bar(offer)
