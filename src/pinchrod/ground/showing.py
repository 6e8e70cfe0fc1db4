"""Lengths and texts as people read them: rounded once, here, and never before."""

import unicodedata

from pinchrod.ground.millimetres import INCH, Mm

TENTH = Mm("0.1")
MOST_SHOWN = 40  # characters of a found text that a message repeats


def rounded(length: Mm, step: Mm) -> Mm:
    """The nearest whole number of steps; half a step goes away from zero, as a joiner rounds."""
    steps = int(abs(length) / step + Mm("0.5"))
    return steps * step if length >= 0 else -steps * step


def show_fixed(length: Mm, step: Mm = TENTH) -> str:
    """Millimetres to the nearest step with the step's decimals kept, for columns: `38.0`."""
    return _in_decimals(rounded(length, step), _decimals_of(step))


def show(length: Mm, step: Mm = TENTH) -> str:
    """Millimetres to the nearest step without trailing zeros: `482.5`, `38`."""
    shown = rounded(length, step)
    return _in_decimals(shown, _decimals_of(shown))


def show_inches(length: Mm, denominator: int = 64) -> str:
    """Inches to the nearest fraction, reduced, with a gap after the whole number: `23 5/8"`."""
    inches = rounded(length / INCH, Mm(1, denominator))
    return f'{"-" if inches < 0 else ""}{mixed(abs(inches))}"'


def spell(length: Mm) -> str:
    """The exact length with its unit, as `read_length` reads it back: `600.075 mm`.

    Every decimal of a millimetre, and so every half, quarter and on to any 1/2^k of an inch, is
    spelled as a decimal. What no decimal ends for is a mixed fraction: 500/3 is `166 2/3 mm`.
    It is read back in either unit, if no number in it is longer than the 20 digits that are read;
    a negative length is spelled, too, but never read.
    """
    if _is_decimal(length):
        return f"{_in_decimals(length, _decimals_of(length))} mm"
    return f"{'-' if length < 0 else ''}{mixed(abs(length))} mm"


def quoted(text: str, most: int = MOST_SHOWN) -> str:
    """The text between quotation marks, fit for any terminal or page, and cut short.

    What cannot be seen, or would turn or colour the words after it, is named instead: `<U+001B>`.
    """
    shown = "".join(_harmless(letter) for letter in text[:most])
    mark = "'" if '"' in shown else '"'
    return f"{mark}{shown}{'…' if len(text) > most else ''}{mark}"


def _harmless(letter: str) -> str:
    """The letter, a plain space for any other kind of space, or its number."""
    if letter.isprintable():
        return letter
    return " " if unicodedata.category(letter) == "Zs" else f"<U+{ord(letter):04X}>"


def mixed(amount: Mm) -> str:
    """A whole number and a reduced fraction; whichever is nothing is left out."""
    whole, part = divmod(amount, 1)
    words = [str(number) for number in (whole, part) if number]
    return " ".join(words) or "0"


def _is_decimal(number: Mm) -> bool:
    """Whether the number's decimals come to an end: whether its denominator divides a power of ten."""
    parts = number.denominator
    return pow(10, parts.bit_length(), parts) == 0


def _decimals_of(number: Mm) -> int:
    """How many decimals write the number exactly; a number without end is a fault of ours."""
    if not _is_decimal(number):
        raise ValueError(f"{number} has no end as a decimal")
    places = 0
    while number.denominator != 1:
        number *= 10
        places += 1
    return places


def _in_decimals(number: Mm, places: int) -> str:
    """A number that has at most so many decimals, written out with that many."""
    sign = "-" if number < 0 else ""
    whole, part = divmod(int(abs(number) * 10**places), 10**places)
    return f"{sign}{whole}.{part:0{places}}" if places else f"{sign}{whole}"
