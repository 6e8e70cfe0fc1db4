"""A list of frames or boards as rows with named values, whatever file it came from."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.limits import MOST_COLUMNS
from pinchrod.job.names import meant, nearest
from pinchrod.job.said import Number, Reading, Said, Table
from pinchrod.job.tables.grid import Grid, Row
from pinchrod.job.tables.header import Sort, told_of_unit, with_unit

TOTALS = re.compile(r"(grand |sub)?-?(total|sum|count)s?\b.*", re.IGNORECASE)
INCHES = re.compile(r"""["″”'′]|\b(in|ins|inch|inches|ft|feet|foot)\b""", re.IGNORECASE)
BARE = re.compile(r"[0-9]+([.,][0-9]+)?")
MOST_NAMED = 5  # cells that one doubt names


@dataclass(frozen=True, slots=True)
class Column:
    """A column that is read: where it stands, from 0, and what its header means."""

    at: int
    key: str
    header: Said
    told: bool = False  # of a fault that says all there is to say of its cells


def read_rows(grid: Grid, whole: Where, sort: Sort) -> Reading[tuple[tuple[Said, Table], ...]]:
    """Each row as a table, with the cell it begins at; none if no header is understood."""
    if not grid.rows:
        yield _no_rows(whole, sort, "the list is blank")
        return ()
    header, rows = grid.rows[0], grid.rows[1:]
    columns = yield from _columns(header, rows, sort)
    if not columns:
        return ()
    if not rows:
        yield _no_rows(header.first.at, sort, "the list has a header and no row below it")
    read = []
    for row in rows:
        problems = tuple(_check_row(row, header, columns, sort, padded=grid.padded))
        yield from problems
        if not any(problem.stops for problem in problems):
            read.append((row.first, _as_table(row, columns, sort)))
    yield from _mixed_units(columns, rows, sort)
    return tuple(read)


def _columns(header: Row, rows: Sequence[Row], sort: Sort) -> Reading[tuple[Column, ...]]:
    """The columns that are read; none if the header is no header, or too wide."""
    if header.width > MOST_COLUMNS:
        what = f"the list has {header.width} columns; at most {MOST_COLUMNS} are read"
        mend = f"take out the columns that say nothing of {sort.one}s"
        yield _problem(header.first, "columns-many", what, mend)
        return ()
    if not any(sort.key(cell) for cell in header.cells):
        yield _no_header(header, rows, sort)
        return ()
    yield from _check_names(header, sort)
    columns = tuple(_named_columns(header, sort))
    yield from _check_twice(columns)
    for key in _without(columns, sort):
        what = f"the list has no column named {key}"
        yield _problem(header.first, "column-missing", what, f"add one, or name it {key} in the header")
    return columns


def _without(columns: Sequence[Column], sort: Sort) -> tuple[str, ...]:
    """The names that are needed and the list has no column for."""
    return tuple(key for key in sort.needed if key not in {column.key for column in columns})


def _named_columns(header: Row, sort: Sort) -> Iterator[Column]:
    """Every column whose name is read, be it with a unit that does not belong there."""
    for at, cell in enumerate(header.cells):
        key, unit = sort.key(cell), with_unit(cell, sort)
        if cell is not None and key is not None:
            yield Column(at, key, cell)
        elif cell is not None and unit is not None:
            yield Column(at, unit.key, cell, told=unit.mark != "mm")


def _no_header(header: Row, rows: Sequence[Row], sort: Sort) -> Problem:
    """What is said when the first row names no column; a later row may be the header."""
    found = next((row for row in rows[:20] if _names_columns(row, sort)), None)
    names = ", ".join(sort.needed)
    if found is None:
        shown = ", ".join(cell.typed for cell in header.cells if cell)
        what = f"the first row names none of the columns that are read; it says {quoted(shown)}"
        return _problem(header.first, "no-header", what, f"put a row on top with the names {names}")
    what = f"the first row says {quoted(header.first.typed)}; the columns' names come in row {found.number}"
    return _problem(header.first, "header-late", what, f"delete what stands above row {found.number}")


def _names_columns(row: Row, sort: Sort) -> bool:
    return sum(sort.key(cell) is not None for cell in row.cells) > 1


def _check_names(header: Row, sort: Sort) -> Iterator[Problem]:
    """Names that nobody reads, told with the one that may be meant."""
    for cell in header.cells:
        if cell is None or sort.key(cell):
            continue
        unit = with_unit(cell, sort)
        if unit is not None:
            yield told_of_unit(cell, unit)
        else:
            name = str(cell.value)
            otherwise = f"take the column out; known here: {', '.join(sort.keys)}"
            mend = meant(name, sort.keys, otherwise)
            if nearest(name, sort.keys):
                mend += ", or take the column out"
            yield _problem(cell, "unknown-column", f"a column named {quoted(name)} is not read", mend)


