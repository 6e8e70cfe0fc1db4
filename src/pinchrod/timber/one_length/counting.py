"""From lengths and prices to whole numbers, and back to the joiner's marks."""

from dataclasses import dataclass
from math import gcd, lcm

import numpy as np

from pinchrod.ground import Mm
from pinchrod.timber.one_length.counted import PLENTY, Counted, Plan, Whole
from pinchrod.timber.one_length.question import Certificate, Pattern, Question, Share
from pinchrod.timber.one_length.worths import Worths


@dataclass(frozen=True, slots=True, kw_only=True)
class Counting:
    """The question in whole numbers, and which piece of it each kind and stock stands for."""

    counted: Counted
    kind_of: tuple[int | None, ...]  # for each piece of the question; None if no bar is long enough
    stocks: tuple[int, ...]
    money: int  # whole prices are the question's times this


def count(question: Question) -> Counting:
    """The question in whole numbers, kinds longest first; stocks too short for anything are left out."""
    part = lcm(*(int(x.denominator) for x in _lengths(question)))
    sizes = [int((piece.length + question.kerf) * part) for piece in question.pieces]
    rooms = [int((stock.length - stock.trim + question.kerf) * part) for stock in question.stocks]
    have = [s for s, stock in enumerate(question.stocks) if stock.supply != 0]
    longest = max((rooms[s] for s in have), default=0)
    fit = {size for size, p in zip(sizes, question.pieces, strict=True) if size <= longest and p.wanted > 0}
    kinds = sorted(fit, reverse=True)
    stocks = tuple(s for s in have if kinds and rooms[s] >= kinds[-1])
    shrink = gcd(*kinds) or 1
    money = lcm(*(int(question.stocks[s].price.denominator) for s in stocks))
    prices = [int(question.stocks[s].price * money) for s in stocks]
    supply = [_supply(question.stocks[s].supply) for s in stocks]
    rooms_of = [rooms[s] // shrink for s in stocks]
    wanted = [
        sum(p.wanted for p, z in zip(question.pieces, sizes, strict=True) if z == kind) for kind in kinds
    ]
    step = gcd(*prices) or 1
    endless = any(r * shrink >= kinds[0] for r, n in zip(rooms_of, supply, strict=True) if n == PLENTY)
    if kinds and not (endless and len(stocks) == 1):
        # A bar too dear to be used while there is another way: what is cut from it is missing.
        prices.append(step + sum(p * min(n, sum(wanted)) for p, n in zip(prices, supply, strict=True)))
        supply.append(PLENTY)
        rooms_of.append(kinds[0] // shrink)
    counted = Counted(
        size=_whole([kind // shrink for kind in kinds]),
        wanted=_whole(wanted),
        room=_whole(rooms_of),
        price=_whole(prices),
        supply=_whole(supply),
        least=_whole([0] * len(supply)),
        step=step,
    )
    place = {kind: at for at, kind in enumerate(kinds)}
    return Counting(
        counted=counted, kind_of=tuple(place.get(size) for size in sizes), stocks=stocks, money=money
    )  # fmt: skip


def _lengths(question: Question) -> list[Mm]:
    pieces = [piece.length for piece in question.pieces]
    return [question.kerf, *pieces, *(s.length for s in question.stocks), *(s.trim for s in question.stocks)]


def _whole(numbers: list[int]) -> Whole:
    return np.array(numbers, np.int64)


def _supply(supply: int | None) -> int:
    return PLENTY if supply is None else supply


def certificate(question: Question, counting: Counting, worths: Worths) -> Certificate:
    """The worths, said of the question's own pieces and stocks."""
    scarcity = [0] * len(question.stocks)
    for at, stock in enumerate(counting.stocks):
        scarcity[stock] = int(worths.scarce[at])
    return Certificate(
        worths=tuple(0 if kind is None else int(worths.piece[kind]) for kind in counting.kind_of),
        scarcity=tuple(scarcity),
        scale=worths.scale * counting.money,
    )


class Hand:
    """Deals the marks of the pieces of each kind out, so that each is used as often as it is wanted."""

    def __init__(self, question: Question, counting: Counting) -> None:
        """Lay out a pile for each kind, in the order of the question."""
        self._piles: dict[int, list[Share]] = {kind: [] for kind in range(len(counting.counted.size))}
        for piece, kind in zip(question.pieces, counting.kind_of, strict=True):
            if kind is not None and piece.wanted:
                self._piles[kind].append(Share(mark=piece.mark, count=piece.wanted))

    def deal(self, kind: int, count: int) -> list[Share]:
        """So many pieces of the kind, fewer if there are no more."""
        pile, dealt = self._piles[kind], []
        while count and pile:
            top = pile.pop(0)
            taken = min(count, top.count)
            dealt.append(Share(mark=top.mark, count=taken))
            count -= taken
            if taken < top.count:
                pile.insert(0, Share(mark=top.mark, count=top.count - taken))
        return dealt

    def left(self) -> tuple[Share, ...]:
        """What has not been dealt."""
        return tuple(share for pile in self._piles.values() for share in pile)


def in_marks(
    question: Question, counting: Counting, plan: Plan
) -> tuple[tuple[Pattern, ...], tuple[Share, ...]]:
    """The plan in the joiner's marks, and the pieces for which it has no bar."""
    hand = Hand(question, counting)
    bars: list[tuple[str, tuple[Share, ...]]] = []
    for cut in plan:
        if cut.bar.stock >= len(counting.stocks):
            continue
        stock = question.stocks[counting.stocks[cut.bar.stock]].mark
        for _ in range(cut.times):
            shares = [
                s
                for k, c in zip(cut.bar.kinds, cut.bar.counts, strict=True)
                for s in hand.deal(int(k), int(c))
            ]
            if shares:
                bars.append((stock, tuple(shares)))
    times: dict[tuple[str, tuple[Share, ...]], int] = {}
    for bar in bars:
        times[bar] = times.get(bar, 0) + 1
    patterns = tuple(Pattern(stock=s, shares=shares, times=n) for (s, shares), n in times.items())
    return patterns, hand.left()


def too_long(question: Question, counting: Counting) -> tuple[Share, ...]:
    """The pieces that no bar is long enough for."""
    pairs = zip(question.pieces, counting.kind_of, strict=True)
    return tuple(Share(mark=p.mark, count=p.wanted) for p, kind in pairs if kind is None and p.wanted)
