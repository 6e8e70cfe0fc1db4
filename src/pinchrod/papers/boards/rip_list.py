"""The list for the rip saw: board by board, rip by rip, and where the fence must move."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Shop
from pinchrod.papers.boards.board_words import RIPPING, WHO_DECIDES, many
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
from pinchrod.timber import Rip, RippedBoard, fence_moves

TITLE = "Rip list"
SET = "set"
WASTE = "waste"


def rip_list(sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """The pages of the rip list."""
    space = body(shop.papers.size, true_scale=False)
    content = Content(title=TITLE, document_type="Rip list", marks=())
    bands = _bands(sawn, shop.practice.resolution, space.right - space.left)
    return pages_like(content, gathered(bands, space, space))


def _bands(sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    rows = tuple(_rows(sawn, step))
    columns = _columns(rows, width)
    yield heading(TITLE, width, 7.0)
    for said in _said(sawn):
        yield paragraph(said, width)
    yield blank(1.5)
    cautions = (RIPPING, WHO_DECIDES)
    yield boxed([(line, False) for said in cautions for line in broken(said, PLAIN, width - 5.0)], width)
    yield blank(2.0)
    head = table_head(columns)
    yield head
    again = (heading(f"{TITLE}, continued", width), head)
    for row in rows:
        yield table_row(columns, row, again)


def _said(sawn: Sawn) -> Iterator[str]:
    """How often the fence is set, against the boards as they stand on the rack, and how a board is begun."""
    order = {board.name: place for place, board in enumerate(sawn.question.boards)}
    standing = sorted(sawn.boards, key=lambda board: order[board.board.name])
    rips = sum(len(board.rips) for board in sawn.boards)
    yield (
        f"{many(len(sawn.boards), 'board')}, {many(rips, 'rip')}. The fence is set"
        f" {many(fence_moves(sawn.boards), 'time')}; taking the boards as they stand on the rack it would be"
        f" {fence_moves(standing)}. As long as a board is ripped whole, no order sets it less often."
    )
    yield (
        "First edge: so much comes off the sprung edge, which then runs along the fence. The saw's own cut"
        " comes off beside every strip."
    )


def _columns(rows: Sequence[tuple[str, ...]], width: float) -> tuple[Column, ...]:
    wanted = (
        Column("board", 40.0, LARGE, bold=True),
        number_column("first edge", 24.0, LARGE),
        number_column("rip", 12.0, LARGE),
        Column("fence", 14.0, PLAIN, bold=True),
        number_column("to", 30.0, LARGE, bold=True),
        Column("from sprung edge", 40.0),
    )
    fixed = [narrowed(column, cells) for column, cells in zip(wanted, zip(*rows, strict=True), strict=False)]
    tick = 2 * PAD + LARGE
    gives = width - tick - sum(column.width for column in fixed)
    return (*fixed, Column("gives", gives, LARGE), Column("", tick))


def _rows(sawn: Sawn, step: Mm) -> Iterator[tuple[str, ...]]:
    settings = [rip.fence for board in sawn.boards for rip in board.rips]
    moved = iter(one != other for one, other in pairwise([None, *settings]))
    for board in sawn.boards:
        for number, rip in enumerate(board.rips, start=1):
            first = (board.board.name, show_fixed(board.first_edge, step)) if number == 1 else ("", "")
            fence = (SET if next(moved) else "", show_fixed(rip.fence, step))
            yield (*first, str(number), *fence, place_words(rip, step), gives_words(sawn, board, rip), TICK)


def place_words(rip: Rip, step: Mm) -> str:
    """Where a rip lies across its board, and what has to be trimmed off before it."""
    place = f"{show(rip.band.low, step)}–{show(rip.band.high, step)}"
    return f"{place}, {show(rip.trimmed, step)} trimmed first" if rip.trimmed else place


def gives_words(sawn: Sawn, board: RippedBoard, rip: Rip) -> str:
    """What comes out of a rip: its sticks, and an offcut that it is or that its end is."""
    here = [it for it in sawn.kept_of(board.board) if rip.band.low <= it.across.low < rip.band.high]
    kept = [f"keep {offcut.board.name}" for offcut in here]
    return ", ".join((*(stick.name for stick in rip.sticks), *kept)) or WASTE
