"""A page: its margins and title block, and the space between them that a paper may fill.

Margins are 20 mm on the filing edge and 10 mm elsewhere (ISO 5457, from memory). The title block has the
eight fields that ISO 7200 asks for, and with them the revision, unit, scale and content mark.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.overlaps import Margins
from pinchrod.papers.marks.sheet import NARROW, WIDE, Line, Mark, Marks, Path, Sheet, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.identity import About

SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # ISO 216 and ANSI/ASME Y14.1 (from memory)
MARGINS = Margins(left=20.0, right=10.0, top=10.0, bottom=10.0)
NOT_TO_SCALE = "not to scale"
CELL = 10.5  # height of a row of the title block
BAR_STRIP = 9.0  # above the title block of a scaled sheet
BAR = 100.0
AIR = 3.0  # between the border and what the page holds
SMALL, PLAIN = 2.5, 3.5  # heights of capitals
INSET = 1.2  # from a cell's side to its words


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """What one page holds, before it is bound with the others; marks in millimetres of the page.

    A page that is `continued` goes on from the one before it: it has no bookmark and no line of its own
    in the contents. A sheet that is `true_scale` is drawn to its scale, and gets a bar to check the print.
    """

    title: str
    document_type: str
    marks: Marks
    level: int = 0  # of the bookmark
    scale: str = NOT_TO_SCALE
    true_scale: bool = False
    landscape: bool = False
    continued: bool = False


@dataclass(frozen=True, slots=True)
class _Bound:
    """What one title block says."""

    about: About
    content: Content
    sheet: str


@dataclass(frozen=True, slots=True)
class _Field:
    """One cell of the title block, and its share of the row's width."""

    caption: str
    share: float
    value: Callable[[_Bound], str]
    bold: bool = False


OWNER = _Field("Owner", 55, lambda it: it.about.owner)
KIND = _Field("Document type", 45, lambda it: it.content.document_type)
TITLE = _Field("Title", 80, lambda it: it.content.title, bold=True)
JOB = _Field("Job", 55, lambda it: it.about.job)
CUSTOMER = _Field("Customer", 45, lambda it: it.about.customer)
NUMBER = _Field("Number", 35, lambda it: it.about.number)
REVISION = _Field("Revision", 17, lambda it: it.about.revision)
SHEET = _Field("Sheet", 28, lambda it: it.sheet, bold=True)
DRAWN_BY = _Field("Drawn by", 33, lambda it: it.about.drawn_by)
APPROVED_BY = _Field("Approved by", 33, lambda it: it.about.approved_by)
DATE = _Field("Date of issue", 32, lambda it: it.about.date)
UNIT = _Field("Unit", 16, lambda it: it.about.unit)
SCALE = _Field("Scale", 30, lambda it: it.content.scale)
MARK = _Field("Content mark", 36, lambda it: it.about.mark)

UPRIGHT_BLOCK = (
    (OWNER, KIND, TITLE),
    (JOB, CUSTOMER, NUMBER, REVISION, SHEET),
    (DRAWN_BY, APPROVED_BY, DATE, UNIT, SCALE, MARK),
)
LEVEL_BLOCK = (
    (OWNER, JOB, CUSTOMER, KIND, TITLE),
    (DRAWN_BY, APPROVED_BY, NUMBER, REVISION, DATE, UNIT, SCALE, MARK, SHEET),
)


def body(size: str, *, landscape: bool = False, true_scale: bool = True) -> Box:
    """The space of a page that a paper may fill: inside the border, above the title block and the bar."""
    border = _border(size, landscape=landscape)
    taken = CELL * len(_block(landscape=landscape)) + (BAR_STRIP if true_scale else 0.0)
    inside = border.grown(-AIR)
    return Box(inside.left, border.bottom + taken + AIR, inside.right, inside.top)


def bind(contents: Sequence[Content], about: About) -> tuple[Sheet, ...]:
    """The pages as sheets, each with its border, its title block and its number among all."""
    return tuple(
        _bound(_Bound(about, content, f"{number} of {len(contents)}"))
        for number, content in enumerate(contents, start=1)
    )


def pages_like(content: Content, pages: Iterable[Marks]) -> tuple[Content, ...]:
    """As many contents like that one as there are pages, all but the first continued."""
    return tuple(replace(content, marks=marks, continued=place > 0) for place, marks in enumerate(pages))


