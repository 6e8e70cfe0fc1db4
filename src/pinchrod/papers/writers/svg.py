"""A sheet as an SVG drawing: a millimetre of it is a millimetre of the picture, and text stays text."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import cos, radians, sin
from xml.sax.saxutils import escape, quoteattr

from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.figures import figure
from pinchrod.papers.marks.sheet import (
    Arc,
    Circle,
    Fill,
    Line,
    Path,
    Pen,
    PlainMark,
    Sheet,
    Spot,
    Squares,
    Words,
)
from pinchrod.papers.marks.type import CAPITAL, shown, words_width
from pinchrod.papers.writers.pdf_marks import black_runs

_FONTS = "'DejaVu Sans', Verdana, sans-serif"  # Verdana is as wide
_COLOURS: dict[Fill, str] = {"white": "#fff", "black": "#000", "tint": "#e6e6e6"}
_ANCHORS = {"left": "start", "middle": "middle", "right": "end"}


def write_svg(sheet: Sheet) -> str:
    """The sheet as the text of an SVG file, a group for each layer in the order the layers first appear.

    Group names start with the sheet's title, so that several drawings can stand in one page.
    """
    layers: dict[str, list[PlainMark]] = {}
    for mark in plain_marks(sheet.marks):
        layers.setdefault(mark.layer, []).append(mark)
    title = shown(sheet.title)
    groups = (_group(title, layer, marks, sheet.height) for layer, marks in layers.items())
    return "\n".join([_head(sheet, title), *groups, "</svg>", ""])


def _head(sheet: Sheet, title: str) -> str:
    wide, high = figure(sheet.width), figure(sheet.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm"'
        f' viewBox="0 0 {wide} {high}" role="img" aria-label={quoteattr(title)} xml:space="preserve">\n'
        f'<title>{escape(title)}</title>\n<rect width="{wide}" height="{high}" fill="#fff"/>'
    )


def _group(title: str, layer: str, marks: Iterable[PlainMark], height: float) -> str:
    name = f"{title} {layer}".strip().replace(" ", "-")
    parts = [
        element
        for pen, run in groupby(marks, lambda mark: mark.pen if isinstance(mark, Line) else None)
        for element in ([_lines(pen, run, height)] if pen else (_element(mark, height) for mark in run))
    ]
    head = (
        f'<g class={quoteattr(layer)} id={quoteattr(name)} fill="none" stroke="#000" font-family="{_FONTS}">'
    )
    return "\n".join([head, *parts, "</g>"])


def _lines(pen: Pen, lines: Iterable[PlainMark], height: float) -> str:
    ways = "".join(_way(mark, height) for mark in lines)
    return f'<path d="{ways}"{_pen(pen)}/>'


def _element(mark: PlainMark, height: float) -> str:
    match mark:
        case Words():
            return _text(mark, height)
        case Circle():
            x, y = _spot(mark.centre, height)
            return f'<circle cx="{x}" cy="{y}" r="{figure(mark.radius)}"{_pen(mark.pen)}{_fill(mark.fill)}/>'
        case Squares():
            return f'<path d="{"".join(_bars(mark, height))}" fill="#000" stroke="none"/>'
        case Path():
            return f'<path d="{_way(mark, height)}"{_pen(mark.pen)}{_fill(mark.fill)}/>'
        case _:
            return f'<path d="{_way(mark, height)}"{_pen(mark.pen)}/>'


def _way(mark: PlainMark, height: float) -> str:
    """The points of a line, path or arc in SVG's words."""
    match mark:
        case Line():
            return f"M{_pair(mark.a, height)}L{_pair(mark.b, height)}"
        case Path():
            return "M" + "L".join(_pair(spot, height) for spot in mark.points) + "Z" * mark.closed
        case Arc():
            large = int(mark.end - mark.start > 180)
            a, b = (_on_circle(mark, angle) for angle in (mark.start, mark.end))
            radius = figure(mark.radius)
            return f"M{_pair(a, height)}A{radius} {radius} 0 {large} 0 {_pair(b, height)}"
        case _:
            raise TypeError(f"{type(mark).__name__} is not drawn from point to point")


def _on_circle(arc: Arc, angle: float) -> Spot:
    x, y = cos(radians(angle)), sin(radians(angle))
    return Spot(arc.centre.x + arc.radius * x, arc.centre.y + arc.radius * y)


def _spot(spot: Spot, height: float) -> tuple[str, str]:
    return figure(spot.x), figure(height - spot.y)


def _pair(spot: Spot, height: float) -> str:
    return " ".join(_spot(spot, height))


def _pen(pen: Pen | None) -> str:
    if pen is None:
        return ' stroke="none"'
    dashes = " ".join(map(figure, pen.dashes))
    return f' stroke-width="{figure(pen.width)}"' + (f' stroke-dasharray="{dashes}"' if dashes else "")


def _fill(fill: Fill | None) -> str:
    return f' fill="{_COLOURS[fill]}"' if fill else ""


def _text(mark: Words, height: float) -> str:
    """Real text, held to the width our own font would give it if the reader has only another."""
    x, y = _spot(mark.at, height)
    turned = f' transform="rotate(-90 {x} {y})"' if mark.turn else ""
    width = words_width(mark.text, mark.size, bold=mark.bold)
    looks = [
        f'font-size="{figure(mark.size / CAPITAL)}"',
        *(['font-weight="bold"'] if mark.bold else []),
        *([f'text-anchor="{_ANCHORS[mark.anchor]}"'] if mark.anchor != "left" else []),
        *([f'textLength="{figure(width)}" lengthAdjust="spacingAndGlyphs"'] if width else []),
    ]
    place = f'x="{x}" y="{y}"{turned} fill="#000" stroke="none"'
    return " ".join(["<text", place, *looks]) + f">{escape(mark.text)}</text>"


def _bars(mark: Squares, height: float) -> Iterator[str]:
    for index, row in enumerate(mark.rows):
        y = mark.at.y + (len(mark.rows) - index) * mark.module
        for start, length in black_runs(row):
            corner = _pair(Spot(mark.at.x + start * mark.module, y), height)
            wide, high = figure(length * mark.module), figure(mark.module)
            yield f"M{corner}h{wide}v{high}h-{wide}z"
