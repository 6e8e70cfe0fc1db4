"""Loose members settled where it costs least, every way tried.

What counts, in this order: that no member goes without wood, what new boards cost, how much stays in the
stick in hand, how few strips have to be ripped and how few other sticks are touched.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinchrod.ground import Mm
from pinchrod.timber.loose import Loose


class Value(NamedTuple):
    """What a way of settling costs; less is better, the first thing first."""

    price: Mm
    not_kept: int  # what leaves the stick in hand, in units
    ripped: int
    touched: int

    def and_also(self, other: "Value") -> "Value":
        """Both together."""
        return Value(
            self.price + other.price,
            self.not_kept + other.not_kept,
            self.ripped + other.ripped,
            self.touched + other.touched,
        )


FREE = Value(Mm(0), 0, 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Somewhere loose members may go: which of them it takes together, as many as can be, at what cost."""

    takes: Mapping[int, Callable[[int], None]]  # for each, what marks some of them there
    price: Mm = Mm(0)
    in_hand: bool = False
    ripped: int = 0

    def value(self, loose: Loose, some: int) -> Value:
        """What it costs to settle those members here."""
        away = 0 if self.in_hand else loose.totals[some]
        return Value(self.price, away, self.ripped, not self.in_hand)


@dataclass(frozen=True, slots=True)
class Settled:
    """Members settled so far, what that costs, and how they are marked where they go."""

    value: Value = FREE
    marks: tuple[tuple[Callable[[int], None], int], ...] = ()

    def mark(self) -> None:
        """Mark them all on the bench."""
        for put, some in self.marks:
            put(some)


def settle(loose: Loose, choices: Iterable[Choice]) -> tuple[int, Settled]:
    """The members that no choice is left for, and the others settled as cheaply as can be.

    The stick in hand comes first, then what need not be ripped; what has a price comes last, the cheapest
    first. So when all are settled for no more than the next one costs, nothing after it is worth a look.
    """
    best = {0: Settled()}
    for choice in choices:
        whole = best.get(loose.whole)
        if (
            whole
            and choice.ripped
            and (choice.price, choice.ripped) >= (whole.value.price, whole.value.ripped)
        ):
            break
        best = _with(loose, best, choice)
    some = min(best, key=lambda one: ((loose.whole ^ one).bit_count(), best[one].value, one), default=0)
    return loose.whole ^ some, best.get(some, Settled())


def _with(loose: Loose, best: Mapping[int, Settled], choice: Choice) -> dict[int, Settled]:
    """The best ways so far, and those that this choice gives with each of them."""
    found = dict(best)
    for takes, put in choice.takes.items():
        for before, settled in best.items():
            some = takes & ~before
            value = settled.value.and_also(choice.value(loose, some))
            both = before | some
            if some and (both not in found or value < found[both].value):
                found[both] = Settled(value, (*settled.marks, (put, some)))
    return found
