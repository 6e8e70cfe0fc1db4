"""The dimensions round an elevation: sections as chains, the whole outermost, hinges from the bottom up.

Each distance is given once; one that a second chain repeats stands in brackets. Positions are rounded and
the distances between them taken from that, so that what is printed adds up.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pinchrod.ground import Mm, Span, show
from pinchrod.papers.frames.elevation_words import LEAST, PLAIN, length_between
from pinchrod.papers.frames.hinge_centres import Hung, hung_on
from pinchrod.papers.frames.room_outside import past_the_ends
from pinchrod.papers.frames.sections import Cut, height_cuts, width_cuts
from pinchrod.papers.marks.chains import PITCH
from pinchrod.papers.marks.dimensions import ROOM
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import (
    Axis,
    Chain,
    Dimension,
    Measuring,
    PlainMark,
    Rows,
    RunningDimension,
    Spot,
)
from pinchrod.papers.marks.stacking import ROW
from pinchrod.papers.marks.type import words_width
from pinchrod.setting_out import Opening, Rod, Role

FIRST = 8.0  # mm of paper from the wood to the first dimension line
CORNER = 2.0  # mm between a number beyond a level chain's end and an upright row of dimensions
MOST_BEYOND = 25.0  # mm that numbers lifted off a chain that stands alone may stick out past it
Stretch = tuple[Mm, Mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameDimensions:
    """Rows of dimensions for each side of a frame, and what there was no room to print."""

    rows: tuple[Rows, ...]
    widths_said: frozenset[Span]  # sight widths that stand in a chain
    heights_said: frozenset[Span]
    hinges_said: frozenset[str]  # fronts whose hinge centres are dimensioned
    left_out: tuple[str, ...]  # in words
    step: Mm

    def size_of(self, opening: Opening) -> str:
        """An opening's sight size; in brackets what a chain says already."""
        wide, high = length_between(opening.x, self.step), length_between(opening.y, self.step)
        said = opening.x in self.widths_said, opening.y in self.heights_said
        match said:
            case True, True:
                return f"({wide} × {high})"
            case True, False:
                return f"({wide}) × {high}"
            case False, True:
                return f"{wide} × ({high})"
            case _:
                return f"{wide} × {high}"


def dimension_frame(rod: Rod, step: Mm, per: float, *, hinges: bool = True) -> FrameDimensions:
    """The dimensions of a frame that will be seen with `per` mm of wood to one of paper."""
    level = _arranged(_Side("x", rod, step, per, chosen(width_cuts(rod))))
    upright = _Side("y", rod, step, per, chosen(height_cuts(rod)))
    sides, fronts = _arranged(upright), frozenset[str]()
    if hinges:
        sides, fronts = _with_hinges(upright, sides)
    clear = max(FIRST, _clear_of_corners((*level.near, *level.far), per))
    placed = (
        (-FIRST, level.near),
        (FIRST, level.far),
        (-clear, sides.near),
        (clear + ROW * PLAIN, sides.far),
    )
    return FrameDimensions(
        rows=tuple(Rows(marks, first) for first, marks in placed if marks),
        widths_said=level.said,
        heights_said=sides.said,
        hinges_said=fronts,
        left_out=tuple(
            name for name, side in (("widths", level), ("heights", sides)) if not side.sections_shown
        ),
        step=step,
    )


def chosen(cuts: Sequence[Cut]) -> tuple[Cut, ...]:
    """The one or two cuts that are dimensioned: those that cross a divider, nearest to either side."""
    divided = [cut for cut in cuts if len(cut.spans) > 1] or list(cuts[:1])
    return tuple(dict.fromkeys((divided[0], divided[-1])))


@dataclass(frozen=True, slots=True)
class _Side:
    """The widths of a frame, or its heights, and the cuts that show them."""

    axis: Axis
    rod: Rod
    step: Mm
    per: float
    cuts: tuple[Cut, ...]

    @property
    def total(self) -> Mm:
        """The frame's whole width or height."""
        return self.rod.frame.width if self.axis == "x" else self.rod.frame.height

    @property
    def paper(self) -> float:
        """The same in mm of paper."""
        return float(self.total) / self.per

    def spot(self, at: Mm, *, far: bool) -> Spot:
        """A spot on the frame's lower or left edge; on the upper or right one if far."""
        frame = self.rod.frame
        if self.axis == "x":
            return Spot(float(at), float(frame.height) if far else 0.0)
        return Spot(float(frame.width) if far else 0.0, float(at))

    def overall(self, *, far: bool) -> Dimension:
        """The whole width or height."""
        ends = self.spot(Mm(0), far=far), self.spot(self.total, far=far)
        return Dimension(*ends, show(self.total, self.step), axis=self.axis)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arranged:
    """What stands on the near side (below, or to the left) and on the far side, from the wood outwards."""

    near: tuple[Measuring, ...]
    far: tuple[Measuring, ...]
    said: frozenset[Span]  # by a chain
    sections_shown: bool


