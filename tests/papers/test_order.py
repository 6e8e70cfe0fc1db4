"""The order's papers: what is ordered stands on the sheet, and nothing lies on anything else."""

from dataclasses import replace

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Offer, Shop
from pinchrod.papers import Content, Ordered, Words
from pinchrod.papers.buying.curve import cost_lines
from pinchrod.papers.buying.order_page import order_page
from pinchrod.papers.buying.sure_page import sure_page
from pinchrod.timber.buying import Sure, buy
from tests.builders import a_frame, an_opening
from tests.papers.data_builders import set_out_job
from tests.papers.page_builders import flaws
from tests.timber.buying.offers import FEW, an_offer, planed, to_buy

LONG = "poplar of random widths and lengths, from the yard beyond the bridge"


def ordered(*offers: Offer, size: str = "A4") -> Ordered:
    job, _ = set_out_job(a_frame(an_opening("pair"), id="K1"))
    shop = Shop()
    asked = to_buy(*offers)
    bought = buy(asked, FEW)
    return Ordered(
        job=job, shop=replace(shop, papers=replace(shop.papers, size=size)), asked=asked, bought=bought
    )


def words_on(pages: tuple[Content, ...]) -> list[str]:
    return [mark.text for page in pages for mark in page.marks if isinstance(mark, Words)]


def test_the_sheet_says_sizes_and_amounts():
    order = ordered(an_offer())

    said = words_on(order_page(order))

    assert {"27", "120 – 260", "2400 – 4200"} <= set(said)
    assert any(text.endswith(" m³") for text in said)


def test_planed_lengths_are_ordered_by_the_board_and_their_proof_is_told():
    order = ordered(an_offer("other"), planed("bars", 2400, 0.5))

    assert any(text.endswith(" boards") for text in words_on(order_page(order)))
    assert any("it is proven" in text for text in words_on(sure_page(order)))


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_nothing_lies_on_anything_else(size):
    for offers in ((an_offer(LONG),), (an_offer("a"), planed(LONG, 2400, 0.5))):
        order = ordered(*offers, size=size)

        assert not list(flaws((*order_page(order), *sure_page(order)), order.job, order.shop))


@pytest.mark.parametrize("costs", [(5, 5.4), (97, 401), (99998, 100003)])
def test_the_plots_lines_stand_about_every_cost(costs):
    lines = cost_lines([Sure(share=Mm("0.5"), cost=Mm(str(cost))) for cost in costs])

    assert 2 <= len(lines) <= 7
    assert lines[0] <= Mm(str(costs[0]))
    assert Mm(str(costs[1])) <= lines[-1]
