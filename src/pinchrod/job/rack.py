"""The rack: its boards held against the job and the shop's practice, and each at its price."""

from collections.abc import Sequence
from dataclasses import replace

from pinchrod.ground import Mm, rounded, show
from pinchrod.job.board_list import Entry, read_boards, told
from pinchrod.job.boards import Board
from pinchrod.job.rack_checks import (
    check_length,
    check_straightness,
    check_thickness,
    check_twice,
    check_width,
)
from pinchrod.job.said import Reading
from pinchrod.job.shop import Practice
from pinchrod.job.source import Source

CENT = Mm("0.01")


def by_volume(boards: Sequence[Board]) -> bool:
    """Whether the rack has no prices, so that a board counts for what it measures."""
    return bool(boards) and all(board.price == board.volume for board in boards)


def read_rack(source: Source, thickness: Mm, narrowest: Mm, practice: Practice) -> Reading[tuple[Board, ...]]:
    """The boards of the rack that can be read, held against the job's members and the shop's practice."""
    read = yield from read_boards(source, "the rack")
    yield from check_twice(read.rows)
    yield from check_thickness(source.whole, read.rows, read.entries, thickness + practice.skim)
    yield from check_straightness(read.entries, thickness, practice)
    yield from check_width(read.entries, narrowest, practice)
    yield from check_length(read.entries, practice.shortest_stick)
    return (yield from _priced(read.entries))


def _priced(entries: Sequence[Entry]) -> Reading[tuple[Board, ...]]:
    """The boards, those without a price at what the others cost for their volume; without any, by volume."""
    priced = [entry.board for entry in entries if entry.row.get("price") is not None]
    volume = sum((board.volume for board in priced), Mm(0))
    rate = sum((board.price for board in priced), Mm(0)) / volume if priced else Mm(1)
    boards = []
    for entry in entries:
        board = entry.board
        if entry.row.get("price") is None:
            cost = rounded(rate * board.volume, CENT) if priced else board.volume
            board = replace(board, price=cost)
            if priced:
                what = (
                    f"the board has no price; by the others' price for their volume it is {show(cost, CENT)}"
                )
                yield told(
                    entry, "board", "price-missing", what, "write its price, if that is not near enough"
                )
        boards.append(board)
    return tuple(boards)
