"""The order written out: what to expect of it, what it promises, and what other confidences would cost."""

from collections.abc import Callable, Iterator

from pinchrod.ground import Mm, rounded
from pinchrod.timber.buying.bets import Bet, Fixed
from pinchrod.timber.buying.binomial import interval
from pinchrod.timber.buying.planed import amounts_of
from pinchrod.timber.buying.records import (
    LEVELS,
    Amount,
    Buying,
    Level,
    Promise,
    Sample,
    Sure,
)
from pinchrod.timber.buying.streams import Stream
from pinchrod.timber.buying.ways import Scales, Way

CENT, LITRE, TENTH = Mm("0.01"), Mm("0.001"), Mm("0.1")
SURE = Mm("0.95")  # of the interval about the promise
CURVE = tuple(Mm(share, 100) for share in range(50, 100))
SAMPLES = 3


def without_chance(scales: Scales, way: Way) -> Buying:
    """An order of planed lengths alone, or of nothing at all."""
    bars = amounts_of(scales.planed, way.planed)
    paid = sum((one.cost for one in bars), Mm(0))
    samples = (_from_the_rack(scales, way),) if way.sawn else ()
    return Buying(amounts=bars, planed=way.planed, cost=paid, at_most=paid, samples=samples)


def with_a_bet(scales: Scales, way: Way, bet: Bet) -> Buying | None:
    """An order with sawn boards in it; None where no amount that was looked at is so sure."""
    level, quantity = _level(scales, way, bet, scales.asked.confidence), bet.least(scales.asked.confidence)
    if quantity is None:
        return None
    enough, of = bet.enough(quantity), len(bet.brinks)
    low, high = interval(enough, of, SURE)
    return Buying(
        amounts=level.amounts,
        planed=way.planed,
        cost=level.cost,
        at_most=level.at_most,
        promise=Promise(enough=enough, deliveries=of, low=low, high=high),
        levels=tuple(_level(scales, way, bet, share) for share in LEVELS),
        curve=tuple(_curve(scales, way, bet)),
        left_over=_over(scales, bet, quantity, lambda spare: spare >= 0),
        missing=-_over(scales, bet, quantity, lambda spare: spare < 0),
        samples=tuple(_samples(scales, way, bet, quantity)),
    )


def _from_the_rack(scales: Scales, way: Way) -> Sample:
    cutter, rack = scales.table(way.sawn).cutter, scales.asked.rack
    found = cutter.fewest(rack, 0, scales.pains.tries) or cutter.most(rack, scales.pains.tries)
    return Sample(number=0, boards=rack, breakout=cutter.breakout(found, rack))


def _level(scales: Scales, way: Way, bet: Bet, share: Mm) -> Level:
    """What it takes to be so sure."""
    quantity, bars = bet.least(share), amounts_of(scales.planed, way.planed)
    if quantity is None:
        return Level(confidence=share, share=Mm(0), amounts=(), cost=Mm(0), at_most=Mm(0))
    ordered = (*bet.mix.fixed, Fixed(offer=bet.mix.open, quantity=quantity))
    numbers = range(len(bet.brinks))
    paid = sum((one.cost for one in bars), Mm(0))
    costs = sorted(paid + scales.cost_in(bet.mix, quantity, number) for number in numbers)
    return Level(
        confidence=share,
        share=Mm(bet.enough(quantity), len(numbers)),
        amounts=(*(_amount(scales, one, numbers) for one in ordered), *bars),
        cost=rounded(sum(costs, Mm(0)) / len(costs), CENT),
        at_most=rounded(costs[max(0, int(-(-share * len(costs) // 1)) - 1)], CENT),
    )


def _amount(scales: Scales, ordered: Fixed, numbers: range) -> Amount:
    """What to expect of so much of an offer."""
    streams = [scales.streams.of(ordered.offer, number) for number in numbers]
    sent = [(stream, stream.sent_for(ordered.quantity)) for stream in streams]
    return Amount(
        offer=ordered.offer.name,
        quantity=ordered.quantity,
        boards=rounded(Mm(sum(boards for _, boards in sent), len(sent)), TENTH),
        volume=_mean([stream.volume(boards) for stream, boards in sent], LITRE),
        cost=_mean([ordered.offer.price * stream.reached(boards) for stream, boards in sent], CENT),
    )


def _mean(numbers: list[Mm], step: Mm) -> Mm:
    return rounded(sum(numbers, Mm(0)) / len(numbers), step) if numbers else Mm(0)


def _curve(scales: Scales, way: Way, bet: Bet) -> Iterator[Sure]:
    """Cost against the share of deliveries that it is enough for."""
    paid = sum((one.answer.cost for one in way.planed), Mm(0))
    for share in CURVE:
        quantity = bet.least(share)
        if quantity is not None:
            costs = [paid + scales.cost_in(bet.mix, quantity, number) for number in range(len(bet.brinks))]
            yield Sure(share=Mm(bet.enough(quantity), len(costs)), cost=_mean(costs, CENT))


def _over(scales: Scales, bet: Bet, quantity: Mm, counts: Callable[[Mm], bool]) -> Mm:
    """How much more than it takes comes of the open offer, where that counts; on average, in cubic metres."""
    spare = []
    for number, brink in enumerate(bet.brinks):
        if brink is not None:
            stream = scales.streams.of(bet.mix.open, number)
            spare.append(_spare(stream, quantity, brink))
    return _mean([one for one in spare if counts(one)], LITRE)


def _spare(stream: Stream, quantity: Mm, brink: Mm) -> Mm:
    return stream.volume(stream.sent_for(quantity)) - stream.volume(stream.to_the_brink(brink))


def _samples(scales: Scales, way: Way, bet: Bet, quantity: Mm) -> Iterator[Sample]:
    """The first few deliveries that the order is enough for, and how the job comes out of them."""
    table = scales.table(way.sawn)
    enough = [number for number, brink in enumerate(bet.brinks) if brink is not None and brink < quantity]
    for number in enough[:SAMPLES]:
        stream, there = scales.streams.of(bet.mix.open, number), table.there(bet.mix, number)
        boards = (*there, *stream.first(stream.sent_for(quantity)))
        found = table.fewest(there, bet.mix.open, number)
        if found is not None:
            yield Sample(number=number, boards=boards, breakout=table.cutter.breakout(found, boards))
