"""A job as the joiner said it, read and checked but not yet set out."""

import datetime
from dataclasses import dataclass, field
from enum import StrEnum

from pinchrod.ground import Mm, Problem, Where
from pinchrod.job.boards import Board
from pinchrod.job.offers import Offer


class Kind(StrEnum):
    """What stands in an opening."""

    DOOR = "door"
    PAIR = "pair"
    DRAWER = "drawer"
    PANEL = "panel"
    OPEN = "open"


class Way(StrEnum):
    """How the parts of a group lie: one over another, or side by side."""

    STACK = "over"
    ROW = "beside"


class Side(StrEnum):
    """Left or right, seen from the face."""

    LEFT = "left"
    RIGHT = "right"


class Joint(StrEnum):
    """How members are drawn together where they meet."""

    DOVETAIL_KEY = "dovetail key"
    LOOSE_TENON = "loose tenon"
    DOWEL = "dowel"
    MORTICE_AND_TENON = "mortice and tenon"
    POCKET_SCREW = "pocket screw"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One opening as said. `at` is where its words begin in the phrase, from 0."""

    kind: Kind
    size: Mm | None = None  # sight height in a stack, sight width in a row; None: shares what is left
    hung: Side | None = None  # None: the joiner did not say
    at: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Parts one over another (from the top down) or side by side (from left to right).

    There is one divider fewer than parts; None is the frame's usual rail or muntin.
    """

    way: Way
    parts: tuple["Place | Group", ...]
    dividers: tuple[Mm | None, ...]
    size: Mm | None = None
    at: int = 0


Layout = Place | Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """The bead stuck on every edge that meets an opening; width includes the quirk. 0: square."""

    width: Mm
    quirk: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Gaps:
    """Clearance round a door or drawer front: at every outer edge, and where two leaves meet."""

    edge: Mm
    meeting: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One frame as said, with the job's usual sizes filled in."""

    id: str
    width: Mm
    height: Mm
    layout: Layout
    phrase: str
    quantity: int
    left_stile: Mm
    right_stile: Mm
    top_rail: Mm
    bottom_rail: Mm  # 0: none
    mid_rail: Mm
    muntin: Mm
    foot: Mm
    where: Where  # of the frame
    layout_where: Where  # of the first letter of its phrase

    @property
    def copies(self) -> tuple[str, ...]:
        """What each copy has behind its marks: nothing if it is made once, else `/1`, `/2`, ..."""
        return ("",) if self.quantity == 1 else tuple(f"/{copy}" for copy in range(1, self.quantity + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """How five-piece doors are made: two stiles, two rails, and a panel loose in a groove."""

    stile: Mm
    top_rail: Mm
    bottom_rail: Mm
    groove: Mm  # depth; the rails' stub tenons are as long
    panel: Mm  # thickness of the panel and width of the groove
    side_room: Mm  # left for the panel to swell at each long edge
    end_room: Mm  # the same at each end of its grain


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """A timber with what is published of it; None where nothing was found."""

    name: str
    density: Mm | None  # kg/m3 at 12 % moisture
    radial: Mm | None  # Wood Handbook C_R, change of width per % of moisture, quarter-sawn
    tangential: Mm | None  # C_T, flat-sawn
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Issue:
    """What the title block says of a paper's issue; empty where the joiner left it to be written in."""

    owner: str = ""
    number: str = ""
    revision: str = ""
    date: datetime.date | None = None
    drawn_by: str = ""
    approved_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """All the joiner said of one job."""

    name: str
    customer: str
    timber: Timber
    thickness: Mm
    joint: Joint
    bead: Bead
    gaps: Gaps
    front_thickness: Mm  # of doors and drawer fronts
    doors: Doors | None  # None: doors are plain slabs
    frames: tuple[Frame, ...]
    issue: Issue
    fingerprint: str  # sha256 of all that was read, in hex
    assumed: tuple[str, ...] = ()  # every usual size that stands because the joiner said nothing
    doubts: tuple[Problem, ...] = field(default=())
    rack: tuple[Board, ...] = ()  # the boards there are; none: the job names no rack
    offers: tuple[Offer, ...] = ()  # what can be bought: the job's own, then the workshop's
