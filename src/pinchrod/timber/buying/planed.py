"""Planed lengths in a member's finished section: the exact case, bar by bar, with its proof.

Rule: a planed length is one stick. It loses a stick end at both ends, and what is beyond the longest stick
the shop handles; members on it are a crosscut kerf apart, and have one section and the same number of
beads, because the bead is stuck along the whole bar. The bars are taken to be clear.
"""

from collections import Counter
from collections.abc import Sequence

from pinchrod.ground import Mm, must_be_right
from pinchrod.job import MM3, Offer
from pinchrod.timber.buying.given import usable_bar, why_not
from pinchrod.timber.buying.prices import measure_of_bar, price_of_bar
from pinchrod.timber.buying.records import Amount, Planed, ToBuy
from pinchrod.timber.one_length import Piece, Question, Stock, cut, flaws
from pinchrod.timber.records import Wanted
from pinchrod.timber.sizes import kind_of


def planed(asked: ToBuy, wanted: Sequence[Wanted], offers: Sequence[Offer]) -> Planed:
    """The cheapest planed lengths for members of one section and number of beads, judged."""
    question = Question(
        pieces=tuple(Piece(mark=one.marks[0], length=one.length, wanted=len(one.marks)) for one in wanted),
        stocks=tuple(
            Stock(
                mark=offer.name,
                length=offer.length.low,
                price=price_of_bar(offer),
                trim=offer.length.low - usable_bar(asked, offer),
            )
            for offer in offers
            if any(not why_not(asked, offer, one) for one in wanted)
        ),
        kerf=asked.machines.crosscut_saw.kerf,
    )
    answer = cut(question)
    must_be_right("the planed lengths are", flaws(question, answer))
    return Planed(kind=kind_of(wanted[0]), question=question, answer=answer)


def amounts_of(offers: Sequence[Offer], bought: Sequence[Planed]) -> tuple[Amount, ...]:
    """How many bars of each offer, in what its price is for."""
    bars: Counter[str] = Counter()
    for one in bought:
        for pattern in one.answer.patterns:
            bars[pattern.stock] += pattern.times
    return tuple(_amount(offer, bars[offer.name]) for offer in offers if bars[offer.name])


def _amount(offer: Offer, bars: int) -> Amount:
    return Amount(
        offer=offer.name,
        quantity=bars * measure_of_bar(offer),
        boards=Mm(bars),
        volume=bars * offer.thickness * offer.width.low * offer.length.low / MM3,
        cost=bars * price_of_bar(offer),
    )
