"""A page for each distinct member: hung by the saw, it says all that is cut in the piece."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import (
    LARGE,
    LOW_ROW,
    LOWEST_ROW,
    PLAIN,
    Band,
    blank,
    boxed,
    broken,
    filled,
    fitting,
    gathered,
    heading,
    height_of,
    paragraph,
)
from pinchrod.papers.pages.marks_list import Marked
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.papers.pieces.lying import Lying
from pinchrod.papers.pieces.piece_drawing import Drawing, Lanes, drawing_bands, lower_lying, lying_in
from pinchrod.papers.pieces.piece_picture import piece_picture
from pinchrod.papers.pieces.piece_tables import table_bands
from pinchrod.papers.pieces.piece_words import bead_words, cautions, ends_words
from pinchrod.papers.pieces.tenons import tenons_of
from pinchrod.setting_out import Member, Pattern, Piece

DOCUMENT = "Piece drawing"
HUGE = 12.0  # the one number read from across the bench
HIGH = 9.0
PICTURE = 30.0  # the least width of a picture of the piece
LINE = 1.67 * LARGE
SIZES = (3.5, 2.5)  # of the drawing's numbers: the larger if all then fits on a page


@dataclass(frozen=True, slots=True)
class Known:
    """A job's patterns and members, by their marks."""

    patterns: Mapping[str, Pattern]
    members: Mapping[str, Member]


def piece_pages(patterns: Sequence[Pattern], job: Job, shop: Shop) -> tuple[Content, ...]:
    """A page, or more if need be, for each distinct member of a job."""
    known = Known(
        patterns={pattern.mark: pattern for pattern in patterns},
        members={piece.member.name: piece.member for pattern in patterns for piece in pattern.pieces},
    )
    return tuple(page for pattern in patterns for page in piece_page(pattern, known, job, shop))


def piece_page(pattern: Pattern, known: Known, job: Job, shop: Shop) -> tuple[Content, ...]:
    """The pages of one distinct member."""
    space = body(shop.papers.size)
    width = space.right - space.left
    lying = lying_in(pattern.drawn, tenons_of(pattern.drawn, known.members), width)
    content = Content(
        title=f"{pattern.mark}: {_sizes(pattern, shop, show)}",
        document_type=DOCUMENT,
        marks=(),
        scale=f"1:{lying.long}",
        true_scale=True,
    )
    return pages_like(content, gathered(_bands(pattern, lying, known, job, shop), space, space))


def _bands(pattern: Pattern, lying: Lying, known: Known, job: Job, shop: Shop) -> tuple[Band, ...]:
    """All that the page says, drawn as large as leaves room for the rest; set closer to keep to one."""
    space, step = body(shop.papers.size), shop.practice.resolution
    width = space.right - space.left
    again = heading(f"{pattern.mark}, continued", width)
    above = tuple(_above(pattern, known, shop, width))
    below = tuple(_made_to_it(pattern, width, again))
    room = space.top - space.bottom - height_of((*above, *below))
    plain = _drawn_and_listed(Drawing(lying, job.bead.quirk, width, step, SIZES[-1]), again, LOW_ROW)
    ways = (_drawn_and_listed(*way) for way in _ways(lying, job, width, step, again))
    middle = next((way for way in ways if height_of(way) <= room), plain)
    return (*above, *middle, *below)


def _ways(
    lying: Lying, job: Job, width: float, step: Mm, again: Band
) -> Iterator[tuple[Drawing, Band, float]]:
    """Drawings, and heights of the tables' rows, from the clearest to the closest.

    First the drawing has smaller numbers; then no centres, which the tables have too; then it is lower; and
    where there are very many positions, the tables alone give them.
    """
    large, small = (Drawing(lying, job.bead.quirk, width, step, size) for size in SIZES)
    fewer = replace(small, lanes=Lanes.NOTCHES)
    lower = replace(fewer, lying=lower_lying(lying))
    for drawing in (large, small, fewer, lower):
        yield drawing, again, LOW_ROW
    yield lower, again, LOWEST_ROW
    for row in (LOW_ROW, LOWEST_ROW):
        yield replace(lower, lanes=Lanes.NONE), again, row


