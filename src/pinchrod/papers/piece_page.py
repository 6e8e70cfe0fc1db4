"""A page for each distinct member: hung by the saw, it says all that is cut in the piece."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from pinchrod.ground import show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.bands import (
    LARGE,
    PLAIN,
    Band,
    blank,
    boxed,
    broken,
    filled,
    fitting,
    gathered,
    heading,
    paragraph,
)
from pinchrod.papers.boxes import Box
from pinchrod.papers.marks_list import Marked
from pinchrod.papers.page import Content, body, pages_like
from pinchrod.papers.piece_drawing import Drawing, drawing_bands, lying_in
from pinchrod.papers.piece_picture import piece_picture
from pinchrod.papers.piece_tables import table_bands
from pinchrod.papers.piece_words import bead_words, cautions, ends_words
from pinchrod.papers.sheet import Spot, Words
from pinchrod.papers.type import words_width
from pinchrod.setting_out import Pattern, Piece

HUGE = 12.0  # the one number read from across the bench
HIGH = 9.0
PICTURE = 30.0  # the least width of a picture of the piece
LINE = 1.7 * LARGE
SIZES = (3.5, 2.5)  # of the drawing's numbers: the larger if all then fits on a page


def piece_pages(patterns: Sequence[Pattern], job: Job, shop: Shop) -> tuple[Content, ...]:
    """A page, or more if need be, for each distinct member of a job."""
    known = {pattern.mark: pattern for pattern in patterns}
    return tuple(page for pattern in patterns for page in piece_page(pattern, known, job, shop))


def piece_page(pattern: Pattern, known: Mapping[str, Pattern], job: Job, shop: Shop) -> tuple[Content, ...]:
    """The pages of one distinct member; `known` are all the job's patterns by their marks."""
    space = body(shop.papers.size)
    width, step, member = space.right - space.left, shop.practice.resolution, pattern.drawn
    again = heading(f"{pattern.mark}, continued", width)
    above = tuple(_above(pattern, known, shop, width))
    below = (*table_bands(member, width, step, again), *_made_to_it(pattern, width, again))
    lying = lying_in(member, width)
    large, small = (Drawing(lying, job.bead.quirk, width, step, size) for size in SIZES)
    room = space.top - space.bottom - _height((*above, *below))
    drawn = drawing_bands(large)
    if _height(drawn) > room:
        drawn = drawing_bands(small)
    content = Content(
        title=f"{pattern.mark}: {_sizes(pattern, shop)}",
        document_type="piece drawing",
        marks=(),
        level=1,
        scale=f"1 : {lying.long}",
        true_scale=True,
    )
    return pages_like(content, gathered((*above, *drawn, *below), space, space))


def _height(bands: Iterable[Band]) -> float:
    return sum(band.height for band in bands)


def _sizes(pattern: Pattern, shop: Shop) -> str:
    member, step = pattern.drawn, shop.practice.resolution
    return " × ".join(show_fixed(size, step) for size in (member.length, member.width, member.thickness))


def _above(pattern: Pattern, known: Mapping[str, Pattern], shop: Shop, width: float) -> Iterator[Band]:
    member, step = pattern.drawn, shop.practice.resolution
    yield _name_band(pattern, width)
    yield _size_band(pattern, shop, width)
    said = f"{member.name}, {member.role}. {bead_words(member)}. {ends_words(member, step)}."
    yield paragraph(said, width)
    warnings = [
        (line, True)
        for caution in cautions(pattern, known, step)
        for line in broken(caution, LARGE, width - 6, bold=True)
    ]
    if warnings:
        yield blank(1.5)
        yield boxed(warnings, width, LARGE)
    yield blank(2.0)


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
    length, section = _sizes(pattern, shop).split(" × ", 1)
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
    return Band(height=HUGE + 4.5, marks=(*marks, *picture))


def _made_to_it(pattern: Pattern, width: float, top: Band) -> Iterator[Band]:
    """The pieces made to the pattern: as drawn, and turned end for end."""
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
