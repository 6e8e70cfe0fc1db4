"""What is wrong with an answer, looking only at the question and the answer.

It shares nothing with the chooser: lengths are added up exactly as the saw takes them, and the
certificate is gone through again with a table of its own.
"""

from collections import Counter
from collections.abc import Iterator
from math import gcd, lcm

import numpy as np

from pinchrod.ground import Mm
from pinchrod.timber.one_length.question import Answer, Pattern, Proof, Question, Stock


def flaws(question: Question, answer: Answer) -> Iterator[str]:
    """Say what is wrong with the bars, the numbers of pieces, the cost, and the proof."""
    stocks = {stock.mark: stock for stock in question.stocks}
    for pattern in answer.patterns:
        yield from _bar_flaws(question, pattern, stocks)
    yield from _count_flaws(question, answer)
    cost = sum((stocks[p.stock].price * p.times for p in answer.patterns if p.stock in stocks), start=Mm(0))
    if cost != answer.cost:
        yield f"the bars cost {cost}, not {answer.cost}"
    yield from _proof_flaws(question, answer)


def _bar_flaws(question: Question, pattern: Pattern, stocks: dict[str, Stock]) -> Iterator[str]:
    """A bar of no known stock, cut less than once, or with more on it than its length."""
    if pattern.stock not in stocks:
        yield f"there is no stock {pattern.stock}"
        return
    length = {piece.mark: piece.length for piece in question.pieces}
    on_it = [length.get(share.mark, Mm(0)) for share in pattern.shares for _ in range(share.count)]
    taken = sum(on_it, start=Mm(0)) + question.kerf * max(0, len(on_it) - 1)
    stock = stocks[pattern.stock]
    if pattern.times < 1 or not on_it or any(share.count < 1 for share in pattern.shares):
        yield f"a bar of {pattern.stock} is cut less than once, or into nothing"
    if taken > stock.length - stock.trim:
        yield f"{taken} is cut from a bar of {pattern.stock}, which gives {stock.length - stock.trim}"


def _count_flaws(question: Question, answer: Answer) -> Iterator[str]:
    """A piece made more or less often than wanted, or more bars of a stock than there are."""
    made: Counter[str] = Counter()
    used: Counter[str] = Counter()
    for pattern in answer.patterns:
        used[pattern.stock] += pattern.times
        for share in pattern.shares:
            made[share.mark] += share.count * pattern.times
    for share in answer.missing:
        made[share.mark] += share.count
    wanted = Counter({piece.mark: piece.wanted for piece in question.pieces})
    for mark in sorted(made | wanted):
        if made[mark] != wanted[mark]:
            yield f"{mark} is made or named missing {made[mark]} times, and wanted {wanted[mark]} times"
    for stock in question.stocks:
        if stock.supply is not None and used[stock.mark] > stock.supply:
            yield f"{used[stock.mark]} bars of {stock.mark} are cut, and there are {stock.supply}"


def _proof_flaws(question: Question, answer: Answer) -> Iterator[str]:
    """A bound over the cost, a proof that falls short of it, a bar that gains against the worths."""
    if answer.bound > answer.cost:
        yield f"the bound {answer.bound} is over the cost {answer.cost}"
    if answer.proven and answer.bound < answer.cost:
        yield f"called proven, and the bound {answer.bound} is under the cost {answer.cost}"
    if answer.proof is Proof.WORTHS and proven_bound(question, answer) < answer.cost:
        yield f"the worths prove {proven_bound(question, answer)}, not {answer.cost}"
    if answer.bound:
        yield from gains(question, answer)


def proven_bound(question: Question, answer: Answer) -> Mm:
    """What the worths alone prove, if they are fair: at least so much, in steps of the prices."""
    proof = answer.certificate
    worth = sum(w * p.wanted for w, p in zip(proof.worths, question.pieces, strict=True))
    back = sum(
        s * stock.supply for s, stock in zip(proof.scarcity, question.stocks, strict=True) if stock.supply
    )
    shortest = min((piece.length for piece in question.pieces if piece.wanted), default=Mm(0))
    prices = [s.price for s in question.stocks if s.supply != 0 and s.length - s.trim >= shortest]
    money = lcm(*(int(price.denominator) for price in prices))
    step = gcd(*(int(price * money) for price in prices)) or 1
    return Mm(step * -((back - worth) * money // (proof.scale * step))) / money


def gains(question: Question, answer: Answer) -> Iterator[str]:
    """Each stock of which a bar could hold more worth than it costs, found by filling a table."""
    proof = answer.certificate
    part = lcm(*(int(x.denominator) for x in _lengths(question)))
    sizes = [int((piece.length + question.kerf) * part) for piece in question.pieces]
    for at, stock in enumerate(question.stocks):
        if stock.supply is None and proof.scarcity[at]:
            yield f"{stock.mark} has no limit, so it cannot be scarce"
        room = int((stock.length - stock.trim + question.kerf) * part)
        most = _most_worth(sizes, proof.worths, [piece.wanted for piece in question.pieces], room)
        if most > stock.price * proof.scale + proof.scarcity[at] and stock.supply != 0:
            yield f"a bar of {stock.mark} can hold more than it costs"


def _lengths(question: Question) -> list[Mm]:
    pieces = [piece.length for piece in question.pieces]
    return [question.kerf, *pieces, *(s.length for s in question.stocks), *(s.trim for s in question.stocks)]


def _most_worth(sizes: list[int], worths: tuple[int, ...], wanted: list[int], room: int) -> int:
    """The most worth on a bar so long: each piece in turn, in lumps of one, two, four and so on."""
    shrink = gcd(*sizes)
    table = np.zeros(max(0, room // shrink) + 1, np.int64)
    for size, worth, left in zip([s // shrink for s in sizes], worths, wanted, strict=True):
        left, lump = min(left, (len(table) - 1) // size), 1
        while left > 0:
            take = min(left, lump)
            left, lump = left - take, lump * 2
            table[take * size :] = np.maximum(
                table[take * size :], table[: len(table) - take * size] + take * worth
            )
    return int(table[-1])
