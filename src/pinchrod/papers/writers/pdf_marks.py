"""Lines and areas as a PDF page's drawing code, in millimetres."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import ceil, cos, radians, sin, tan

from pinchrod.papers.marks.figures import figure
from pinchrod.papers.marks.sheet import Arc, Circle, Fill, Line, Path, Pen, PlainMark, Spot, Squares, Words

_GREYS: dict[Fill, str] = {"white": "1 g", "black": "0 g", "tint": "0.9 g"}


def drawing_code(marks: Iterable[PlainMark]) -> Iterator[str]:
    """Drawing code for marks other than words and none of them filled, the lines of each pen as one path."""
    lines: dict[Pen, list[str]] = {}
    for mark in marks:
        if isinstance(mark, Line):
            lines.setdefault(mark.pen, []).append(_open_path(mark))
        else:
            yield area_code(mark)
    for pen, paths in lines.items():
        yield f"{_pen(pen)} {' '.join(paths)} S"


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
        case _:
            raise TypeError(f"{type(mark).__name__} is not drawn as a path")


def _spot(spot: Spot) -> str:
    return f"{figure(spot.x)} {figure(spot.y)}"


def area_code(mark: PlainMark) -> str:
    """Drawing code for one mark other than words, with the pen and the fill it asks for."""
    if isinstance(mark, Squares):
        return _squares(mark)
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


def _squares(mark: Squares) -> str:
    """The black squares in a measure of one square, those side by side as one bar."""
    module = figure(mark.module)
    bars = [
        f"{start} {len(mark.rows) - 1 - index} {length} 1 re"
        for index, row in enumerate(mark.rows)
        for start, length in black_runs(row)
    ]
    return f"q {module} 0 0 {module} {_spot(mark.at)} cm {' '.join(bars)} f Q"


def black_runs(row: str) -> Iterator[tuple[int, int]]:
    """Where each run of black squares in a row starts, and how many it has."""
    start = 0
    for colour, run in groupby(row):
        length = len(list(run))
        if colour == "1":
            yield start, length
        start += length
