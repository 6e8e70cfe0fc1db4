"""What is asked before timber is ordered, and what comes back: the order, its promise, its money."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pinchrod.ground import Mm
from pinchrod.job import Board, Machines, Offer, Practice
from pinchrod.timber.records import Breakout, Wanted
from pinchrod.timber.sizes import Kind

if TYPE_CHECKING:  # it loads numba and HiGHS
    from pinchrod.timber.one_length import Answer, Question

LEVELS = tuple(Mm(share, 100) for share in (50, 75, 80, 90, 95, 99))
"""The confidences a table of a purchase goes through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """Members wanted, boards already paid for, what is offered, and how sure the order must be."""

    wanted: tuple[Wanted, ...]
    offers: tuple[Offer, ...]
    rack: tuple[Board, ...] = ()
    practice: Practice = field(default_factory=Practice)
    machines: Machines = field(default_factory=Machines)
    confidence: Mm = Mm("0.95")  # that the order is enough


@dataclass(frozen=True, slots=True, kw_only=True)
class Pains:
    """How much is tried, counted and not timed."""

    deliveries: int = 400  # made up for the promise
    looks: int = 40  # of them, while offers are held against each other
    tries: int = 5  # to do with one board fewer, each with values corrected
    seed: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """So much of an offer, in what its price is for; of random boards what to expect by it."""

    offer: str
    quantity: Mm  # cubic metres, metres, boards or board feet
    boards: Mm  # expected
    volume: Mm  # expected, cubic metres
    cost: Mm  # expected


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """What it takes to be so sure. `cost` is expected; in that share of deliveries it is `at_most`."""

    confidence: Mm
    share: Mm  # of the deliveries made up, that this was enough for
    amounts: tuple[Amount, ...]  # empty: no amount that was tried is so sure
    cost: Mm
    at_most: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """In how many of the deliveries made up the order was enough; the true share lies between two others.

    The interval is the binomial one of 95 % (Clopper and Pearson 1934).
    """

    enough: int
    deliveries: int
    low: Mm
    high: Mm

    @property
    def share(self) -> Mm:
        """The share promised."""
        return Mm(self.enough, self.deliveries)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planed:
    """Members of one section and number of beads out of planed lengths: the exact case, with its proof."""

    kind: Kind
    question: "Question"
    answer: "Answer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """A delivery made up, and how the job comes out of it: for the judge, and for whoever doubts."""

    number: int
    boards: tuple[Board, ...]  # the rack first
    breakout: Breakout


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """Members that no offer can give, and for each offer why."""

    marks: tuple[str, ...]
    kind: Kind
    length: Mm
    why: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sure:
    """What it is expected to cost to have enough in a share of the deliveries."""

    share: Mm
    cost: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A way to buy, and about what it would cost to be so sure: fewer deliveries were looked at."""

    sawn: tuple[str, ...]  # offers
    planed: tuple[Kind, ...]
    cost: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """What to order. Without sawn boards in it there is no chance in it, and no promise is needed."""

    amounts: tuple[Amount, ...] = ()
    planed: tuple[Planed, ...] = ()
    cost: Mm = Mm(0)  # expected
    at_most: Mm = Mm(0)  # in that share of deliveries
    promise: Promise | None = None
    levels: tuple[Level, ...] = ()
    curve: tuple[Sure, ...] = ()
    left_over: Mm = Mm(0)  # cubic metres of whole boards that go on the rack where it is enough, on average
    missing: Mm = Mm(0)  # cubic metres that a delivery lacks where it is not enough, on average
    samples: tuple[Sample, ...] = ()
    refused: tuple[Refused, ...] = ()
    weighed: tuple[Weighed, ...] = ()  # every way that was held against the others, the cheapest first
    unsure: bool = False  # whether no amount that was tried is as sure as asked
