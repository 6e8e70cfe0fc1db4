"""The XML of one sheet, read cell by cell."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinchrod.job.limits import MOST_CELLS
from pinchrod.job.said import column_number
from pinchrod.job.tables.workbook_xml import Listener, TooMuch, unescaped

REFERENCE = re.compile(r"\$?([A-Z]{1,3})\$?([1-9][0-9]{0,6})")
TEXTS = ("v", "f", "t")


@dataclass(frozen=True, slots=True, kw_only=True)
class CellXml:
    """A cell as its XML says it: its kind, its style, its raw value, and whether a formula made it."""

    row: int
    column: int
    kind: str
    style: int
    value: str | None
    formula: bool


class _Open(NamedTuple):
    """The cell that is being heard."""

    row: int
    column: int
    kind: str
    style: int


class Cells(Listener):
    """The filled cells of a sheet, its hidden rows and columns, and its merged cells."""

    def __init__(self) -> None:
        super().__init__()
        self.cells: list[CellXml] = []
        self.hidden_rows: set[int] = set()
        self.hidden_columns: list[tuple[int, int]] = []
        self.merged: list[str] = []
        self.row = 0
        self.column = 0
        self.open: _Open | None = None
        self.texts: dict[str, str] = {}  # of the cell that is being heard

    def begin(self, name: str, said: Mapping[str, str]) -> None:
        """Begin a row, a cell, or a text of one."""
        if name in TEXTS:
            self.text = []
        elif name == "c":
            self._begin_cell(said)
        elif name == "row":
            self.row, self.column = int(said.get("r", str(self.row + 1))), 0
            self.hidden_rows |= {self.row} if _yes(said.get("hidden")) else set()
        elif name == "mergeCell":
            self.merged.append(said.get("ref", ""))
        elif name == "col" and _yes(said.get("hidden")):
            self.hidden_columns.append((int(said.get("min", "0")), int(said.get("max", "0"))))

    def end(self, name: str) -> None:
        """End a text of a cell, or the cell."""
        if name in TEXTS:
            self.texts[name] = self.texts.get(name, "") + self.taken()
        elif name == "c" and self.open:
            self._end_cell(self.open)

    def _begin_cell(self, said: Mapping[str, str]) -> None:
        self.column += 1
        if "r" in said:
            self.row, self.column = place_of(said["r"])
        if self.row < 1:
            raise ValueError("a cell stands outside all rows")
        self.texts = {}
        self.open = _Open(self.row, self.column, said.get("t", "n"), int(said.get("s", "0")))

    def _end_cell(self, done: _Open) -> None:
        """Keep the cell, if it holds a value or a formula."""
        value, formula = _value(done.kind, self.texts), "f" in self.texts
        if value is not None or formula:
            self.cells.append(CellXml(**done._asdict(), value=value, formula=formula))
        self.open = None
        if len(self.cells) > MOST_CELLS:
            raise TooMuch


def place_of(reference: str) -> tuple[int, int]:
    """Row and column, from 1, of a cell's name."""
    found = REFERENCE.fullmatch(reference)
    if found is None:
        raise ValueError(f"{reference} names no cell")
    return int(found[2]), column_number(found[1])


def _value(kind: str, texts: Mapping[str, str]) -> str | None:
    """The raw value: an inline text, a formula's text, or what stands in `v`."""
    if kind == "inlineStr":
        return unescaped(texts["t"]) if "t" in texts else None
    value = texts.get("v")
    return unescaped(value) if value is not None and kind == "str" else value


def _yes(word: str | None) -> bool:
    return word in ("1", "true")