def title_block(content: Content, about: About, sheet: str, room: Box) -> Marks:
    """The title block for a sheet of a size of its own, along the bottom of that room."""
    it = _Bound(about, content, sheet)
    high = CELL * len(_block(landscape=content.landscape))
    outline = _rectangle(Box(room.left, room.bottom, room.right, room.bottom + high))
    return (outline, *_title_block(it, room))


def page_size(size: str, *, landscape: bool = False) -> tuple[float, float]:
    """Width and height of a page."""
    width, height = SIZES[size]
    return (height, width) if landscape else (width, height)


def _bound(it: _Bound) -> Sheet:
    content = it.content
    width, height = page_size(it.about.size, landscape=content.landscape)
    border = _border(it.about.size, landscape=content.landscape)
    marks: list[Mark] = [_rectangle(border)]
    marks.extend(_title_block(it, border))
    if content.true_scale:
        marks.extend(_check_bar(border, CELL * len(_block(landscape=content.landscape))))
    title = "" if content.continued else content.title
    return Sheet(width=width, height=height, marks=(*marks, *content.marks), title=title, level=content.level)


def _border(size: str, *, landscape: bool) -> Box:
    width, height = page_size(size, landscape=landscape)
    return Box(MARGINS.left, MARGINS.bottom, width - MARGINS.right, height - MARGINS.top)


def _block(*, landscape: bool) -> tuple[tuple[_Field, ...], ...]:
    return LEVEL_BLOCK if landscape else UPRIGHT_BLOCK


def _rectangle(box: Box) -> Path:
    corners = (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    return Path(tuple(Spot(x, y) for x, y in corners), pen=WIDE, layer="border")


def _title_block(it: _Bound, border: Box) -> Iterator[Mark]:
    rows = _block(landscape=it.content.landscape)
    top = border.bottom + CELL * len(rows)
    yield Line(Spot(border.left, top), Spot(border.right, top), pen=WIDE, layer="border")
    for place, row in enumerate(rows):
        under = top - CELL * (place + 1)
        if place:
            yield _rule(border.left, under + CELL, border.right, under + CELL)
        yield from _row(it, row, Box(border.left, under, border.right, under + CELL))


def _row(it: _Bound, fields: Iterable[_Field], room: Box) -> Iterator[Mark]:
    fields = tuple(fields)
    shares = [field.share for field in fields]
    unit = (room.right - room.left) / sum(shares)
    lefts = [room.left + unit * before for before in accumulate(shares, initial=0.0)]
    for field, left, right in zip(fields, lefts[:-1], lefts[1:], strict=True):
        if left > room.left:
            yield _rule(left, room.bottom, left, room.top)
        yield from _cell(field, field.value(it), Box(left, room.bottom, right, room.top))


def _cell(field: _Field, value: str, room: Box) -> Iterator[Mark]:
    """The field's name, and under it its value, or a line to write it on."""
    left, right = room.left + INSET, room.right - INSET
    yield Words(Spot(left, room.top - 0.7 - SMALL), field.caption, size=SMALL, layer="title block")
    if not value:
        yield _rule(left, room.bottom + INSET, right, room.bottom + INSET)
        return
    wide = right - left
    fits = words_width(value, PLAIN, bold=field.bold) <= wide
    at, size = Spot(left, room.bottom + 1.8), PLAIN if fits else SMALL
    yield Words(at, value, size=size, bold=field.bold, max_width=wide, layer="title block")


def _check_bar(border: Box, above: float) -> Iterator[Mark]:
    """A bar of known length, for whoever doubts that the print is to scale."""
    left, at = border.left + AIR, border.bottom + above + 2.4
    ends = left, left + BAR
    yield Line(Spot(ends[0], at), Spot(ends[1], at), pen=WIDE, layer="check bar")
    for end in ends:
        yield Line(Spot(end, at - 1.2), Spot(end, at + 1.2), pen=WIDE, layer="check bar")
    middle = Spot(left + BAR / 2, at + 1.6)
    yield Words(middle, "measure me: 100 mm", size=SMALL, anchor="middle", layer="check bar")
    far = Spot(border.right - AIR, at)
    yield Words(far, "do not measure from the drawing", size=SMALL, anchor="right", layer="check bar")


def _rule(x: float, y: float, to_x: float, to_y: float) -> Line:
    return Line(Spot(x, y), Spot(to_x, to_y), pen=NARROW, layer="border")
