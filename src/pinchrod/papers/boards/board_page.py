"""A page for each board taken, to hang by the saw: how it is chalked, ripped and crosscut, and why."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from pinchrod.ground import Mm, show
from pinchrod.job import Shop
from pinchrod.papers.boards.board_drawing import Chalked, label_room, label_size, lane_bands, lane_height
from pinchrod.papers.boards.board_lying import SCALES, BoardLying, lying_at
from pinchrod.papers.boards.board_table import table_bands
from pinchrod.papers.boards.board_words import (
    CAUTIONS,
    facts_words,
    faults_words,
    longest_words,
    size_words,
    stick_words,
    width_words,
)
from pinchrod.papers.boards.sawn import Sawn
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
    gathered,
    heading,
    height_of,
    paragraph,
)
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.timber import Board, RippedBoard, Stick

DOCUMENT = "Board"
NAME = 9.0
SIZE = 7.0
NOTE, NOTE_HEIGHT = 2.5, 4.8
APART = 4.0  # mm between the name and the size
MOST_LANES = 3  # of a picture that is drawn larger than need be


def board_pages(sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """A page, or more if need be, for each board taken, in the order in which they are ripped."""
    return tuple(page for board in sawn.boards for page in board_page(board, sawn, shop))


def board_page(board: RippedBoard, sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """The pages of one board: drawn as large as leaves room for the rest on one page, if that can be."""
    step, space = shop.practice.resolution, body(shop.papers.size, landscape=True)
    width = space.right - space.left
    above = tuple(_above(board, sawn, step, width))
    whys = tuple(_whys_and_care(board, sawn, step, width))
    tables = [tuple(_table(board, sawn, step, width, row)) for row in (LOW_ROW, LOWEST_ROW)]
    rooms = [space.top - space.bottom - height_of(above) - more for more in (height_of(whys), 0.0)]
    lying, table = _laid_out(_ways_to_lie(board, sawn, step, width), tables, rooms)
    lanes = (_note(lying, width), *lane_bands(Chalked(lying, sawn.question, step)))
    content = Content(
        title=f"Board {board.board.name}",
        document_type=DOCUMENT,
        marks=(),
        scale=f"1:{lying.scale}",
        true_scale=True,
        landscape=True,
    )
    return pages_like(content, gathered((*above, *lanes, *table, *whys), space, space))


def _ways_to_lie(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> tuple[BoardLying, ...]:
    """The board at every scale at which its strips can be written on, the largest first."""
    kept = sawn.kept_of(board.board)
    sizes = {scale: label_size(board, scale) for scale in SCALES}
    legible = [scale for scale, size in sizes.items() if size] or SCALES[:1]
    return tuple(
        lying_at(board, kept, label_room(board, sizes[scale], step), width, scale) for scale in legible
    )


def _laid_out(
    ways: Sequence[BoardLying], tables: Sequence[tuple[Band, ...]], rooms: Sequence[float]
) -> tuple[BoardLying, tuple[Band, ...]]:
    """The largest picture, and the rows furthest apart, that keep to a page; failing that, the lowest.

    Where there is no room for all, the whys and cautions go overleaf, rather than the cuts.
    """
    for room in rooms:
        for lying, bands in product(ways, tables):
            if len(lying.lanes) <= MOST_LANES and _height(lying) + height_of(bands) <= room:
                return lying, bands
    return min(ways, key=_height), tables[0]


def _height(lying: BoardLying) -> float:
    """How high the whole picture is."""
    return NOTE_HEIGHT + lane_height(lying) * len(lying.lanes)


def _note(lying: BoardLying, width: float) -> Band:
    said = (
        f"Face up, datum end to the left, sprung edge uppermost. Drawn 1:{lying.scale}. Black: saw cuts."
        " Grey: sticks. Hatched: faults, broken lines those of the back."
    )
    words = Words(Spot(0.0, -1.35 * NOTE), said, size=NOTE, layer="dimension", max_width=width)
    return Band(height=NOTE_HEIGHT, marks=(words,), keeps=True)


def _above(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    yield from _name_bands(board, sawn, step, width)
    for said in longest_words(board.board, sawn, step):
        yield paragraph(said, width)
    yield blank(1.0)


def _name_bands(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    """The board's name and size, and beside them, or under them, how bent it is, its yield and its price."""
    name, size = board.board.name, size_words(board.board, step)
    facts = facts_words(board, sawn, step)
    long = words_width(size, SIZE)
    wide = min(words_width(name, NAME, bold=True), width - long - APART)
    room = width - wide - long - 2 * APART
    small = min(LARGE, LARGE * room / words_width(facts, LARGE))
    marks = (
        Words(Spot(0.0, -NAME), name, size=NAME, bold=True, max_width=wide),
        Words(Spot(wide + APART, -NAME), size, size=SIZE),
    )
    beside = Words(Spot(width, -NAME), facts, size=small, anchor="right")
    fits = small >= PLAIN
    yield Band(height=NAME + 3.0, marks=(*marks, beside) if fits else marks)
    if not fits:
        yield paragraph(facts, width)


def _table(board: RippedBoard, sawn: Sawn, step: Mm, width: float, row: float) -> Iterator[Band]:
    yield _first_edge(board, sawn, step, width)
    yield from table_bands(
        board, sawn.kept_of(board.board), step, (width, row), _continued(board.board, width)
    )


def _continued(board: Board, width: float) -> Band:
    return heading(f"Board {board.name}, continued", width)


def _whys_and_care(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    """Whys and cautions: they stand together, overleaf under the board's name."""
    again = (_continued(board.board, width),)
    yield replace(blank(1.0, keeps=True), head=again)
    yield from _whys(board, sawn, step, width)
    yield blank(1.5, keeps=True)
    yield boxed([(line, False) for said in CAUTIONS for line in broken(said, PLAIN, width - 5.0)], width)


def _first_edge(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> Band:
    edge, spring = sawn.question.practice.board_edge, board.board.spring
    why = f" ({show(edge)} and the spring of {show(spring)})" if spring else ""
    said = f"First straighten the sprung edge: {show(board.first_edge, step)} off{why}."
    return paragraph(said, width, bold=True, keeps=True)


def _whys(board: RippedBoard, sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    """Why a stick is as long and the strips as wide as they are, on one line if that has room; the faults."""
    long, wide = stick_words(_example(board), sawn, step), width_words(board, sawn)
    both = f"{long} {wide}"
    for said in (both,) if words_width(both, PLAIN) <= width else (long, wide):
        yield paragraph(said, width, keeps=True)
    if board.board.faults:
        yield paragraph(faults_words(board.board, step), width, keeps=True)


def _example(board: RippedBoard) -> Stick:
    """The stick whose length is explained: the first with the most members."""
    return max(board.sticks, key=lambda stick: len(stick.members))
