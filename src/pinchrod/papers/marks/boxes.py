"""The room that words and marks take up on a sheet."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import (
    Arc,
    Circle,
    Line,
    Mark,
    Path,
    PlainMark,
    Sheet,
    Spot,
    Squares,
    Words,
)
from pinchrod.papers.marks.type import words_width

DESCENT = 0.33  # how far a g hangs below its line, and how much higher than a capital an accent stands
HANGING = frozenset("gjpqyQ,;()[]{}|/\\_@çşţąęįų")


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on a sheet."""

    left: float
    bottom: float
    right: float
    top: float

    def grown(self, by: float) -> "Box":
        """The box made larger on every side, or smaller."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def meets(self, other: "Box") -> bool:
        """Whether the boxes share more than an edge."""
        level = self.left < other.right and other.left < self.right
        return level and self.bottom < other.top and other.bottom < self.top

    def holds(self, other: "Box") -> bool:
        """Whether the other box lies wholly inside this one."""
        level = self.left <= other.left and other.right <= self.right
        return level and self.bottom <= other.bottom and other.top <= self.top


def words_start(words: Words, width: float | None = None) -> Spot:
    """Where the baseline of the words begins, whichever part of them stands at their point."""
    if words.anchor == "left":
        return words.at
    width = words_width(words.text, words.size, bold=words.bold) if width is None else width
    back = width / 2 if words.anchor == "middle" else width
    x, y = words.at
    return Spot(x - back, y) if words.turn == 0 else Spot(x, y - back)


def words_box(words: Words) -> Box:
    """The room the words take, with what hangs below their line and accents above it."""
    width = words_width(words.text, words.size, bold=words.bold)
    x, y = words_start(words, width)
    below = words.size * DESCENT if HANGING & set(words.text) else 0.0
    above = words.size * (1 + DESCENT * any(letter > "\x7f" and letter.isupper() for letter in words.text))
    if words.turn == 0:
        return Box(x, y - below, x + width, y + above)
    return Box(x - above, y, x + below, y + width)


def text_boxes(sheet: Sheet) -> tuple[tuple[Words, Box], ...]:
    """All words of a sheet as they are printed, each with the room it takes."""
    words = (mark for mark in plain_marks(sheet.marks) if isinstance(mark, Words) and mark.text)
    return tuple((mark, words_box(mark)) for mark in words)


def mark_box(mark: PlainMark) -> Box:
    """The room a plain mark takes, without the width of its pen."""
    match mark:
        case Words():
            return words_box(mark)
        case Squares():
            wide, high = len(mark.rows[0]) * mark.module, len(mark.rows) * mark.module
            return Box(mark.at.x, mark.at.y, mark.at.x + wide, mark.at.y + high)
        case _:
            return _around(corners(mark))


def corners(mark: Line | Path | Circle | Arc) -> tuple[Spot, ...]:
    """The points a drawn mark goes through; for a curve, one every fifteen degrees or less."""
    match mark:
        case Line():
            return (mark.a, mark.b)
        case Path():
            return mark.points + mark.points[: int(mark.closed)]
        case Circle():
            return tuple(_curve(mark.centre, mark.radius, 0, 360))
        case Arc():
            return tuple(_curve(mark.centre, mark.radius, mark.start, mark.end))


def _curve(centre: Spot, radius: float, start: float, end: float) -> Iterator[Spot]:
    steps = max(1, round((end - start) / 15))
    for step in range(steps + 1):
        angle = radians(start + (end - start) * step / steps)
        yield Spot(centre.x + radius * cos(angle), centre.y + radius * sin(angle))


def _around(spots: Iterable[Spot]) -> Box:
    across, up = zip(*spots, strict=True)
    return Box(min(across), min(up), max(across), max(up))


def extent(marks: Iterable[Mark]) -> Box:
    """The box about all the marks, dimensions and words with them. There must be at least one mark."""
    boxes = [mark_box(mark) for mark in plain_marks(marks)]
    ends = ((Spot(box.left, box.bottom), Spot(box.right, box.top)) for box in boxes)
    return _around(spot for pair in ends for spot in pair)


def sheet_around(marks: Iterable[Mark], *, margin: float = 5.0, title: str = "") -> Sheet:
    """A sheet just large enough for the marks and a margin, the marks moved onto it."""
    marks = tuple(marks)
    box = extent(marks).grown(margin)
    moved = placed(marks, dx=-box.left, dy=-box.bottom)
    return Sheet(width=box.right - box.left, height=box.top - box.bottom, marks=moved, title=title)
