"""Tiny questions held against trying every way."""

from functools import cache
from random import Random

from pinchrod.ground import Mm
from pinchrod.timber.one_length import Question, Stock, cut, flaws
from tests.timber.one_length.makers import pieces

CASES = 2000


def tiny(seed: int) -> Question:
    """Up to six pieces, up to three stocks, some of them few."""
    chance = Random(seed)
    lengths = [chance.randint(2, 14) for _ in range(chance.randint(1, 6))]
    stocks = tuple(
        Stock(
            mark=f"s{at}", length=Mm(chance.randint(12, 24)), price=Mm(chance.randint(1, 9)),
            trim=Mm(chance.randint(0, 2)), supply=chance.choice([None, None, 0, 1, 2, 3]),
        )
        for at in range(chance.randint(1, 3))
    )  # fmt: skip
    return Question(pieces=pieces(lengths), stocks=stocks, kerf=Mm(chance.choice([0, 1])))


def least_cost(question: Question) -> Mm | None:
    """The least cost of making every piece, by trying every way; None if there is none."""
    lengths = [p.length for p in question.pieces for _ in range(p.wanted)]
    full = (1 << len(lengths)) - 1
    taken = [sum((n + question.kerf for at, n in enumerate(lengths) if m >> at & 1), start=-question.kerf)
             for m in range(full + 1)]  # fmt: skip

    @cache
    def rest(left: int, bars: tuple[int, ...]) -> Mm | None:
        if not left:
            return Mm(0)
        ways = []
        first = left & -left
        part = left
        while part:
            for at, stock in enumerate(question.stocks):
                if part & first and bars[at] and taken[part] <= stock.length - stock.trim:
                    after = rest(left ^ part, (*bars[:at], bars[at] - 1, *bars[at + 1 :]))
                    ways += [] if after is None else [after + stock.price]
            part = (part - 1) & left
        return min(ways, default=None)

    return rest(full, tuple(9 if stock.supply is None else stock.supply for stock in question.stocks))


def test_no_way_of_cutting_a_tiny_question_is_cheaper():
    for seed in range(CASES):
        question = tiny(seed)

        answer = cut(question)

        least = least_cost(question)
        assert list(flaws(question, answer)) == [], seed
        assert (answer.cost if not answer.missing else None) == least, seed
        assert answer.missing or answer.proven, seed