def _check_twice(columns: Sequence[Column]) -> Iterator[Problem]:
    for at, column in enumerate(columns):
        first = next(other for other in columns if other.key == column.key)
        if first is not columns[at]:
            what = f"a column named {column.key} stands already at {first.header.at}"
            yield _problem(column.header, "column-twice", what, "keep one of the two")


def _check_row(
    row: Row, header: Row, columns: Sequence[Column], sort: Sort, *, padded: bool
) -> Iterator[Problem]:
    """What keeps a row from being a frame's or a board's."""
    if _names_columns(row, sort):
        what = "a second header stands here: two lists on one sheet"
        yield _problem(row.first, "second-header", what, f"put the {sort.one}s of both under one header")
    elif TOTALS.fullmatch(str(row.first.value)) or _sums_only(row, columns, sort):
        what = f"this row holds a total, not a {sort.one}: {quoted(row.first.typed)}"
        yield _problem(row.first, "total-row", what, "take the row out of the list")
    elif len(row.cells) < header.width and not padded:
        what = f"this row has {_cells(len(row.cells))}, the header has {header.width}"
        yield _problem(row.first, "row-short", what, "put in the separators that are missing")
    else:
        yield from _unnamed(row, header)


def _unnamed(row: Row, header: Row) -> Iterator[Problem]:
    """The first value that stands in no column with a name."""
    for at, cell in enumerate(row.cells):
        if cell is not None and at >= header.width:
            what = f"{quoted(cell.typed)} stands beyond the header, which has {_cells(header.width)}"
            mend = (
                "take it out; a cell that holds the separator itself, such as a decimal comma, goes in quotes"
            )
            yield _problem(cell, "row-long", what, mend)
            return
        if cell is not None and header.cell(at) is None:
            what = f"{quoted(cell.typed)} stands in a column without a name"
            yield _problem(cell, "column-nameless", what, "name the column in the header, or clear it")
            return


def _sums_only(row: Row, columns: Sequence[Column], sort: Sort) -> bool:
    """Whether a row has none of its words (no id, no layout), but a number: a sum below its column."""
    at = {column.key: column.at for column in columns}
    bare = all(row.cell(at[key]) is None for key in sort.words if key in at)
    named = any(key in at for key in sort.words)
    filled = bool(sort.filled) and all(row.cell(at[key]) is not None for key in sort.filled if key in at)
    return (
        bare
        and named
        and not filled
        and any(cell is not None and _more_than_nothing(_digits(cell)) for cell in row.cells)
    )


def _more_than_nothing(digits: str) -> bool:
    """Whether it is a bare number, and not 0."""
    return BARE.fullmatch(digits) is not None and bool(digits.strip("0.,"))


def _digits(cell: Said) -> str:
    return cell.value.text if isinstance(cell.value, Number) else str(cell.value)


def _as_table(row: Row, columns: Sequence[Column], sort: Sort) -> Table:
    """The row's values by their names."""
    found: dict[str, Said] = {}
    for column in columns:
        cell = row.cell(column.at)
        if cell is not None and not column.told:
            found.setdefault(column.key, _as_shown(cell) if column.key in sort.words else cell)
    told = {column.key for column in columns if column.told}
    return Table(found, frozenset({*_without(columns, sort), *told}))


def _as_shown(cell: Said) -> Said:
    """A cell of words: a number in it counts as the sheet shows it."""
    return replace(cell, value=cell.typed) if isinstance(cell.value, Number) else cell


def _mixed_units(columns: Sequence[Column], rows: Sequence[Row], sort: Sort) -> Iterator[Problem]:
    """A column of lengths in which some cells say inches and others say nothing."""
    for column in columns:
        cells = [cell for row in rows if (cell := row.cell(column.at)) is not None]
        inches = [cell for cell in cells if isinstance(cell.value, str) and INCHES.search(cell.value)]
        bare = [cell for cell in cells if BARE.fullmatch(_digits(cell))]
        if column.key in sort.lengths and inches and bare and not column.told:
            what = f"{column.key} is in inches in {_named(inches)} and has no unit in {_named(bare)}"
            mend = "what has no unit was read as mm: look whether that is right, or write each with its unit"
            yield _problem(column.header, "mixed-units", what, mend, stops=False)


def _named(cells: Sequence[Said]) -> str:
    """The cells by their values and places; the first few if they are many."""
    shown = [
        f"{quoted(cell.typed)} ({cell.at.cell or f'line {cell.at.line}'})" for cell in cells[:MOST_NAMED]
    ]
    more = [f"{len(cells) - MOST_NAMED} more"] if len(cells) > MOST_NAMED else []
    return ", ".join(shown + more)


def _cells(count: int) -> str:
    return f"{count} cell" if count == 1 else f"{count} cells"


def _no_rows(where: Where, sort: Sort, what: str) -> Problem:
    return Problem(where=where, code=sort.code, what=what, mend=f"give each {sort.one} a row")


def _problem(cell: Said, code: str, what: str, mend: str, *, stops: bool = True) -> Problem:
    return Problem(where=cell.at, code=code, what=what, mend=mend, stops=stops)
