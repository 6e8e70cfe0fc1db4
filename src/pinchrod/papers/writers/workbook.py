"""Tables written as a workbook, ready to print: the same bytes every time."""

import io
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

UNDATED = date(2000, 1, 1)
WIDEST = 60  # letters in a column before its text is broken into lines
NARROWEST = 9
PAPERS = {"A4": 9, "Letter": 1}  # as workbooks number them

Cell = str | int | float
Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column's head, and what stands under it: text, whole numbers, or lengths."""

    head: str
    text: bool = False
    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One sheet of a workbook."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A workbook: its tables, and what stands at the foot of each printed page."""

    title: str
    foot: str
    date: date | None
    paper: str  # A4 | Letter
    decimals: str  # nought as lengths are written: `0.0`
    tables: tuple[Table, ...]


@dataclass(frozen=True, slots=True)
class _Looks:
    head: "Format"
    text: "Format"
    length: "Format"


def write_xlsx(book: Book) -> bytes:
    """The bytes of the workbook. Text is written as text, whatever it begins with."""
    from xlsxwriter import Workbook  # late: slow to load, and only a pack needs it

    file = io.BytesIO()
    workbook = Workbook(file, {"in_memory": True})
    made = datetime.combine(book.date or UNDATED, time())
    workbook.set_properties({"title": book.title, "author": "pinchrod", "created": made})
    looks = _looks(workbook, book.decimals)
    for table in book.tables:
        sheet = workbook.add_worksheet(table.name)
        _fill(sheet, table, looks)
        _set_up_print(sheet, book)
    workbook.close()
    return file.getvalue()


def _looks(workbook: "Workbook", decimals: str) -> _Looks:
    plain = {"valign": "top"}
    return _Looks(
        head=workbook.add_format({"bold": True, "bottom": 1, "text_wrap": True}),
        text=workbook.add_format({**plain, "text_wrap": True}),
        length=workbook.add_format({**plain, "num_format": decimals}),
    )


def _fill(sheet: "Worksheet", table: Table, looks: _Looks) -> None:
    for place, column in enumerate(table.columns):
        letters = max((len(str(row[place])) for row in table.rows), default=0)
        sheet.set_column(place, place, min(WIDEST, max(NARROWEST, letters + 2, len(column.head) + 2)))
        sheet.write_string(0, place, column.head, looks.head)
        for line, row in enumerate(table.rows, start=1):
            _write(sheet, (line, place), row[place], column, looks)
    sheet.freeze_panes(1, 0)


def _write(sheet: "Worksheet", place: tuple[int, int], cell: Cell, column: Column, looks: _Looks) -> None:
    if column.text:
        sheet.write_string(*place, str(cell), looks.text)
    else:
        sheet.write_number(*place, cell, looks.text if column.whole else looks.length)


def _set_up_print(sheet: "Worksheet", book: Book) -> None:
    sheet.set_paper(PAPERS[book.paper])
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)
    foot = book.foot.replace("&", "&&")  # a single one gives orders
    sheet.set_footer(f"&L{foot}&R&A, page &P of &N")
