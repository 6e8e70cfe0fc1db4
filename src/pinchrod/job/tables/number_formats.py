"""How a spreadsheet shows a number: what its format says that the number itself does not."""

import re
from decimal import Decimal

DATES = {
    *range(14, 23),
    *range(27, 37),
    *range(45, 48),
    *range(50, 59),
}  # built-in ones, ECMA-376 18.8.30, from memory
SCIENTIFIC = {11, 48}
PERCENT = {9, 10}
QUIET = re.compile(r'"[^"]*"|\\.|\[[^\]]*\]|[*_].')  # quoted, escaped, bracketed, filled
OUT_LOUD = re.compile(r'\\.|"[^"]*"')
INCHES = re.compile(r"""["”″]|''|\bin(ch(es)?)?\b""", re.IGNORECASE)


def is_date(code: str, number: int) -> bool:
    """Whether the format shows a number as a day or a time."""
    letters = _quiet(code).partition(";")[0] if code else ""
    return number in DATES or bool(re.search(r"[ymdhs]", letters, re.IGNORECASE))


def shown(text: str, code: str, number: int) -> str:
    """A number as the format shows it, where that may have been a name once: 1.71E+04, or 007."""
    if not code and number not in SCIENTIFIC:
        return text
    if number in SCIENTIFIC or re.search(r"E[+-]", _quiet(code), re.IGNORECASE):
        return f"{Decimal(text):.2E}"
    noughts = re.fullmatch(r"0{2,20}", code)
    return text.zfill(len(noughts[0])) if noughts else text


def other_unit(code: str, number: int) -> str:
    """The unit, other than mm, that the format shows after a plain number: inches, or per cent."""
    if not code and number not in PERCENT:
        return ""
    if number in PERCENT or "%" in _quiet(code):
        return "per cent"
    words = "".join(
        part[1:].removesuffix('"') if part[0] == '"' else part[1:] for part in OUT_LOUD.findall(code)
    )
    return "inches" if INCHES.search(words) else ""


def _quiet(code: str) -> str:
    return QUIET.sub("", code)
