"""How a frame's page is laid out: its scale, which way the paper lies, and where drawing and facts stand."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.papers.frames.frame_dimensions import FIRST, FrameDimensions, dimension_frame
from pinchrod.papers.frames.frame_fitting import Lot, Stood, fitted
from pinchrod.papers.frames.room_outside import room_outside
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import Rows
from pinchrod.setting_out import Rod

# ISO 5455, reductions as far as a frame's longest side asks (from memory).
SCALES = (1, 2, 5, 10, 20, 50, 100)
# And the scales between them that it allows where those will not do.
ON_PAPER = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 100)
GAP = 4.0  # mm of paper between the drawing and the facts
SMALLER = 5  # how many times smaller a drawing may be, to have its facts on the same page: two steps
SMALLEST = 45.0  # mm of paper that the frame's longer side then still takes
FEW_MARKS = 2  # so many more marks may go without room for the sake of one page
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
    left: float  # where the drawing's left side is
    facts: tuple[Stood, ...] | None  # None if they have no room on the same page

    @property
    def corner(self) -> tuple[float, float]:
        """Where the frame's lower left corner stands."""
        return self.left - self.figure.box.left, self.page.room.top - self.figure.box.top

    @property
    def below(self) -> Box:
        """What the drawing leaves free beneath it."""
        room = self.page.room
        return Box(room.left, room.bottom, room.right, room.top - self.figure.high - GAP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What has to go on a page."""

    rod: Rod
    step: Mm
    pages: tuple[Page, ...]
    lots: Callable[[Figure], Iterable[tuple[Lot, ...]]]  # the facts, the tidiest way first
    least_area: float  # mm² of paper that the facts take at the very least
    unmarked: Callable[[Figure], int]  # how many marks have no room in a drawing


def lay_out(wanted: Wanted) -> Layout:
    """The largest scale at which everything has room on one sheet, or else the drawing as large as it goes.

    For one sheet the drawing may be a step or two smaller, if no dimension and hardly a mark is lost by it.
    """
    largest: Figure | None = None
    for per in ON_PAPER:
        if largest is None and per not in SCALES:
            continue  # a scale between is only for a drawing that has to be smaller than it could be
        if largest and not _may_be_smaller(wanted.rod, largest.per, per):
            break
        for figure in _figures(wanted, per):
            if largest is None or _as_good(wanted, figure, largest):
                whole = next(_whole(wanted, figure), None)
                if whole:
                    return whole
            largest = largest or figure
    if largest is None:
        raise ValueError(f"{wanted.rod.frame.id} has no room on a page at 1:{SCALES[-1]}")
    return _spilling(wanted, largest)


def _as_good(wanted: Wanted, figure: Figure, largest: Figure) -> bool:
    """Whether a smaller drawing shows all dimensions of the largest, and all but a few of its marks."""
    if len(figure.dimensions.left_out) > len(largest.dimensions.left_out):
        return False
    return wanted.unmarked(figure) <= wanted.unmarked(largest) + FEW_MARKS


def _may_be_smaller(rod: Rod, per: int, smaller: int) -> bool:
    longer = float(max(rod.frame.width, rod.frame.height))
    return smaller <= SMALLER * per and longer / smaller >= SMALLEST


def _figures(wanted: Wanted, per: int) -> Iterator[Figure]:
    """The drawings at that scale that a page has room for: with hinges' centres, or these left to words."""
    frame = wanted.rod.frame
    # Most scales are ruled out by the frame's size alone, before its dimensions are laid out.
    sides = float(frame.width) / per + 2 * FIRST, float(frame.height) / per + 2 * FIRST
    if not any(_holds(page.room, *sides) for page in wanted.pages):
        return
    figure = figure_at(wanted.rod, wanted.step, per)
    figures = [figure]
    if figure.dimensions.hinges_said:
        figures.append(figure_at(wanted.rod, wanted.step, per, hinges=False))
    yield from (each for each in figures if any(_pages_for(wanted, each)))


def _pages_for(wanted: Wanted, figure: Figure) -> Iterator[Page]:
    return (page for page in wanted.pages if _holds(page.room, figure.wide, figure.high))


def _holds(box: Box, wide: float, high: float) -> bool:
    return wide <= box.right - box.left and high <= box.top - box.bottom


def _whole(wanted: Wanted, figure: Figure) -> Iterator[Layout]:
    """The ways to have the drawing and all facts on one sheet."""
    pages = [page for page in _pages_for(wanted, figure) if _free(figure, page) >= wanted.least_area]
    for lots in wanted.lots(figure) if pages else ():
        for page in pages:
            for left, free in _grounds(figure, page):
                facts = fitted(lots, free)
                if facts is not None:
                    yield Layout(figure=figure, page=page, left=left, facts=facts)


def _free(figure: Figure, page: Page) -> float:
    """The area of the page that the drawing leaves."""
    room = page.room
    return (room.right - room.left) * (room.top - room.bottom) - figure.wide * figure.high


def _grounds(figure: Figure, page: Page) -> Iterator[tuple[float, tuple[Box, ...]]]:
    """Where the drawing's left side may be under the heading, and what it then leaves free.

    In the middle, all facts under it; or at the left, facts beside it as well.
    """
    room = page.room
    under, right = room.top - figure.high - GAP, room.left + figure.wide + GAP
    below = Box(room.left, room.bottom, room.right, under)
    yield (room.left + room.right - figure.wide) / 2, (below,)
    beside = Box(right, room.bottom, room.right, room.top)
    yield room.left, (beside, Box(room.left, room.bottom, right - GAP, under))
    yield room.left, (Box(right, under + GAP, room.right, room.top), below)


def _spilling(wanted: Wanted, figure: Figure) -> Layout:
    """The drawing in the middle, the facts under it as far as they go."""
    page = next(_pages_for(wanted, figure))
    left = (page.room.left + page.room.right - figure.wide) / 2
    return Layout(figure=figure, page=page, left=left, facts=None)
