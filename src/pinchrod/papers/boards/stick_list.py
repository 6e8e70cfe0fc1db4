"""The list for the crosscut saw: every stick, in the order in which strips come from the rip saw."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Shop
from pinchrod.papers.boards.board_words import CROSSCUTTING, WHO_DECIDES, many
from pinchrod.papers.boards.sawn import Sawn
from pinchrod.papers.pages.bands import (
    LARGE,
    PAD,
    PLAIN,
    TICK,
    Band,
    Column,
    blank,
    boxed,
    broken,
    gathered,
    heading,
    narrowed,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.timber import RippedBoard, Stick

TITLE = "Stick list"
HOW = (
    "From and to: along the board from its datum end. Write each stick's mark on its face. Its members lie in"
    " this order,"
)


def stick_list(sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """The pages of the stick list; they lie across, to have room for members."""
    space = body(shop.papers.size, landscape=True, true_scale=False)
    content = Content(title=TITLE, document_type="Stick list", marks=(), landscape=True)
    bands = _bands(sawn, shop.practice.resolution, space.right - space.left)
    return pages_like(content, gathered(bands, space, space))


def _bands(sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    rows = tuple(_row(sawn, found, step) for found in sawn.sticks())
    columns = _columns(rows, width)
    practice = sawn.question.practice
    members = sum(len(stick.members) for stick in sawn.breakout.sticks)
    yield heading(TITLE, width, 7.0)
    counted = f"{many(len(rows), 'stick')} for {many(members, 'member')}."
    left = f"with {show(practice.stick_end)} left on both ends"
    yield paragraph(f"{counted} {HOW} {left}; they are cut to length when planed and beaded.", width)
    yield blank(1.5)
    cautions = (CROSSCUTTING, WHO_DECIDES)
    yield boxed([(line, False) for said in cautions for line in broken(said, PLAIN, width - 5.0)], width)
    yield blank(2.0)
    head = table_head(columns)
    yield head
    again = (heading(f"{TITLE}, continued", width), head)
    for row in rows:
        yield table_row(columns, row, again)


def _columns(rows: Sequence[tuple[str, ...]], width: float) -> tuple[Column, ...]:
    wanted = (
        Column("stick", 30.0, LARGE, bold=True),
        Column("board", 40.0, LARGE),
        number_column("rip", 12.0, LARGE),
        number_column("from", 40.0, LARGE),
        number_column("to", 40.0, LARGE),
        number_column("length", 40.0, LARGE, bold=True),
        Column("rough", 40.0),
        Column("finished", 40.0),
    )
    fixed = [narrowed(column, cells) for column, cells in zip(wanted, zip(*rows, strict=True), strict=False)]
    tick = 2 * PAD + LARGE
    members = width - tick - sum(column.width for column in fixed)
    return (*fixed, Column("members, from the datum end", members, LARGE), Column("", tick))


def _row(sawn: Sawn, found: tuple[RippedBoard, int, Stick], step: Mm) -> tuple[str, ...]:
    board, rip, stick = found
    sizes = (show_fixed(size, step) for size in (stick.start, stick.start + stick.length, stick.length))
    first = sawn.wanted[stick.members[0]]
    rough, finished = (
        f"{show(width, step)} × {show(thick, step)}"
        for width, thick in ((stick.width, stick.thickness), (first.width, first.thickness))
    )
    members = ", ".join(stick.members)
    return stick.name, board.board.name, str(rip), *sizes, rough, finished, members, TICK
