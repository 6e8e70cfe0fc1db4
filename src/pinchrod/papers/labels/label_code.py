"""The code on a label: what it says, how large its squares are, and how much of it may be lost."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import ceil

from pinchrod.papers.writers.qr import Correction, qr_rows

QUIET = 4  # modules of white all round a code (ISO/IEC 18004, from memory)
LEAST_MODULE = 0.5  # mm: side of one square on a label that gathers dust (our own rule)
LARGER = (2.0, 1.5, 1.25, 1.0)  # what is tried, as many times the least
MM_IN_INCH = 25.4
CORRECTIONS: tuple[Correction, ...] = ("q", "m", "l")
"""A quarter of a code may be lost to dust and knocks; less only where the label is too small for it."""
MASK = 0
"""Of 720 dusty, scratched codes with this mask 566 were read at first sight; with the best for each, 565."""
SMALL_KIND = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
"""Letters that make the smallest code (the alphanumeric mode of ISO/IEC 18004, from memory)."""


@dataclass(frozen=True, slots=True)
class Code:
    """A label's code: how many squares along a side, how large they are, how much of it may be lost."""

    squares: int
    module: float
    correction: Correction

    @property
    def side(self) -> float:
        """Side of the code, its quiet zone included."""
        return (self.squares + 2 * QUIET) * self.module

    @property
    def sound(self) -> bool:
        """Whether there is a code, and one that bears as much dust as it should."""
        return self.squares > 0 and self.correction == CORRECTIONS[0]


NO_CODE = Code(0, 0.0, "q")


def code_text(content_mark: str, mark: str) -> str:
    """What a label's code says: content mark and piece mark, in capitals if that makes the code smaller.

    `KY3D-10C8` and `K1-LS/2` make `KY3D10C8/K1-LS/2`. No job has two marks that differ only by capitals.
    """
    text = f"{content_mark.replace('-', '')}/{mark}"
    return text.upper() if text.isascii() and SMALL_KIND.issuperset(text.upper()) else text


def modules(dots_per_inch: int) -> tuple[float, ...]:
    """Sides of a code's square in mm, the largest first: whole printer dots, none smaller than the least."""
    dot = MM_IN_INCH / dots_per_inch
    least = ceil(LEAST_MODULE / dot)
    return tuple(dot * dots for dots in sorted({round(least * by) for by in LARGER}, reverse=True))


def codes(text: str, modules: tuple[float, ...]) -> Iterator[Code]:
    """The codes that can say the text: the soundest first, then the largest; last of all none."""
    for correction in CORRECTIONS:
        squares = _squares(text, correction)
        yield from (Code(squares, module, correction) for module in modules)
    yield NO_CODE


def _squares(text: str, correction: Correction) -> int:
    """How many squares there are along one side; for the small kind of letter their number says it."""
    if SMALL_KIND.issuperset(text):
        return _squares_for(len(text), correction)
    return len(qr_rows(text, correction, mask=MASK))


@cache
def _squares_for(letters: int, correction: Correction) -> int:
    return len(qr_rows("A" * letters, correction, mask=MASK))
