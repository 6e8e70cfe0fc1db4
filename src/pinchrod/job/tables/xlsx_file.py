"""A list in a workbook: its first sheet that holds anything and is not hidden.

Read by ourselves rather than through a spreadsheet library: we must tell a formula without a saved
result, an error, a hidden row, a merged cell and a number shown as inches, each at its own cell, and
must stop in time at a sheet made to overwhelm. Tests hold this reader against two such libraries.
"""

import posixpath
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar
from xml.sax import SAXException

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.limits import MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from pinchrod.job.said import Reading, Said, column_letters
from pinchrod.job.source import Source
from pinchrod.job.tables.grid import Grid, Row, too_many_cells, too_many_rows
from pinchrod.job.tables.sheet_xml import Cells, place_of
from pinchrod.job.tables.workbook import Parts, damaged, parts_of
from pinchrod.job.tables.workbook_xml import (
    Book,
    Formats,
    Links,
    Listener,
    SheetName,
    Strings,
    TooMuch,
    heard,
)
from pinchrod.job.tables.xlsx_cells import Wording, doubt_of, said_of

Seen = TypeVar("Seen", bound=Listener)

HOLDS_ANYTHING = re.compile(rb"<(\w+:)?(v|is|f)[ />]")
PLACED = rb'[ \t\r\n][^<>]*?\br="[A-Z0-9]+"[^<>]*'
BLANK = (
    re.compile(rb"<(?:\w+:)?c" + PLACED + rb"/>"),
    re.compile(rb"<(?:\w+:)?row" + PLACED + rb"(?:/>|>\s*</(?:\w+:)?row>)"),
)
MOST_NAMED = 5  # rows or sheets that one doubt names


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of the workbook and the XML that makes it."""

    name: str
    hidden: bool
    content: bytes

    @property
    def blank(self) -> bool:
        """Whether no cell holds anything."""
        return HOLDS_ANYTHING.search(self.content) is None


def read_xlsx(source: Source) -> Reading[Grid | None]:
    """The rows of the sheet that holds the list."""
    parts = yield from parts_of(source)
    if parts is None:
        return None
    try:
        return (yield from _grid(source, parts))
    except TooMuch:
        yield too_many_cells(source.whole, MOST_CELLS)
    except (SAXException, ValueError):  # what a damaged part raises, whichever it is
        yield damaged(source)
    return None


def _grid(source: Source, parts: Parts) -> Reading[Grid | None]:
    path = _target(_links(parts, "_rels/.rels"), "officeDocument", "xl/workbook.xml", "")
    book = _seen(parts, path, Book())
    links = _links(parts, f"{posixpath.dirname(path)}/_rels/{posixpath.basename(path)}.rels")
    sheets = [_sheet(parts, links, path, listed) for listed in book.sheets]
    filled = [sheet for sheet in sheets if sheet is not None and not sheet.blank]
    read = next((sheet for sheet in filled if not sheet.hidden), None)
    if read is None:
        what = "the workbook has no sheet that is in view and holds anything"
        yield Problem(
            where=source.whole, code="no-frames", what=what, mend="put the list on one, a row for each thing"
        )
        return None
    yield from _unread(source, read, filled)
    wording = Wording(
        strings=_seen(
            parts, _target(links, "sharedStrings", "xl/sharedStrings.xml", path), Strings()
        ).strings,
        formats=_seen(parts, _target(links, "styles", "xl/styles.xml", path), Formats()),
        from_1904=book.from_1904,
    )
    return (yield from _rows(source, read, wording))


def _rows(source: Source, sheet: Sheet, wording: Wording) -> Reading[Grid | None]:
    """The sheet's filled rows, with what is doubtful about them."""
    cells = heard(_trimmed(sheet.content), Cells())
    yield from _merged(source, sheet, cells.merged)
    rows: dict[int, dict[int, Said]] = {}
    for cell in sorted(cells.cells, key=lambda cell: (cell.row, cell.column)):
        where = _where(source, sheet, cell.row, cell.column)
        said = said_of(cell, where, wording)
        if said is None:
            continue
        if cell.column > MOST_COLUMNS:
            yield _far(where)
            return None
        doubt = doubt_of(cell, said, wording)
        yield from [doubt] if doubt else []
        rows.setdefault(cell.row, {})[cell.column] = said
    if len(rows) > MOST_ROWS:
        yield too_many_rows(source.whole)
        return None
    yield from _hidden(source, sheet, cells, rows)
    return Grid(rows=tuple(_row(number, said) for number, said in rows.items()), padded=True)


