"""Lists and tables: bands across a page, one under another, none split where one page ends."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from pinchrod.ground import Mm
from pinchrod.papers.marks.boxes import DESCENT, Box
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.marks.sheet import NARROW, WIDE, Anchor, Line, Mark, Marks, Path, Pen, Spot, Words
from pinchrod.papers.marks.type import words_width

TICK = "\u2610"
"""What a cell says to get a box to tick."""
LEAST = 2.5  # mm, the smallest lettering on any paper
PLAIN = 3.5  # what a machine hand needs to read
LARGE = 5.0  # numbers to cut by, and marks of pieces
BASE = 6.7  # from a row's top to the first baseline: white, a large capital, and an accent on it
ROW = 8.4  # the lowest row of a list
LOW_ROW = 7.8  # the lowest row of a table that is short of room: no accents
LOWEST_ROW = 7.1  # and of one that would not keep to its page else
HEAD = 2.8  # letters of a table's heads
PAD = 1.6  # from a cell's side to its words
BOX = 5.0  # side of the box to tick
LONGEST, WIDEST = Mm(9999), Mm(999)  # the longest and widest pieces that columns have room for


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A band across the page that is never split, its marks counted from its left side and upwards.

    One that `keeps` stands on the same page as the band after it. Where a band comes first on a page
    that is not the first, its `head` is repeated above it.
    """

    height: float
    marks: Marks
    top: float = 0.0  # where its upper side lies in its marks' own reckoning
    keeps: bool = False
    head: tuple["Band", ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table. Words in it are broken into lines, unless they are numbers."""

    head: str
    width: float
    size: float = PLAIN
    anchor: Anchor = "left"
    bold: bool = False
    number: bool = False

    @property
    def room(self) -> float:
        """How wide a line in the column may be."""
        return self.width - 2 * PAD


def number_column(
    head: str, width: float, size: float = PLAIN, *, bold: bool = False, longest: str = ""
) -> Column:
    """A column of numbers, their ends one under another; wider if its longest would not fit even small."""
    width = max(width, words_width(longest, LEAST, bold=bold) + 2 * PAD)
    return Column(head, width, size, anchor="right", bold=bold, number=True)


def narrowed(column: Column, cells: Iterable[str]) -> Column:
    """The column, if need be narrower: no wider than its head and what is in it."""
    lines = (line for cell in cells for line in cell.split("\n"))
    widest = max((words_width(line, column.size, bold=column.bold) for line in lines), default=0.0)
    wanted = max(widest, words_width(column.head, HEAD, bold=column.bold)) + 2 * PAD + 0.1
    return replace(column, width=min(column.width, wanted))


def gathered(bands: Iterable[Band], first: Box, rest: Box) -> tuple[Marks, ...]:
    """The bands in pages, from the top down: the first page's space, and that of all others."""
    pages: list[list[Mark]] = [[]]
    room, y = first, first.top
    for group in _kept_together(bands):
        if y - height_of(group) < room.bottom and y < room.top:
            if not any(band.marks for band in group):
                continue  # white at the foot of a page
            room, y = rest, rest.top
            pages.append([])
            group = [*group[0].head, *group]
        for band in group:
            if y == room.top and not band.marks:
                continue  # white at the head of a page
            pages[-1].extend(placed(band.marks, dx=room.left, dy=y - band.top))
            y -= band.height
    return tuple(tuple(page) for page in pages)


def height_of(bands: Iterable[Band]) -> float:
    """How high the bands are together."""
    return sum(band.height for band in bands)


def _kept_together(bands: Iterable[Band]) -> Iterator[list[Band]]:
    group: list[Band] = []
    for band in bands:
        group.append(band)
        if not band.keeps:
            yield group
            group = []
    if group:
        yield group


def blank(height: float, *, keeps: bool = False) -> Band:
    """A band of white."""
    return Band(height=height, marks=(), keeps=keeps)


def heading(text: str, width: float, size: float = LARGE) -> Band:
    """A bold line that stays with what comes after it."""
    lines = broken(text, size, width, bold=True)
    pitch = pitch_of(lines, size)
    marks = tuple(
        Words(Spot(0, -1.5 * size - pitch * place), line, size=size, bold=True)
        for place, line in enumerate(lines)
    )
    return Band(height=1.5 * size + pitch * (len(lines) - 1) + 0.5 * size, marks=marks, keeps=True)


def paragraph(
    text: str, width: float, size: float = PLAIN, *, bold: bool = False, keeps: bool = False
) -> Band:
    """Words broken into lines."""
    lines = broken(text, size, width, bold=bold)
    pitch = pitch_of(lines, size)
    marks = tuple(
        Words(Spot(0, -1.35 * size - pitch * place), line, size=size, bold=bold)
        for place, line in enumerate(lines)
    )
    height = 1.35 * size + pitch * max(len(lines) - 1, 0) + 0.4 * size
    return Band(height=height, marks=marks, keeps=keeps)


def table_head(columns: Sequence[Column]) -> Band:
    """The heads of a table between two rules."""
    height = 6.5
    marks: list[Mark] = [_rule(columns, 0.0), _rule(columns, -height)]
    for column, left in _placed(columns):
        marks.append(_word(column, left, -height + 2.2, column.head, HEAD))
    return Band(height=height, marks=tuple(marks), keeps=True)


def table_row(
    columns: Sequence[Column], cells: Sequence[str], head: tuple[Band, ...] = (), least: float = ROW
) -> Band:
    """A row of a table with a rule under it."""
    found = [_lines(column, cell) for column, cell in zip(columns, cells, strict=True)]
    base = BASE if least == ROW or any(map(_is_high, cells)) else BASE - (ROW - least)
    depths = (_depth(column, lines) for column, lines in zip(columns, found, strict=True))
    height = max(base + max(depths), least)
    marks: list[Mark] = [_rule(columns, -height)]
    for (column, left), lines in zip(_placed(columns), found, strict=True):
        marks.extend(_cell(column, left, -base, lines))
    return Band(height=height, marks=tuple(marks), head=head)


def boxed(lines: Sequence[tuple[str, bool]], width: float, size: float = PLAIN) -> Band:
    """Lines of words, some bold, in a box of their own."""
    pitch = pitch_of([text for text, _ in lines], size)
    height = 2.0 + size + pitch * (len(lines) - 1) + 0.4 * size + 1.5
    words = (
        Words(Spot(2.5, -2.0 - size - pitch * place), text, size=size, bold=bold)
        for place, (text, bold) in enumerate(lines)
    )
    corners = (Spot(0, 0), Spot(width, 0), Spot(width, -height), Spot(0, -height))
    return Band(height=height, marks=(Path(corners, pen=WIDE, layer="table"), *words))


def broken(text: str, size: float, width: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than that, nothing left out: a word too long is broken, too."""
    if words_width(text, size, bold=bold) <= width:
        return (text,) if text else ()
    return filled(text.split(), size, width, between=" ", bold=bold)


def filled(
    items: Iterable[str], size: float, width: float, *, between: str = ", ", bold: bool = False
) -> tuple[str, ...]:
    """Items in lines no wider than that, parted by a mark; one too wide for a line is broken."""
    lines: list[str] = []
    gap = words_width(between.rstrip(), size, bold=bold)
    room = 0.0
    items = tuple(items)
    for place, item in enumerate(items):
        more = between if place + 1 < len(items) else ""
        wide = words_width(item, size, bold=bold)
        if lines and wide + gap <= room:
            lines[-1] += item + more
        else:
            parts = tuple(_cut_up(item, size, width - gap, bold=bold))
            lines.extend(parts[:-1])
            lines.append(parts[-1] + more)
        room = width - words_width(lines[-1], size, bold=bold)
    return tuple(line.rstrip() for line in lines)


def _cut_up(item: str, size: float, width: float, *, bold: bool) -> Iterator[str]:
    """The item whole, or in parts that each fit: broken at a space if it can be, else anywhere."""
    while words_width(item, size, bold=bold) > width and len(item) > 1:
        fitting_ends = (
            end for end in range(len(item) - 1, 1, -1) if _fits(item[:end], size, width, bold=bold)
        )
        kept = next(fitting_ends, 1)
        kept = item.rfind(" ", 1, kept + 1) if item.find(" ", 1, kept + 1) > 0 else kept
        yield item[:kept].rstrip()
        item = item[kept:].lstrip()
    yield item


def _fits(text: str, size: float, width: float, *, bold: bool) -> bool:
    return words_width(text, size, bold=bold) <= width


def pitch_of(lines: Iterable[str], size: float) -> float:
    """From baseline to baseline: more where accents may stand on capitals."""
    return size * (1 + 2 * DESCENT if any(map(_is_high, lines)) else 1.4)


def _is_high(line: str) -> bool:
    return not line.isascii() and any(letter > "\x7f" and letter.isupper() for letter in line)


def fitting(text: str, size: float, width: float, *, bold: bool = False) -> float:
    """The size at which a number fits: never shortened, it may be set smaller."""
    wide = words_width(text, size, bold=bold)
    return size if wide <= width else max(LEAST, size * width / wide)


def _lines(column: Column, cell: str) -> tuple[str, ...]:
    lines = tuple(cell.split("\n"))
    if column.number or cell == TICK:
        return lines
    return tuple(part for line in lines for part in broken(line, column.size, column.room, bold=column.bold))


def _depth(column: Column, lines: Sequence[str]) -> float:
    return pitch_of(lines, column.size) * (len(lines) - 1) + DESCENT * column.size + 0.1


def _cell(column: Column, left: float, base: float, lines: Sequence[str]) -> Iterator[Mark]:
    if lines == (TICK,):
        yield tick_box(Spot(left + PAD, -(ROW + BOX) / 2))
        return
    pitch = pitch_of(lines, column.size)
    for place, line in enumerate(lines):
        size = column.size
        if column.number:
            size = fitting(line, size, column.room, bold=column.bold)
        yield _word(column, left, base - pitch * place, line, size)


def _word(column: Column, left: float, y: float, text: str, size: float) -> Words:
    x = left + PAD if column.anchor == "left" else left + column.width - PAD
    return Words(Spot(x, y), text, size=size, bold=column.bold, anchor=column.anchor, layer="table")


def tick_box(at: Spot, side: float = BOX, pen: Pen = NARROW) -> Path:
    """A box to tick, by its lower left corner."""
    x, y = at
    corners = (Spot(x, y), Spot(x + side, y), Spot(x + side, y + side), Spot(x, y + side))
    return Path(corners, pen=pen, layer="table")


def _rule(columns: Sequence[Column], y: float) -> Line:
    return Line(Spot(0, y), Spot(sum(column.width for column in columns), y), pen=NARROW, layer="table")


def _placed(columns: Sequence[Column]) -> Iterator[tuple[Column, float]]:
    left = 0.0
    for column in columns:
        yield column, left
        left += column.width
