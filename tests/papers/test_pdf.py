"""Papers read back from the PDF by other readers."""

from datetime import date
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from pdfminer.high_level import extract_pages
from pdfminer.layout import LAParams, LTChar, LTCurve, LTPage

from pinchrod.papers import (
    LONGEST_SHEET,
    Circle,
    Line,
    Papers,
    Path,
    Sheet,
    Spot,
    Squares,
    Words,
    qr_rows,
    write_pdf,
)
from tests.papers.drawing import POINTS_PER_MM, a_page, a_sheet, some_papers


def read(pdf: bytes) -> list[LTPage]:
    return list(extract_pages(BytesIO(pdf), laparams=LAParams()))


def curves(page: LTPage) -> list[LTCurve]:
    return [mark for mark in page if isinstance(mark, LTCurve)]


def words_of(pdf: bytes, page: int = 0) -> str:
    return str(pypdfium2.PdfDocument(pdf)[page].get_textpage().get_text_bounded())


def letters(node) -> list[LTChar]:
    if isinstance(node, LTChar):
        return [node]
    return [letter for part in (node if hasattr(node, "__iter__") else ()) for letter in letters(part)]


def test_a_line_of_a_metre_measures_a_metre():
    rod = a_sheet(Line(Spot(20, 15), Spot(1020, 15)), width=1040, height=100)

    [line] = curves(read(write_pdf(some_papers(rod)))[0])

    assert (line.x1 - line.x0) / POINTS_PER_MM == pytest.approx(1000, abs=0.001)
    assert line.x0 / POINTS_PER_MM == pytest.approx(20, abs=0.001)


def test_a_sheet_has_its_very_size():
    for wide, high in ((210, 297), (215.9, 279.4), (LONGEST_SHEET, 120)):
        [page] = read(write_pdf(some_papers(a_sheet(width=wide, height=high))))

        assert page.width / POINTS_PER_MM == pytest.approx(wide, abs=0.001)
        assert page.height / POINTS_PER_MM == pytest.approx(high, abs=0.001)


def test_a_sheet_longer_than_a_page_can_be_is_refused():
    with pytest.raises(ValueError, match=r"5000\.1 x 120 mm is too long"):
        write_pdf(some_papers(a_sheet(width=LONGEST_SHEET + 0.1, height=120)))


def test_words_stand_where_they_were_put_in_the_size_they_were_given():
    pdf = write_pdf(some_papers(a_sheet(Words(Spot(40, 90), "H", size=5))))

    [letter] = letters(read(pdf)[0])

    assert letter.matrix[4] / POINTS_PER_MM == pytest.approx(40, abs=0.001)
    assert letter.matrix[5] / POINTS_PER_MM == pytest.approx(90, abs=0.001)
    _, bottom, _, top = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_charbox(0)
    assert (top - bottom) / POINTS_PER_MM == pytest.approx(5, abs=0.02)


def test_every_word_of_a_page_can_be_searched():
    found = words_of(write_pdf(some_papers(a_page())))

    for text in ("Saltmarsh Row, plot 7", "K1.1 pair", "900", "(720)", "391", "474", "turned"):
        assert text in found


def test_words_in_many_letters_come_back_as_they_were():
    many = "".join(chr(code) for code in (*range(0x100, 0x17F), *range(0x391, 0x3A1), *range(0x410, 0x44F)))
    sheet = a_sheet(Words(Spot(10, 10), many, size=0.5), Words(Spot(10, 50), "23⅝ × Ø 40 % étagère"))

    found = words_of(write_pdf(some_papers(sheet)))

    assert many in found
    assert "23⅝ × Ø 40 % étagère" in found


@settings(max_examples=30)
@given(st.text(max_size=40))
def test_no_text_breaks_the_papers(text):
    sheet = a_sheet(Words(Spot(10, 10), text, bold=True, max_width=50), title=text)

    pdf = write_pdf(Papers(title=text, author=text, sheets=(sheet,)))

    assert len(pypdfium2.PdfDocument(pdf)) == 1


