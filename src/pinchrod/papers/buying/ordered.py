"""An order with all that its papers tell of it."""

from dataclasses import dataclass

from pinchrod.job import Job, Offer, Shop
from pinchrod.timber import Amount, Buying, ToBuy


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """A job, what was asked for it, and what is ordered."""

    job: Job
    shop: Shop
    asked: ToBuy
    bought: Buying

    def offer(self, name: str) -> Offer:
        """The offer of that name."""
        return next(offer for offer in self.asked.offers if offer.name == name)

    @property
    def lines(self) -> tuple[tuple[Offer, Amount], ...]:
        """What is ordered, each amount with its offer."""
        return tuple((self.offer(amount.offer), amount) for amount in self.bought.amounts)
