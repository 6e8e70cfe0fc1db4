"""A frame's drawing at true size, for drawing programs and machines: named layers and a legend of them."""

from collections.abc import Iterator
from dataclasses import replace

from pinchrod.job import Job, Shop
from pinchrod.papers.frames.elevation import LAYERS, elevation
from pinchrod.papers.frames.elevation_words import LARGE, PLAIN, Scale
from pinchrod.papers.frames.frame_dimensions import dimension_frame
from pinchrod.papers.frames.frame_heading import ORIENTATION, makings
from pinchrod.papers.frames.frame_layout import SCALES
from pinchrod.papers.marks.boxes import extent, sheet_around
from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.placing import lettered, placed
from pinchrod.papers.marks.sheet import Arc, Circle, Line, Mark, Path, Pen, Sheet, Spot, Words
from pinchrod.papers.pages.identity import about
from pinchrod.setting_out import Rod

ON_PAPER = 220.0  # mm that a frame's longer side takes at most on the paper its letters are meant for
SAMPLE = 12.0  # mm of paper, the length of a legend's line
AIR = 40.0  # the longer side of a frame, in margins of its picture
BOLD = 0.4  # of the pens' usual widths, if the picture were printed to lie ON_PAPER


def frame_drawing(rod: Rod, job: Job, shop: Shop) -> Sheet:
    """The frame's elevation with its dimensions and a legend of its layers, a millimetre for a millimetre.

    The frame's lower left corner is the origin, as machines want it; `framed` moves it all onto a sheet.
    Letters are as large as if it were printed at one of the usual scales; pens are as wide as on paper,
    for programs that plot them so whatever the scale.
    """
    per = lettering_scale(rod)
    dimensions = dimension_frame(rod, shop.practice.resolution, per)
    drawn = elevation(rod, job, Scale(per=per, letters_shrink=True), dimensions.size_of)
    marks = lettered((*drawn.marks, *dimensions.rows), per)
    around = extent(marks)
    legend = placed(lettered(_legend(rod, job, shop), per), scale=per, dx=around.left, dy=around.bottom)
    dashed = tuple(_with_pen(mark, dashes=per) for mark in (*marks, *legend))
    title = f"Frame {rod.frame.id}"
    return Sheet(width=float(rod.frame.width), height=float(rod.frame.height), marks=dashed, title=title)


def framed(drawing: Sheet) -> Sheet:
    """The drawing on a sheet that holds all of it, with pens as bold as its letters, to be looked at."""
    margin = max(drawing.width, drawing.height) / AIR
    return with_bold_pens(sheet_around(drawing.marks, margin=margin, title=drawing.title))


def with_bold_pens(drawing: Sheet) -> Sheet:
    """The drawing with pens as bold as its letters, for a picture that is seen smaller than the frame."""
    widths = max(1.0, BOLD * max(drawing.width, drawing.height) / ON_PAPER)
    return replace(
        drawing, marks=tuple(_with_pen(mark, widths=widths) for mark in plain_marks(drawing.marks))
    )


def lettering_scale(rod: Rod) -> int:
    """The scale (one to so many) at which the frame would lie on a usual sheet of paper."""
    longer = float(max(rod.frame.width, rod.frame.height))
    return next((per for per in SCALES if longer / per <= ON_PAPER), SCALES[-1])


def _legend(rod: Rod, job: Job, shop: Shop) -> Iterator[Mark]:
    """What the drawing is of, and what is on each of its layers, from the top down."""
    said, frame = about(job, shop), rod.frame
    scale = lettering_scale(rod)
    lines = (
        (frame.id, LARGE),
        (f"{said.job}, revision {said.revision or 'none'}, content mark {said.mark}", PLAIN),
        (" · ".join(makings(rod, job, shop.practice.resolution)), PLAIN),
        (f"unit {said.unit}, true size; letters for printing at 1:{scale}; {ORIENTATION}", PLAIN),
    )
    down = -4.0
    for text, size in lines:
        down -= 1.6 * size
        yield Words(Spot(0.0, down), text, size=size, bold=size == LARGE, layer="legend")
    yield from _layers(down - PLAIN)


def _layers(down: float) -> Iterator[Mark]:
    for layer in LAYERS:
        down -= 1.8 * PLAIN
        middle = down + PLAIN / 2
        yield Line(Spot(0.0, middle), Spot(SAMPLE, middle), pen=layer.pen, layer="legend")
        beside = Spot(SAMPLE + 3.0, down)
        yield Words(beside, f"{layer.name}: {layer.meaning}", size=PLAIN, layer="legend")


def _with_pen(mark: Mark, *, widths: float = 1.0, dashes: float = 1.0) -> Mark:
    """The mark with a pen so many times wider, its dashes so many times longer."""
    if not isinstance(mark, Line | Path | Circle | Arc) or mark.pen is None:
        return mark
    pen = Pen(mark.pen.width * widths, tuple(dash * dashes for dash in mark.pen.dashes))
    return replace(mark, pen=pen)
