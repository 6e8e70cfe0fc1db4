"""The judge of a sheet: no words on words, none crossed by a line, none off the paper."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pinchrod.papers.marks.boxes import Box, corners, mark_box, words_box
from pinchrod.papers.marks.explode import plain_marks
from pinchrod.papers.marks.sheet import Circle, Path, PlainMark, Sheet, Spot, Squares, Words

TOUCH = 0.1  # mm that two marks may share: less than the narrowest pen
QUIET = 4  # modules of white that a code needs all round it


@dataclass(frozen=True, slots=True)
class Margins:
    """What must stay free along a sheet's edges."""

    left: float = 0.0
    right: float = 0.0
    top: float = 0.0
    bottom: float = 0.0


@dataclass(frozen=True, slots=True)
class _Placed:
    """Words on a sheet: how many marks lie under them, and their room less what may be touched."""

    order: int
    words: Words
    box: Box


def overlaps(sheet: Sheet, margins: Margins = Margins()) -> tuple[str, ...]:
    """What is wrong with how the words of a sheet lie, a sentence each; nothing if all is well."""
    marks = plain_marks(sheet.marks)
    words = [
        _Placed(order, mark, words_box(mark).grown(-TOUCH))
        for order, mark in enumerate(marks)
        if isinstance(mark, Words) and mark.text
    ]
    return (*_off_the_sheet(sheet, words, margins), *_on_each_other(words), *_crossed(marks, words))


def _off_the_sheet(sheet: Sheet, words: Sequence[_Placed], margins: Margins) -> Iterator[str]:
    right, top = sheet.width - margins.right, sheet.height - margins.top
    free = Box(margins.left, margins.bottom, right, top)
    for each in words:
        if not free.holds(each.box):
            yield f"{each.words.text!r} runs off the sheet or into its margin"


def _on_each_other(words: Sequence[_Placed]) -> Iterator[str]:
    from_left = sorted(words, key=lambda each: each.box.left)
    for index, each in enumerate(from_left):
        for other in from_left[index + 1 :]:
            if other.box.left >= each.box.right:
                break
            if each.box.meets(other.box):
                yield f"{each.words.text!r} and {other.words.text!r} lie on each other"


def _crossed(marks: Sequence[PlainMark], words: Sequence[_Placed]) -> Iterator[str]:
    """Words crossed by a line, covered by an area, or too near a code.

    An area that holds the words hides what was drawn before it, and covers the words if it comes later.
    """
    found = ((order, mark, mark_box(mark)) for order, mark in enumerate(marks) if not isinstance(mark, Words))
    placed = [(order, mark, _quiet(mark, box).grown(TOUCH)) for order, mark, box in found]
    for each in words:
        near = [(order, mark) for order, mark, box in placed if each.box.meets(box)]
        ground = max((o for o, mark in near if o < each.order and _hides(mark, each.box)), default=-1)
        for order, mark in near:
            if order > ground and (fault := _fault(order, mark, each)):
                yield f"{each.words.text!r} is {fault} (layer {mark.layer})"


def _quiet(mark: PlainMark, box: Box) -> Box:
    return box.grown(QUIET * mark.module) if isinstance(mark, Squares) else box


def _hides(mark: PlainMark, box: Box) -> bool:
    """Whether the mark is a filled level rectangle or circle round the box: what words are printed on."""
    if isinstance(mark, Circle):
        return mark.fill is not None and mark_box(mark).holds(box)
    if not isinstance(mark, Path) or mark.fill is None:
        return False
    level = all(a.x == b.x or a.y == b.y for a, b in pairwise(corners(mark)))
    return level and len(mark.points) == 4 and mark_box(mark).holds(box)


def _fault(order: int, mark: PlainMark, each: _Placed) -> str:
    if isinstance(mark, Squares):
        return "too near a code"
    if isinstance(mark, Words):
        return ""
    filled = isinstance(mark, Path | Circle) and mark.fill is not None
    if filled and order > each.order and mark_box(mark).meets(each.box):
        return "covered by an area"
    crossed = mark.pen is not None and any(crosses(a, b, each.box) for a, b in pairwise(corners(mark)))
    return "crossed by a line" if crossed else ""


def crosses(a: Spot, b: Spot, box: Box) -> bool:
    """Whether the straight line from a to b runs through the inside of the box."""
    enters, leaves = 0.0, 1.0
    for start, step, low, high in (
        (a.x, b.x - a.x, box.left, box.right),
        (a.y, b.y - a.y, box.bottom, box.top),
    ):
        if step == 0:
            if not low < start < high:
                return False
            continue
        first, last = sorted(((low - start) / step, (high - start) / step))
        enters, leaves = max(enters, first), min(leaves, last)
    return enters < leaves
