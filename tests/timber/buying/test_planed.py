"""Planed lengths, the exact case: held against every way there is to fill the bars."""

from functools import cache
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.timber.buying import buy, buying_flaws
from tests.timber.buying.offers import FEW, an_offer, planed, some, to_buy


def cheapest(lengths: tuple[tuple[float, int], ...], bars: tuple[tuple[float, float], ...]) -> float:
    """The least cost, by trying every filling of every bar: kerf 3.2, 25 off both ends."""
    sizes = [length for length, _ in lengths]

    def fillings(bar: float) -> list[tuple[int, ...]]:
        room = bar - 50
        most = [int((room + 3.2) // (size + 3.2)) for size in sizes]
        every = product(*(range(number + 1) for number in most))
        return [
            taken
            for taken in every
            if sum(taken) > 0
            and sum(n * size for n, size in zip(taken, sizes, strict=True)) + (sum(taken) - 1) * 3.2
            <= room + 1e-9
        ]

    ways = [(taken, bar / 1000 * price) for bar, price in bars for taken in fillings(bar)]

    @cache
    def least(left: tuple[int, ...]) -> float:
        if not any(left):
            return 0.0
        first = next(place for place, number in enumerate(left) if number)
        return min(
            (
                cost + least(tuple(max(0, number - n) for number, n in zip(left, taken, strict=True)))
                for taken, cost in ways
                if taken[first]
            ),
            default=float("inf"),
        )

    return least(tuple(number for _, number in lengths))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(300, 1700), st.integers(1, 3)),
        min_size=1,
        max_size=3,
        unique_by=lambda it: it[0],
    ),
    st.lists(
        st.tuples(st.sampled_from((1800, 2100, 2400, 3000)), st.integers(150, 260)),
        min_size=1,
        max_size=3,
        unique_by=lambda it: it[0],
    ),
)
def test_planed_lengths_cost_what_the_cheapest_of_all_ways_costs(lengths, bars):
    wanted = tuple(some(n, size, called=f"L{size}.") for size, n in lengths)
    offers = [planed(f"bar {bar}", bar, price / 100) for bar, price in bars]
    asked = to_buy(*offers, wanted=wanted)

    bought = buy(asked, FEW)

    assert bought.refused == ()
    assert bought.promise is None
    assert bought.cost == bought.planed[0].answer.bound
    assert abs(float(bought.cost) - cheapest(tuple(lengths), tuple((b, p / 100) for b, p in bars))) < 1e-6
    assert list(buying_flaws(asked, bought)) == []


def test_members_with_one_bead_and_with_two_do_not_share_a_bar():
    asked = to_buy(
        planed("bars", 2400), wanted=(some(1, 800, beads=1, called="A"), some(1, 800, beads=2, called="B"))
    )

    bought = buy(asked, FEW)

    assert bought.amounts[0].boards == 2


def test_a_section_that_is_offered_planed_may_be_cheaper_sawn_and_the_cheapest_is_taken():
    dear, cheap = planed("bars", 2400, 9), planed("bars", 2400, 1)

    assert not buy(to_buy(dear, an_offer()), FEW).planed
    assert buy(to_buy(cheap, an_offer()), FEW).planed
