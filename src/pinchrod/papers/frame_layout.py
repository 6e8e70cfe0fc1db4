"""How a frame's page is laid out: its scale, which way the paper lies, and where drawing and facts stand."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.papers.boxes import Box
from pinchrod.papers.frame_dimensions import FIRST, FrameDimensions, dimension_frame
from pinchrod.papers.placing import placed
from pinchrod.papers.room_outside import room_outside
from pinchrod.papers.sheet import Rows
from pinchrod.setting_out import Rod

SCALES = (
    1,
    2,
    5,
    10,
    20,
    50,
    100,
)  # ISO 5455, reductions as far as a frame's longest side asks (from memory)
GAP = 4.0  # mm of paper between the drawing and the facts
SMALLER = 2  # how many times smaller a drawing may be, to have its facts on the same page
SMALLEST = 60.0  # mm of paper that the frame's longer side then still takes
LEAST_FACTS = 40.0  # mm of height below which facts are not begun on a page that cannot hold them all


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A frame's dimensions at one scale, and the room its drawing takes on the paper about its corner."""

    per: int
    dimensions: FrameDimensions
    box: Box

    @property
    def wide(self) -> float:
        """Width of the drawing on the paper."""
        return self.box.right - self.box.left

    @property
    def high(self) -> float:
        """Height of the drawing on the paper."""
        return self.box.top - self.box.bottom


def figure_at(rod: Rod, step: Mm, per: int, *, hinges: bool = True) -> Figure:
    """The drawing's dimensions, hinges among them or not, and its size at that scale."""
    dimensions = dimension_frame(rod, step, per, hinges=hinges)
    wide, high = float(rod.frame.width) / per, float(rod.frame.height) / per
    outside = room_outside(row for row in placed(dimensions.rows, scale=1 / per) if isinstance(row, Rows))
    box = Box(-outside.left, -outside.bottom, wide + outside.right, high + outside.top)
    return Figure(per=per, dimensions=dimensions, box=box)


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One way the paper may lie: what of it may be filled, and what its heading leaves of that."""

    landscape: bool
    whole: Box
    room: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One way to lay a page out, in mm of the page."""

    figure: Figure
    page: Page
    corner: tuple[float, float]  # where the frame's lower left corner stands
    facts: Box
    whole: bool  # the facts have room on the same page

    @property
    def facts_begin_here(self) -> bool:
        """Whether there is room to speak of for facts on the page of the drawing."""
        return self.whole or self.facts.top - self.facts.bottom >= LEAST_FACTS


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What has to go on a page."""

    rod: Rod
    step: Mm
    pages: tuple[Page, ...]
    facts_height: Callable[[float], float]  # at a width
    facts_width: float  # the least
    reads_well: Callable[[Figure], bool]  # whether everything has its mark and its dimension


def lay_out(wanted: Wanted) -> Layout:
    """The layout with the largest scale, or one a little smaller that keeps the facts on the same page.

    The smaller one is taken only if nothing that is written on the drawing is lost by it.
    """
    largest: Layout | None = None
    for per in SCALES:
        if largest and not _may_be_smaller(wanted.rod, largest.figure.per, per):
            break
        for layout in _layouts(wanted, per):
            if layout.whole and (largest is None or wanted.reads_well(layout.figure)):
                return layout
            largest = largest or layout
    if largest is None:
        raise ValueError(f"{wanted.rod.frame.id} has no room on a page at 1:{SCALES[-1]}")
    return largest


def _may_be_smaller(rod: Rod, per: int, smaller: int) -> bool:
    longer = float(max(rod.frame.width, rod.frame.height))
    return smaller <= SMALLER * per and longer / smaller >= SMALLEST


def _layouts(wanted: Wanted, per: int) -> Iterator[Layout]:
    """The layouts that hold the drawing at that scale: facts below it, or beside it.

    Where there is no room for a side of hinge centres they are left to words.
    """
    frame = wanted.rod.frame
    # Most scales are ruled out by the frame's size alone, before its dimensions are laid out.
    sides = float(frame.width) / per + 2 * FIRST, float(frame.height) / per + 2 * FIRST
    if not any(_holds(page.room, *sides) for page in wanted.pages):
        return
    figure = figure_at(wanted.rod, wanted.step, per)
    yield from _with_figure(wanted, figure)
    if figure.dimensions.hinges_said:
        yield from _with_figure(wanted, figure_at(wanted.rod, wanted.step, per, hinges=False))


def _with_figure(wanted: Wanted, figure: Figure) -> Iterator[Layout]:
    for page in wanted.pages:
        if _holds(page.room, figure.wide, figure.high):
            yield _below(wanted, figure, page)
            if page.room.right - page.room.left - figure.wide - GAP >= wanted.facts_width:
                yield _beside(wanted, figure, page)


def _holds(box: Box, wide: float, high: float) -> bool:
    return wide <= box.right - box.left and high <= box.top - box.bottom


def _below(wanted: Wanted, figure: Figure, page: Page) -> Layout:
    """The drawing under the heading, in the middle of the page; the facts under it."""
    room = page.room
    facts = Box(room.left, room.bottom, room.right, room.top - figure.high - GAP)
    return _layout(wanted, figure, page, facts, (room.left + room.right - figure.wide) / 2)


def _beside(wanted: Wanted, figure: Figure, page: Page) -> Layout:
    """The drawing under the heading, at the left; the facts to its right."""
    room = page.room
    facts = Box(room.left + figure.wide + GAP, room.bottom, room.right, room.top)
    return _layout(wanted, figure, page, facts, room.left)


def _layout(wanted: Wanted, figure: Figure, page: Page, facts: Box, left: float) -> Layout:
    return Layout(
        figure=figure,
        page=page,
        corner=(left - figure.box.left, page.room.top - figure.box.top),
        facts=facts,
        whole=wanted.facts_height(facts.right - facts.left) <= facts.top - facts.bottom,
    )