def _drawn_and_listed(drawing: Drawing, again: Band, row: float) -> tuple[Band, ...]:
    tables = table_bands(drawing.lying, drawing.width, drawing.step, again, row)
    return (*drawing_bands(drawing, again), *tables)


def _sizes(pattern: Pattern, shop: Shop, shown: Callable[[Mm, Mm], str]) -> str:
    member, step = pattern.drawn, shop.practice.resolution
    return " × ".join(shown(size, step) for size in (member.length, member.width, member.thickness))


def _above(pattern: Pattern, known: Known, shop: Shop, width: float) -> Iterator[Band]:
    member, step = pattern.drawn, shop.practice.resolution
    yield _name_band(pattern, width)
    yield _size_band(pattern, shop, width)
    drawn = Marked(member.name, pattern.pieces[0].quantity)
    said = f"{drawn}, {member.role}. {bead_words(member)}. {ends_words(member, step)}."
    yield paragraph(said, width)
    warnings = [
        (line, True)
        for caution in cautions(pattern, known.patterns, step)
        for line in broken(caution, LARGE, width - 6, bold=True)
    ]
    if warnings:
        yield blank(1.5)
        yield boxed(warnings, width, LARGE)
    yield blank(1.0)


def _name_band(pattern: Pattern, width: float) -> Band:
    """The pattern's mark, and how many to make."""
    made = f"make {pattern.quantity}"
    marks = (
        Words(Spot(0.0, -HIGH), pattern.mark, size=HIGH, bold=True),
        Words(Spot(width, -HIGH), made, size=HIGH, bold=True, anchor="right"),
    )
    return Band(height=HIGH + 2.0, marks=marks)


def _size_band(pattern: Pattern, shop: Shop, width: float) -> Band:
    """Length, width and thickness: the length so large that it is read from across the bench."""
    length, section = _sizes(pattern, shop, show_fixed).split(" × ", 1)
    most = width / 2
    size = fitting(length, HUGE, most, bold=True)
    section = f"× {section}"
    beside = words_width(length, size, bold=True) + 3.0
    small = fitting(section, 7.0, width - beside)
    base = -HUGE - 2.0
    marks = (
        Words(Spot(0.0, base), length, size=size, bold=True),
        Words(Spot(beside, base), section, size=small),
    )
    room = Box(beside + words_width(section, small) + 6.0, base, width, -3.0)
    picture = piece_picture(pattern.drawn, room) if room.right - room.left > PICTURE else ()
    return Band(height=HUGE + 3.5, marks=(*marks, *picture))


def _made_to_it(pattern: Pattern, width: float, top: Band) -> Iterator[Band]:
    """The pieces made to the pattern, if there are more than the one drawn: as drawn, and turned."""
    if len(pattern.pieces) == 1:
        return  # the one that is drawn
    as_drawn = [piece for piece in pattern.pieces if not piece.turned]
    turned = [piece for piece in pattern.pieces if piece.turned]
    yield from _pieces("Made to it:", as_drawn, width, top)
    if turned:
        yield from _pieces("Turned end for end, datum end to the right:", turned, width, top)


def _pieces(name: str, pieces: Iterable[Piece], width: float, top: Band) -> Iterator[Band]:
    """The pieces after their name, or in lines beneath it if they do not fit beside it."""
    marks = [str(Marked(piece.member.name, piece.quantity)) for piece in pieces]
    beside = words_width(name, PLAIN, bold=True) + 3.0
    lines = filled(marks, LARGE, width)
    fits = len(lines) == 1 and beside + words_width(lines[0], LARGE) <= width
    said = Words(Spot(0.0, -1.35 * LARGE), name, size=PLAIN, bold=True)
    first = Words(Spot(beside, -1.35 * LARGE), lines[0], size=LARGE)
    yield Band(height=LINE, marks=(said, first) if fits else (said,), keeps=not fits, head=(top,))
    for line in () if fits else lines:
        yield Band(height=LINE, marks=(Words(Spot(0.0, -1.35 * LARGE), line, size=LARGE),), head=(top,))
