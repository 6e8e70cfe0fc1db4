"""The sheet to send: what is ordered, in sizes and amounts, and what the merchant is asked to keep to."""

from collections.abc import Iterator

from pinchrod.ground import show_fixed
from pinchrod.papers.buying.order_words import CENT, both_ways, size_words
from pinchrod.papers.buying.ordered import Ordered
from pinchrod.papers.marks.sheet import NARROW, Line, Spot, Words
from pinchrod.papers.pages.bands import (
    LARGE,
    PLAIN,
    Band,
    Column,
    blank,
    boxed,
    broken,
    gathered,
    heading,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.listing import fact
from pinchrod.papers.pages.page import Content, body, pages_like

TITLE = "Order for timber"
RANDOM = (
    "Random widths and lengths: within the sizes above. Send boards until the amount is reached; the last may"
    " go beyond it."
)
EXACT = "Where one size is said: boards of that size, clear and straight, as many as are said."
PRICES = "At the prices offered; what is sent is paid for."
LINE = 9.0  # mm from one line to write on to the next
FIRST = 62.0  # mm to where it begins


def order_page(ordered: Ordered) -> tuple[Content, ...]:
    """The order as it is sent."""
    space = body(ordered.shop.papers.size, true_scale=False)
    content = Content(title=TITLE, document_type="Order", marks=())
    return pages_like(content, gathered(_bands(ordered, space.right - space.left), space, space))


def _bands(ordered: Ordered, width: float) -> Iterator[Band]:
    yield heading(TITLE, width, 7.0)
    yield blank(1.0)
    yield from (_to_fill_in(name, width) for name in ("To", "Ordered by", "Deliver to, and when"))
    yield blank(4.0)
    yield fact("Timber", ordered.job.timber.name, width)
    yield fact("Sizes", "in mm, as sold", width)
    yield blank(2.0)
    yield from _table(ordered, width)
    yield blank(3.0)
    yield boxed(
        [(line, False) for said in _asked_of(ordered) for line in broken(said, PLAIN, width - 5)], width
    )
    yield blank(3.0)
    yield paragraph(_in_all(ordered), width, LARGE, bold=True)
    yield paragraph(PRICES, width)
    yield blank(10.0)
    yield _to_fill_in("Date and signature", width)


def _table(ordered: Ordered, width: float) -> Iterator[Band]:
    numbers = (("thickness", 18.0), ("width", 23.0), ("length", 29.0))
    left = width - 33.0 - 24.0 - sum(wide for _, wide in numbers)
    columns = (
        Column("offer", left, PLAIN, bold=True),
        *(number_column(name, wide) for name, wide in numbers),
        number_column("ordered", 33.0, LARGE, bold=True),
        number_column("that is", 24.0),
    )
    head = table_head(columns)
    yield head
    for offer, amount in ordered.lines:
        yield table_row(columns, (offer.name, *size_words(offer), *both_ways(offer, amount)), (head,))


def _asked_of(ordered: Ordered) -> Iterator[str]:
    """What the merchant is asked to keep to."""
    fixed = [offer.is_fixed for offer, _ in ordered.lines]
    if not all(fixed):
        yield RANDOM
    if any(fixed):
        yield EXACT


def _in_all(ordered: Ordered) -> str:
    cost = show_fixed(ordered.bought.cost, CENT)
    return f"In all {'about ' if ordered.bought.promise else ''}{cost}"


def _to_fill_in(name: str, width: float) -> Band:
    """A name, and a line to write on beside it."""
    words = Words(Spot(0.0, -LINE + 2.0), name, bold=True)
    line = Line(Spot(FIRST, -LINE + 1.0), Spot(width, -LINE + 1.0), pen=NARROW, layer="table")
    return Band(height=LINE, marks=(words, line))
