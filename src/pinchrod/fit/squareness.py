"""Whether a frame stands square, by its two diagonals, and what it does to the doors' gaps if not.

A frame whose corners give way under a clamp becomes a parallelogram: its sides keep their lengths. With
sides a (level) and b, its diagonals d1 and d2 keep d1² + d2² = 2(a² + b²), and over its height it leans by
(d1² - d2²) / 4a, exactly. Both diagonals are taped on the face, between the outer corners of the stiles.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import isqrt

from pinchrod.ground import Mm, Problem, show
from pinchrod.job import Taping
from pinchrod.setting_out import Front, Rod

DIFFERENCES = tuple(Mm(each) for each in ("0.5", "1", "1.5", "2", "3", "4", "5", "7", "10"))
MILLIONTH = 1_000_000
LIKELY = Mm("0.05")  # no frame on a bench has a diagonal farther from the square one by more; ours
FROM_CORNERS = "on the face, from the outer corner of one stile to the outer corner of the other, end to end"
FEET_FIRST = "; first make the stiles' feet stand as far apart as the top, for nothing ties them there"


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonals:
    """Two diagonals as taped, seen from the face."""

    rising: Mm  # lower left to upper right
    falling: Mm  # upper left to lower right


class Verdict(StrEnum):
    """What to do about a frame."""

    LEAVE = "leave it"
    CANNOT_TELL = "tape it again, or use pinch rods"
    PULL = "pull it square"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper:
    """How much a front's gap narrows from one end to the other.

    A front set level shows it beside it, over its height; one that hangs true to its stile, above and
    below it, over its width. A drawer front is set level; a door hangs as its hinges are let in.
    """

    front: str
    hung: bool
    gap: Mm
    over_height: Mm
    over_width: Mm

    @property
    def most(self) -> Mm:
        """What the front may show: a door the worse of the two."""
        return max(self.over_height, self.over_width) if self.hung else self.over_height

    @property
    def binds(self) -> bool:
        """Whether the gap closes: the front then touches its bead."""
        return self.most > 0 and self.most >= self.gap


@dataclass(frozen=True, slots=True, kw_only=True)
class Squareness:
    """How a frame stands, by its diagonals.

    Over its height it leans by `lean`, to the right if that is above 0, give or take what the tape leaves
    open.
    """

    frame: str
    taped: Diagonals
    lean: Mm
    give_or_take: Mm
    tapers: tuple[Taper, ...]  # of each front
    verdict: Verdict

    @property
    def worst(self) -> Taper | None:
        """The gap that narrows most; None in a frame without doors and drawers."""
        return max(self.tapers, key=lambda taper: taper.most, default=None)

    @property
    def pull(self) -> str:
        """Which way to pull: along the longer diagonal; empty if neither is longer."""
        return pull_of(self.taped)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What one diagonal longer than the other by so much comes to."""

    difference: Mm
    lean: Mm  # over the frame's height
    taper: Mm  # the most that any front's gap narrows


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareTable:
    """What to tape at the bench: the diagonal of the square frame, and what a difference comes to."""

    diagonal: Mm  # to a millionth
    taped_from: str
    rows: tuple[Row, ...]
    pull_from: Mm  # pull from this difference on, so that no gap narrows by more than is let pass


def lean_of(taped: Diagonals, width: Mm) -> Mm:
    """How far the top stands to the right of square over the frame's height; below 0: to the left."""
    return (taped.rising**2 - taped.falling**2) / (4 * width)


def pull_of(taped: Diagonals) -> str:
    """How to clamp a frame that leans: across its longer diagonal."""
    if taped.rising == taped.falling:
        return ""
    longer = "lower left to upper right" if taped.rising > taped.falling else "upper left to lower right"
    return f"clamp across from {longer}"


def taped_from(rod: Rod) -> str:
    """Between which points the diagonals of this frame are taped."""
    return FROM_CORNERS + (FEET_FIRST if rod.frame.foot or not rod.frame.bottom_rail else "")


def check_taped(rod: Rod, taped: Diagonals, taping: Taping) -> Problem | None:
    """Refuse two diagonals that no frame of this size has, however it leans: one is misread.

    The tape may be off by `reading` in each of the diagonals and of the frame's own two sides; what is
    beyond that is a slip. A slip in both at once, one up and one down, can go unseen.
    """
    width, height = rod.frame.width, rod.frame.height
    over = taped.rising**2 + taped.falling**2 - 2 * (width**2 + height**2)
    slack = 2 * taping.reading * (taped.rising + taped.falling + 2 * (width + height))
    if abs(over) <= slack and abs(lean_of(taped, width)) < height:
        return None
    square = root(width**2 + height**2)
    return Problem(
        where=rod.frame.where.called(rod.frame.id),
        code="diagonals-misread",
        what=f"diagonals of {show(taped.rising)} and {show(taped.falling)} do not belong to a frame"
        f" {show(width)} x {show(height)}: standing square it has {show(square)} in both, and what one gains"
        " the other loses",
        mend=_other_reading(taped, square, 2 * square**2),
    )


