"""Lines and areas as a PDF page's drawing code, in millimetres."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import ceil, cos, radians, sin, tan

from pinchrod.papers.figures import figure
from pinchrod.papers.sheet import Arc, Circle, Fill, Line, Path, Pen, PlainMark, Spot, Squares, Words

_GREYS: dict[Fill, str] = {"white": "1 g", "black": "0 g", "tint": "0.9 g"}


def drawing_code(marks: Iterable[PlainMark]) -> Iterator[str]:
    """Drawing code for marks other than words, lines of one pen gathered into one path."""
    for pen, lines in groupby(marks, lambda mark: mark.pen if isinstance(mark, Line) else None):
        if pen is not None:
            yield f"{_pen(pen)} {' '.join(map(_open_path, lines))} S"
        else:
            yield from map(_area, lines)


def _pen(pen: Pen) -> str:
    dashes = " ".join(map(figure, pen.dashes))
    return f"{figure(pen.width)} w [{dashes}] 0 d"


def _open_path(mark: PlainMark) -> str:
    match mark:
        case Line():
            return f"{_spot(mark.a)} m {_spot(mark.b)} l"
        case Path():
            first, *rest = mark.points
            return " ".join([f"{_spot(first)} m", *(f"{_spot(spot)} l" for spot in rest)])
        case Circle():
            return _bends(mark.centre, mark.radius, 0, 360)
        case Arc():
            return _bends(mark.centre, mark.radius, mark.start, mark.end)
        case Squares():
            return " ".join(_bars(mark))
        case Words():
            raise TypeError("words are not drawn as a path")


def _spot(spot: Spot) -> str:
    return f"{figure(spot.x)} {figure(spot.y)}"


def _area(mark: PlainMark) -> str:
    """A mark that may be closed or filled, with the pen and the fill it asks for."""
    if isinstance(mark, Squares):
        return f"0 g {_open_path(mark)} f"
    fill = mark.fill if isinstance(mark, Path | Circle) else None
    pen = None if isinstance(mark, Words) else mark.pen
    closed = isinstance(mark, Circle) or (isinstance(mark, Path) and mark.closed)
    before = [_GREYS[fill]] if fill else []
    before += [_pen(pen)] if pen else []
    return " ".join([*before, _open_path(mark), *(["h"] if closed else []), _painted(pen, fill)])


def _painted(pen: Pen | None, fill: Fill | None) -> str:
    if pen and fill:
        return "B 0 g"
    if fill:
        return "f 0 g"
    return "S" if pen else "n"


def _bends(centre: Spot, radius: float, start: float, end: float) -> str:
    """An arc as Bézier curves, none more than a quarter circle: true to 0.03 % of the radius."""
    count = max(1, ceil((end - start) / 90))
    step = radians(end - start) / count
    pull = 4 / 3 * tan(step / 4)
    code = []
    for index in range(count):
        a = radians(start) + index * step
        code.append(_bend(centre, radius, a, a + step, pull))
    first = Spot(centre.x + radius * cos(radians(start)), centre.y + radius * sin(radians(start)))
    return " ".join([f"{_spot(first)} m", *code])


def _bend(centre: Spot, radius: float, a: float, b: float, pull: float) -> str:
    spots = (
        (cos(a) - pull * sin(a), sin(a) + pull * cos(a)),
        (cos(b) + pull * sin(b), sin(b) - pull * cos(b)),
        (cos(b), sin(b)),
    )
    return " ".join(_spot(Spot(centre.x + radius * x, centre.y + radius * y)) for x, y in spots) + " c"


def _bars(mark: Squares) -> Iterator[str]:
    """The black squares, side by side ones as one bar."""
    for index, row in enumerate(mark.rows):
        y = mark.at.y + (len(mark.rows) - 1 - index) * mark.module
        for start, length in black_runs(row):
            corner = Spot(mark.at.x + start * mark.module, y)
            yield f"{_spot(corner)} {figure(length * mark.module)} {figure(mark.module)} re"


def black_runs(row: str) -> Iterator[tuple[int, int]]:
    """Where each run of black squares in a row starts, and how many it has."""
    start = 0
    for colour, run in groupby(row):
        length = len(list(run))
        if colour == "1":
            yield start, length
        start += length
