"""Where each piece comes from: its stick and board, by the piece's mark."""

from collections.abc import Iterator

from pinchrod.job import Shop
from pinchrod.papers.boards.sawn import Sawn
from pinchrod.papers.pages.bands import Band, gathered, heading
from pinchrod.papers.pages.listing import listed
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.setting_out import shop_order

TITLE = "Where pieces come from"
SHORT = "no wood"


def where_from(sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """The pages that lead from a piece to its stick and its board."""
    space = body(shop.papers.size, true_scale=False)
    content = Content(title=TITLE, document_type="Stick list", marks=())
    return pages_like(content, gathered(_bands(sawn, space.right - space.left), space, space))


def _bands(sawn: Sawn, width: float) -> Iterator[Band]:
    yield heading(TITLE, width, 7.0)
    found = {mark: f"{stick.name}, {stick.board}" for stick in sawn.breakout.sticks for mark in stick.members}
    found |= dict.fromkeys(sawn.breakout.short, SHORT)
    entries = [(mark, found[mark]) for mark in sorted(found, key=shop_order)]
    yield from listed("Each piece, its stick and its board", entries, width)
