"""What to order: enough as often as promised, no more than that, the rack first, and judged."""

from dataclasses import replace
from itertools import pairwise

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Per
from pinchrod.timber import Board
from pinchrod.timber.buying import Buying, Pains, ToBuy, buy, buying_flaws
from pinchrod.timber.buying.bets import Bet, Mix
from pinchrod.timber.buying.binomial import interval
from pinchrod.timber.buying.ways import Scales
from tests.timber.buying.offers import FEW, RAILS, STILES, an_offer, planed, some, to_buy

SAWN = an_offer()


@pytest.fixture(scope="module")
def asked() -> ToBuy:
    return to_buy(SAWN)


@pytest.fixture(scope="module")
def bought(asked: ToBuy) -> Buying:
    return buy(asked, FEW)


def a_board(name: str, length: float = 3000, width: float = 250) -> Board:
    return Board(name=name, thickness=Mm(27), width=Mm(str(width)), length=Mm(str(length)), price=Mm(0))


def test_an_order_is_enough_as_often_as_was_asked(asked, bought):
    assert bought.promise.share >= asked.confidence
    assert bought.promise.low < bought.promise.share < bought.promise.high
    assert list(buying_flaws(asked, bought)) == []


def test_one_step_less_is_not_enough_so_often(asked, bought):
    [amount] = bought.amounts
    bet = Scales(asked, FEW).table(asked.wanted).bet(Mix(open=SAWN), range(FEW.deliveries))

    assert bet.enough(amount.quantity) >= 57 > bet.enough(amount.quantity - Mm("0.005"))


def test_it_is_enough_in_deliveries_that_it_was_not_planned_on(asked, bought):
    [amount] = bought.amounts
    others = replace(FEW, seed=2)
    bet = Scales(asked, others).table(asked.wanted).bet(Mix(open=SAWN), range(100))

    low, high = interval(bet.enough(amount.quantity), 100, Mm("0.99"))

    assert low <= bought.promise.share
    assert high >= bought.promise.low


def test_surer_takes_more_and_costs_more(bought):
    told = [level for level in bought.levels if level.amounts]

    assert len(told) > 3
    assert all(less.cost <= more.cost for less, more in pairwise(told))
    assert all(less.share <= more.share and less.cost <= more.cost for less, more in pairwise(bought.curve))


def test_the_same_question_gives_the_same_order(asked, bought):
    assert buy(asked, FEW) == bought


def test_what_the_rack_gives_is_not_bought(asked, bought):
    rack = (a_board("B1"), a_board("B2"))

    with_rack = buy(replace(asked, rack=rack), FEW)

    assert with_rack.cost < bought.cost
    assert all(sample.boards[:2] == rack for sample in with_rack.samples)
    assert list(buying_flaws(replace(asked, rack=rack), with_rack)) == []


def test_a_rack_that_is_enough_leaves_nothing_to_buy(asked):
    full = replace(asked, rack=tuple(a_board(f"B{number}") for number in range(1, 9)))

    nothing = buy(full, FEW)

    assert nothing.amounts == ()
    assert nothing.cost == 0
    assert not nothing.unsure
    assert list(buying_flaws(full, nothing)) == []


def test_the_cheaper_of_two_like_offers_is_bought(asked):
    dear = replace(SAWN, name="dear", price=Mm(1200))

    bought = buy(replace(asked, offers=(dear, SAWN)), FEW)

    assert [one.offer for one in bought.amounts] == ["sawn"]
    assert bought.weighed[0].sawn == ("sawn",)


def test_members_that_one_offer_cannot_give_are_bought_of_another():
    short = an_offer("short", length=(900, 1500), price=500)
    asked = to_buy(short, an_offer("long", price=800), wanted=(some(4, 2000, called="T"), RAILS))

    bought = buy(asked, FEW)

    assert "long" in {one.offer for one in bought.amounts}
    assert list(buying_flaws(asked, bought)) == []


def test_a_member_nobody_gives_is_told_with_each_offers_reason():
    asked = to_buy(SAWN, planed("bars", 2400), wanted=(STILES, some(1, 4500, 90, called="L")))

    bought = buy(asked, FEW)

    [refused] = bought.refused
    assert refused.marks == ("L1",)
    assert len(refused.why) == 2
    assert list(buying_flaws(asked, bought)) == []


def test_boards_are_ordered_in_what_their_price_is_for():
    for per, price in ((Per.METRE, 4), (Per.BOARD, 14), (Per.BOARD_FOOT, 2)):
        asked = to_buy(an_offer(per=per, price=price))

        bought = buy(asked, replace(FEW, deliveries=20))

        [amount] = bought.amounts
        assert amount.quantity >= 3
        assert list(buying_flaws(asked, bought)) == []


def test_with_no_offer_at_all_nothing_is_sure(asked):
    none = buy(replace(asked, offers=()), FEW)

    assert none.amounts == ()
    assert {mark for one in none.refused for mark in one.marks} == {
        mark for one in asked.wanted for mark in one.marks
    }


def test_too_few_deliveries_for_the_confidence_asked_are_said_to_be_so(asked):
    bet = Bet(mix=Mix(open=SAWN), brinks=(Mm("0.1"), None, Mm("0.2")))

    assert bet.least(Mm("0.6")) == Mm("0.205")
    assert bet.least(Mm("0.9")) is None


@pytest.mark.parametrize(
    "spoil",
    [
        lambda it: replace(it, cost=it.cost + 1),
        lambda it: replace(it, amounts=(replace(it.amounts[0], quantity=it.amounts[0].quantity / 2),)),
        lambda it: replace(it, amounts=(replace(it.amounts[0], offer="nobody's"),)),
        lambda it: replace(it, promise=replace(it.promise, enough=40)),
        lambda it: replace(it, promise=None),
        lambda it: replace(it, samples=()),
        lambda it: replace(it, samples=(replace(it.samples[0], boards=it.samples[0].boards[1:]),)),
        lambda it: replace(it, levels=tuple(replace(level, share=Mm(0)) for level in it.levels)),
    ],
)
def test_the_judge_finds_an_order_that_was_spoilt(asked, bought, spoil):
    assert list(buying_flaws(asked, spoil(bought)))


def test_more_deliveries_say_the_same_more_firmly():
    few, many = interval(57, 60, Mm("0.95")), interval(950, 1000, Mm("0.95"))

    assert few[0] < many[0] < Mm("0.95") < many[1] < few[1]
    assert Pains().deliveries == 400
