"""What to buy, chosen. It loads numba and HiGHS, so only `buy` imports it, and late."""

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import replace

from pinchrod.ground import Mm
from pinchrod.timber.buying.account import with_a_bet, without_chance
from pinchrod.timber.buying.given import refused
from pinchrod.timber.buying.records import Buying, Pains, ToBuy
from pinchrod.timber.buying.ways import Members, Scales, Way
from pinchrod.timber.buying.weigh import ways
from pinchrod.timber.records import Wanted


def choose(asked: ToBuy, pains: Pains) -> Buying:
    """The order that costs least among the ways weighed, with its promise from all the deliveries."""
    scales = Scales(asked, pains)
    lacking = _nowhere(scales)
    wanted = tuple(_but_for(asked.wanted, lacking))
    weighed = sorted(_ways(scales, wanted), key=lambda way: way.cost)
    bought = next((found for way in weighed if (found := _account(scales, way))), None)
    return replace(
        bought or Buying(unsure=bool(wanted)),
        refused=tuple(refused(asked, tuple(_only(asked.wanted, lacking)))),
        weighed=tuple(way.weighed for way in weighed),
    )


def _ways(scales: Scales, wanted: Members) -> Iterator[Way]:
    """Ways to buy; where nothing sawn is offered, the rack is cut first and planed lengths give the rest."""
    if scales.sawn or not scales.asked.rack:
        yield from ways(scales, wanted) if wanted else ()
        return
    left = _left_by_the_rack(scales, wanted)
    bars = scales.bars(tuple(_only(wanted, left)))
    paid = sum((one.answer.cost for one in bars), Mm(0))
    yield Way(planed=bars, sawn=tuple(_but_for(wanted, left)), mix=None, cost=paid)


def _account(scales: Scales, way: Way) -> Buying | None:
    if way.mix is None:
        return without_chance(scales, way)
    bet = scales.table(way.sawn).bet(way.mix, range(scales.pains.deliveries))
    return with_a_bet(scales, way, bet)


def _nowhere(scales: Scales) -> frozenset[str]:
    """The members that neither an offer nor the rack gives."""
    nobody = tuple(
        one for one in scales.asked.wanted if not scales.sawn_givers(one) and not scales.planed_givers(one)
    )
    return _left_by_the_rack(scales, nobody) if nobody else frozenset()


def _left_by_the_rack(scales: Scales, wanted: Members) -> frozenset[str]:
    """The members that the rack, cut as well as the quick planner can, does not give."""
    cutter, rack = scales.table(wanted).cutter, scales.asked.rack
    return frozenset(cutter.breakout(cutter.most(rack, scales.pains.tries), rack).short)


def _only(wanted: Iterable[Wanted], marks: Set[str]) -> Iterator[Wanted]:
    """Of the members wanted those of these marks."""
    for one in wanted:
        kept = tuple(mark for mark in one.marks if mark in marks)
        if kept:
            yield replace(one, marks=kept)


def _but_for(wanted: Sequence[Wanted], marks: Set[str]) -> Iterator[Wanted]:
    """Of the members wanted those that are not of these marks."""
    yield from _only(wanted, {mark for one in wanted for mark in one.marks} - marks)
