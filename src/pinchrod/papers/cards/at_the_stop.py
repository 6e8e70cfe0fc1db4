"""How a piece lies at a machine with stops: a little picture, not to scale, as one looks down on the bed.

The tool stands at the back, the piece before it with the edge or end to be worked towards the tool, and
one end against the stop. The thick bar is the datum end, as in every picture of a piece.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.machining import Hand, PieceEnd, StopSetting, Stroke
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import NARROW, WIDE, Dimension, Line, Mark, Path, Pen, Spot, Words
from pinchrod.papers.marks.type import words_width

ROOM_WIDE, ROOM_HIGH = 44.0, 20.0  # the room that a picture wants
PIECE, SHORT_PIECE = 8.0, 10.0  # how wide a piece is drawn, and how much of one that is worked at its end
STANDING = 32.0  # how wide that one is drawn
FLAT, TOOL, LET_IN = (
    3.0,
    3.5,
    1.0,
)  # the tool's flat, how high it stands behind the piece, how far it is let in
STOP = 2.0
BELOW = 6.5  # from the piece to its dimension
LETTERS = 3.5
LEAST = 20.0  # from stop to tool, so that there is room for a number
APART = 1.5  # from words to what is beside them
DATUM, PAST, DATUM_END = Pen(0.9), 0.9, "datum end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """One way in which pieces lie at a setting, with all that lie so."""

    hand: Hand  # on which side the stop stands
    side: str  # which edge or end is towards the tool
    against: str  # which end or edge is against the stop
    back_up: bool
    first: Stroke
    pieces: tuple[str, ...]

    @property
    def in_end(self) -> bool:
        """Whether it is an end that is worked."""
        return isinstance(self.first.side, PieceEnd)


def ways_of_lying(setting: StopSetting, *, back_up: bool) -> tuple[Lie, ...]:
    """The strokes of a setting by how their pieces lie, in the order in which they come."""
    found: dict[tuple[str, str], list[Stroke]] = {}
    for stroke in setting.strokes:
        found.setdefault((_side(stroke), _against(stroke, setting.hand)), []).append(stroke)
    return tuple(
        Lie(
            hand=setting.hand,
            side=side,
            against=against,
            back_up=back_up,
            first=strokes[0],
            pieces=tuple(stroke.piece for stroke in strokes),
        )
        for (side, against), strokes in found.items()
    )


def _side(stroke: Stroke) -> str:
    return str(stroke.side) if isinstance(stroke.side, PieceEnd) else f"{stroke.side} edge"


def _against(stroke: Stroke, hand: Hand) -> str:
    """Which end, or of an end which edge, meets the stop on that side."""
    measured_from = stroke.from_left == (hand is Hand.LEFT)
    if isinstance(stroke.side, PieceEnd):
        return "left/lower edge" if measured_from else "right/upper edge"
    return DATUM_END if measured_from else "far end"


def lying_words(lie: Lie) -> tuple[str, str]:
    """What is towards the tool, and what against the stop."""
    return f"{lie.side} to the tool", f"{lie.against} to the stop"


def lying_picture(lie: Lie, distance: str, room: Box) -> tuple[Mark, ...]:
    """The picture, with the number to set between the stop and the tool."""
    it = _Drawn(lie, room)
    return (*it.piece(), it.tool(), it.stop(), *it.datum(), *it.word(), it.number(distance))


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The picture's places, reckoned along the bed from the stop and down from the piece's worked side."""

    lie: Lie
    room: Box

    @property
    def long(self) -> float:
        """How long the piece is drawn along the bed."""
        return STANDING if self.lie.in_end else self.room.right - self.room.left - STOP - 1.0

    @property
    def deep(self) -> float:
        """How much of it lies before the tool."""
        return SHORT_PIECE if self.lie.in_end else PIECE

    @property
    def tool_at(self) -> float:
        """How far the tool's middle is from the stop: in proportion, but not so near that no number fits."""
        stroke = self.lie.first
        share = float(stroke.distance(self.lie.hand) / stroke.length)
        return min(max(share * self.long, LEAST), self.long - FLAT)

    def spot(self, along: float, down: float) -> Spot:
        """A place on the page."""
        left, right = self.room.left + STOP, self.room.right - STOP
        x = left + along if self.lie.hand is Hand.LEFT else right - along
        return Spot(x, self.room.top - TOOL - down)

    def piece(self) -> Iterator[Mark]:
        """Its outline; one that stands with its end to the tool goes on, and is shown torn off."""
        top = self.spot(0, 0), self.spot(self.long, 0)
        bottom = self.spot(0, self.deep), self.spot(self.long, self.deep)
        if not self.lie.in_end:
            yield Path((*top, *bottom[::-1]), pen=WIDE)
            return
        torn = (self.spot(self.long * each / 4, self.deep - each % 2) for each in range(5))
        yield Path((bottom[1], *top[::-1], bottom[0]), pen=WIDE, closed=False)
        yield Path(tuple(torn), pen=NARROW, closed=False)

    def tool(self) -> Path:
        """The tool, let into the worked side a little."""
        near, far = FLAT / 2, FLAT / 2 + TOOL
        at = self.tool_at
        points = ((at - near, LET_IN), (at + near, LET_IN), (at + far, -TOOL), (at - far, -TOOL))
        return Path(tuple(self.spot(*point) for point in points), pen=None, fill="black")

    def stop(self) -> Path:
        """The stop."""
        corners = ((-STOP, 0.0), (0.0, 0.0), (0.0, self.deep), (-STOP, self.deep))
        return Path(tuple(self.spot(*corner) for corner in corners), pen=None, fill="black")

    def datum(self) -> Iterator[Line]:
        """A thick bar at the datum end, if the piece lies along the bed."""
        if not self.lie.in_end:
            along = DATUM.width if self.lie.against == DATUM_END else self.long - DATUM.width
            yield Line(self.spot(along, PAST), self.spot(along, self.deep - PAST), pen=DATUM)

    def word(self) -> Iterator[Words]:
        """Which face is up, on the longer stretch beside the tool, where there is room."""
        text = "back" if self.lie.back_up else "face"
        near, far = (0.0, self.tool_at - FLAT), (self.tool_at + FLAT, self.long)
        low, high = max(near, far, key=lambda stretch: stretch[1] - stretch[0])
        if high - low > words_width(text, LETTERS) + 2 * APART:
            middle = self.spot((low + high) / 2, (self.deep + LETTERS) / 2)
            yield Words(middle, text, size=LETTERS, anchor="middle")

    def number(self, distance: str) -> Dimension:
        """The distance to set, under the piece."""
        low, high = sorted((self.spot(0, self.deep), self.spot(self.tool_at, self.deep)))
        return Dimension(low, high, distance, away=-BELOW, size=LETTERS)
