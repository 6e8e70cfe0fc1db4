"""One label drawn: its words, its code and its picture, in millimetres of the page."""

from collections.abc import Iterator

from pinchrod.papers.labels.label_code import MASK, QUIET, Code
from pinchrod.papers.labels.label_layout import (
    INSET,
    LEAST,
    QUIET_EDGE,
    TALLEST_PICTURE,
    UNDER_TAILS,
    Layout,
    Said,
    rise,
    row,
)
from pinchrod.papers.marks.boxes import DESCENT, Box
from pinchrod.papers.marks.sheet import Mark, Spot, Squares, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pieces.piece_picture import Made, piece_picture
from pinchrod.papers.writers.qr import qr_rows

BETWEEN = 2.0  # white between words on one line


def label_marks(said: Said, made: Made, layout: Layout, label: Box) -> Iterator[Mark]:
    """The marks of a label that lies in this box of the page."""
    inner = label.grown(-INSET)
    beside = inner.left + layout.beside
    yield from _code(said, layout.code, label)
    size_at = inner.bottom + row(said.job, layout.foot) + layout.air
    yield from _pair(
        Spot(inner.left, inner.bottom + DESCENT * layout.foot),
        inner.right,
        said.job,
        said.revision,
        layout.foot,
    )
    yield Words(Spot(inner.left, size_at), layout.size, size=layout.lettering.size, bold=True)
    y = inner.top
    for line in layout.mark:
        y -= rise(line, layout.lettering.mark)
        yield Words(Spot(inner.left, y), line, size=layout.lettering.mark, bold=True)
        y -= DESCENT * layout.lettering.mark
    y -= UNDER_TAILS + rise(said.role, layout.role)
    yield from _pair(Spot(inner.left, y), beside, said.role, layout.pattern, layout.role)
    low, high = size_at + layout.lettering.size + layout.air, y - DESCENT * layout.role - UNDER_TAILS
    if layout.lettering.picture:
        yield from piece_picture(made, _at_most(Box(inner.left, low, beside, high), TALLEST_PICTURE))


def _code(said: Said, code: Code, label: Box) -> Iterator[Mark]:
    """The code in the upper right corner, and the content mark below it."""
    zone, quiet = label.grown(-QUIET_EDGE), QUIET * code.module
    bottom = zone.top - max(code.side, INSET)
    if code.squares:
        at = Spot(zone.right - code.side + quiet, bottom + quiet)
        yield Squares(at, code.module, qr_rows(said.code, code.correction, mask=MASK))
    under = Spot(label.right - INSET, bottom - LEAST - 0.2)
    yield Words(under, said.content_mark, size=LEAST, anchor="right")


def _pair(at: Spot, right: float, text: str, end: str, size: float) -> Iterator[Mark]:
    """Words from the left, shortened if they must be, and others, never shortened, to the right."""
    width = words_width(end, size)
    room = right - at.x - width - BETWEEN if end else right - at.x
    yield Words(at, text, size=size, max_width=room)
    if end:
        yield Words(Spot(right - width, at.y), end, size=size)


def _at_most(room: Box, height: float) -> Box:
    """The room, or the middle of it if it is higher than that."""
    spare = max(room.top - room.bottom - height, 0.0) / 2
    return Box(room.left, room.bottom + spare, room.right, room.top - spare)
