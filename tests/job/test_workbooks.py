"""Workbooks as spreadsheet programs and libraries write them, read alike by ours and by another reader."""

import datetime
from io import BytesIO

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import Source, read_job
from pinchrod.job.said import Number, gathered
from pinchrod.job.tables.number_formats import is_date, other_unit, shown
from pinchrod.job.tables.workbook_xml import unescaped
from pinchrod.job.tables.xlsx_file import read_xlsx
from tests.job.workbooks import HEADER, LINKS, MAIN, ROW, a_sheet, parts_of_a_workbook, zipped

NUMBERS = st.one_of(
    st.integers(-(10**12), 10**12),
    st.decimals(-10000, 10000, places=4, allow_nan=False).map(float),
)
WORDS = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=30
).filter(lambda text: text.strip() == text and not text.startswith("="))
CELLS = st.lists(
    st.lists(st.one_of(st.none(), NUMBERS, WORDS), min_size=1, max_size=5), min_size=1, max_size=5
)


def by_xlsxwriter(rows):
    written = BytesIO()
    with xlsxwriter.Workbook(written, {"in_memory": True, "strings_to_urls": False}) as book:
        sheet = book.add_worksheet("Frames")
        for number, row in enumerate(rows):
            sheet.write_row(number, 0, row)
    return written.getvalue()


def by_openpyxl(rows):
    book, written = openpyxl.Workbook(write_only=True), BytesIO()
    sheet = book.create_sheet("Frames")
    for row in rows:
        sheet.append(row)
    book.save(written)
    return written.getvalue()


def read(content):
    """What our reader finds, by cell."""
    grid, problems = gathered(read_xlsx(Source(name="f.xlsx", content=content)))
    assert problems == () or [problem.code for problem in problems] == ["no-frames"]
    return {
        cell.at.cell.removeprefix("Frames!"): cell.value
        for row in (grid.rows if grid else ())
        for cell in row.cells
        if cell
    }


def read_by_openpyxl(content):
    """What another reader finds, by cell, numbers by their shortest digits."""
    sheet = openpyxl.load_workbook(BytesIO(content))["Frames"]
    cells = {
        cell.coordinate: cell.value for row in sheet.iter_rows() for cell in row if cell.value is not None
    }
    return {at: value if isinstance(value, str) else Number(plain(value)) for at, value in cells.items()}


def plain(value):
    text = f"{value:.10f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)
    return "0" if text == "-0" else text


@given(rows=CELLS)
def test_what_two_libraries_write_is_read_as_a_third_reads_it(rows):
    for write in (by_xlsxwriter, by_openpyxl):
        content = write(rows)

        assert read(content) == read_by_openpyxl(content)


@pytest.mark.parametrize("write", [by_xlsxwriter, by_openpyxl])
def test_a_list_of_frames_is_read_whoever_wrote_it(write):
    rows = [HEADER, ROW, ("K2", 600.1, '28 3/8"', "pair")]

    job, _ = read_job(Source(name="frames.xlsx", content=write(rows)))

    assert [(frame.id, str(frame.width), str(frame.height)) for frame in job.frames] == [
        ("K1", "600", "720"),
        ("K2", "6001/10", "28829/40"),
    ]


def test_days_are_told_as_a_library_counts_them():
    for from_1904 in (False, True):
        written = BytesIO()
        with xlsxwriter.Workbook(written, {"in_memory": True, "date_1904": from_1904}) as book:
            form = book.add_format({"num_format": "d mmm"})
            book.add_worksheet("Frames").write_datetime(0, 0, datetime.datetime(2026, 8, 5), form)  # noqa: DTZ001 -- a day

        assert read(written.getvalue()) == {"A1": datetime.date(2026, 8, 5)}


def test_parts_are_found_by_links_from_the_root_and_with_names_of_any_prefix():
    parts = parts_of_a_workbook(a_sheet(HEADER, ROW))
    sheet = parts.pop("xl/worksheets/sheet1.xml")
    prefixed = sheet.replace("<", "<x:").replace("<x:/", "</x:").replace('xmlns="', 'xmlns:x="')
    links = f'<Relationships xmlns="{LINKS}"><Relationship Id="r1" Type="t/worksheet" Target="/odd/place.xml"/></Relationships>'

    content = zipped({**parts, "odd/place.xml": prefixed, "xl/_rels/workbook.xml.rels": links})

    assert read(content) == {"A1": "id", "B1": "width", "C1": "height", "D1": "layout", "A2": "K1", "B2": Number("600"), "C2": Number("720"), "D2": ROW[3]}  # fmt: skip


def test_cells_without_names_follow_one_another():
    sheet = f'<worksheet xmlns="{MAIN}"><sheetData><row><c/><c><v>5</v></c></row><row><c><v>6</v></c></row></sheetData></worksheet>'

    assert read(zipped(parts_of_a_workbook(sheet))) == {"B1": Number("5"), "A2": Number("6")}


def test_words_in_several_pieces_are_one_without_their_guide_for_reading_aloud():
    strings = (
        '<sst><si><r><t>pa</t></r><r><t xml:space="preserve">ir </t></r><rPh><t>PAIR</t></rPh></si></sst>'
    )
    sheet = f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c></row></sheetData></worksheet>'

    assert read(zipped({**parts_of_a_workbook(sheet), "xl/sharedStrings.xml": strings})) == {"A1": "pair"}


def test_letters_that_xml_cannot_hold_are_given_back():
    assert unescaped("a_x000D_b_x0041_") == "a\rbA"
    assert unescaped("_xD800_ _x12_") == "_xD800_ _x12_"


@pytest.mark.parametrize(
    ("code", "number", "date"),
    [
        ("", 0, False), ("", 14, True), ("", 22, True), ("", 46, True), ("d-mmm", 164, True), ("[h]:mm", 164, True),
        ('0.0" mm"', 164, False), ("[Red]0", 164, False), ("# ?/?", 164, False), (r"0\d", 164, False), ("0;dd", 164, False), ("0_m", 164, False),
    ],
)  # fmt: skip
def test_a_format_is_known_for_a_days(code, number, date):
    assert is_date(code, number) is date


@pytest.mark.parametrize(
    ("code", "number", "unit"),
    [
        ("", 0, ""), ("", 9, "per cent"), ("0.0%", 164, "per cent"), ('0.0" in"', 164, "inches"), (r"0\"", 164, "inches"),
        ('0" inches"', 164, "inches"), ("0.0\"''\"", 164, "inches"), ('0" mm"', 164, ""), ('0" inside"', 164, ""), ("0.00", 164, ""),
    ],
)  # fmt: skip
def test_a_format_that_shows_another_unit_is_known(code, number, unit):
    assert other_unit(code, number) == unit


@pytest.mark.parametrize(
    ("text", "code", "number", "seen"),
    [("17100", "", 0, "17100"), ("17100", "", 11, "1.71E+4"), ("17100", "0.00E+00", 164, "1.71E+4"), ("7", "000", 164, "007"), ("7", "0.00", 164, "7")],
)  # fmt: skip
def test_a_number_that_may_have_been_a_name_is_shown_as_the_sheet_shows_it(text, code, number, seen):
    assert shown(text, code, number) == seen
