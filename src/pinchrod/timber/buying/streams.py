"""Deliveries as they are looked at again and again: each board drawn once."""

from bisect import bisect_left
from collections.abc import Iterator
from itertools import islice

from pinchrod.ground import Mm
from pinchrod.job import Board, Offer
from pinchrod.timber.buying.deliveries import delivery
from pinchrod.timber.buying.prices import measured


class Stream:
    """One delivery of an offer, as far as it was looked at."""

    def __init__(self, offer: Offer, seed: int, number: int) -> None:
        self.offer = offer
        self._coming: Iterator[Board] = delivery(offer, seed=seed, number=number)
        self._boards: list[Board] = []
        self._reached: list[Mm] = [Mm(0)]  # what the first so many boards measure
        self._volume: list[Mm] = [Mm(0)]

    def first(self, boards: int) -> list[Board]:
        """The first so many boards."""
        for board in islice(self._coming, max(0, boards - len(self._boards))):
            self._boards.append(board)
            self._reached.append(self._reached[-1] + measured(self.offer, board))
            self._volume.append(self._volume[-1] + board.volume)
        return self._boards[:boards]

    def reached(self, boards: int) -> Mm:
        """What the first so many boards measure, in what the price is for."""
        self.first(boards)
        return self._reached[boards]

    def volume(self, boards: int) -> Mm:
        """How many cubic metres the first so many boards are."""
        self.first(boards)
        return self._volume[boards]

    def sent_for(self, quantity: Mm) -> int:
        """How many boards the merchant sends for an order: until it is reached."""
        while self._reached[-1] < quantity:
            self.first(len(self._boards) + 1)
        return bisect_left(self._reached, quantity)

    def to_the_brink(self, brink: Mm) -> int:
        """How many boards it takes to go beyond a brink; none where it is below nothing."""
        return 0 if brink < 0 else bisect_left(self._reached, brink) + 1


class Streams:
    """The deliveries of every offer, by number."""

    def __init__(self, seed: int) -> None:
        self._seed = seed
        self._known: dict[tuple[str, int], Stream] = {}

    def of(self, offer: Offer, number: int) -> Stream:
        """The delivery of that number of an offer."""
        key = offer.name, number
        if key not in self._known:
            self._known[key] = Stream(offer, self._seed, number)
        return self._known[key]
