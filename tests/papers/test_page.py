"""Pages: their title block, their check bar, and what a paper says of itself."""

import datetime
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import Issue, content_mark
from pinchrod.job.content_mark import LETTERS
from pinchrod.papers import (
    MARGINS,
    NOT_TO_SCALE,
    Content,
    Line,
    Spot,
    Words,
    about,
    bind,
    body,
    overlaps,
    page_size,
)
from tests.builders import a_job
from tests.papers.page_builders import LONG_NAME, a_shop, texts

EIGHT = ("Owner", "Number", "Date of issue", "Sheet", "Title", "Approved by", "Drawn by", "Document type")
PAGE = Content(title="Frame K1", document_type="Frame drawing", marks=(), scale="1:10", true_scale=True)
SAID = Issue(
    owner="Saltmarsh Joinery",
    number="SR-07",
    revision="B",
    date=datetime.date(2026, 3, 14),
    drawn_by="the setter-out",
    approved_by="the foreman",
)


@given(st.integers(0, 2**256 - 1))
def test_the_content_mark_carries_the_first_forty_bits_of_the_fingerprint(number):
    fingerprint = f"{number:064x}"

    mark = content_mark(fingerprint)

    letters = mark.replace("-", "")
    value = sum(LETTERS.index(letter) << 5 * place for place, letter in enumerate(reversed(letters)))
    assert mark[4] == "-"
    assert len(letters) == 8
    assert value == int(fingerprint, 16) >> 216


def test_content_marks_use_no_letter_that_reads_as_another():
    assert len(LETTERS) == len(set(LETTERS)) == 32
    assert not set("ILOU") & set(LETTERS)


def test_every_sheet_has_the_fields_of_a_title_block_and_what_was_said():
    job = a_job(issue=SAID, fingerprint="f" * 64)

    for landscape in (False, True):
        [sheet] = bind([replace(PAGE, landscape=landscape)], about(job, a_shop()))
        found = texts(sheet.marks)

        assert set(EIGHT) | {"Revision", "Unit", "Scale", "Content mark", "Job", "Customer"} <= set(found)
        assert {"Saltmarsh Joinery", "SR-07", "B", "2026-03-14", "the setter-out", "the foreman"} <= set(
            found
        )
        assert {"Frame K1", "Frame drawing", "1:10", "mm", "ZZZZ-ZZZZ", "1 of 1"} <= set(found)


def test_what_was_not_said_is_left_as_a_line_to_write_on():
    said, unsaid = (about(a_job(issue=issue), a_shop()) for issue in (SAID, Issue()))

    lines = [
        sum(isinstance(mark, Line) for mark in sheet.marks)
        for it in (said, unsaid)
        for sheet in bind([PAGE], it)
    ]

    assert lines[1] - lines[0] == 6  # owner, number, revision, date, drawn by, approved by


def test_sheets_are_counted_through():
    sheets = bind([PAGE] * 12, about(a_job(), a_shop()))

    numbers = [text for sheet in sheets for text in texts(sheet.marks) if text.endswith(" of 12")]
    assert numbers == [f"{number} of 12" for number in range(1, 13)]


def test_a_sheet_to_scale_has_a_bar_of_just_100_mm_to_check_the_print():
    [sheet] = bind([PAGE], about(a_job(), a_shop()))

    [bar] = [
        mark
        for mark in sheet.marks
        if isinstance(mark, Line) and mark.layer == "check bar" and mark.a.y == mark.b.y
    ]
    assert bar.b.x - bar.a.x == pytest.approx(100, abs=1e-9)
    assert {"measure me: 100 mm", "do not measure from the drawing"} <= set(texts(sheet.marks))


def test_a_sheet_not_to_scale_says_so_and_has_no_bar():
    page = replace(PAGE, scale=NOT_TO_SCALE, true_scale=False)

    [sheet] = bind([page], about(a_job(), a_shop()))

    assert not [mark for mark in sheet.marks if mark.layer == "check bar"]
    assert "not to scale" in texts(sheet.marks)


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("landscape", [False, True])
@pytest.mark.parametrize("true_scale", [False, True])
def test_the_title_block_holds_long_names_and_leaves_the_body_free(size, landscape, true_scale):
    job = a_job(name=LONG_NAME, customer="Ö" * 80, issue=Issue(owner="W" * 80, number="X" * 40))
    space = body(size, landscape=landscape, true_scale=true_scale)
    corners = (
        Words(Spot(space.left, space.bottom), "low", size=2.5),
        Words(Spot(space.right, space.top - 2.5), "high", size=2.5, anchor="right"),
    )
    page = replace(PAGE, title=LONG_NAME, marks=corners, landscape=landscape, true_scale=true_scale)

    sheets = bind([page] * 2, about(job, a_shop(size)))

    assert [fault for sheet in sheets for fault in overlaps(sheet, MARGINS)] == []
    assert (sheets[0].width, sheets[0].height) == page_size(size, landscape=landscape)


def test_a_page_that_goes_on_from_another_has_no_bookmark():
    pages = bind([PAGE, replace(PAGE, continued=True)], about(a_job(), a_shop()))

    assert [page.title for page in pages] == ["Frame K1", ""]