def test_only_our_own_fonts_are_in_the_file_and_only_the_letters_used():
    pdf = write_pdf(some_papers(a_page()))

    with pikepdf.open(BytesIO(pdf)) as document:
        fonts = document.pages[0].Resources.Font
        names = {str(each.BaseFont) for each in fonts.values()}
        embedded = ["/FontFile2" in each.FontDescriptor for each in fonts.values()]

    assert names == {"/AAAAAA+DejaVuSans", "/AAAAAA+DejaVuSans-Bold"}
    assert all(embedded)
    assert len(pdf) < 100_000


def test_sheets_with_titles_are_bookmarked_as_deep_as_they_may_be():
    sheets = (
        Sheet(width=100, height=100, marks=(), title="Frames"),
        Sheet(width=100, height=100, marks=(), title="K1", level=3),
        Sheet(width=100, height=100, marks=()),
        Sheet(width=100, height=100, marks=(), title="Lists"),
    )

    found = list(pypdfium2.PdfDocument(write_pdf(some_papers(*sheets))).get_toc())

    told = [(each.level, each.get_title(), each.get_dest().get_index()) for each in found]
    assert told == [(0, "Frames", 0), (1, "K1", 1), (0, "Lists", 3)]


def test_the_file_says_what_it_is_and_when_it_was_issued():
    papers = Papers(
        title="Étagère",
        subject="Shop pack",
        author="the shop",
        keywords=("K1", "K2"),
        date=date(2024, 5, 17),
        sheets=(a_sheet(),),
    )

    with pikepdf.open(BytesIO(write_pdf(papers))) as document:
        told = {key: str(value) for key, value in document.docinfo.items()}

    assert told["/Title"] == "Étagère"
    assert told["/Author"] == "the shop"
    assert told["/Subject"] == "Shop pack"
    assert told["/Keywords"] == "K1, K2"
    assert told["/CreationDate"] == told["/ModDate"] == "D:20240517000000Z"


@pytest.mark.parametrize("locked", [True, False])
def test_scale_locked_papers_ask_not_to_be_fitted(locked):
    pdf = write_pdf(Papers(title="Rods", sheets=(a_sheet(),), scale_locked=locked))

    with pikepdf.open(BytesIO(pdf)) as document:
        scaling = document.Root.ViewerPreferences.get("/PrintScaling")

    assert (str(scaling) == "/None") is locked


def test_what_comes_later_lies_on_top_of_what_is_filled():
    black = Path((Spot(0, 0), Spot(100, 0), Spot(100, 100), Spot(0, 100)), fill="black")
    sheet = a_sheet(
        black,
        Circle(Spot(50, 50), 20, fill="white", pen=None),
        Line(Spot(45, 50), Spot(55, 50)),
        width=100,
        height=100,
    )

    picture = pypdfium2.PdfDocument(write_pdf(some_papers(sheet)))[0].render(scale=3).to_pil().convert("L")

    at = {name: picture.getpixel((x * 3 * POINTS_PER_MM, 150 * POINTS_PER_MM - 1)) for name, x in PLACES}
    assert at["ground"] == 0
    assert at["circle"] == 255
    assert at["line"] < 200


PLACES = (("ground", 10), ("circle", 40), ("line", 50))


def test_a_code_reads_from_a_label_printed_at_203_dots_an_inch():
    dot = 25.4 / 203
    rows = qr_rows("J1000/K17-LS/7F3A")
    label = a_sheet(Squares(Spot(4, 4), 4 * dot, rows), width=50, height=25)

    picture = pypdfium2.PdfDocument(write_pdf(some_papers(label)))[0].render(scale=203 / 72).to_pil()

    [code] = zxingcpp.read_barcodes(picture)
    assert (code.text, code.format) == ("J1000/K17-LS/7F3A", zxingcpp.BarcodeFormat.QRCode)
