"""Deliveries made up, board after board: the n-th is the same however many come."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from pinchrod.ground import Mm, Span
from pinchrod.job import Board, Fault, Offer
from pinchrod.timber.buying.chances import Chance
from pinchrod.timber.buying.merchant import (
    USUAL_EDGES,
    USUAL_ENDS,
    USUAL_SPOTS,
    USUAL_WARPS,
    Merchant,
    Spot,
    merchant_of,
)

Thing = TypeVar("Thing")
NEAR = (20, 120)  # mm of width and of length that a board is unlike one seen before
UNLIKE = 0.2  # share that a fault is larger or smaller than one seen before


@dataclass(frozen=True, slots=True)
class Mood:
    """What is true of one delivery: how often faults come, by square metre, end, board, spot."""

    spots: float
    ends: float
    edges: float
    backs: float


@dataclass(frozen=True, slots=True)
class Sending:
    """One delivery of an offer: what is true of it, and where its draws begin."""

    offer: Offer
    merchant: Merchant
    seed: int
    number: int

    def board(self, place: int, mood: Mood) -> Board:
        """The board at that place in it."""
        chance = Chance(self.seed, self.offer.name, self.number, place + 1)
        along, across = _size(self.offer, self.merchant, chance)
        warp = chance.one_of(_seen(self.merchant.warps, USUAL_WARPS, self.merchant, chance))
        square = along * along / 10**9
        return Board(
            name=f"{self.offer.name} {place + 1}",
            thickness=self.offer.thickness,
            width=across,
            length=along,
            price=Mm(0),
            bow=Mm(round(warp.bow * square)),
            spring=Mm(round(warp.spring * square)),
            faults=tuple(_faults(self.merchant, mood, Spot(int(along), int(across)), chance)),
        )


def delivery(offer: Offer, *, seed: int, number: int) -> Iterator[Board]:
    """The boards of one delivery, without end."""
    sending = Sending(offer, merchant_of(offer), seed, number)
    mood = _mood(sending.merchant, Chance(seed, offer.name, number, 0))
    place = 0
    while True:
        yield sending.board(place, mood)
        place += 1


def _mood(merchant: Merchant, chance: Chance) -> Mood:
    return Mood(
        spots=chance.rate(merchant.spots_seen, merchant.spots_over),
        ends=chance.part(*merchant.ends_seen),
        edges=chance.part(*merchant.edges_seen),
        backs=chance.part(*merchant.backs_seen),
    )


def _seen(
    seen: Sequence[Thing], usual: Sequence[Thing], merchant: Merchant, chance: Chance
) -> Sequence[Thing]:
    """What was seen before or what is usual, by how much was seen."""
    return seen if chance.share() < merchant.trust and seen else usual


def _size(offer: Offer, merchant: Merchant, chance: Chance) -> tuple[Mm, Mm]:
    """Length and width: near those of a board seen before, or anywhere in the range offered."""
    trusted, at = chance.share() < merchant.trust, chance.share()
    like = merchant.sizes[int(at * len(merchant.sizes))] if trusted else None
    along = _within(offer.length, like.along if like else None, NEAR[1], chance)
    return along, _within(offer.width, like.across if like else None, NEAR[0], chance)


def _within(span: Span, like: int | None, near: int, chance: Chance) -> Mm:
    """A size in a range, in whole millimetres but at its ends."""
    drawn = chance.share()
    if span.length == 0:
        return span.low
    low, high = int(-(-span.low // 1)), int(span.high // 1)
    if like is not None:
        low, high = max(low, min(like - near, high)), min(high, max(like + near, low))
    return min(max(Mm(low + int(drawn * (high - low + 1))), span.low), span.high)


def _faults(merchant: Merchant, mood: Mood, size: Spot, chance: Chance) -> Iterator[Fault]:
    yield from _ends(merchant, mood, size, chance)
    yield from _spots(merchant, mood, size, chance)
    if chance.share() < mood.edges:
        edge = _unlike(chance.one_of(_seen(merchant.edges, USUAL_EDGES, merchant, chance)), chance)
        yield _fault(edge, size, chance.share(), 0.0 if chance.share() < 0.5 else 1.0)


def _ends(merchant: Merchant, mood: Mood, size: Spot, chance: Chance) -> Iterator[Fault]:
    for first in (True, False):
        if chance.share() < mood.ends:
            long = chance.one_of(_seen(merchant.ends, USUAL_ENDS, merchant, chance))
            long = min(_unlike(Spot(long, 0), chance).along, size.along // 3)
            low = 0 if first else size.along - long
            yield Fault(along=Span(Mm(low), Mm(low + long)))


def _spots(merchant: Merchant, mood: Mood, size: Spot, chance: Chance) -> Iterator[Fault]:
    """Spots along a board, more on one board than on the next, as far apart as chance has them."""
    often = mood.spots * chance.wait() * size.across / 1e6
    at = chance.wait() / often if often > 0 else float(size.along)
    while at < size.along:
        spot = _unlike(chance.one_of(_seen(merchant.spots, USUAL_SPOTS, merchant, chance)), chance)
        back = chance.share() < mood.backs
        yield _fault(spot, size, at / size.along, chance.share(), back=back)
        at += chance.wait() / often


def _unlike(spot: Spot, chance: Chance) -> Spot:
    factor = 1 + UNLIKE * (2 * chance.share() - 1)
    return Spot(max(1, round(spot.along * factor)), round(spot.across * factor))


def _fault(spot: Spot, size: Spot, along: float, across: float, *, back: bool = False) -> Fault:
    """The fault on the board: at that share of what it leaves of the length, and of the width."""
    long = min(spot.along, size.along)
    low = int(along * (size.along - long))
    if not 0 < spot.across < size.across:
        return Fault(along=Span(Mm(low), Mm(low + long)), back_only=back)
    near = int(across * (size.across - spot.across))
    wide = Span(Mm(near), Mm(near + spot.across))
    return Fault(along=Span(Mm(low), Mm(low + long)), across=wide, back_only=back)
