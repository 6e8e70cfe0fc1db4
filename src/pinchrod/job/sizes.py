"""One size understood: a length, another number, or a whole number; or why it is none."""

import re

from pinchrod.ground import Mm, NotALength, quoted, read_length
from pinchrod.job.found import A_SIZE, a_day, found_there, looks_like_a_day, problem_at, words_in
from pinchrod.job.limits import MOST_DIGITS, Between, in_unit
from pinchrod.job.said import Amiss, Number, Reading, Said

DECIMAL = re.compile(r"-?[0-9]++(\.[0-9]++)?")
SHARE = re.compile(r"[0-9]{1,4}/[1-9][0-9]{0,3}")
WHOLE = re.compile(rf"\s*(-?[0-9]{{1,{MOST_DIGITS}}})([.,]0{{1,2}})?\s*")


def length(said: Said, name: str, between: Between) -> Reading[Mm | None]:
    """The length, exact and between its two ends."""
    size = yield from exact_length(said, name)
    return None if size is None else (yield from within(said, name, size, between))


def exact_length(said: Said, name: str) -> Reading[Mm | None]:
    """The length, whatever its size."""
    if isinstance(said.value, Number):
        return (yield from _exact(said, name, said.value.text))
    words = yield from words_in(said, name, A_SIZE)
    if words is None:
        return None
    try:
        return read_length(words, decimal_comma=said.decimal_comma)
    except NotALength as trouble:
        if trouble.code == "length-negative" and (size := _without_sign(words, said)) is not None:
            return -size  # told of by its least, as a bare number is
        if looks_like_a_day(words):
            yield a_day(said, name, A_SIZE)
        else:
            yield problem_at(said, trouble.code, f"{name}: {trouble.what}", trouble.mend)
        return None


def _without_sign(words: str, said: Said) -> Mm | None:
    """The length behind a sign, if there is one."""
    try:
        return read_length(words.strip()[1:], decimal_comma=said.decimal_comma)
    except NotALength:
        return None


def number(said: Said, name: str, between: Between) -> Reading[Mm | None]:
    """A number that is no length: a share, a speed, a moisture."""
    if isinstance(said.value, str) and SHARE.fullmatch(said.value):
        return (yield from within(said, name, Mm(said.value), between))
    if not isinstance(said.value, Number):
        what = f"{name} is {found_there(said)}, where a number should stand"
        yield problem_at(said, "not-a-number", what, f"write a number, {between}")
        return None
    size = yield from _exact(said, name, said.value.text)
    return None if size is None else (yield from within(said, name, size, between))


def measure(said: Said, name: str, between: Between) -> Reading[Mm | None]:
    """A length where the two ends are in mm, a plain number otherwise."""
    return (yield from (length if between.unit == "mm" else number)(said, name, between))


def whole(said: Said, name: str, between: Between) -> Reading[int | None]:
    """A whole number between the two ends."""
    value = said.value
    if isinstance(value, Amiss):
        yield problem_at(said, value.code, f"{name}: {value.what}", value.mend)
        return None
    text = value.text if isinstance(value, Number) else value
    found = WHOLE.fullmatch(text) if isinstance(text, str) else None
    if found is None:
        what = f"{name} is {found_there(said)}, where a whole number should stand"
        yield problem_at(said, "not-whole", what, f"write one from {between}")
        return None
    size = yield from within(said, name, Mm(int(found[1])), between)
    return None if size is None else int(size)


def _exact(said: Said, name: str, text: str) -> Reading[Mm | None]:
    """The number that these digits write; a calculator's way of writing is refused."""
    digits = text.replace("_", "").removeprefix("+")
    if sum(letter.isdigit() for letter in digits) > MOST_DIGITS:
        what = f"{name} {quoted(said.typed or text)} has more than {MOST_DIGITS} digits"
        yield problem_at(said, "number-long", what, "write a size, such as 600")
    elif not DECIMAL.fullmatch(digits):
        what = f"{name} is {quoted(said.typed or text)}, which is no size"
        yield problem_at(said, "number-form", what, "write the number in figures, such as 600 or 600.5")
    else:
        return Mm(digits)
    return None


def within(said: Said, name: str, size: Mm, between: Between) -> Reading[Mm | None]:
    """The size, if it lies between the two ends."""
    if between.low <= size <= between.high:
        return size
    less = size < between.low
    end = in_unit(between.low if less else between.high, between.unit)
    what = f"{name} is {in_unit(size, between.unit)}, {'less' if less else 'more'} than {end}"
    yield problem_at(said, "too-small" if less else "too-large", what, f"write {between}")
    return None
