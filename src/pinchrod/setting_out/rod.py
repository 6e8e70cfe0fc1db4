"""The rod of a frame: its members, openings and fronts, full size and exact."""

from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import Mm, Point, Problem, Span
from pinchrod.job import Frame, Joint, Kind, Side
from pinchrod.setting_out.member import Member


class DoorPartRole(StrEnum):
    """The parts of a five-piece door."""

    LEFT_STILE = "left door stile"
    RIGHT_STILE = "right door stile"
    TOP_RAIL = "door top rail"
    BOTTOM_RAIL = "door bottom rail"
    PANEL = "panel"


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorPart:
    """One piece of a five-piece door. A panel's length runs with its grain, up the door."""

    name: str
    role: DoorPartRole
    length: Mm
    width: Mm
    thickness: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """A door, a leaf of a pair, or a drawer front, in frame coordinates."""

    name: str
    kind: Kind
    corner: Point
    width: Mm
    height: Mm
    thickness: Mm
    hung: Side | None = None  # None: a drawer front
    hinges: tuple[Mm, ...] = ()  # centres, from the front's lower end
    parts: tuple[DoorPart, ...] = ()  # empty: a plain slab

    @property
    def sawn_size(self) -> tuple[Mm, Mm]:
        """Its length and width: a door's grain stands, a drawer's lies (common practice, no source)."""
        if self.kind is Kind.DRAWER:
            return self.width, self.height
        return self.height, self.width


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A clear opening between beads, in frame coordinates; its lengths are sight sizes."""

    name: str
    kind: Kind
    x: Span
    y: Span
    fronts: tuple[Front, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """One frame set out."""

    frame: Frame
    members: tuple[Member, ...]
    openings: tuple[Opening, ...]

    def member(self, name: str) -> Member:
        """The member of that name; a frame that has none raises StopIteration."""
        return next(member for member in self.members if member.name == name)

    @property
    def fronts(self) -> tuple[Front, ...]:
        """Every front of the frame, in the order of its openings."""
        return tuple(front for opening in self.openings for front in opening.fronts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rods:
    """A job set out: a rod for each frame, and what is doubtful."""

    rods: tuple[Rod, ...]
    joint: Joint
    doubts: tuple[Problem, ...] = ()
