"""Which members an offer can give at all, and why not the others."""

from collections.abc import Iterable, Iterator, Sequence

from pinchrod.ground import Mm, show
from pinchrod.job import Offer
from pinchrod.timber.buying.records import Refused, ToBuy
from pinchrod.timber.records import Wanted
from pinchrod.timber.sizes import kind_of


def is_planed(offer: Offer, wanted: Iterable[Wanted]) -> bool:
    """Whether an offer is planed lengths: one size, and the finished section of a member."""
    section = offer.width.low, offer.thickness
    return offer.is_fixed and any((one.width, one.thickness) == section for one in wanted)


def stick_of(asked: ToBuy, length: Mm) -> Mm:
    """How long a stick of one member must be."""
    return max(length + 2 * asked.practice.stick_end, asked.practice.shortest_stick)


def usable_bar(asked: ToBuy, offer: Offer) -> Mm:
    """How much of a planed length members may take: the longest stick at most, less its ends."""
    return min(offer.length.low, asked.practice.longest_stick) - 2 * asked.practice.stick_end


def why_not(asked: ToBuy, offer: Offer, one: Wanted) -> str:
    """Why an offer can never give a member; nothing where it can."""
    if is_planed(offer, asked.wanted):
        return _why_not_planed(asked, offer, one)
    practice = asked.practice
    thick, wide = (
        one.thickness + practice.skim,
        one.width + practice.width_allowance + 2 * practice.board_edge,
    )
    long = stick_of(asked, one.length)
    if offer.thickness < thick:
        return f"{offer.name}: {show(offer.thickness)} thick, it needs {show(thick)}"
    if offer.width.high < wide:
        return f"{offer.name}: {show(offer.width.high)} wide at most, it needs {show(wide)}"
    if long > practice.longest_stick:
        most = show(practice.longest_stick)
        return f"{offer.name}: its stick of {show(long)} is longer than the shop handles ({most})"
    if offer.length.high < long:
        return f"{offer.name}: {show(offer.length.high)} long at most, its stick needs {show(long)}"
    return ""


def _why_not_planed(asked: ToBuy, offer: Offer, one: Wanted) -> str:
    if (one.width, one.thickness) != (offer.width.low, offer.thickness):
        return f"{offer.name}: planed to {show(offer.width.low)} × {show(offer.thickness)}"
    if min(offer.length.low, asked.practice.longest_stick) < asked.practice.shortest_stick:
        return f"{offer.name}: shorter than the shortest stick the machines take"
    if one.length > usable_bar(asked, offer):
        return f"{offer.name}: {show(usable_bar(asked, offer))} of each length can be used"
    return ""


def refused(asked: ToBuy, wanted: Sequence[Wanted]) -> Iterator[Refused]:
    """These members, and for each offer why it cannot give them."""
    for one in wanted:
        reasons = (why_not(asked, offer, one) for offer in asked.offers)
        yield Refused(
            marks=one.marks, kind=kind_of(one), length=one.length, why=tuple(why for why in reasons if why)
        )