def _arranged(side: _Side) -> _Arranged:
    """Chains with the whole outside them; where a chain is too close-set for that, it stands alone."""
    first = _chain(side, side.cuts[0], far=False)
    if first is None:
        return _alone(side)
    said = frozenset(side.cuts[0].spans)
    second = None
    if len(side.cuts) > 1:
        repeated = frozenset(pairwise(side.cuts[0].stops))
        second = _chain(side, side.cuts[1], far=True, repeated=repeated)
    return _Arranged(
        near=(first, side.overall(far=False)),
        far=(second,) if second else (),
        said=said | frozenset(side.cuts[1].spans) if second else said,
        sections_shown=True,
    )


def _alone(side: _Side) -> _Arranged:
    """One section, as a chain that sticks out or as running dimensions, and the whole on the other side."""
    cut = side.cuts[0]
    chain = _chain(side, cut, far=False, beyond=MOST_BEYOND)
    section = chain or _running(side, cut)
    return _Arranged(
        near=(section,) if section else (),
        far=(side.overall(far=True),),
        said=frozenset(cut.spans) if chain else frozenset(),
        sections_shown=section is not None,
    )


def _chain(
    side: _Side, cut: Cut, *, far: bool, beyond: float = 0.0, repeated: frozenset[Stretch] = frozenset()
) -> Chain | None:
    """The section as a chain, if its numbers have room; those said in another chain in brackets."""
    stops = cut.stops
    texts = tuple(_part(gap, repeated, side.step) for gap in pairwise(stops))
    if _lifted(stops, texts, side) > side.paper + beyond:
        return None
    return Chain(tuple(side.spot(at, far=far) for at in stops), texts, axis=side.axis)


def _part(gap: Stretch, repeated: frozenset[Stretch], step: Mm) -> str:
    length = length_between(Span(*gap), step)
    return f"({length})" if gap in repeated else length


def _lifted(stops: Sequence[Mm], texts: Sequence[str], side: _Side) -> float:
    """How long a row the chain's numbers need that have no room in their gaps, nor beyond its ends."""
    gaps = [float(high - low) / side.per for low, high in pairwise(stops)]
    wide = [words_width(text, PLAIN) for text in texts[1:-1]]
    return sum(
        width + PLAIN for gap, width in zip(gaps[1:-1], wide, strict=True) if width + ROOM * PLAIN > gap
    )


def _running(side: _Side, cut: Cut) -> RunningDimension | None:
    """The section as distances from the bottom or the left, in the largest letters there is room for."""
    spots = tuple(side.spot(at, far=False) for at in cut.stops)
    texts = tuple(show(at, side.step) for at in cut.stops[1:])
    for size in (PLAIN, LEAST):
        if len(spots) * PITCH * size <= side.paper:
            return RunningDimension(spots[0], spots[1:], texts, axis=side.axis, size=size)
    return None


def _with_hinges(side: _Side, arranged: _Arranged) -> tuple[_Arranged, frozenset[str]]:
    """Hinge centres on a side of their own, if there is one, and the fronts that hang by them.

    Those of the right stile stand on the right, with them the left stile's if they are the same; where
    only the left one carries hinges, the chain changes sides with them.
    """
    left, right = (hung_on(side.rod, role) for role in (Role.LEFT_STILE, Role.RIGHT_STILE))
    shown = right if right.centres else left
    if arranged.far or not shown.centres or (len(shown.centres) + 1) * PITCH * PLAIN > side.paper:
        return arranged, frozenset()
    # Other rows outside the hinges would draw their extension lines through these numbers.
    if shown is left:
        moved = tuple(_moved(side, mark) for mark in arranged.near)
        return replace(arranged, near=(_hinges(side, left, far=False),), far=moved), left.fronts
    fronts = right.fronts | left.fronts if left.centres == right.centres else right.fronts
    return replace(arranged, far=(_hinges(side, right, far=True),)), fronts


def _moved(side: _Side, mark: Measuring) -> Measuring:
    """A chain or the whole from the left to the right of the frame."""
    wide = float(side.rod.frame.width)
    if isinstance(mark, Chain):
        return replace(mark, points=tuple(Spot(wide, spot.y) for spot in mark.points))
    return side.overall(far=True)


def _hinges(side: _Side, hung: Hung, *, far: bool) -> RunningDimension:
    spots = tuple(side.spot(at, far=far) for at in hung.centres)
    texts = tuple(show(at, side.step) for at in hung.centres)
    return RunningDimension(side.spot(Mm(0), far=far), spots, texts, axis="y", datum_text="hinges 0")


def _clear_of_corners(level: Iterable[Measuring], per: float) -> float:
    """How far out the upright rows begin, so as to clear numbers that stand beyond the ends of level ones."""
    on_paper = (mark for mark in placed(level, scale=1 / per) if not isinstance(mark, PlainMark | Rows))
    return max((beyond + CORNER for mark in on_paper for beyond in past_the_ends(mark)), default=FIRST)
