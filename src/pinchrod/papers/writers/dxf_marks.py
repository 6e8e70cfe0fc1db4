"""Plain marks as DXF entities."""

from typing import TYPE_CHECKING, TypedDict

from pinchrod.papers.marks.boxes import words_start
from pinchrod.papers.marks.sheet import Arc, Circle, Line, Path, Pen, PlainMark, Squares, Words
from pinchrod.papers.writers.pdf_marks import black_runs

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.base import BaseLayout

TEXT_STYLE = "SHEET"


class Looks(TypedDict):
    """How a layer's lines look, in the words of DXF."""

    linetype: str
    lineweight: int


def layer_name(layer: str) -> str:
    """The name a layer has in a DXF file."""
    return layer.upper()


def pen_looks(document: "Drawing", pen: Pen) -> Looks:
    """The line type and weight of a pen, the type entered in the document's table if it is new there."""
    return Looks(linetype=_linetype(document, pen), lineweight=round(pen.width * 100))


def _linetype(document: "Drawing", pen: Pen) -> str:
    if not pen.dashes:
        return "Continuous"
    kind = "DASHED" if len(pen.dashes) == 2 else "CHAIN"
    name = f"{kind}-{'-'.join(f'{round(length * 1000)}' for length in pen.dashes)}"
    if name not in document.linetypes:
        turns = [length if index % 2 == 0 else -length for index, length in enumerate(pen.dashes)]
        document.linetypes.add(name, [sum(pen.dashes), *turns], description=kind.lower())
    return name


def add_mark(space: "BaseLayout", mark: PlainMark) -> None:
    """Enter a mark in a drawing's space, or in a block."""
    match mark:
        case Words():
            _add_words(space, mark)
        case Squares():
            _add_squares(space, mark)
        case Line():
            space.add_line(mark.a, mark.b, dxfattribs=_own_looks(space, mark.layer, mark.pen))
        case Path():
            looks = _own_looks(space, mark.layer, mark.pen)
            space.add_lwpolyline(mark.points, close=mark.closed, dxfattribs=looks)
        case Circle():
            looks = _own_looks(space, mark.layer, mark.pen)
            space.add_circle(mark.centre, mark.radius, dxfattribs=looks)
        case Arc():
            looks = _own_looks(space, mark.layer, mark.pen)
            space.add_arc(mark.centre, mark.radius, mark.start, mark.end, dxfattribs=looks)


def _own_looks(space: "BaseLayout", layer: str, pen: Pen | None) -> dict[str, object]:
    """The mark's layer, and its pen where that is not the layer's own."""
    name = layer_name(layer)
    if pen is None:
        return {"layer": name}
    ready = space.doc.layers.get(name).dxf
    own = {key: value for key, value in pen_looks(space.doc, pen).items() if ready.get(key) != value}
    return {"layer": name, **own}


def _add_words(space: "BaseLayout", mark: Words) -> None:
    from ezdxf.enums import TextEntityAlignment  # late, as ezdxf itself

    if not mark.text:
        return
    align = {
        "left": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "right": TextEntityAlignment.RIGHT,
    }[mark.anchor]
    looks = {"layer": layer_name(mark.layer), "style": TEXT_STYLE}
    text = space.add_text(escaped(mark.text), height=mark.size, rotation=mark.turn, dxfattribs=looks)
    text.set_placement(mark.at, align=align)
    if mark.anchor != "left":
        text.dxf.insert = (*words_start(mark), 0)


def escaped(text: str) -> str:
    """The text with nothing in it that DXF takes for a code: %%c is a diameter sign, ^J a new line."""
    return text.replace("%%", "%%%%%%").replace("^", "^ ").replace("\\U+", "\\ U+")


def _add_squares(space: "BaseLayout", mark: Squares) -> None:
    for index, row in enumerate(mark.rows):
        low = mark.at.y + (len(mark.rows) - 1 - index) * mark.module
        high = low + mark.module
        for start, length in black_runs(row):
            left = mark.at.x + start * mark.module
            right = left + length * mark.module
            corners = [(left, low), (right, low), (left, high), (right, high)]
            space.add_solid(corners, dxfattribs={"layer": layer_name(mark.layer)})
