"""A frame drawn as it is being typed: that one alone is read, set out and checked."""

from dataclasses import dataclass, replace

from markupsafe import Markup

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import Frame, Members, Words, one_frame
from pinchrod.papers import frame_drawing, framed, write_svg
from pinchrod.plan import check
from pinchrod.setting_out import Rods
from pinchrod.web.known import Known
from pinchrod.web.templates import drawing

LEGEND = "legend"  # the layer that says what the others are: for drawings on paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What comes of a frame's words: its drawing if it can be made, and all that is wrong or doubtful."""

    usual: Members
    svg: Markup | None
    problems: tuple[Problem, ...]

    @property
    def stops(self) -> bool:
        """Whether anything has to be mended before it can be saved."""
        return any(problem.stops for problem in self.problems)


def drawn(known: Known, words: Words) -> Drawn:
    """The frame that says these words in that job, drawn."""
    read = one_frame(known.usual, words)
    if read.frame is None:
        return Drawn(usual=known.usual, svg=None, problems=read.problems)
    try:
        rods = alone(known, read.frame)
    except NotYetRight as trouble:
        problems = (*read.problems, *trouble.problems)
        return Drawn(usual=known.usual, svg=None, problems=problems)
    problems = (*read.problems, *rods.doubts)
    return Drawn(usual=known.usual, svg=picture(known, rods), problems=problems)


def alone(known: Known, frame: Frame) -> Rods:
    """The frame set out as the job's only one; NotYetRight if it cannot be."""
    return check(replace(known.job, frames=(frame,), doubts=()), known.shop)


def picture(known: Known, rods: Rods) -> Markup:
    """The first frame's drawing with its dimensions, to be looked at on a screen."""
    sheet = frame_drawing(rods.rods[0], known.job, known.shop)
    marks = tuple(mark for mark in sheet.marks if mark.layer != LEGEND)
    return drawing(write_svg(framed(replace(sheet, marks=marks))))
