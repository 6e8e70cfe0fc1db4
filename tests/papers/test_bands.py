"""Bands down a page: what is kept together, what is repeated, and how words are broken."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.papers import Box, Path, Words, words_width
from pinchrod.papers.pages.bands import (
    HEAD,
    LARGE,
    ROW,
    TICK,
    Column,
    blank,
    boxed,
    broken,
    filled,
    fitting,
    gathered,
    heading,
    narrowed,
    number_column,
    table_head,
    table_row,
)
from tests.papers.page_builders import texts

PAGE = Box(23, 50, 197, 284)
COLUMNS = (number_column("length", 30, LARGE, bold=True), Column("marks", 60, LARGE), Column("", 9))
words = st.text(st.characters(codec="latin-1", categories=("L", "N", "P")), min_size=1, max_size=60)


@settings(deadline=None)
@given(st.lists(words, max_size=8), st.floats(12, 90))
def test_words_are_broken_into_lines_without_losing_a_letter(said, width):
    lines = broken(" ".join(said), 3.5, width)

    assert "".join("".join(lines).split()) == "".join("".join(said).split())
    assert all(words_width(line, 3.5) <= width + 1e-9 for line in lines)


@settings(deadline=None)
@given(st.lists(words, max_size=8), st.floats(15, 90))
def test_marks_are_set_in_lines_without_losing_one(marks, width):
    lines = filled(marks, 5, width)

    assert "".join("".join(lines).split()) == "".join(",".join(marks).split())
    assert all(words_width(line, 5) <= width + 1e-9 for line in lines)


def test_a_mark_is_only_broken_if_it_is_wider_than_the_line():
    assert filled(["K1-LS", "K2-RS ×2", "K10-M12"], 5, 62) == ("K1-LS, K2-RS ×2,", "K10-M12")


def test_a_number_is_set_smaller_and_never_shortened():
    assert fitting("2114.0", 5, 30) == 5
    assert 2.5 < fitting("2114.046875", 5, 30) < 5
    assert fitting("2114.046875" * 4, 5, 30) == 2.5


def test_heads_are_repeated_on_each_page_and_rows_come_once_in_order():
    head = table_head(COLUMNS)
    again = (heading("Rails, continued", 99), head)
    rows = [table_row(COLUMNS, (f"{n}.0", f"K{n}", TICK), again) for n in range(100)]

    pages = gathered((heading("Rails", 99), head, *rows), PAGE, PAGE)

    assert len(pages) > 2
    numbers = [text for page in pages for text in texts(page) if text.endswith(".0")]
    assert numbers == [f"{n}.0" for n in range(100)]
    assert all({"length", "marks"} <= set(texts(page)) for page in pages)
    assert ["Rails, continued" in texts(page) for page in pages] == [False] + [True] * (len(pages) - 1)


@pytest.mark.parametrize("filling", range(180, 235, 2))
def test_a_heading_never_stands_alone_at_the_foot_of_a_page(filling):
    row = table_row(COLUMNS, ("1.0", "K1", TICK))

    pages = gathered(
        (blank(0), row, blank(filling), heading("Rails", 99), table_head(COLUMNS), row), PAGE, PAGE
    )

    assert "Rails" in texts(pages[-1])
    assert texts(pages[-1])[-1] == "K1"


def test_white_neither_begins_a_page_nor_makes_one():
    row = table_row(COLUMNS, ("1.0", "K1", TICK))
    full = int((PAGE.top - PAGE.bottom) / row.height)

    pages = gathered((*[row] * full, blank(50), row, blank(500)), PAGE, PAGE)

    assert len(pages) == 2
    [top] = [mark for mark in pages[1] if isinstance(mark, Words) and mark.text == "K1"]
    assert PAGE.top - top.at.y < ROW


def test_a_row_is_8_mm_or_more_and_grows_with_its_lines():
    one = table_row(COLUMNS, ("1.0", "K1", TICK))
    three = table_row(COLUMNS, ("1.0", "K1,\nK2,\nK3", TICK))

    assert one.height >= 8
    assert three.height == pytest.approx(one.height + 2 * 1.4 * LARGE, abs=0.5)
    assert sum(isinstance(mark, Path) for mark in one.marks) == 1  # the box to tick


def test_a_column_is_narrowed_to_what_is_in_it_and_never_widened():
    length, marks, _ = COLUMNS

    assert narrowed(length, ["720.0"]).width < length.width
    assert narrowed(length, ["720.0"]).room >= words_width("720.0", LARGE, bold=True)
    assert narrowed(length, []).room >= words_width("length", HEAD, bold=True)
    assert narrowed(marks, ["K1-LS, " * 20]) == marks


def test_lines_in_a_box_lie_inside_it():
    band = boxed([("K1, left stile", True), ("a notch leaves little behind it", False)], 120)

    [box] = [mark for mark in band.marks if isinstance(mark, Path)]
    lines = [mark for mark in band.marks if isinstance(mark, Words)]
    assert [line.text for line in lines] == ["K1, left stile", "a notch leaves little behind it"]
    assert all(box.points[2].y < line.at.y < box.points[0].y - line.size for line in lines)