def _row(number: int, said: dict[int, Said]) -> Row:
    return Row(number=number, cells=tuple(said.get(column) for column in range(1, max(said) + 1)))


def _trimmed(content: bytes) -> bytes:
    """The sheet without its blank cells and rows, of which some programs save a million."""
    for blank in BLANK:
        content = blank.sub(b"", content)
    return content


def _sheet(parts: Parts, links: Links, path: str, listed: SheetName) -> Sheet | None:
    """A listed sheet with its XML; None for a chart or one whose part is missing."""
    content = parts.get(_joined(path, links.targets.get(listed.link, "")))
    name = "".join(letter if letter.isprintable() else "?" for letter in listed.name)
    return None if content is None else Sheet(name, listed.hidden, content)


def _seen(parts: Parts, name: str, listener: Seen) -> Seen:
    """The listener, once it has heard the part; as it was if there is no such part."""
    return heard(parts[name], listener) if name in parts else listener


def _links(parts: Parts, name: str) -> Links:
    return _seen(parts, name.removeprefix("/"), Links())


def _target(links: Links, kind: str, otherwise: str, path: str) -> str:
    """The part that a link of this kind leads to."""
    return _joined(path, links.by_kind[kind]) if kind in links.by_kind else otherwise


def _joined(path: str, target: str) -> str:
    """A link's target as a part's name: from the zip's root, or beside the part it stands in."""
    if target.startswith("/"):
        return target[1:]
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), target))


def _where(source: Source, sheet: Sheet, row: int, column: int) -> Where:
    return Where(file=source.name, cell=f"{sheet.name}!{column_letters(column)}{row}")


def _far(where: Where) -> Problem:
    what = f"a cell far to the right holds something; at most {MOST_COLUMNS} columns are read"
    return Problem(where=where, code="columns-many", what=what, mend="clear it, or bring it nearer")


def _unread(source: Source, read: Sheet, filled: Sequence[Sheet]) -> Iterator[Problem]:
    """Sheets that hold something and are not read."""
    others = [sheet for sheet in filled if sheet is not read]
    if others:
        names = _list([f"{quoted(sheet.name)}{' (hidden)' if sheet.hidden else ''}" for sheet in others])
        what = f"the list is read from the sheet {quoted(read.name)}; not read: {names}"
        mend = "look whether that is the right sheet; put it first, or take the others out"
        yield Problem(where=source.whole, code="other-sheets", what=what, mend=mend, stops=False)


def _hidden(
    source: Source, sheet: Sheet, cells: Cells, rows: dict[int, dict[int, Said]]
) -> Iterator[Problem]:
    """Hidden rows and columns that hold something: they are read all the same."""
    unseen = [number for number in rows if number in cells.hidden_rows]
    if unseen:
        where = _where(source, sheet, unseen[0], 1)
        what = f"hidden rows are read like the others: {_list([str(number) for number in unseen])}"
        yield _doubt(where, "hidden-rows", what, "show the rows and look, or delete them")
    used = sorted({column for said in rows.values() for column in said})
    unseen = [column for column in used if any(low <= column <= high for low, high in cells.hidden_columns)]
    if unseen:
        where = _where(source, sheet, next(iter(rows)), unseen[0])
        names = _list([column_letters(column) for column in unseen])
        yield _doubt(
            where, "hidden-columns", f"hidden columns are read: {names}", "show the columns and look"
        )


def _merged(source: Source, sheet: Sheet, merged: Sequence[str]) -> Iterator[Problem]:
    """Merged cells: only the first of them holds what all of them show."""
    for area in merged[:MOST_NAMED]:
        row, column = place_of(area.partition(":")[0])
        what = f"the cells {area} are merged, so that only the first of them holds anything"
        mend = "part them again, and write the value into each"
        yield Problem(where=_where(source, sheet, row, column), code="merged-cells", what=what, mend=mend)


def _list(names: Sequence[str]) -> str:
    more = [f"{len(names) - MOST_NAMED} more"] if len(names) > MOST_NAMED else []
    return ", ".join([*names[:MOST_NAMED], *more])


def _doubt(where: Where, code: str, what: str, mend: str) -> Problem:
    return Problem(where=where, code=code, what=what, mend=mend, stops=False)
