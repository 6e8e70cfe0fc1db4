"""What is written on a stick in the picture of its board: where it begins and ends, its mark, its members."""

from collections.abc import Iterator

from pinchrod.ground import Mm, Span, show
from pinchrod.papers.marks.boxes import DESCENT, HANGING, Box
from pinchrod.papers.marks.sheet import Fill, Mark, Path, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.timber import Stick

LARGEST, LEAST = 5.0, 2.5
INSET = 1.0  # mm from a cut to the words
AIR = 0.3  # mm over and under the words
GAP = 1.8  # mm between words


def lettered_size(text: str, high: float, largest: float = 3.5) -> float:
    """How high letters may be in a strip that high on paper; 0 if it is too narrow for any."""
    size = min(largest, (high - 2 * AIR) / (1 + DESCENT * bool(HANGING & set(text))))
    return size if size >= LEAST else 0.0


def stick_words(stick: Stick, lane: Span, box: Box, step: Mm, *, plates: bool) -> Iterator[Mark]:
    """The words on the part of a stick that a lane shows: as many as there is room for, the mark first."""
    high, left, right = box.top - box.bottom, box.left + INSET, box.right - INSET
    size = lettered_size(stick.name, high, LARGEST)
    wide = words_width(stick.name, size, bold=True)
    if not size or wide > right - left:
        return
    ends = [(stick.start, left, "left"), (stick.start + stick.length, right, "right")]
    numbers = [
        Words(
            Spot(x, 0.0),
            show(at, step),
            size=lettered_size("0", high),
            anchor="left" if side == "left" else "right",
        )
        for at, x, side in ends
        if lane.low <= at <= lane.high
    ]
    taken = sum(words_width(words.text, words.size) + GAP for words in numbers)
    if wide + taken > right - left:
        numbers, taken = [], 0.0
    for words in numbers:
        yield from _stood(words, box, plates=plates)
        shift = words_width(words.text, words.size) + GAP
        left, right = (left + shift, right) if words.anchor == "left" else (left, right - shift)
    yield from _named(stick, Box(left, box.bottom, right, box.top), size, plates=plates)


def _named(stick: Stick, room: Box, size: float, *, plates: bool) -> Iterator[Mark]:
    """The mark, and its members after it if there is room for all."""
    wide = words_width(stick.name, size, bold=True)
    members = "  ".join(stick.members)
    small = lettered_size(members, room.top - room.bottom)
    more = words_width(members, small) + GAP if small else 0.0
    fits = bool(small) and wide + more <= room.right - room.left
    x = (room.left + room.right - wide - (more if fits else 0.0)) / 2
    yield from _stood(Words(Spot(x, 0.0), stick.name, size=size, bold=True), room, plates=plates)
    if fits:
        yield from _stood(Words(Spot(x + wide + GAP, 0.0), members, size=small), room, plates=plates)


def _stood(words: Words, room: Box, *, plates: bool, fill: Fill = "tint") -> Iterator[Mark]:
    """The words, capitals half-way up the room, on a plate that hides what may be under them."""
    below = words.size * DESCENT if HANGING & set(words.text) else 0.0
    y = max((room.bottom + room.top - words.size) / 2, room.bottom + AIR + below)
    wide = words_width(words.text, words.size, bold=words.bold)
    left = words.at.x - {"left": 0.0, "middle": wide / 2, "right": wide}[words.anchor]
    if plates:
        low, high = y - below - AIR / 2, y + words.size + AIR / 2
        corners = (Spot(left - AIR, low), Spot(left + wide + AIR, low), Spot(left + wide + AIR, high))
        yield Path((*corners, Spot(left - AIR, high)), pen=None, fill=fill, layer="stick")
    yield Words(
        Spot(words.at.x, y), words.text, size=words.size, bold=words.bold, anchor=words.anchor, layer="stick"
    )


def words_in_middle(text: str, room: Box, *, fill: Fill) -> Iterator[Mark]:
    """Bold words in the middle of a room, on a plate; none where there is no room for them."""
    size = lettered_size(text, room.top - room.bottom)
    if size and words_width(text, size, bold=True) + 2 * INSET <= room.right - room.left:
        middle = Spot((room.left + room.right) / 2, 0.0)
        yield from _stood(
            Words(middle, text, size=size, bold=True, anchor="middle"), room, plates=True, fill=fill
        )
