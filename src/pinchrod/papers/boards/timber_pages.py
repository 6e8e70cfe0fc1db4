"""All pages of a break-out, in the order in which they are wanted in the workshop."""

from pinchrod.job import Shop
from pinchrod.papers.boards.board_page import board_pages
from pinchrod.papers.boards.rip_list import rip_list
from pinchrod.papers.boards.sawn import sawn_from
from pinchrod.papers.boards.stick_list import stick_list
from pinchrod.papers.boards.timber_page import timber_page
from pinchrod.papers.boards.where_from import where_from
from pinchrod.papers.pages.page import Content
from pinchrod.timber import Breakout, Question


def timber_pages(question: Question, breakout: Breakout, shop: Shop) -> tuple[Content, ...]:
    """The summary for the rack, the lists for both saws, each piece's stick, and a page for each board."""
    sawn = sawn_from(question, breakout)
    summary = timber_page(sawn, shop)
    if not sawn.boards:
        return summary
    lists = (*rip_list(sawn, shop), *stick_list(sawn, shop), *where_from(sawn, shop))
    return (*summary, *lists, *board_pages(sawn, shop))
