"""Numbers as people write them: one decimal mark or one fraction, and nothing that has two readings."""

import re

from pinchrod.ground.millimetres import Mm, NotALength
from pinchrod.ground.showing import mixed, quoted

MOST_DIGITS = 20
THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")
GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:(?:,[0-9]{3})++(?:\.[0-9]++)?|(?:\.[0-9]{3})++(?:,[0-9]++)?)")

COMMA_DECIMAL = re.compile(r"[0-9]*,[0-9]{1,2}")
NAMES = {".": "point", ",": "comma"}
OTHER = {".": ",", ",": "."}


def number_in(figures: str, *, decimal_comma: bool) -> Mm:
    """The number that digits, points and commas say, if they say just one.

    A point is a decimal mark, and so is a comma with one or two digits after it. Where commas are
    the rule, a comma always is, and a point only if it cannot part thousands.
    """
    check_digits(figures)
    marks = figures.translate({ord(digit): None for digit in "0123456789"})
    if len(marks) > 1:
        raise _many_marks(figures, marks[0])
    if figures.endswith((".", ",")):
        raise NotALength(
            code="length-digits",
            what=f"{quoted(figures)} ends in its decimal mark",
            mend=f"write {figures[:-1]}",
        )
    if marks == ("." if decimal_comma else ","):
        _check_grouping(figures, marks)
    return Mm(figures.replace(",", "."))


def fraction_in(top: str, bottom: str) -> Mm:
    """The fraction of one whole number over another, less than one."""
    said = f"{top}/{bottom}"
    if not (top.isdigit() and bottom.isdigit()):
        raise not_a_fraction(said)
    check_digits(top)
    check_digits(bottom)
    if int(bottom) == 0:
        raise NotALength(
            code="length-fraction",
            what=f"{quoted(said)} is a fraction over 0",
            mend="write a fraction as 5/8",
        )
    if int(top) >= int(bottom):
        raise _improper(top, bottom)
    return Mm(int(top), int(bottom))


def check_digits(figures: str) -> None:
    """Nothing, if the number is short enough to be a length at all."""
    digits = sum(figure.isdigit() for figure in figures)
    if digits > MOST_DIGITS:
        what = f"{quoted(figures)} has {digits} digits"
        raise NotALength(
            code="length-digits", what=what, mend=f"write a number of {MOST_DIGITS} digits at most"
        )


def not_a_fraction(said: str) -> NotALength:
    """The refusal of what has a fraction's stroke in it and is no fraction."""
    what = f"{quoted(said)} is not one whole number over another"
    return NotALength(code="length-fraction", what=what, mend="write a fraction as 5/8")


def _many_marks(figures: str, first: str) -> NotALength:
    """The refusal of a number with more than one point or comma."""
    found = quoted(figures)
    if not GROUPED.fullmatch(figures):
        return NotALength(
            code="length-digits",
            what=f"{found} has more than one decimal mark",
            mend="leave one, as in 600.5",
        )
    reading = figures.replace(first, "").replace(",", ".")
    what = f"{found} is {reading} if the {NAMES[first]} parts the thousands, and more than one number if not"
    return NotALength(code="length-ambiguous", what=what, mend=f"write {reading}")


def _check_grouping(figures: str, mark: str) -> None:
    """Nothing, if this mark, which may part thousands, can only be a decimal mark here."""
    whole, decimal = figures.replace(mark, ""), figures.replace(",", ".")
    if THOUSANDS.fullmatch(figures):
        what = f"{quoted(figures)} is {whole} if the {NAMES[mark]} parts the thousands, {decimal} if not"
        raise NotALength(
            code="length-ambiguous", what=what, mend=f"write {whole} or {figures.replace(mark, OTHER[mark])}"
        )
    if mark == "," and not COMMA_DECIMAL.fullmatch(figures):
        what = f"{quoted(figures)} has more than two digits after its comma"
        raise NotALength(
            code="length-digits", what=what, mend=f"write {decimal} if the comma is the decimal mark"
        )


def _improper(top: str, bottom: str) -> NotALength:
    """The refusal of a fraction that is one or more, with all it may have been meant for."""
    splits = ((top[:cut], top[cut:]) for cut in range(1, len(top)))
    slips = [
        f"{whole} {rest}/{bottom}" for whole, rest in splits if rest[0] != "0" and int(rest) < int(bottom)
    ]
    readings = " or ".join([mixed(Mm(int(top), int(bottom))), *slips])
    what = f"{quoted(f'{top}/{bottom}')} is a fraction of 1 or more"
    return NotALength(
        code="length-fraction", what=what, mend=f"write {readings}{', whichever is meant' if slips else ''}"
    )
