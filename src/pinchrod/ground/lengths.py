"""Lengths as people write them, read exactly or refused with the reason.

A length is a number and the mark of its unit: `600`, `60 cm`, `23 5/8"`, `5' 3 1/2"`. Whatever has
two readings is refused and both are shown; nothing is ever guessed.
"""

import re
from dataclasses import dataclass, replace

from pinchrod.ground.marks import VULGAR, as_typed, unit_at
from pinchrod.ground.millimetres import FOOT, INCH, Mm, NotALength, Unit
from pinchrod.ground.numerals import check_digits, fraction_in, number_in
from pinchrod.ground.refusals import (
    LONGEST,
    inches_do_not_follow,
    is_signed,
    left_over,
    no_number,
    no_unit,
    nothing,
    too_long,
)

__all__ = ["INCH", "Mm", "NotALength", "Unit", "length_at", "read_length"]

FIGURES = "[.,]*+[0-9][0-9.,]*+"
AMOUNT = re.compile(
    rf"(?:(?P<whole>[0-9]++(?![.,]))[ ]*+(?:-[ ]*+)?+)?"
    rf"(?:(?P<top>{FIGURES})[ ]*+/[ ]*+(?P<bottom>{FIGURES})|(?P<vulgar>[{''.join(VULGAR)}]))"
    rf"|(?P<number>{FIGURES})"
)
BETWEEN_WORDS = re.compile(r"[ ()\[\]]")
GOES_ON = "-+/'\"."  # marks that cannot follow a length at once; nor can a letter or digit


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A number found in a text, and the unit whose mark follows it, if one does."""

    said: str
    number: Mm
    broken: bool  # said with a fraction
    unit: Mm | None
    end: int


def read_length(text: str, *, unit: Unit = Unit.MM, decimal_comma: bool = False) -> Mm:
    """The one length that the text says; NotALength is raised if it says none, or more than one.

    A number without a mark is in `unit`; but a fraction without a mark, where millimetres are
    usual, is refused, since inches may be meant.

    >>> read_length('23 5/8 in') == Mm("600.075")
    True
    """
    if len(text) > LONGEST:
        raise too_long(text)
    plain = as_typed(text).strip(" ")
    if not plain:
        raise nothing()
    measure = _measure_at(plain, decimal_comma=decimal_comma)
    if measure is None:
        raise no_number(plain)
    if measure.end < len(plain):
        raise left_over(plain, measure.end)
    return _in_mm(measure, unit)


def length_at(
    text: str, start: int, *, unit: Unit = Unit.MM, decimal_comma: bool = False
) -> tuple[Mm, int] | None:
    """The longest piece of text from there on that is one length, and where it ends.

    None if no length begins there. A number that a space parts from the next is a length by
    itself: in `140 2 doors` it is 140. What begins as a number and is no length raises NotALength.
    """
    plain = as_typed(text[start : start + LONGEST + 1])
    measure = _measure_at(plain, decimal_comma=decimal_comma)
    end = measure.end if measure else 0
    attached = BETWEEN_WORDS.split(plain[end:])[0]
    if measure is None:
        _refuse_if_numeric(attached)
        return None
    if end + len(attached) > LONGEST:
        raise too_long(plain)
    if attached and (attached[0].isalnum() or attached[0] in GOES_ON):
        raise left_over(plain[:end] + attached, end)
    return _in_mm(measure, unit), start + end


def _refuse_if_numeric(word: str) -> None:
    """Nothing for a word; a sign before a number, or a digit of another script, is refused."""
    if word[:1].isdigit() or is_signed(word):
        raise no_number(word)


def _measure_at(plain: str, *, decimal_comma: bool) -> Measure | None:
    """The number with its unit that the text begins with, or the feet with their inches."""
    first = _marked_number(plain, 0, decimal_comma=decimal_comma)
    if first is None or first.unit != FOOT:
        return first
    after = plain[first.end :].lstrip(" ").removeprefix("-").lstrip(" ")
    second = _marked_number(plain, len(plain) - len(after), decimal_comma=decimal_comma)
    if second is None or second.unit != INCH:
        return first
    return _feet_and_inches(first, second, plain[: second.end])


def _marked_number(plain: str, at: int, *, decimal_comma: bool) -> Measure | None:
    """The number that begins there, with its unit if one follows."""
    found = AMOUNT.match(plain, at)
    if found is None:
        return None
    unit, end = unit_at(plain, found.end()) or (None, found.end())
    number = _number_of(found, decimal_comma=decimal_comma)
    return Measure(said=found[0], number=number, broken=not found["number"], unit=unit, end=end)


def _number_of(found: re.Match[str], *, decimal_comma: bool) -> Mm:
    """The number as said: decimal, or a fraction with or without a whole number before it."""
    if found["number"]:
        return number_in(found["number"], decimal_comma=decimal_comma)
    whole = found["whole"] or "0"
    check_digits(whole)
    part = VULGAR[found["vulgar"]] if found["vulgar"] else fraction_in(found["top"], found["bottom"])
    return int(whole) + part


def _feet_and_inches(feet: Measure, inches: Measure, said: str) -> Measure:
    """Feet and the inches that follow them, as one measure."""
    if feet.number.denominator != 1 or inches.number >= 12:
        raise inches_do_not_follow(said)
    return replace(feet, number=feet.number + inches.number / 12, end=inches.end)


def _in_mm(measure: Measure, usual: Unit) -> Mm:
    """The measure in millimetres; a fraction without a mark is inches only where those are usual."""
    if measure.unit:
        return measure.number * measure.unit
    if usual is Unit.INCH:
        return measure.number * INCH
    if measure.broken:
        raise no_unit(measure.said, measure.number)
    return measure.number
