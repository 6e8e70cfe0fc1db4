"""Ways to buy, as they are put together and put on the scales."""

from collections.abc import Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.job import Offer
from pinchrod.timber.buying.bets import Bet, Mix, Table
from pinchrod.timber.buying.covers import cutter_of
from pinchrod.timber.buying.given import is_planed, why_not
from pinchrod.timber.buying.measured import question_of_purchase, wants_of
from pinchrod.timber.buying.planed import planed
from pinchrod.timber.buying.prices import rounded_up
from pinchrod.timber.buying.records import Pains, Planed, ToBuy, Weighed
from pinchrod.timber.buying.streams import Streams
from pinchrod.timber.records import Wanted
from pinchrod.timber.sizes import Kind, kind_of

Members = tuple[Wanted, ...]
TYPICAL = 40  # boards, to tell how an offer's measure goes with its volume


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to buy: what is planed, what is sawn and of which offers, and about what it costs."""

    planed: tuple[Planed, ...]
    sawn: tuple[Wanted, ...]
    mix: Mix | None  # None: nothing sawn is bought
    cost: Mm

    @property
    def weighed(self) -> Weighed:
        """The way in names."""
        names = (*(one.offer.name for one in self.mix.fixed), self.mix.open.name) if self.mix else ()
        return Weighed(sawn=names, planed=tuple(one.kind for one in self.planed), cost=self.cost)


class Scales:
    """Where ways are weighed against each other, on the same deliveries."""

    def __init__(self, asked: ToBuy, pains: Pains) -> None:
        self.asked = asked
        self.pains = pains
        self.streams = Streams(pains.seed)
        self.sawn = tuple(offer for offer in asked.offers if not is_planed(offer, asked.wanted))
        self.planed = tuple(offer for offer in asked.offers if is_planed(offer, asked.wanted))
        self._bars: dict[tuple[Wanted, ...], Planed] = {}
        self._tables: dict[tuple[Wanted, ...], Table] = {}

    def sawn_givers(self, one: Wanted) -> tuple[Offer, ...]:
        """The offers of sawn boards that may give a member."""
        return tuple(offer for offer in self.sawn if not why_not(self.asked, offer, one))

    def planed_givers(self, one: Wanted) -> tuple[Offer, ...]:
        """The offers of planed lengths that may give a member."""
        return tuple(offer for offer in self.planed if not why_not(self.asked, offer, one))

    def bars(self, wanted: Sequence[Wanted]) -> tuple[Planed, ...]:
        """Planed lengths for these members, kind by kind."""
        kinds: dict[Kind, list[Wanted]] = {}
        for one in wanted:
            kinds.setdefault(kind_of(one), []).append(one)
        return tuple(self._bars_of(tuple(kinds[kind])) for kind in sorted(kinds, reverse=True))

    def _bars_of(self, alike: tuple[Wanted, ...]) -> Planed:
        if alike not in self._bars:
            self._bars[alike] = planed(self.asked, alike, self.planed)
        return self._bars[alike]

    def table(self, wanted: tuple[Wanted, ...]) -> Table:
        """Where bets on these members are worked out."""
        if wanted not in self._tables:
            wants = wants_of(question_of_purchase(self.asked, wanted))
            cutter = cutter_of(wants, [not self.sawn_givers(one) for one in wants.types])
            self._tables[wanted] = Table(cutter, self.asked.rack, self.streams, self.pains.tries)
        return self._tables[wanted]

    def looked(self, wanted: tuple[Wanted, ...], mix: Mix) -> Bet:
        """The bet on a mix over the deliveries that ways are weighed on."""
        return self.table(wanted).bet(mix, range(self.pains.looks))

    def cost(self, bet: Bet, share: Mm) -> Mm | None:
        """What it is expected to cost to be so sure; None where no amount looked at is."""
        quantity = bet.least(share)
        if quantity is None:
            return None
        costs = [self.cost_in(bet.mix, quantity, number) for number in range(len(bet.brinks))]
        return sum(costs, Mm(0)) / len(costs)

    def cost_in(self, mix: Mix, quantity: Mm, number: int) -> Mm:
        """What an order costs in a delivery."""
        fixed = sum((self.cost_of(one.offer, one.quantity, number) for one in mix.fixed), Mm(0))
        return fixed + self.cost_of(mix.open, quantity, number)

    def cost_of(self, offer: Offer, quantity: Mm, number: int) -> Mm:
        """What the boards of an offer cost in a delivery that a quantity was ordered of."""
        stream = self.streams.of(offer, number)
        return offer.price * stream.reached(stream.sent_for(quantity))

    def quantity_of(self, offer: Offer, volume: Mm) -> Mm:
        """About how much of an offer has that volume, in steps of an order."""
        stream = self.streams.of(offer, 0)
        return rounded_up(volume * stream.reached(TYPICAL) / stream.volume(TYPICAL), offer.per)
