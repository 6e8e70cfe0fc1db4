"""Cells of a text list: the same as the standard library finds, and each where it says it is."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import Source
from pinchrod.job.frames import FRAME_KEYS
from pinchrod.job.said import gathered
from pinchrod.job.tables.csv_cells import cells_of
from pinchrod.job.tables.csv_file import read_csv

TEXTS = st.text(alphabet='ab1,;\t"\n x', max_size=60)
SEPARATORS = st.sampled_from(",;\t")


def by_the_library(text, separator):
    rows = csv.reader(StringIO(text, newline=""), delimiter=separator)
    return [row for row in rows if any(cell.strip(f" {separator}") for cell in row)]


def by_us(text, separator):
    rows = [[cell.words for cell in row] for row in cells_of(text, separator)]
    return [row for row in rows if any(cell.strip(f" {separator}") for cell in row)]


@given(text=TEXTS, separator=SEPARATORS)
def test_cells_are_those_that_the_standard_library_finds(text, separator):
    assert by_us(text, separator) == by_the_library(text, separator)


@given(
    cells=st.lists(st.lists(st.text(alphabet='ab,"\n;', max_size=8), min_size=2, max_size=4), min_size=1),
    data=st.data(),
)
def test_a_cell_stands_where_it_is_said_to_stand(cells, data):
    separator = data.draw(SEPARATORS)
    written = StringIO()
    csv.writer(written, delimiter=separator, lineterminator="\n").writerows([*cells, ["end", "end"]])
    lines = written.getvalue().split("\n")

    for row in cells_of(written.getvalue(), separator):
        for cell in row:
            rest = lines[cell.line - 1][cell.column - 1 :]
            assert rest.startswith('"' if cell.quoted else cell.words.split("\n")[0])


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("a,b\nc,d\n", [(1, 1), (1, 3), (2, 1), (2, 3)]),
        ('"a\nb",c\nd', [(1, 1), (2, 4), (3, 1)]),
        ("\n\n,,\na,\n", [(4, 1), (4, 3)]),
        ("a", [(1, 1)]),
        ("", []),
    ],
)
def test_lines_and_columns_are_counted_from_one(text, places):
    assert [(cell.line, cell.column) for row in cells_of(text, ",") for cell in row] == places


def test_an_open_quotation_mark_is_seen():
    [[first, second]] = cells_of('a,"b\nc', ",")

    assert first.closed
    assert not second.closed
    assert second.words == "b\nc"


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("id,width\n1,2", ["id", "width"]),
        ("id;width\n1;2,5", ["id", "width"]),
        ("id\twidth\n1\t2", ["id", "width"]),
        ("\n;;\nid;width", ["id", "width"]),
        ('"id";"left, or right";"width"', ["id", "left, or right", "width"]),
        ("sep=\t\nid\twidth", ["id", "width"]),
        ("SEP=;\nid;width", ["id", "width"]),
        ("a b c", ["a b c"]),
    ],
)
def test_the_separator_is_the_one_that_parts_the_names_of_columns(text, cells):
    grid, problems = gathered(read_csv(Source(name="f.csv", content=text.encode()), FRAME_KEYS))

    assert problems == ()
    assert grid is not None
    assert [cell.value for cell in grid.rows[0].cells if cell] == cells
