"""A list read from its file, text or workbook, row by row."""

from pinchrod.job.said import Reading, Said, Table
from pinchrod.job.source import LISTS, Form, Source, form_of
from pinchrod.job.tables.csv_file import read_csv
from pinchrod.job.tables.header import Sort
from pinchrod.job.tables.table import read_rows
from pinchrod.job.tables.xlsx_file import read_xlsx

Rows = tuple[tuple[Said, Table], ...]


def read_list(source: Source, sort: Sort) -> Reading[Rows]:
    """The rows of a list, each with the cell it begins at; none if the file is at fault."""
    form = yield from form_of(source, LISTS)
    if form is None:
        return ()
    read = read_xlsx(source) if form is Form.XLSX else read_csv(source, sort.keys)
    grid = yield from read
    return () if grid is None else (yield from read_rows(grid, source.whole, sort))
