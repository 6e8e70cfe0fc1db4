"""The rack: its boards held against the job and the shop's practice, and each at its price."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pinchrod.ground import Mm, Problem, Where, quoted, rounded, show
from pinchrod.job.board_list import Entry, read_boards, read_name, told
from pinchrod.job.boards import Board
from pinchrod.job.names import plain
from pinchrod.job.said import Reading, gathered
from pinchrod.job.shop import Practice
from pinchrod.job.source import Source
from pinchrod.job.tables.list_file import Rows

CENT = Mm("0.01")


def by_volume(boards: Sequence[Board]) -> bool:
    """Whether the rack has no prices, so that a board counts for what it measures."""
    return bool(boards) and all(board.price == board.volume for board in boards)


def read_rack(source: Source, thickness: Mm, practice: Practice) -> Reading[tuple[Board, ...]]:
    """The boards of the rack that can be read, held against the job's thickness and the shop's practice."""
    read = yield from read_boards(source, "the rack")
    yield from _check_twice(read.rows)
    yield from _check_thickness(source.whole, read.rows, read.entries, thickness + practice.skim)
    yield from _check_bow(read.entries, thickness, practice)
    return (yield from _priced(read.entries))


def _check_twice(rows: Rows) -> Iterator[Problem]:
    """A name that stands twice: one board tallied twice, or two that cannot be told apart."""
    first: dict[str, Where] = {}
    for place, row in rows:
        name, _ = gathered(read_name(place, row))
        if name is None:
            continue
        where = row.said["board"].at.called(name)
        if plain(name) in first:
            what = f"the board {quoted(name)} stands already at {first[plain(name)]}"
            mend = "take one of the two rows out, or give one board another name"
            yield Problem(where=where, code="board-twice", what=what, mend=mend)
        first.setdefault(plain(name), where)


def _check_thickness(whole: Where, rows: Rows, entries: Sequence[Entry], least: Mm) -> Iterator[Problem]:
    """Boards too thin to clean up to the job's thickness; where all are, nothing can be cut."""
    thin = [entry for entry in entries if entry.board.thickness < least]
    for entry in thin:
        what = f"{show(entry.board.thickness)} thick is too thin: the job needs {show(least)} with the skim"
        mend = "it is left on the rack; look whether the size is right"
        yield told(entry, "thickness", "board-thin", what, mend)
    if rows and len(thin) == len(rows):
        thickest = max(entry.board.thickness for entry in entries)
        what = (
            f"no board is thick enough: the thickest is {show(thickest)},"
            f" and the job needs {show(least)} with the skim"
        )
        mend = "name a rack of thicker boards, make the job thinner, or take the rack out of [job]"
        yield Problem(where=whole, code="rack-thin", what=what, mend=mend)


def _check_bow(entries: Sequence[Entry], thickness: Mm, practice: Practice) -> Iterator[Problem]:
    """Boards so bowed that no stick long enough for the machines cleans up."""
    for entry in entries:
        longest = entry.board.longest_clean(entry.board.thickness - practice.skim - thickness)
        if longest is not None and longest < practice.shortest_stick:
            what = (
                f"a bow of {show(entry.board.bow)} leaves no clean stick: the longest is {show(longest)},"
                f" the shortest that is cut {show(practice.shortest_stick)}"
            )
            mend = "it is left on the rack; look whether the bow is right"
            yield told(entry, "bow", "board-bowed", what, mend)


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
