"""What a length is: an exact fraction of a millimetre, and what is said when a text is not one."""

from enum import StrEnum
from typing import TYPE_CHECKING

# Exact millimetres, so that inches and equal shares lose nothing. Python's own fractions would do, and
# are what the types say; these count the same and set a job out in half the time (docs/lengths.md).
if TYPE_CHECKING:
    from fractions import Fraction

    Mm = Fraction
else:
    from gmpy2 import mpq

    Mm = mpq

INCH = Mm("25.4")  # exactly, by the international yard and pound agreement of 1959 (from memory)
FOOT = 12 * INCH


class Unit(StrEnum):
    """What a number without a mark is counted in."""

    MM = "mm"
    INCH = "in"


class NotALength(ValueError):
    """A text that cannot be read as one length: what is wrong with it, and what would mend it."""

    def __init__(self, *, code: str, what: str, mend: str) -> None:
        """Hold the stable code and the words, which do not say where the text stood."""
        self.code = code
        self.what = what
        self.mend = mend
        super().__init__(f"{what}; {mend}")
