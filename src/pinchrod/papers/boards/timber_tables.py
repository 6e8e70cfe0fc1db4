"""The boards to fetch from the rack, and the offcuts that go back to it."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import by_volume
from pinchrod.papers.boards.board_words import CENT, size_words
from pinchrod.papers.boards.sawn import Sawn
from pinchrod.papers.pages.bands import (
    LARGE,
    PAD,
    TICK,
    Band,
    Column,
    blank,
    heading,
    narrowed,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.listing import boxes
from pinchrod.timber import Board, Offcut, RippedBoard

SIZE = "length × width × thickness"
WORTH = (
    "Worth keeping is what gives the shortest stick of the narrowest strip of this job. The rack as it then"
    ' stands is in rack-after.csv: name it in the next job, rack = "rack-after.csv".'
)


def fetched(sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    """The boards to fetch from the rack, in the order in which they are ripped."""
    rows = [_board_row(sawn, board, step) for board in sawn.boards]
    name = f"Boards to fetch: {len(rows)}, in the order in which they are ripped"
    heads = ("board", SIZE, "sticks", "yield, %", "price")
    yield from _table(name, heads, rows, width)


def _board_row(sawn: Sawn, board: RippedBoard, step: Mm) -> tuple[str, ...]:
    finished = sum((sawn.wanted[mark].volume for it in board.sticks for mark in it.members), Mm(0))
    share = show_fixed(100 * finished / board.board.volume)
    sticks = str(len(board.sticks))
    return board.board.name, size_words(board.board, step), sticks, share, _price(sawn, board.board), TICK


def left_over(sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    """The offcuts that go back to the rack."""
    yield blank(3.0)
    if not sawn.offcuts and len(sawn.boards) == len(sawn.question.boards):
        yield paragraph("Nothing is left for the rack.", width, LARGE, bold=True)
        return
    if not sawn.offcuts:
        yield heading("No offcut is worth keeping", width)
    else:
        rows = [_offcut_row(sawn, offcut, step) for offcut in sawn.offcuts]
        name = f"Offcuts worth keeping: {len(rows)}"
        yield from _table(name, ("offcut", SIZE, "faults", "bow", "price"), rows, width)
    yield blank(1.0)
    yield from boxes([(WORTH, False)], width)


def _offcut_row(sawn: Sawn, offcut: Offcut, step: Mm) -> tuple[str, ...]:
    board = offcut.board
    faults = str(len(board.faults))
    return board.name, size_words(board, step), faults, show(board.bow, step), _price(sawn, board), TICK


def _price(sawn: Sawn, board: Board) -> str:
    return "" if by_volume(sawn.question.boards) else show_fixed(board.price, CENT)


def _table(name: str, heads: Sequence[str], rows: Sequence[tuple[str, ...]], width: float) -> Iterator[Band]:
    """A table of boards or offcuts; a column with nothing in it is left out."""
    first, size, *numbers = heads
    wanted = (
        Column(first, 70.0, LARGE, bold=True),
        Column(size, 80.0, LARGE),
        *(number_column(head, 26.0, LARGE) for head in numbers),
        Column("", 2 * PAD + LARGE),
    )
    used = [place for place, cells in enumerate(zip(*rows, strict=True)) if any(cells)]
    rows = [tuple(row[place] for place in used) for row in rows]
    columns = [
        column if column.head == "" else narrowed(column, cells)
        for column, cells in zip((wanted[place] for place in used), zip(*rows, strict=True), strict=True)
    ]
    yield heading(name, width)
    head = table_head(columns)
    yield head
    again = (heading(f"{name.partition(':')[0]}, continued", width), head)
    for row in rows:
        yield table_row(columns, row, again)
