"""The rack as a grid of fields: a row a board, each cell with what is wrong in it."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.job import RACK_COLUMNS, BoardWords, RackWords, rack_words_pasted
from pinchrod.web.begun import Begun, Fields
from pinchrod.web.known import Known
from pinchrod.web.timber_saving import RackSlip
from pinchrod.web.trouble import Slip
from pinchrod.web.within import Within, within

ORDER = ("board", "length", "width", "thickness", "price", "bow", "spring", "faults")
"""The columns as they are typed: a joiner tapes the length first."""
HEADS = {
    "board": "Board",
    "length": "Length, mm",
    "width": "Width, mm",
    "thickness": "Thickness, mm",
    "price": "Price",
    "bow": "Bow, mm",
    "spring": "Spring, mm",
    "faults": "Faults, mm",
}
MARKED = re.compile(r"[^\W\d_]|[\"'′″’”]")  # a unit was typed
BLANK: BoardWords = ("",) * len(RACK_COLUMNS)
FIRST_ROWS, MORE_ROWS = 8, 5
MOST_ROWS = 220  # that a form carries


@dataclass(frozen=True, slots=True, kw_only=True)
class GridCell:
    """A field: what was typed in it, and what is wrong or doubtful there."""

    id: str
    key: str
    label: str
    value: str
    slips: tuple[Slip, ...]
    unit: str

    @property
    def name(self) -> str:
        """What the field is called, its unit with it: there is no room for a label beside it."""
        return f"{self.label}, {self.unit}" if self.unit else self.label

    @property
    def bare(self) -> bool:
        """Whether its unit stands behind what was typed: not behind inches, nor where faults are typed."""
        return bool(self.unit) and self.key != "faults" and not MARKED.search(self.value)

    @property
    def echoed(self) -> str:
        """What of it is said again in either unit: a length, faults, or none."""
        return self.key if self.key == "faults" else "length" if self.unit else "none"

    @property
    def wrong(self) -> bool:
        """Whether what stands in it has to be mended."""
        return any(not slip.doubt for slip in self.slips)


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    """A board's fields."""

    number: int
    cells: tuple[GridCell, ...]

    @property
    def slips(self) -> tuple[Slip, ...]:
        """What is wrong or doubtful in the row."""
        return tuple(slip for cell in self.cells for slip in cell.slips)


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPage:
    """The grid, and everything that is wrong in it; `said` is of no cell."""

    within: Within
    heads: tuple[tuple[str, str], ...]
    rows: tuple[GridRow, ...]
    separator: str
    boards: int
    revision: int  # that what stands here was begun from
    begun: Begun | None = None
    taken_up: bool = False
    pasted: str = ""  # rows that are not put into the fields yet
    said: tuple[Slip, ...] = ()
    whole: str = ""  # all rows as one text, where they are too many for fields

    @property
    def wrong(self) -> tuple[Slip, ...]:
        """What has to be mended, row by row."""
        cells = (slip for row in self.rows for slip in row.slips)
        return (*self.said, *(slip for slip in cells if not slip.doubt))


def rack_page(known: Known, rack: RackWords, slips: Iterable[RackSlip]) -> RackPage:
    """The page of these words: as fields, or as one text where there are too many for that."""
    found, filled = tuple(slips), sum(map(any, rack.boards))
    in_fields = filled <= MOST_ROWS
    return RackPage(
        within=within(known.revision, "timber"),
        heads=tuple((key, HEADS[key]) for key in ORDER),
        rows=tuple(_row(at, board, found) for at, board in enumerate(rack.boards)) if in_fields else (),
        separator=rack.separator,
        boards=filled,
        revision=known.number,
        said=tuple(
            each.beside("") for each in found if each.problem.stops and not (in_fields and each.row >= 0)
        ),
        whole="" if in_fields else _as_text(rack),
    )


def rack_in(fields: Fields) -> RackWords:
    """What was typed in the fields, blank rows with it."""
    said = dict(fields)
    if "whole" in said:
        return RackWords(boards=rack_words_pasted(said["whole"], ORDER))
    rows = int(said.get("rows", "0")) if said.get("rows", "0").isdecimal() else 0
    separator = said.get("separator", ",")
    boards = tuple(
        tuple(said.get(f"b{at}-{key}", "") for key in RACK_COLUMNS) for at in range(min(rows, 2 * MOST_ROWS))
    )
    return RackWords(boards=boards, separator=separator if separator in (",", ";", "\t") else ",")


def with_blank_rows(rack: RackWords) -> RackWords:
    """The same with some blank rows below."""
    more = FIRST_ROWS if not rack.boards else MORE_ROWS
    return RackWords(boards=(*rack.boards, *(BLANK,) * more), separator=rack.separator)


def pasted_rows(rack: RackWords, text: str) -> RackWords:
    """The boards typed so far with those pasted below; of pasted rows without heads in the grid's order."""
    pasted = rack_words_pasted(text, ORDER)
    typed = tuple(board for board in rack.boards if any(words.strip() for words in board))
    return with_blank_rows(RackWords(boards=(*typed, *pasted), separator=rack.separator))


def _as_text(rack: RackWords) -> str:
    """The rows with their heads, parted by tabs, as a spreadsheet copies them."""
    said = (dict(zip(RACK_COLUMNS, board, strict=True)) for board in rack.boards if any(board))
    return "\n".join(("\t".join(ORDER), *("\t".join(words[key] for key in ORDER) for words in said)))


def _row(at: int, board: BoardWords, slips: Sequence[RackSlip]) -> GridRow:
    said = dict(zip(RACK_COLUMNS, board, strict=True))
    name = said["board"].strip() or f"row {at + 1}"
    return GridRow(number=at + 1, cells=tuple(_cells(at, name, said, slips)))


def _cells(at: int, name: str, said: dict[str, str], slips: Sequence[RackSlip]) -> Iterator[GridCell]:
    for key in ORDER:
        id_ = f"b{at}-{key}"
        own = tuple(each.beside(id_) for each in slips if each.row == at and each.column == key)
        head, _, unit = HEADS[key].partition(", ")
        label = f"{head} of {name}" if key != "board" else f"Board in row {at + 1}"
        yield GridCell(id=id_, key=key, label=label, value=said[key], slips=own, unit=unit)
