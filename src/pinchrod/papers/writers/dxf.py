"""A drawing as a DXF file at true size: named layers, closed outlines, real dimensions; always the same."""

from collections.abc import Iterable
from io import StringIO
from typing import TYPE_CHECKING

from pinchrod.papers.marks.boxes import Box, extent
from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.placing import lettered
from pinchrod.papers.marks.sheet import (
    NARROW,
    Chain,
    Dimension,
    Pen,
    PlainMark,
    Rows,
    RunningDimension,
    Sheet,
    Words,
)
from pinchrod.papers.marks.stacking import stacked
from pinchrod.papers.writers.dxf_marks import TEXT_STYLE, add_mark, layer_name, pen_looks
from pinchrod.papers.writers.dxf_measures import add_measure

if TYPE_CHECKING:
    from ezdxf.document import Drawing

FORM = "R2010"


def write_dxf(sheet: Sheet, *, lettering: float = 1.0) -> bytes:
    """The sheet's marks as the bytes of a DXF file, in millimetres.

    The drawing is kept at true size; `lettering` makes words, dimensions and dashes so many times larger:
    10 for a drawing to be plotted at one tenth. Filled areas are drawn as outlines.
    """
    marks = lettered(sheet.marks, lettering)
    plain = plain_marks(marks)
    document = _new_document(lettering)
    _add_layers(document, plain)
    space = document.modelspace()
    for mark in marks:
        match mark:
            case Dimension() | Chain() | RunningDimension():
                add_measure(document, mark)
            case Rows():
                for row in stacked(mark):
                    add_measure(document, row)
            case _:
                add_mark(space, mark)
    if plain:
        _look_at(document, extent(plain))
    _name_classes(document)
    text = StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def _new_document(lettering: float) -> "Drawing":
    from ezdxf import units  # late: ezdxf takes half a second to load
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    options.write_fixed_meta_data_for_testing = True  # no clock and no chance in its header
    document = new(FORM, units=units.MM)
    document.header["$LTSCALE"] = lettering
    document.header["$LWDISPLAY"] = 1
    document.styles.new(TEXT_STYLE, dxfattribs={"font": "DejaVuSans.ttf"})
    return document


def _add_layers(document: "Drawing", marks: Iterable[PlainMark]) -> None:
    """A layer for each of the marks', with the pen of the first line drawn on it."""
    pens: dict[str, Pen] = {}
    for mark in marks:
        pen = NARROW if isinstance(mark, Words) else getattr(mark, "pen", None)
        if pen is not None:
            pens.setdefault(layer_name(mark.layer), pen)
    for name, pen in pens.items():
        document.layers.add(name, **pen_looks(document, pen))


def _name_classes(document: "Drawing") -> None:
    """Name the classes in use in a fixed order; left to itself ezdxf takes them as they lie in a set."""
    for name in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(name)


def _look_at(document: "Drawing", box: Box) -> None:
    """Open the drawing with all of it in view."""
    middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    height = 1.05 * max(box.top - box.bottom, box.right - box.left)
    document.set_modelspace_vport(height=height, center=middle)
    low, high = (box.left, box.bottom, 0), (box.right, box.top, 0)
    document.modelspace().reset_extents(low, high)
    document.header["$EXTMIN"], document.header["$EXTMAX"] = low, high
