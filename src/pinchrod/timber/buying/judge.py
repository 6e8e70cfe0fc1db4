"""The judge: what is wrong with an order, from what was asked, is offered, and the sample deliveries.

It shares nothing with the chooser. That the order is enough is looked at in sample deliveries: the boards
are as offered, the merchant sent them until the order was reached and no further, and the whole job comes
out of them, by the judge of break-outs.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.ground import Mm, show
from pinchrod.job import Board, Offer, Per, measure
from pinchrod.timber.buying.records import Buying, Planed, Sample, ToBuy
from pinchrod.timber.judge import flaws as flaws_of_sticks
from pinchrod.timber.one_length import flaws as flaws_of_bars
from pinchrod.timber.records import Question, Wanted

CENT = Mm("0.01")


def flaws(asked: ToBuy, bought: Buying) -> Iterator[str]:
    """Say what is wrong with an order."""
    offers = {offer.name: offer for offer in asked.offers}
    yield from (f"nobody offers {one.offer}" for one in bought.amounts if one.offer not in offers)
    if not bought.unsure:
        yield from _members_not_once(asked, bought)
    for one in bought.planed:
        yield from _planed_flaws(asked, one, offers)
    for sample in bought.samples:
        yield from _sample_flaws(asked, bought, sample, offers)
    yield from _promise_flaws(asked, bought)
    yield from _level_flaws(bought)
    yield from _money_flaws(bought, offers)


def _members_not_once(asked: ToBuy, bought: Buying) -> Iterator[str]:
    """A member wanted is planed, or refused, or sawn in every sample; and none is two of them."""
    wanted = Counter(mark for one in asked.wanted for mark in one.marks)
    refused = Counter(mark for one in bought.refused for mark in one.marks)
    planed = sum(piece.wanted for one in bought.planed for piece in one.question.pieces)
    for sample in bought.samples or (None,):
        sticks = sample.breakout.sticks if sample else ()
        sawn = Counter(mark for stick in sticks for mark in stick.members)
        number = planed + refused.total() + sawn.total()
        if (sawn + refused) - wanted or number != wanted.total():
            yield f"{number} members are planed, sawn or refused, and {wanted.total()} are wanted"


def _planed_flaws(asked: ToBuy, one: Planed, offers: dict[str, Offer]) -> Iterator[str]:
    """Bars of another section or used up to their ends, pieces nobody wants, and the bars' own judge."""
    kind, practice = one.kind, asked.practice
    lengths = Counter(
        {
            w.length: len(w.marks)
            for w in asked.wanted
            if w.thickness == kind.thickness and w.width == kind.width and w.beads == kind.beads
        }
    )
    made: Counter[Mm] = Counter()
    for piece in one.question.pieces:
        made[piece.length] += piece.wanted
    if made - lengths:
        yield f"planed {show(kind.width)} × {show(kind.thickness)}: members that nobody wants"
    if one.question.kerf != asked.machines.crosscut_saw.kerf:
        yield f"planed {show(kind.width)} × {show(kind.thickness)}: not the kerf of this shop"
    for stock in one.question.stocks:
        offer = offers.get(stock.mark)
        if offer is None or (offer.width.low, offer.thickness, offer.length.low) != (
            kind.width,
            kind.thickness,
            stock.length,
        ):
            yield f"{stock.mark} is not planed to {show(kind.width)} × {show(kind.thickness)}"
            continue
        if stock.length - stock.trim > min(stock.length, practice.longest_stick) - 2 * practice.stick_end:
            yield f"{stock.mark}: no room is left for the ends of the stick"
        if stock.price != offer.price * _measure(offer, [_bar(offer)]):
            yield f"{stock.mark}: a bar does not cost {show(stock.price, CENT)}"
    yield from flaws_of_bars(one.question, one.answer)


def _bar(offer: Offer) -> Board:
    return Board(
        name="", thickness=offer.thickness, width=offer.width.low, length=offer.length.low, price=Mm(0)
    )


def _measure(offer: Offer, boards: Sequence[Board]) -> Mm:
    """What boards are of what the price is for, reckoned here anew, but for board feet as tallied."""
    match offer.per:
        case Per.CUBIC_METRE:
            return sum((b.thickness * b.width * b.length for b in boards), Mm(0)) / 10**9
        case Per.METRE:
            return sum((b.length for b in boards), Mm(0)) / 1000
        case Per.BOARD:
            return Mm(len(boards))
        case Per.BOARD_FOOT:
            return sum((measure(b, offer.per, offer.tallying) for b in boards), Mm(0))


