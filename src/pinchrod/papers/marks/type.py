"""How wide words are in our own fonts, and which letters those fonts have."""

from functools import cache
from importlib.resources import files
from io import BytesIO
from typing import TYPE_CHECKING
from unicodedata import category, normalize

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

CAPITAL = 1493 / 2048
"""Height of a capital in ems: the top of the letter H in both fonts (their OS/2 tables give none)."""
BOX = "□"
ELLIPSIS = "…"
LAST_CODE = 0xFFFF
"""Letters beyond this would print, but read back from a PDF as others."""
# Letters that would not show, or would upset those that do: controls, marks of direction, halves of pairs.
_UNSEEN = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))


@cache
def font(*, bold: bool) -> "TTFont":
    """DejaVu Sans, or its bold, as read from the file that comes with us (about 10 ms, so once a run)."""
    from reportlab.pdfbase.ttfonts import TTFont  # late: only papers need it, and it is slow to load

    name = "DejaVuSans-Bold" if bold else "DejaVuSans"
    file = BytesIO((files("pinchrod.papers") / "fonts" / f"{name}.ttf").read_bytes())
    return TTFont(name, file, asciiReadable=1)


@cache
def _printable() -> frozenset[str]:
    codes = font(bold=False).face.charWidths.keys() & font(bold=True).face.charWidths.keys()
    return frozenset(chr(code) for code in codes if code <= LAST_CODE and category(chr(code)) not in _UNSEEN)


def missing_letters(text: str) -> str:
    """The letters of the text that cannot be printed, each once, in the order they come."""
    printable = _printable()
    return "".join(dict.fromkeys(letter for letter in normalize("NFC", text) if letter not in printable))


def shown(text: str) -> str:
    """The text as it is printed: a white box stands for each letter our fonts lack, and for each control."""
    if text.isascii() and text.isprintable():
        return text
    text = normalize("NFC", text)
    for letter in missing_letters(text):
        text = text.replace(letter, BOX)
    return text


def words_width(text: str, size: float, *, bold: bool = False) -> float:
    """How wide the text is printed, with capitals of that size."""
    widths: dict[int, float] = font(bold=bold).face.charWidths
    return sum(map(widths.__getitem__, map(ord, shown(text)))) * size / CAPITAL / 1000


def shorten_middle(text: str, size: float, width: float, *, bold: bool = False) -> str:
    """The text, or its beginning and its end about an ellipsis, so that it is no wider than that.

    Never for a number: a shortened number is another number.
    """
    if words_width(text, size, bold=bold) <= width:
        return text
    for kept in range(len(text) - 1, 0, -1):
        head, tail = text[: (kept + 1) // 2], text[len(text) - kept // 2 :]
        shorter = head.rstrip() + ELLIPSIS + tail.lstrip()
        if words_width(shorter, size, bold=bold) <= width:
            return shorter
    return ELLIPSIS
