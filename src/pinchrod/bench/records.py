"""What the bench is told: spares to make, and how each frame is glued up."""

from dataclasses import dataclass
from enum import StrEnum

from pinchrod.fit import SquareTable
from pinchrod.ground import Mm, Problem
from pinchrod.job import Joint


@dataclass(frozen=True, slots=True, kw_only=True)
class Spares:
    """How many pieces of one kind are needed, and how many spare ones are made while the stop is set."""

    pattern: str
    like: tuple[str, ...]  # the marks of the pieces
    needed: int
    spare: int
    sure: Mm  # the chance that enough are good
    asked: Mm  # the chance asked for
    why: str


class Direction(StrEnum):
    """Which way a part slides as it goes on, seen from the face."""

    LEFT = "to the left"
    RIGHT = "to the right"
    UP = "up"
    DOWN = "down"

    @property
    def level(self) -> bool:
        """Whether it is to the left or to the right."""
        return self in (Direction.LEFT, Direction.RIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueJoint:
    """One joint: the member that arrives, the one that takes it, what draws them together."""

    arriving: str
    receiver: str
    fixings: int  # keys, dowels, loose tenons or screws; a tenon worked on the member counts as one
    level: bool  # closes from left or right
    area: Mm  # mm² that are pressed together: the end that bears


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """What is taken in hand: a member, a sub-assembly, or the frame as far as it has grown."""

    name: str  # a member's mark, the sub-assembly's letter, or the frame's id
    members: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStep:
    """One part brought to another along a straight line, and the joints that this closes."""

    onto: Lot
    part: Lot
    way: Direction  # the part slides this way as it goes on
    joints: tuple[GlueJoint, ...]
    makes: Lot


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp:
    """One line of clamping: across the frame at a height, or up it at a place from the left."""

    level: bool
    at: Mm  # of its middle: from the frame's lower edge if level, else from its left
    start: Mm  # of its first jaw: from the frame's left if level, else from its lower edge
    opens: Mm  # between its jaws
    newtons: tuple[Mm, Mm]  # at least and at most, for the largest joint on the line


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """Times to keep: the glue's label decides."""

    open_minutes: Mm
    clamped_minutes: Mm
    cured_hours: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Gluing:
    """All that is needed to glue up one frame; `quantity` frames are alike."""

    frame: str
    quantity: int
    steps: tuple[GlueStep, ...]  # none: there is no order
    joint: Joint
    fixings: int  # of the whole frame
    clamps: tuple[Clamp, ...]  # none: the joints draw themselves together
    pressure: tuple[Mm, Mm]  # MPa
    cure: Cure
    diagonals: SquareTable
    cautions: tuple[str, ...]

    @property
    def sub_assemblies(self) -> tuple[Lot, ...]:
        """The parts that are glued up by themselves before they go into the frame."""
        return tuple(step.part for step in self.steps if len(step.part.members) > 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """The bench work of a job: spares to make, then each frame's gluing up."""

    spares: tuple[Spares, ...]
    gluings: tuple[Gluing, ...]
    doubts: tuple[Problem, ...] = ()