def _other_reading(taped: Diagonals, square: Mm, squares: Mm) -> str:
    """What the reading farther from the square frame's should be, if the nearer is right.

    Where that would be a frame leaning as none does, both readings are another frame's, or wrong.
    """
    nearer, farther = sorted((taped.rising, taped.falling), key=lambda each: abs(each - square))
    left = squares - nearer**2
    if left <= 0 or abs(root(left) - square) > square * LIKELY:
        return "tape both again, and look whether it is this frame, made to its size"
    return (
        f"tape both again: if {show(nearer)} is right, the other is about {show(root(left))},"
        f" not {show(farther)}; or look whether it is this frame"
    )


def squareness(rod: Rod, taped: Diagonals, taping: Taping) -> Squareness:
    """How a frame stands by diagonals that `check_taped` lets pass.

    It is left if no door's gap narrows by more than is let pass, and pulled if one does; between the two
    the tape may not be fine enough to tell.
    """
    lean = lean_of(taped, rod.frame.width)
    give_or_take = taping.reading * (taped.rising + taped.falling) / (2 * rod.frame.width)
    tapers = tuple(_tapers(rod, abs(lean)))
    return Squareness(
        frame=rod.frame.id,
        taped=taped,
        lean=lean,
        give_or_take=give_or_take,
        tapers=tapers,
        verdict=_verdict(lean, give_or_take, _most(rod, abs(lean)), taping),
    )


def _verdict(lean: Mm, give_or_take: Mm, most: Mm, taping: Taping) -> Verdict:
    if most <= taping.taper:
        return Verdict.LEAVE
    return Verdict.CANNOT_TELL if abs(lean) <= give_or_take else Verdict.PULL


def _tapers(rod: Rod, lean: Mm) -> list[Taper]:
    """What a lean over the frame's height does to each front: as much less as the front is smaller."""
    return [
        Taper(
            front=front.name,
            hung=front.hung is not None,
            gap=front.corner.y - opening.y.low,
            over_height=lean * front.height / rod.frame.height,
            over_width=lean * front.width / rod.frame.height,
        )
        for opening in rod.openings
        for front in opening.fronts
    ]


def _most(rod: Rod, lean: Mm) -> Mm:
    """The most that a gap narrows; in a frame without fronts, what the whole frame leans."""
    return lean * _longest(rod) / rod.frame.height


def _longest(rod: Rod) -> Mm:
    return max((_side_that_shows(front) for front in rod.fronts), default=rod.frame.height)


def _side_that_shows(front: Front) -> Mm:
    return max(front.width, front.height) if front.hung else front.height


def table_for(rod: Rod, taping: Taping) -> SquareTable:
    """What each difference of the diagonals means for this frame, for the paper at its bench."""
    width, height = rod.frame.width, rod.frame.height
    square = root(width**2 + height**2)
    leans = [(each, _lean_by(each, rod)) for each in DIFFERENCES]
    return SquareTable(
        diagonal=square,
        taped_from=taped_from(rod),
        rows=tuple(Row(difference=each, lean=lean, taper=_most(rod, lean)) for each, lean in leans),
        pull_from=_pull_from(rod, taping),
    )


def _lean_by(difference: Mm, rod: Rod) -> Mm:
    """What a frame leans whose diagonals differ by so much: half of it longer, half shorter than their mean.

    The mean m follows from the law: 2m² + difference²/2 = 2(a² + b²).
    """
    mean = root(rod.frame.width**2 + rod.frame.height**2 - difference**2 / 4)
    return mean * difference / (2 * rod.frame.width)


def _pull_from(rod: Rod, taping: Taping) -> Mm:
    """The difference at which the worst gap narrows by what is let pass: that of a frame leaning so much."""
    width = rod.frame.width
    lean = min(taping.taper * rod.frame.height / _longest(rod), rod.frame.height)
    sides = rod.frame.width**2 + rod.frame.height**2
    return root(sides + 2 * width * lean) - root(sides - 2 * width * lean)


def root(square: Mm) -> Mm:
    """The square root to a millionth, rounded down: the same digits on any machine."""
    return Mm(isqrt(int(square * MILLIONTH**2)), MILLIONTH)
