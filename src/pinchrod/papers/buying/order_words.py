"""What an order says in words: sizes, amounts in what the price is for, shares of deliveries."""

from pinchrod.ground import Mm, Span, show
from pinchrod.job import Offer, Per
from pinchrod.timber import Amount

CENT, LITRE, TENTH = Mm("0.01"), Mm("0.001"), Mm("0.1")
UNITS = {Per.CUBIC_METRE: "m³", Per.METRE: "m", Per.BOARD: "boards", Per.BOARD_FOOT: "board feet"}


def size_words(offer: Offer) -> tuple[str, str, str]:
    """Thickness, width and length as offered, each one size or the least and the most."""
    return show(offer.thickness), _span(offer.width), _span(offer.length)


def _span(span: Span) -> str:
    return show(span.low) if span.length == 0 else f"{show(span.low)} – {show(span.high)}"


def quantity_words(offer: Offer, quantity: Mm) -> str:
    """So much of what the price is for: `0.365 m³`."""
    unit = "board" if offer.per is Per.BOARD and quantity == 1 else UNITS[offer.per]
    return f"{show(quantity, LITRE)} {unit}"


def both_ways(offer: Offer, amount: Amount) -> tuple[str, str]:
    """What is ordered, and what that is: boards where all are alike, else what the price is for."""
    many = f"{show(amount.boards, Mm(1))} {'board' if amount.boards == 1 else 'boards'}"
    if offer.is_fixed:
        return many, "" if offer.per is Per.BOARD else quantity_words(offer, amount.quantity)
    if offer.per is Per.BOARD:
        return many, ""
    return quantity_words(offer, amount.quantity), f"≈ {many}"


def percent(share: Mm) -> str:
    """A share in a hundred."""
    return f"{show(100 * share)} %"
