"""Small blocks of words, one to three lines, set where a drawing leaves room for them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinchrod.papers.marks.boxes import DESCENT, HANGING, Box
from pinchrod.papers.marks.sheet import Spot, Turn, Words
from pinchrod.papers.marks.type import shown, words_width

LEADING = 0.75  # from a baseline to the top of the next line, in heights of that: more than hangs below


@dataclass(frozen=True, slots=True)
class Said:
    """A line of words with the room it takes at a size of 1."""

    text: str
    bold: bool
    wide: float
    above: float
    below: float


def said(text: str, *, bold: bool = False) -> Said:
    """The text, measured."""
    accents = any(letter > "\x7f" and letter.isupper() for letter in shown(text))
    below = DESCENT if HANGING & set(text) else 0.0
    return Said(text, bold, words_width(text, 1, bold=bold), 1 + DESCENT * accents, below)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of words one under another, each with its size, to be read from the bottom or the right."""

    lines: tuple[tuple[Said, float], ...]
    turn: Turn = 0

    @property
    def long(self) -> float:
        """How long the block is in the direction it is read, in mm of paper."""
        return max(line.wide * size for line, size in self.lines)

    @property
    def deep(self) -> float:
        """How deep it is across that."""
        last, least = self.lines[-1]
        taken = sum(line.above * size for line, size in self.lines) + last.below * least
        return taken + sum(LEADING * size for _, size in self.lines[1:])

    @property
    def wide(self) -> float:
        """How wide it is on the sheet."""
        return self.deep if self.turn else self.long

    @property
    def high(self) -> float:
        """How high it is on the sheet."""
        return self.long if self.turn else self.deep

    def turned(self) -> "Block":
        """The same block, read from the right."""
        return Block(self.lines, 90)

    def sized(self, share: float) -> "Block":
        """The same block with smaller or larger letters."""
        return Block(tuple((line, size * share) for line, size in self.lines), self.turn)


@dataclass(frozen=True, slots=True)
class Stood:
    """A block that has its place: its words, and the box they take up on the drawing."""

    words: tuple[Words, ...]
    box: Box


def first_that_fits(blocks: Iterable[Block], room: Box, per: float) -> Block | None:
    """The first of the blocks that has room in the box; `per` is mm of wood to a mm of paper."""
    wide, high = (room.right - room.left) / per, (room.top - room.bottom) / per
    return next((block for block in blocks if block.wide <= wide and block.high <= high), None)


def stood(block: Block, middle: Spot, per: float, *, layer: str = "words") -> Stood:
    """The block with its middle there."""
    half_wide, half_high = block.wide / 2 * per, block.high / 2 * per
    box = Box(middle.x - half_wide, middle.y - half_high, middle.x + half_wide, middle.y + half_high)
    return Stood(tuple(_words(block, middle, per, layer)), box)


def _words(block: Block, middle: Spot, per: float, layer: str) -> Iterator[Words]:
    down = -block.deep / 2
    for number, (line, size) in enumerate(block.lines):
        down += line.above * size + (LEADING * size if number else 0.0)
        at = _across(block, middle, down * per)
        yield Words(at, line.text, size=size, bold=line.bold, anchor="middle", turn=block.turn, layer=layer)


def _across(block: Block, middle: Spot, down: float) -> Spot:
    """Where a baseline has its middle: down the sheet, or to the right if the block is turned."""
    return Spot(middle.x + down, middle.y) if block.turn else Spot(middle.x, middle.y - down)


def middle_of(box: Box) -> Spot:
    """The box's middle."""
    return Spot((box.left + box.right) / 2, (box.bottom + box.top) / 2)
