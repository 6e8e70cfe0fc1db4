"""A sheet of marks: what is drawn, decided once, in millimetres of paper or of wood.

Origin at the lower left; x to the right, y up. Marks know nothing of frames, and nothing of PDF, SVG or DXF.
Lengths drawn from the wood (points, radii) follow the scale when marks are `placed` on a page; what
belongs to the paper (sizes of letters, widths of pens, how far off a dimension stands) does not.
"""

import datetime
from dataclasses import KW_ONLY, dataclass
from typing import Literal, NamedTuple

Fill = Literal["white", "black", "tint"]
"""What covers an area; the tint is a light grey that means nothing and may be lost in a copy."""
Anchor = Literal["left", "middle", "right"]
"""Which part of the words stands at their point, in the direction they are read."""
Turn = Literal[0, 90]
"""Read from the bottom of the sheet (0), or from its right (90)."""
Axis = Literal["x", "y"]
"""What a dimension measures: level (x) or upright (y)."""
Where = Literal["fit", "before", "after", "lifted"]
"""Where a dimension's number stands: see Dimension."""


class Spot(NamedTuple):
    """A place on a sheet."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Pen:
    """How wide a line is, and its dashes and gaps in turn (none: unbroken)."""

    width: float
    dashes: tuple[float, ...] = ()


# Line kinds after ISO 128, a 1:2 pair of widths; from memory: dash 12, gap 3, long dash 24, dot 0.5 widths.
WIDE = Pen(0.5)
NARROW = Pen(0.25)
HIDDEN = Pen(0.25, (3.0, 0.75))
CENTRE = Pen(0.25, (6.0, 0.75, 0.125, 0.75))


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    a: Spot
    b: Spot
    _: KW_ONLY
    pen: Pen = NARROW
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Path:
    """Straight lines from point to point, back to the first if closed; the area inside may be filled."""

    points: tuple[Spot, ...]
    _: KW_ONLY
    closed: bool = True
    pen: Pen | None = NARROW
    fill: Fill | None = None
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    centre: Spot
    radius: float
    _: KW_ONLY
    pen: Pen | None = NARROW
    fill: Fill | None = None
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from one angle to the other, in degrees from the x axis."""

    centre: Spot
    radius: float
    start: float
    end: float
    _: KW_ONLY
    pen: Pen = NARROW
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text whose baseline starts, has its middle, or ends at a point.

    `size` is the height of a capital. Words wider than `max_width` are shortened in their middle.
    """

    at: Spot
    text: str
    _: KW_ONLY
    size: float = 3.5
    bold: bool = False
    anchor: Anchor = "left"
    turn: Turn = 0
    max_width: float | None = None
    layer: str = "words"


@dataclass(frozen=True, slots=True)
class Dimension:
    """The distance between two points along an axis, as a dimension line with its number above.

    The line stands `away` from the outermost of the two points: above or to the right (positive), or
    below or to the left; at 0 it stands on the points and needs no extension lines. An auxiliary
    dimension is printed in brackets. `where` says where the number goes: "fit" puts it between the
    ends, or after them if it is too wide; "lifted" puts it a row higher, on a short leader.
    """

    a: Spot
    b: Spot
    text: str
    _: KW_ONLY
    axis: Axis = "x"
    away: float = 10.0
    size: float = 3.5
    auxiliary: bool = False
    where: Where = "fit"
    lift: float = 0.0  # how far a lifted number is moved along the line from the middle
    layer: str = "dimension"


@dataclass(frozen=True, slots=True)
class Chain:
    """Dimensions end to end on one line: a text for each gap between the points, in the points' order.

    A number too wide for its gap is lifted onto a leader, or put outside the chain if the gap is its first
    or last and its `ends` do not say otherwise (where two chains meet at a corner, one must lift them).
    A gap with an empty text is left without a dimension.
    """

    points: tuple[Spot, ...]
    texts: tuple[str, ...]
    _: KW_ONLY
    axis: Axis = "x"
    away: float = 10.0
    size: float = 3.5
    auxiliary: bool = False
    ends: Literal["outside", "lifted"] = "outside"
    layer: str = "dimension"


@dataclass(frozen=True, slots=True)
class RunningDimension:
    """Distances of many points from one datum, each number standing at the end of its extension line.

    A small circle marks the datum. Numbers that would touch are spread, with a jog in their lines.
    The dimension line stands `away` from the outermost of all the points.
    """

    datum: Spot
    points: tuple[Spot, ...]
    texts: tuple[str, ...]
    _: KW_ONLY
    axis: Axis = "x"
    away: float = 10.0
    size: float = 3.5
    datum_text: str = "0"
    layer: str = "dimension"


@dataclass(frozen=True, slots=True)
class Rows:
    """Dimensions in rows on one side of the wood, from the wood outwards, none touching the next.

    The first row stands `first` away from its outermost point: above or to the right, or, if that is
    negative, below or to the left. All must start from points on one edge of the wood; the distances
    they say themselves do not count.
    """

    dimensions: tuple[Dimension | Chain | RunningDimension, ...]
    first: float = 10.0
    _: KW_ONLY
    layer: str = "dimension"


@dataclass(frozen=True, slots=True)
class Squares:
    """A grid of black and white squares, as a QR code is: rows from the top, "1" for black.

    `at` is its lower left corner. The quiet zone round it is the caller's to leave: 4 modules.
    """

    at: Spot
    module: float
    rows: tuple[str, ...]
    _: KW_ONLY
    layer: str = "code"


PlainMark = Line | Path | Circle | Arc | Words | Squares
Measuring = Dimension | Chain | RunningDimension
Mark = PlainMark | Measuring | Rows
Marks = tuple[Mark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One page, or one drawing, of marks; those that come later lie on top.

    A title makes a bookmark in a PDF, `level` deep (0: outermost).
    """

    width: float
    height: float
    marks: Marks
    title: str = ""
    level: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """Sheets that are printed together: one PDF.

    Scale-locked: whoever prints them is asked not to fit them to the paper.
    """

    title: str
    sheets: tuple[Sheet, ...]
    subject: str = ""
    author: str = ""
    keywords: tuple[str, ...] = ()
    date: datetime.date | None = None
    scale_locked: bool = False
