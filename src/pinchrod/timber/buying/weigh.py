"""Which offers to buy of: each alone, two together, planed lengths for what they fit.

The cheapest at the confidence asked is taken. The same deliveries are looked at for every way, so that luck
does not choose. A second offer of sawn boards must save what is worth a second order.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pinchrod.ground import Mm
from pinchrod.job import Offer
from pinchrod.timber.buying.bets import Fixed, Mix
from pinchrod.timber.buying.ways import Members, Scales, Way
from pinchrod.timber.records import Wanted
from pinchrod.timber.sizes import Kind, kind_of

WORTH_A_SECOND_ORDER = Mm("0.02")  # of the cost of the sawn boards
SHARES = (Mm("0.5"), Mm("0.25"), Mm("0.75"))  # of the timber, from the second offer
HOPELESS = Mm("1.05")  # times the best: where half of each is so dear, no other share is tried


def ways(scales: Scales, wanted: Members) -> Iterator[Way]:
    """Ways to buy these members, each offered by someone or on the rack; better ones as they are found."""
    must = tuple(one for one in wanted if not scales.sawn_givers(one) and scales.planed_givers(one))
    may = tuple(one for one in wanted if scales.sawn_givers(one) and scales.planed_givers(one))
    kinds = tuple(dict.fromkeys(kind_of(one) for one in may))
    starts = [_way(scales, wanted, (*must, *may))] if may else []
    starts += [_way(scales, wanted, must)]
    found = [way for way in starts if way]
    yield from found
    if not found:
        return
    best = min(found, key=lambda way: way.cost)
    for kind in kinds:
        way = _way(scales, wanted, _turned(best, kind, must, may)) if len(kinds) > 1 else None
        if way:
            yield way
            best = min(best, way, key=lambda way: way.cost)
    yield from _with_a_second_offer(scales, best)


def _turned(way: Way, kind: Kind, must: Members, may: Members) -> Members:
    """What is planed when that kind is planed and was not, or the other way round."""
    now = {one.kind for one in way.planed}
    turned = now ^ {kind}
    return (*must, *(one for one in may if kind_of(one) in turned))


def _way(scales: Scales, wanted: Members, out_of_bars: Members) -> Way | None:
    """These out of planed lengths, the rest out of the rack and the sawn boards that cost least."""
    sawn = tuple(one for one in wanted if one not in out_of_bars)
    bars = scales.bars(out_of_bars)
    paid = sum((one.answer.cost for one in bars), Mm(0))
    if not sawn or _rack_gives(scales, sawn):
        return Way(planed=bars, sawn=sawn, mix=None, cost=paid)
    found = [
        Way(planed=bars, sawn=sawn, mix=mix, cost=paid + cost)
        for mix in _mixes(scales, sawn, scales.asked.confidence)
        if (cost := scales.cost(scales.looked(sawn, mix), scales.asked.confidence)) is not None
    ]
    return min(found, key=lambda way: way.cost, default=None)


def _rack_gives(scales: Scales, sawn: Members) -> bool:
    rack = scales.asked.rack
    return bool(rack) and scales.table(sawn).cutter.fewest(rack, 0, scales.pains.tries) is not None


def _mixes(scales: Scales, sawn: Members, share: Mm) -> Iterator[Mix]:
    """Each offer that gives all that any gives; else the one that gives most, and what others must."""
    offered = tuple(one for one in sawn if scales.sawn_givers(one))
    alone = [offer for offer in scales.sawn if all(offer in scales.sawn_givers(one) for one in offered)]
    yield from (Mix(open=offer) for offer in alone)
    if alone or not offered:
        return
    most = max(scales.sawn, key=lambda offer: _given(scales, offer, offered))
    others = tuple(one for one in offered if most not in scales.sawn_givers(one))
    surer = 1 - (1 - share) / 4
    for mix in _mixes(scales, others, surer):
        quantity = scales.looked(others, mix).least(surer)
        if quantity is not None:
            yield Mix(fixed=(*mix.fixed, Fixed(offer=mix.open, quantity=quantity)), open=most)


def _given(scales: Scales, offer: Offer, wanted: Sequence[Wanted]) -> Mm:
    """How much finished wood of these members an offer may give."""
    given = (one for one in wanted if offer in scales.sawn_givers(one))
    return sum((one.volume * len(one.marks) for one in given), Mm(0))


def _with_a_second_offer(scales: Scales, best: Way) -> Iterator[Way]:
    """The best way with some of another offer, if that saves what is worth a second order."""
    if best.mix is None or best.mix.fixed:
        return
    sawn_cost = best.cost - sum((one.answer.cost for one in best.planed), Mm(0))
    for offer in scales.sawn:
        if offer == best.mix.open or not _given(scales, offer, best.sawn):
            continue
        for way in _shared(scales, best, offer):
            if way.cost < best.cost - WORTH_A_SECOND_ORDER * sawn_cost:
                yield way


def _shared(scales: Scales, best: Way, second: Offer) -> Iterator[Way]:
    """Shares of a second offer: half, and if that is not hopeless less and more."""
    assert best.mix is not None  # noqa: S101 -- it was looked at
    bet = scales.looked(best.sawn, best.mix)
    volume = _volume(scales, best, bet.least(scales.asked.confidence) or Mm(0))
    for share in SHARES:
        mix = Mix(
            fixed=(Fixed(offer=second, quantity=scales.quantity_of(second, share * volume)),),
            open=best.mix.open,
        )
        cost = scales.cost(scales.looked(best.sawn, mix), scales.asked.confidence)
        if cost is None:
            return
        paid = sum((one.answer.cost for one in best.planed), Mm(0))
        yield replace(best, mix=mix, cost=paid + cost)
        if share == SHARES[0] and paid + cost > HOPELESS * best.cost:
            return


def _volume(scales: Scales, way: Way, quantity: Mm) -> Mm:
    assert way.mix is not None  # noqa: S101 -- it was looked at
    stream = scales.streams.of(way.mix.open, 0)
    return stream.volume(stream.sent_for(quantity))