def _sample_flaws(asked: ToBuy, bought: Buying, sample: Sample, offers: dict[str, Offer]) -> Iterator[str]:
    """A sample that does not begin with the rack, is not as offered or ordered, or is cut wrong."""
    where = f"delivery {sample.number}"
    rack, sent = sample.boards[: len(asked.rack)], sample.boards[len(asked.rack) :]
    if rack != asked.rack:
        yield f"{where}: the rack is not as it was"
    planed = {stock.mark for one in bought.planed for stock in one.question.stocks}
    ordered = [one for one in bought.amounts if one.offer in offers and one.offer not in planed]
    at = 0
    for one in ordered:
        offer, begin = offers[one.offer], at
        while at < len(sent) and _measure(offer, sent[begin:at]) < one.quantity:
            at += 1
        boards = sent[begin:at]
        if _measure(offer, boards) < one.quantity:
            yield f"{where}: {one.offer} ends before what was ordered"
        yield from (
            f"{where}: {b.name} is not as {one.offer} has it" for b in boards if not _as_offered(offer, b)
        )
    if at != len(sent):
        yield f"{where}: {len(sent) - at} boards more than were ordered"
    yield from _cutting_flaws(asked, sample, where)


def _cutting_flaws(asked: ToBuy, sample: Sample, where: str) -> Iterator[str]:
    made = {mark for stick in sample.breakout.sticks for mark in stick.members}
    wanted = []
    for one in asked.wanted:
        marks = tuple(mark for mark in one.marks if mark in made)
        if marks:
            wanted.append(
                Wanted(
                    marks=marks, width=one.width, thickness=one.thickness, length=one.length, beads=one.beads
                )
            )
    question = Question(
        wanted=tuple(wanted), boards=sample.boards, practice=asked.practice, machines=asked.machines
    )
    if sample.breakout.short:
        yield f"{where}: {len(sample.breakout.short)} members are left short"
    yield from (f"{where}: {flaw}" for flaw in flaws_of_sticks(question, sample.breakout))


def _as_offered(offer: Offer, board: Board) -> bool:
    return (
        board.thickness == offer.thickness
        and offer.width.low <= board.width <= offer.width.high
        and offer.length.low <= board.length <= offer.length.high
        and all(0 <= f.along.low <= f.along.high <= board.length for f in board.faults)
        and all(f.across is None or 0 <= f.across.low <= f.across.high <= board.width for f in board.faults)
    )


def _promise_flaws(asked: ToBuy, bought: Buying) -> Iterator[str]:
    promise = bought.promise
    sawn = {one.offer for one in bought.amounts} - {
        s.mark for one in bought.planed for s in one.question.stocks
    }
    if promise is None:
        if sawn:
            yield "sawn boards are ordered, and nothing is promised of them"
        return
    if promise.enough > promise.deliveries or promise.share < asked.confidence:
        percent = show(100 * asked.confidence)
        yield f"it is enough for {promise.enough} of {promise.deliveries}, and {percent} % were asked"
    if not promise.low <= promise.share <= promise.high:
        yield "what is promised lies outside its own interval"
    if not bought.samples:
        yield "no sample delivery shows that it is enough"


def _level_flaws(bought: Buying) -> Iterator[str]:
    """A level that is not as sure as it says, or a surer one that takes less of an offer."""
    told = [level for level in bought.levels if level.amounts]
    for level in told:
        if level.share < level.confidence:
            yield f"{show(100 * level.confidence)} %: enough for {show(100 * level.share)} % only"
    for level, surer in pairwise(sorted(told, key=lambda one: one.confidence)):
        less = {one.offer: one.quantity for one in level.amounts}
        if any(one.quantity < less.get(one.offer, Mm(0)) for one in surer.amounts):
            yield f"{show(100 * surer.confidence)} % takes less than {show(100 * level.confidence)} %"


def _money_flaws(bought: Buying, offers: dict[str, Offer]) -> Iterator[str]:
    """Costs that do not add up, an offer that costs less than what was ordered of it."""
    total = sum((one.cost for one in bought.amounts), Mm(0))
    if abs(total - bought.cost) > CENT * max(len(bought.amounts), 1):
        yield f"the amounts cost {show(total, CENT)}, not {show(bought.cost, CENT)}"
    for one in bought.amounts:
        least = offers[one.offer].price * one.quantity if one.offer in offers else Mm(0)
        if one.cost < least - CENT:
            less, price = show(one.cost, CENT), show(least, CENT)
            yield f"{one.offer}: {less} is less than what is ordered costs, {price}"
    paid = sum((one.answer.cost for one in bought.planed), Mm(0))
    if bought.at_most < paid or bought.cost < paid - CENT:
        yield "it costs less than its planed lengths alone"
