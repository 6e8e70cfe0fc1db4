"""Rows of dimensions on one side of the wood: how far apart they stand."""

from dataclasses import replace

from pinchrod.papers.marks.chains import JOG, links
from pinchrod.papers.marks.dimensions import BESIDE, LIFT, PAST, RISE, Local
from pinchrod.papers.marks.placing import Page, measure_placed
from pinchrod.papers.marks.sheet import Chain, Measuring, Rows, RunningDimension
from pinchrod.papers.marks.type import words_width

ROW = RISE + 1  # a dimension line and the number above it, in heights of the number
CLEAR = 0.6  # white between two rows, the same


def stacked(rows: Rows) -> tuple[Measuring, ...]:
    """The dimensions one by one, each as far away from the wood as its row stands.

    Where a row's numbers stand in line with their extension lines, those of later rows start beyond them.
    """
    settled: list[Measuring] = []
    side = 1 if rows.first > 0 else -1
    away, edge = rows.first, 0.0
    for mark in rows.dimensions:
        if settled:
            away += side * (beyond(settled[-1]) + before(mark, away) + CLEAR * mark.size)
        settled.append(_from_edge(mark, edge, away))
        if isinstance(mark, RunningDimension):
            edge = away + side * beyond(settled[-1])
    return tuple(settled)


def _from_edge(mark: Measuring, edge: float, away: float) -> Measuring:
    """The dimension standing so far away, its extension lines starting at that edge."""
    moved = measure_placed(mark, Page(1, 0, edge) if mark.axis == "x" else Page(1, edge, 0))
    return replace(moved, away=away - edge)


def before(mark: Measuring, away: float) -> float:
    """How much room the dimension needs between its line and the wood."""
    return ROW * mark.size if Local(mark.axis).away(away) < 0 else PAST * mark.size / 2


def beyond(mark: Measuring) -> float:
    """How much room the dimension takes beyond its line, away from the wood."""
    if isinstance(mark, RunningDimension):
        widest = max(words_width(text, mark.size) for text in (mark.datum_text, *mark.texts))
        return (PAST + JOG + BESIDE / 2) * mark.size + widest
    dimensions = links(mark) if isinstance(mark, Chain) else (mark,)
    if any(each.where == "lifted" for each in dimensions):
        return (LIFT + 1) * mark.size
    above = Local(mark.axis).away(mark.away) > 0
    return (ROW if above else PAST) * mark.size
