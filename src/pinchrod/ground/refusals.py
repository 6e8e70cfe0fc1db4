"""Why a text is not one length, said so that whoever typed it can mend it."""

import re
import unicodedata

from pinchrod.ground.marks import VULGAR, unit_at
from pinchrod.ground.millimetres import INCH, Mm, NotALength
from pinchrod.ground.numerals import not_a_fraction
from pinchrod.ground.showing import mixed, quoted, show, spell

LONGEST = 1000  # characters of a text that are looked at for one length
LOOK_ALIKES = {"O": "0", "o": "0", "l": "1", "I": "1"}
FIGURES_AND_LETTERS = re.compile(r"(?<![0-9A-Za-z.,/])[0-9.,/OoIl]++(?=(?:mm|cm|m|in|ft)\b|[^0-9A-Za-z]|$)")
POWER = re.compile(r"[0-9]{1,20}+(?:\.[0-9]{1,20}+)?[eE][-+]?[0-9](?![0-9])")
THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?: [0-9]{3})++(?![0-9])")
SIGNED = re.compile(rf"(?P<signs>[-+][-+ ]*+)[.,]*+[0-9{''.join(VULGAR)}]")
FIGURE = re.compile(rf"[0-9{''.join(VULGAR)}]")


def too_long(text: str) -> NotALength:
    """The refusal of a text that nobody would write for one length."""
    what = f"{quoted(text)} runs on for more than {LONGEST} characters"
    return NotALength(code="length-too-long", what=what, mend="write one length, as 600 or 23 5/8 in")


def nothing() -> NotALength:
    """The refusal of an empty text."""
    return NotALength(
        code="length-empty", what="there is no length here", mend="write one, as 600 or 23 5/8 in"
    )


def no_number(plain: str) -> NotALength:
    """The refusal of a text that does not begin as a length does."""
    what = f"{quoted(plain)} does not begin with a number"
    other = NotALength(
        code="length-not-a-number", what=what, mend="write the length in figures, as 600 or 23 5/8 in"
    )
    return _strange_letters(plain) or _signed(plain) or other


def left_over(plain: str, end: int) -> NotALength:
    """The refusal of a text that goes on where its length should end."""
    rest = plain[end:].strip()
    return _strange_letters(plain) or _power(plain) or _thousands(plain) or _not_belonging(plain, rest)


def inches_do_not_follow(said: str) -> NotALength:
    """The refusal of feet and inches that no tape has: 2 1/2' 3", or 2' 14"."""
    what = f"{quoted(said)} is not whole feet and then less than 12 inches"
    return NotALength(code="length-two", what=what, mend="""write it as 5' 3 1/2", or in inches alone""")


def no_unit(said: str, number: Mm) -> NotALength:
    """The refusal of a fraction without a mark, which is inches to most and millimetres to some."""
    what = (
        f"{quoted(said)} has no unit: {show(number * INCH)} mm if inches are meant, {show(number)} mm if not"
    )
    return NotALength(code="length-ambiguous", what=what, mend=f"write {mixed(number)} in or {spell(number)}")


def is_signed(word: str) -> bool:
    """Whether a number with a sign before it begins here."""
    return SIGNED.match(word) is not None


def _strange_letters(plain: str) -> NotALength | None:
    """The refusal of letters that cannot be seen, or that stand where digits should."""
    if not plain.isprintable():
        what = f"{quoted(plain)} has something in it that cannot be seen"
        return NotALength(code="length-unseen", what=what, mend="type it afresh instead of copying it")
    digits = "".join(str(unicodedata.digit(letter, letter)) for letter in plain)
    if any(letter.isdigit() and not letter.isascii() for letter in plain):
        return NotALength(
            code="length-digits",
            what=f"{quoted(plain)} has digits other than 0 to 9",
            mend=f"write {quoted(digits)}",
        )
    return _look_alike(plain)


def _look_alike(plain: str) -> NotALength | None:
    """The refusal of a letter that looks like a digit, among digits."""
    for word in FIGURES_AND_LETTERS.findall(plain):
        letters = [letter for letter in word if letter in LOOK_ALIKES]
        if letters and FIGURE.search(word):
            what = (
                f"{quoted(word)} has the letter {letters[0]} where a {LOOK_ALIKES[letters[0]]} may be meant"
            )
            meant = word.translate(str.maketrans(LOOK_ALIKES))
            return NotALength(code="length-letters", what=what, mend=f"write {meant}")
    return None


def _signed(plain: str) -> NotALength | None:
    """The refusal of a sign before a number."""
    found = SIGNED.match(plain)
    if found is None:
        return None
    if found["signs"].strip() == "-":
        return NotALength(
            code="length-negative", what=f"{quoted(plain)} is less than 0", mend="write a length of 0 or more"
        )
    return NotALength(
        code="length-sign",
        what=f"{quoted(plain)} has a sign before its number",
        mend="write the number alone",
    )


def _power(plain: str) -> NotALength | None:
    """The refusal of a number written as a calculator shows it."""
    found = POWER.match(plain)
    if found is None:
        return None
    number = spell(Mm(found[0])).removesuffix(" mm")
    return NotALength(
        code="length-letters",
        what=f"{quoted(found[0])} is a calculator's way to write",
        mend=f"write {number}",
    )


def _thousands(plain: str) -> NotALength | None:
    """The refusal of a number with spaces that may part its thousands."""
    found = THOUSANDS.match(plain)
    if found is None:
        return None
    number = found[0].replace(" ", "")
    what = f"{quoted(found[0])} is {number} if the space parts the thousands, and more than one number if not"
    return NotALength(code="length-ambiguous", what=what, mend=f"write {number}")


def _not_belonging(plain: str, rest: str) -> NotALength:
    """The refusal of what is left of a text after its first length."""
    if unit_at(rest, 0):
        return NotALength(
            code="length-unit",
            what=f"{quoted(plain)} has a unit too many",
            mend="write one unit after the number",
        )
    if rest.startswith(("-", "+")):
        what = f"{quoted(plain)} has a sign after its number"
        return NotALength(code="length-sign", what=what, mend="write the one length that is meant")
    if rest.startswith("/"):
        return not_a_fraction(plain)
    if FIGURE.search(rest):
        mend = """write one, or feet and then inches with their marks, as 5' 3 1/2\""""
        return NotALength(code="length-two", what=f"{quoted(plain)} is more than one length", mend=mend)
    mend = "write mm, cm, m, in or ft after the number"
    return NotALength(code="length-unit", what=f"{quoted(rest)} is no unit of length", mend=mend)
