"""What is asked of a machine's stops, and what is set: strokes, settings, and the proof that no fewer do.

A piece lies with the edge or end to be worked towards the tool, and is pushed along until one of its ends (at
an end: one of its edges) meets the stop on the left or the one on the right.
"""

from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import Mm
from pinchrod.setting_out import Edge


class Hand(StrEnum):
    """On which side of the tool a stop stands, as one stands before it."""

    LEFT = "left"
    RIGHT = "right"


class PieceEnd(StrEnum):
    """An end of a piece, when it is the end that is worked."""

    DATUM = "datum end"
    FAR = "far end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One working of the tool, at one place of one piece.

    `at` is the middle of the tool from the datum end, or, at an end, from the left or lower edge. `length` is
    the piece's own along the stops: from end to end, or at an end its width. `from_left`: as it lies, `at` is
    measured from the left-hand stop's end.
    """

    piece: str  # its mark, as on its label
    side: Edge | PieceEnd  # lies towards the tool
    at: Mm
    length: Mm
    from_left: bool

    def distance(self, hand: Hand) -> Mm:
        """What the stop on that side must be set to, from the middle of the tool."""
        return self.at if self.from_left == (hand is Hand.LEFT) else self.length - self.at


@dataclass(frozen=True, slots=True, kw_only=True)
class StopQuestion:
    """Strokes in the order of the shop, how far each stop can stand, and which distances are one setting.

    `step` 0: only those that are exactly equal; else those that show the same when rounded to it.
    """

    strokes: tuple[Stroke, ...]
    reach_left: Mm
    reach_right: Mm
    step: Mm = Mm(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class StopSetting:
    """One stop set once, and every stroke made before it moves."""

    hand: Hand
    distance: Mm
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """The settings of a machine in their order; `proof` shows that no fewer will do.

    No two strokes of the proof can be made at one setting, so there must be as many settings as these.
    """

    settings: tuple[StopSetting, ...]
    unreached: tuple[Stroke, ...]  # neither stop can stand so far
    proof: tuple[Stroke, ...]

    @property
    def fewest(self) -> int:
        """How many settings there must be: proven."""
        return len(self.proof)

    @property
    def strokes(self) -> int:
        """How many strokes are made."""
        return sum(len(setting.strokes) for setting in self.settings)
