"""Dimensions as DXF DIMENSION entities, each with the very picture that the other writers draw."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from pinchrod.papers.marks.boxes import words_box
from pinchrod.papers.marks.chains import links, runs
from pinchrod.papers.marks.dimensions import GAP, PAST, RISE, STROKE, Local, drawn, explode_dimension, printed
from pinchrod.papers.marks.explode import printable
from pinchrod.papers.marks.figures import figure
from pinchrod.papers.marks.sheet import Chain, Dimension, Measuring, PlainMark, RunningDimension, Spot, Words
from pinchrod.papers.marks.type import shown
from pinchrod.papers.writers.dxf_marks import TEXT_STYLE, add_mark, escaped, layer_name

if TYPE_CHECKING:
    from ezdxf.document import Drawing

OWN_PICTURE, OWN_PLACE = 32, 128  # bits of a DIMENSION's type: its block is its own; its text was placed
LINEAR, ORDINATE, ORDINATE_X = 0, 6, 64
MIDDLE_CENTRE = 5

Attributes = dict[str, object]


def add_measure(document: "Drawing", mark: Measuring) -> None:
    """Enter a dimension in the drawing: a chain as one for each gap, a running one as an ordinate a point."""
    match mark:
        case Dimension():
            _add_linear(document, mark)
        case Chain():
            for link in links(mark):
                _add_linear(document, link)
        case RunningDimension():
            _add_ordinates(document, mark)


def _add_linear(document: "Drawing", mark: Dimension) -> None:
    at = drawn(mark)
    place = {
        "dimtype": LINEAR,
        "defpoint": at.local.spot(at.local.u(mark.b), at.line),
        "defpoint2": mark.a,
        "defpoint3": mark.b,
        "angle": 0 if mark.axis == "x" else 90,
    }
    _add(document, mark, printed(mark), explode_dimension(mark), place)


def _add_ordinates(document: "Drawing", mark: RunningDimension) -> None:
    local = Local(mark.axis)
    kind = ORDINATE | (ORDINATE_X if mark.axis == "x" else 0)
    for run in runs(mark):
        end = local.spot(run.stands, local.v(_words(run.marks).at))
        place = {"dimtype": kind, "defpoint": mark.datum, "defpoint2": run.spot, "defpoint3": end}
        _add(document, mark, run.text, run.marks, place)


def _add(
    document: "Drawing", mark: Measuring, text: str, picture: Iterable[PlainMark], place: Attributes
) -> None:
    marks = [printable(part) for part in picture]
    block = document.blocks.new_anonymous_block(type_char="D")
    for part in marks:
        add_mark(block, part)
    box = words_box(_words(marks))
    looks = {
        "layer": layer_name(mark.layer),
        "dimstyle": _style(document, mark.size),
        "geometry": block.name,
        "text": escaped(shown(text)),
        "text_midpoint": Spot((box.left + box.right) / 2, (box.bottom + box.top) / 2),
        "attachment_point": MIDDLE_CENTRE,
    }
    entity = document.modelspace().new_entity("DIMENSION", {**place, **looks})
    entity.dxf.dimtype |= OWN_PICTURE | OWN_PLACE


def _words(marks: Iterable[PlainMark]) -> Words:
    return next(mark for mark in marks if isinstance(mark, Words))


def _style(document: "Drawing", size: float) -> str:
    """The dimension style for numbers of that size, so that a redrawn dimension looks much the same."""
    name = f"SHEET-{figure(size)}"
    if name not in document.dimstyles:
        parts = {"dimtxt": 1, "dimtsz": STROKE, "dimexo": GAP, "dimexe": PAST, "dimgap": RISE}
        sizes = {key: part * size for key, part in parts.items()}
        habits = {"dimtxsty": TEXT_STYLE, "dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimdec": 1, "dimzin": 8}
        document.dimstyles.new(name, dxfattribs={**sizes, **habits})
    return name
