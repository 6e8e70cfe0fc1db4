"""Marks taken apart into the plain ones that every writer can draw."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import chain

from pinchrod.papers.marks.chains import links, runs
from pinchrod.papers.marks.dimensions import explode_dimension
from pinchrod.papers.marks.sheet import Chain, Dimension, Mark, PlainMark, Rows, RunningDimension, Words
from pinchrod.papers.marks.stacking import stacked
from pinchrod.papers.marks.type import shorten_middle, shown


def explode(mark: Mark) -> tuple[PlainMark, ...]:
    """The mark as plain marks: dimensions as lines and words, and words as they can be printed."""
    match mark:
        case Words():
            return (printable(mark),)
        case Dimension():
            return tuple(map(printable, explode_dimension(mark)))
        case Chain():
            return tuple(part for link in links(mark) for part in explode(link))
        case Rows():
            return tuple(part for row in stacked(mark) for part in explode(row))
        case RunningDimension():
            return tuple(printable(part) for run in runs(mark) for part in run.marks)
        case _:
            return (mark,)


def plain_marks(marks: Iterable[Mark]) -> tuple[PlainMark, ...]:
    """All the marks as plain ones, in their order."""
    return tuple(chain.from_iterable(map(explode, marks)))


def printable(mark: PlainMark) -> PlainMark:
    """Words with only letters our fonts have, and no wider than they may be; other marks as they are."""
    if not isinstance(mark, Words):
        return mark
    text = shown(mark.text)
    if mark.max_width is None:
        return mark if text == mark.text else replace(mark, text=text)
    text = shorten_middle(text, mark.size, mark.max_width, bold=mark.bold)
    return replace(mark, text=text, max_width=None)
