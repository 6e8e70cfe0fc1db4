"""What to order. The work is done by modules that load numba and HiGHS, so they are brought in late."""

from collections.abc import Iterator

from pinchrod.job import Job, Shop
from pinchrod.setting_out import Rods
from pinchrod.timber.asking import wanted_of
from pinchrod.timber.buying.records import Buying, Pains, ToBuy

ORDINARY = Pains()


def to_buy(job: Job, shop: Shop, rods: Rods) -> ToBuy:
    """What a job asks: its members, its rack, what is offered, and how sure its workshop wants to be."""
    return ToBuy(
        wanted=wanted_of(rods),
        offers=job.offers,
        rack=job.rack,
        practice=shop.practice,
        machines=shop.machines,
        confidence=shop.practice.confidence,
    )


def buy(asked: ToBuy, pains: Pains = ORDINARY) -> Buying:
    """The order that costs least and is enough in the share of deliveries asked, with promise and proof.

    The same question and pains give the same answer on any machine.
    """
    from pinchrod.timber.buying.choose import choose  # house: imports_at_the_top it loads numba and HiGHS

    return choose(asked, pains)


def buying_flaws(asked: ToBuy, bought: Buying) -> Iterator[str]:
    """Say what is wrong with an order, looking only at what was asked and the sample deliveries."""
    from pinchrod.timber.buying.judge import flaws  # house: imports_at_the_top it loads numba and HiGHS

    yield from flaws(asked, bought)
