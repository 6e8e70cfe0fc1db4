"""The bet: over many deliveries, how much of an offer is enough, and what that costs.

The merchant sends boards until the order is reached. So an order is enough for a delivery whose least
number of boards is n if the first n - 1 do not yet reach it: that brink is what every delivery tells.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.job import Board, Offer
from pinchrod.timber.buying.covers import Cutter, Found
from pinchrod.timber.buying.prices import STEPS, rounded_up
from pinchrod.timber.buying.streams import Streams

NOTHING = Mm(-1)  # the brink where nothing of it is needed
LOOKS = (3, 6, 12)  # times the finished wood: how much of a delivery is looked at, more if it is not enough


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """So much of an offer, ordered anyway."""

    offer: Offer
    quantity: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """Offers to buy of: some in fixed amounts, and one by as much as it takes."""

    fixed: tuple[Fixed, ...] = ()
    open: Offer


@dataclass(frozen=True, slots=True, kw_only=True)
class Bet:
    """A mix, and for each delivery the brink of its open offer; None where no amount looked at is enough."""

    mix: Mix
    brinks: tuple[Mm | None, ...]

    def enough(self, quantity: Mm) -> int:
        """For how many deliveries a quantity of the open offer is enough."""
        return sum(brink is not None and brink < quantity for brink in self.brinks)

    def least(self, share: Mm) -> Mm | None:
        """The least quantity, in steps of an order, that is enough in that share of the deliveries."""
        wanted = int(-(-share * len(self.brinks) // 1))
        known = sorted(brink for brink in self.brinks if brink is not None)
        if wanted > len(known):
            return None
        return next_step(known[wanted - 1], self.mix.open) if wanted else Mm(0)


def next_step(brink: Mm, offer: Offer) -> Mm:
    """The least order beyond a brink."""
    if brink < 0:
        return Mm(0)
    quantity = rounded_up(brink, offer.per)
    return quantity if quantity > brink else quantity + STEPS[offer.per]


@dataclass(frozen=True, slots=True)
class Table:
    """Where bets are worked out: the cutter for the members, the rack, the deliveries."""

    cutter: Cutter
    rack: tuple[Board, ...]
    streams: Streams
    tries: int

    def bet(self, mix: Mix, deliveries: range) -> Bet:
        """How much of the open offer each of these deliveries needs."""
        return Bet(mix=mix, brinks=tuple(self._brink(mix, number) for number in deliveries))

    def there(self, mix: Mix, number: int) -> list[Board]:
        """The rack, and what comes of the fixed amounts in a delivery."""
        boards = list(self.rack)
        for one in mix.fixed:
            stream = self.streams.of(one.offer, number)
            boards += stream.first(stream.sent_for(one.quantity))
        return boards

    def _brink(self, mix: Mix, number: int) -> Mm | None:
        there, stream = self.there(mix, number), self.streams.of(mix.open, number)
        found = self.fewest(there, mix.open, number)
        if found is None:
            return None
        boards = found.boards - len(there)
        return stream.reached(boards - 1) if boards else NOTHING

    def fewest(self, there: Sequence[Board], offer: Offer, number: int) -> Found | None:
        """How few boards are enough: those that are there, and so many of a delivery."""
        stream, looked = self.streams.of(offer, number), 0
        for times in LOOKS:
            while stream.volume(looked) < times * self.cutter.finished:
                looked += 4
            boards, at_once = [*there, *stream.first(looked)], times != LOOKS[-1]
            found = self.cutter.fewest(boards, len(there), self.tries, at_once=at_once)
            if found is not None:
                return found
        return None
