"""The table on a board's page: its rips in order from the sprung edge, and the sticks of each."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.papers.boards.rip_list import place_words
from pinchrod.papers.pages.bands import (
    LARGE,
    PAD,
    TICK,
    Band,
    Column,
    narrowed,
    number_column,
    table_head,
    table_row,
)
from pinchrod.timber import Offcut, RippedBoard, Stick


def table_bands(
    sawn: RippedBoard, kept: Sequence[Offcut], step: Mm, size: tuple[float, float], again: Band
) -> Iterator[Band]:
    """The table, so wide and with rows so high; overleaf its heads stand under the name of the board."""
    width, high = size
    rows = tuple(board_rows(sawn, kept, step))
    columns = _columns(rows, width)
    head = table_head(columns)
    yield head
    for row in rows:
        yield table_row(columns, row, (again, head), high)


def _columns(rows: Sequence[tuple[str, ...]], width: float) -> tuple[Column, ...]:
    wanted = (
        Column("rip", 14.0, LARGE),
        number_column("fence", 30.0, LARGE, bold=True),
        Column("from sprung edge", 60.0),
        Column("stick", 60.0, LARGE, bold=True),
        number_column("from", 40.0, LARGE),
        number_column("to", 40.0, LARGE),
        number_column("length", 40.0, LARGE, bold=True),
    )
    fixed = [narrowed(column, cells) for column, cells in zip(wanted, zip(*rows, strict=True), strict=False)]
    tick = 2 * PAD + LARGE
    members = width - tick - sum(column.width for column in fixed)
    return (*fixed, Column("members, from the datum end", members), Column("", tick))


def board_rows(sawn: RippedBoard, kept: Sequence[Offcut], step: Mm) -> Iterator[tuple[str, ...]]:
    """Rip, fence, place across the board; stick, from, to, length, members; a box to tick."""
    for number, rip in enumerate(sawn.rips, start=1):
        cells = (str(number), show_fixed(rip.fence, step), place_words(rip, step))
        here = [offcut for offcut in kept if rip.band.low <= offcut.across.low < rip.band.high]
        pieces: list[Stick | Offcut] = sorted((*rip.sticks, *here), key=_start)
        for place, piece in enumerate(pieces):
            yield (*(("", "", "") if place else cells), *_piece(piece, step))
        if not pieces:
            yield (*cells, "", "", "", "", "waste", TICK)
    rest = [offcut for offcut in kept if offcut.across.low >= sawn.rest.low]
    for offcut in rest:
        across = f"{show(offcut.across.low, step)}–{show(offcut.across.high, step)}"
        yield ("", "", f"{across}, the rest", *_piece(offcut, step))


def _start(piece: Stick | Offcut) -> Mm:
    return piece.start if isinstance(piece, Stick) else piece.along.low


def _piece(piece: Stick | Offcut, step: Mm) -> tuple[str, ...]:
    """A stick, or an offcut worth keeping: its mark, from where to where, how long, and what it is for."""
    if isinstance(piece, Offcut):
        sizes = (piece.along.low, piece.along.high, piece.along.length)
        return piece.board.name, *(show_fixed(size, step) for size in sizes), "keep for the rack", TICK
    sizes = (piece.start, piece.start + piece.length, piece.length)
    return piece.name, *(show_fixed(size, step) for size in sizes), ", ".join(piece.members), TICK
