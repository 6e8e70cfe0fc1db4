"""Draws of waiting times, rates and shares, the same on every machine.

Only what every machine reckons alike is used: adding, multiplying, dividing, and a logarithm of our own.
"""

from collections.abc import Sequence
from math import frexp
from typing import TypeVar

from pinchrod.timber.draws import Draws

Thing = TypeVar("Thing")
LN2, LN_THREE_QUARTERS = 0.6931471805599453, -0.2876820724517809


class Chance:
    """Draws that follow from a row of numbers and words."""

    def __init__(self, *seeds: int | str) -> None:
        self._draws = Draws(_seed(seeds))

    def share(self) -> float:
        """A number from 0 up to 1."""
        return self._draws.share()

    def between(self, low: int, high: int) -> int:
        """A whole number from one to the other, both among them."""
        return low + self._draws.below(high - low + 1)

    def one_of(self, things: Sequence[Thing]) -> Thing:
        """One of them, each as likely."""
        return things[self._draws.below(len(things))]

    def wait(self) -> float:
        """How long till the next of what comes once in a while, on average after 1 (exponential)."""
        return -ln(1.0 - self._draws.share())

    def rate(self, seen: int, over: float) -> float:
        """How often a thing may come that was seen so often over so much (gamma)."""
        return sum(self.wait() for _ in range(seen)) / over

    def part(self, yes: int, no: int) -> float:
        """How likely a thing may be that was seen so often, and so often not (beta)."""
        for_it = sum(self.wait() for _ in range(yes))
        return for_it / (for_it + sum(self.wait() for _ in range(no)))


def _seed(seeds: Sequence[int | str]) -> int:
    """One seed out of several, so that neighbours have nothing in common."""
    mixed = 0
    for one in seeds:
        number = one if isinstance(one, int) else int.from_bytes(one.encode(), "big") % ((1 << 61) - 1)
        mixed = Draws(mixed ^ number).below(1 << 64)
    return mixed


def ln(number: float) -> float:
    """The natural logarithm of a number over 0: its fraction by the series for artanh, and its power of 2."""
    part, power = frexp(number)
    step = (part - 0.75) / (part + 0.75)
    square, term, total = step * step, step, 0.0
    for odd in range(1, 27, 2):
        total += term / odd
        term *= square
    return 2.0 * total + LN_THREE_QUARTERS + power * LN2
