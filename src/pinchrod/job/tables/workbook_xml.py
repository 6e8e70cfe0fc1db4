"""The XML of a workbook's parts, read piece by piece: its sheets, links, formats and words.

Parts are parsed with a guard that refuses document types (defusedxml), loaded late since only
workbooks need it. Names of elements are ECMA-376's, with any prefix taken off.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar
from xml.sax.handler import ContentHandler
from xml.sax.xmlreader import AttributesImpl

from pinchrod.job.limits import MOST_CELLS

ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
Seen = TypeVar("Seen", bound="Listener")


class TooMuch(Exception):
    """More cells than any list has."""


class Listener:
    """What hears a part read out: an element begins, holds letters, ends. Hears nothing of its own."""

    def __init__(self) -> None:
        self.text: list[str] | None = None  # letters of the element that is being kept
        self.aside = False  # inside a guide for reading aloud, which is no part of the words

    def begin(self, name: str, _said: Mapping[str, str]) -> None:
        """An element begins, with what it says of itself."""

    def end(self, name: str) -> None:
        """An element ends."""

    def letters(self, letters: str) -> None:
        """Letters inside an element; kept if it is one that is read."""
        if self.text is not None and not self.aside:
            self.text.append(letters)

    def taken(self) -> str:
        """The letters kept since the element began."""
        text, self.text = "".join(self.text or ()), None
        return text


class _ReadOut(ContentHandler):
    """Passes on what the XML library finds, names without their prefixes."""

    def __init__(self, listener: Listener) -> None:
        super().__init__()
        self.listener = listener

    def characters(self, content: str) -> None:
        """Pass on letters."""
        self.listener.letters(content)

    def startElement(self, name: str, attrs: AttributesImpl) -> None:  # noqa: N802 - the library's name
        """Pass on the beginning."""
        bare = name.rpartition(":")[2]
        self.listener.aside |= bare == "rPh"
        self.listener.begin(bare, {key.rpartition(":")[2]: value for key, value in attrs.items()})

    def endElement(self, name: str) -> None:  # noqa: N802 - the library's name
        """Pass on the end."""
        bare = name.rpartition(":")[2]
        self.listener.aside &= bare != "rPh"
        self.listener.end(bare)


def heard(content: bytes, listener: Seen) -> Seen:
    """The listener, once it has heard the whole part."""
    from defusedxml.sax import parseString  # only workbooks need it

    parseString(content, _ReadOut(listener), forbid_dtd=True)
    return listener


@dataclass(frozen=True, slots=True)
class SheetName:
    """A sheet as the workbook lists it."""

    name: str
    link: str
    hidden: bool


class Book(Listener):
    """The list of sheets, and whether days are counted from 1904."""

    def __init__(self) -> None:
        super().__init__()
        self.sheets: list[SheetName] = []
        self.from_1904 = False

    def begin(self, name: str, said: Mapping[str, str]) -> None:
        """Note a sheet, or how days are counted."""
        if name == "sheet":
            hidden = said.get("state", "visible") != "visible"
            self.sheets.append(SheetName(said.get("name", ""), said.get("id", ""), hidden))
        elif name == "workbookPr":
            self.from_1904 = said.get("date1904", "0") in ("1", "true")


class Links(Listener):
    """The parts that a part points at, by the names and by the kinds of the links."""

    def __init__(self) -> None:
        super().__init__()
        self.targets: dict[str, str] = {}
        self.by_kind: dict[str, str] = {}

    def begin(self, name: str, said: Mapping[str, str]) -> None:
        """Note a link."""
        if name == "Relationship":
            target = said.get("Target", "")
            self.targets[said.get("Id", "")] = target
            self.by_kind.setdefault(said.get("Type", "").rsplit("/", 1)[-1], target)


class Formats(Listener):
    """The number format of each style: its number, and its code if it is not a built-in one."""

    def __init__(self) -> None:
        super().__init__()
        self.codes: dict[int, str] = {}
        self.styles: list[int] = []
        self.listing = False

    def begin(self, name: str, said: Mapping[str, str]) -> None:
        """Note a format, or the format of a style."""
        if name == "numFmt":
            self.codes[int(said.get("numFmtId", "0"))] = said.get("formatCode", "")
        elif name == "cellXfs":
            self.listing = True
        elif name == "xf" and self.listing:
            self.styles.append(int(said.get("numFmtId", "0")))

    def end(self, name: str) -> None:
        """Leave the list of styles."""
        self.listing &= name != "cellXfs"

    def of(self, style: int) -> tuple[str, int]:
        """The format's code and number; the general one for a style that is not listed."""
        number = self.styles[style] if 0 <= style < len(self.styles) else 0
        return self.codes.get(number, ""), number


class Strings(Listener):
    """The words that cells point at by number."""

    def __init__(self) -> None:
        super().__init__()
        self.strings: list[str] = []

    def begin(self, name: str, _said: Mapping[str, str]) -> None:
        """Begin a string, or a piece of one."""
        if name == "si":
            self.strings.append("")
        elif name == "t":
            self.text = []
        if len(self.strings) > MOST_CELLS:
            raise TooMuch

    def end(self, name: str) -> None:
        """Add a piece to its string."""
        if name == "t" and self.strings:
            self.strings[-1] += unescaped(self.taken())


def unescaped(text: str) -> str:
    """The text with the letters that XML cannot hold, written _x0007_, as they were."""
    return ESCAPED.sub(_letter, text)


def _letter(written: re.Match[str]) -> str:
    code = int(written[1], 16)
    return written[0] if 0xD800 <= code < 0xE000 else chr(code)
