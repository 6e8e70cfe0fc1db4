"""Papers as one PDF file: real text in our own fonts, exact page sizes; the same bytes every time."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from hashlib import md5
from typing import TYPE_CHECKING

from pinchrod.papers.marks.boxes import words_start
from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.figures import figure
from pinchrod.papers.marks.sheet import Circle, Papers, Path, PlainMark, Sheet, Words
from pinchrod.papers.marks.type import CAPITAL, font, shown
from pinchrod.papers.writers.pdf_marks import area_code, drawing_code

if TYPE_CHECKING:
    from reportlab.pdfbase.pdfdoc import PDFDocument
    from reportlab.pdfgen.canvas import Canvas

LONGEST_SHEET = 5000.0
"""A plain PDF page ends at 14,400 points, 5,080 mm."""
MOST_SHEETS = 500
"""Sheets in one PDF: our own limit, kept by whoever gathers the sheets."""
POINTS_PER_MM = 72 / 25.4
UNDATED = date(2000, 1, 1)


def write_pdf(papers: Papers) -> bytes:
    """The papers as the bytes of a PDF file.

    A sheet longer than LONGEST_SHEET cannot be written; whoever drew it had to cut it up.
    """
    canvas = _new_canvas(papers)
    level = -1
    for number, sheet in enumerate(papers.sheets):
        if max(sheet.width, sheet.height) > LONGEST_SHEET:
            raise ValueError(f"a sheet of {sheet.width} x {sheet.height} mm is too long for a PDF page")
        if sheet.title:
            level = min(sheet.level, level + 1)
            canvas.bookmarkPage(str(number))
            canvas.addOutlineEntry(shown(sheet.title), str(number), level)
        _draw(canvas, sheet)
    return bytes(canvas.getpdfdata())  # type: ignore[no-untyped-call]  # reportlab gives it no types


def _new_canvas(papers: Papers) -> "Canvas":
    # Late: these are slow to load, and a job can be checked without them.
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0  # plain bytes: a fifth smaller, and never as somebody's own settings file says
    for bold in (False, True):
        pdfmetrics.registerFont(font(bold=bold))
    name = font(bold=False).fontName
    canvas = Canvas("", invariant=1, pageCompression=1, initialFontName=name)  # type: ignore[arg-type]  # wrong there
    # It began with the time of day; and its types do not know of it.
    _document(canvas).signature = md5(usedforsecurity=False)  # type: ignore[attr-defined]  # see above
    _describe(canvas, papers)
    return canvas


def _document(canvas: "Canvas") -> "PDFDocument":
    """Reportlab's document behind the canvas: it wants it handed over for its fonts, and hides it."""
    document: PDFDocument = canvas._doc  # type: ignore[attr-defined]  # noqa: SLF001 -- it has no public name
    return document


def _describe(canvas: "Canvas", papers: Papers) -> None:
    day = papers.date or UNDATED
    stamp = f"D:{day:%Y%m%d}000000Z"
    canvas.setDateFormatter(lambda *_: stamp)
    canvas.setTitle(shown(papers.title))
    canvas.setSubject(shown(papers.subject))
    canvas.setAuthor(shown(papers.author))
    canvas.setKeywords(shown(", ".join(papers.keywords)))
    canvas.setCreator("pinchrod")
    canvas.setProducer("pinchrod")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    if papers.scale_locked:
        canvas.setViewerPreference("PrintScaling", "None")
    if any(sheet.title for sheet in papers.sheets):
        canvas.showOutline()


def _draw(canvas: "Canvas", sheet: Sheet) -> None:
    canvas.setPageSize((sheet.width * POINTS_PER_MM, sheet.height * POINTS_PER_MM))
    code = " ".join(_page_code(canvas, plain_marks(sheet.marks)))
    _document(canvas).updateSignature(code)
    canvas.addLiteral(code)
    canvas.showPage()


def _page_code(canvas: "Canvas", marks: Iterable[PlainMark]) -> Iterator[str]:
    yield f"{POINTS_PER_MM:.9f} 0 0 {POINTS_PER_MM:.9f} 0 0 cm 0 G 0 g"
    for mark, following in _by_fills(marks):
        if mark:
            yield area_code(mark)
        yield from drawing_code(each for each in following if not isinstance(each, Words))
        yield _text_code(canvas, [each for each in following if isinstance(each, Words)])


def _by_fills(marks: Iterable[PlainMark]) -> Iterator[tuple[PlainMark | None, list[PlainMark]]]:
    """Each mark that hides others, with those that follow it: black on black, these may go in any order."""
    ground: PlainMark | None = None
    following: list[PlainMark] = []
    for mark in marks:
        if isinstance(mark, Path | Circle) and mark.fill:
            yield ground, following
            ground, following = mark, []
        else:
            following.append(mark)
    yield ground, following


def _text_code(canvas: "Canvas", words: Sequence[Words]) -> str:
    """A text object of all the words, naming the font only where it changes."""
    document = _document(canvas)
    code = ["BT"]
    current: tuple[str, float] | None = None
    for mark in words:
        face = font(bold=mark.bold)
        code.append(_turned(mark))
        for subset, letters in face.splitString(mark.text, document):
            name = face.getSubsetInternalName(subset, document)
            if current != (name, mark.size):
                current = (name, mark.size)
                code.append(f"{name} {figure(mark.size / CAPITAL)} Tf")
            code.append(f"<{letters.hex()}> Tj")
    return " ".join([*code, "ET"])


def _turned(mark: Words) -> str:
    x, y = words_start(mark)
    return f"{'1 0 0 1' if mark.turn == 0 else '0 1 -1 0'} {figure(x)} {figure(y)} Tm"
