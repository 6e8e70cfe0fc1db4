"""How likely so many pieces hold enough good ones: exact, so that no comparison is off by a hair.

Pieces are made one after another until enough are good: with `spare` spares there are enough if no more
than `spare` were spoiled before the last good one that is needed. Summed over 0, 1, 2 ... spoiled this is
the same as the binomial sum over all pieces made, and each further spare adds one term.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count
from math import prod

from pinchrod.ground import Mm
from pinchrod.job import Spoiled


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """How often a piece is spoiled.

    `known`: the rate itself is known, and the number spoiled is binomial. Otherwise so many spoiled and so
    many good were counted; the rate has the beta distribution of that count, and the number spoiled is
    beta-binomial: a small count leaves more open, and asks for more spares.
    """

    spoiled: Mm
    good: Mm
    known: bool

    @property
    def rate(self) -> Mm:
        """Share of pieces spoiled: known, or what the count makes of it."""
        return self.spoiled / (self.spoiled + self.good)


def odds_of(spoiled: Spoiled, length: Mm) -> Odds:
    """The odds of a piece of this length by the workshop's rate, or else its tally on top of what is usual.

    The row that counts is the first that reaches to the length; of longer pieces nothing is counted yet.
    """
    if spoiled.rate:
        return Odds(spoiled=spoiled.rate, good=1 - spoiled.rate, known=True)
    row = next((row for row in spoiled.tally if length <= row.up_to), None)
    bad, good = (row.spoiled, row.made - row.spoiled) if row else (0, 0)
    return Odds(spoiled=Mm(spoiled.usual_spoiled + bad), good=Mm(spoiled.usual_good + good), known=False)


def chances(needed: int, odds: Odds) -> Iterator[Mm]:
    """The chance of enough good pieces with no spare, with one, with two, and so on."""
    term, chance = _none_spoiled(needed, odds), Mm(0)
    for spoiled in count():
        chance += term
        yield chance
        term *= Mm(needed + spoiled, spoiled + 1) * _next_spoiled(needed, spoiled, odds)


def _none_spoiled(needed: int, odds: Odds) -> Mm:
    """The chance that so many pieces are all good."""
    if odds.known:
        return Mm((1 - odds.rate) ** needed)
    bad, good = int(odds.spoiled), int(odds.good)
    if bad < needed:  # the same fraction with fewer factors
        return Mm(prod(range(good, good + bad)), prod(range(good + needed, good + needed + bad)))
    return Mm(prod(range(good, good + needed)), prod(range(bad + good, bad + good + needed)))


def _next_spoiled(needed: int, spoiled: int, odds: Odds) -> Mm:
    """The chance that, with so many good and so many spoiled behind it, one more piece is spoiled."""
    if odds.known:
        return odds.rate
    return (odds.spoiled + spoiled) / (odds.spoiled + odds.good + needed + spoiled)
