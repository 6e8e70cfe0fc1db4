"""The rack: a list of boards, each read and checked, with every problem at its cell."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, Problem, Where, quoted, rounded, show
from pinchrod.job.board_faults import FaultSaid, check_on_board, faults_said
from pinchrod.job.boards import Board
from pinchrod.job.fields import words
from pinchrod.job.found import missing
from pinchrod.job.limits import MOST_BOARDS, MOST_NAME, RACK_SIZES
from pinchrod.job.names import plain
from pinchrod.job.said import Number, Reading, Said, Table, gathered
from pinchrod.job.shop import Practice
from pinchrod.job.sizes import length, number
from pinchrod.job.source import Source
from pinchrod.job.tables.header import Sort
from pinchrod.job.tables.list_file import Rows, read_list

NEEDED = ("board", "thickness", "width", "length")
BOARDS = Sort(
    one="board",
    keys=(*NEEDED, "bow", "spring", "price", "faults"),
    needed=NEEDED,
    words=("board", "faults"),
    lengths=("thickness", "width", "length", "bow", "spring"),
    code="no-boards",
    filled=NEEDED[1:],
)
EXAMPLES = {"thickness": "27", "width": "160", "length": "3000"}
CENT = Mm("0.01")
PRICE = re.compile(r"[0-9]{1,9}(\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class Entry:
    """A row of the rack and the board it says."""

    row: Table
    board: Board


def by_volume(boards: Sequence[Board]) -> bool:
    """Whether the rack has no prices, so that a board counts for what it measures."""
    return bool(boards) and all(board.price == board.volume for board in boards)


def read_rack(source: Source, thickness: Mm, practice: Practice) -> Reading[tuple[Board, ...]]:
    """The boards of the rack that can be read, held against the job's thickness and the shop's practice."""
    rows = yield from read_list(source, BOARDS)
    if len(rows) > MOST_BOARDS:
        what = f"the rack has {len(rows)} boards; at most {MOST_BOARDS} are read"
        yield Problem(
            where=source.whole, code="boards-many", what=what, mend="leave out what this job will not use"
        )
        return ()
    read = []
    for place, row in rows:
        read.append((yield from _entry(place, row)))
    entries = tuple(entry for entry in read if entry is not None)
    yield from _check_twice(rows)
    yield from _check_thickness(source.whole, rows, entries, thickness + practice.skim)
    yield from _check_bow(entries, thickness, practice)
    return (yield from _priced(entries))


def _entry(place: Said, row: Table) -> Reading[Entry | None]:
    """A row as a board, or None if a part of it is at fault."""
    name = yield from _name(place, row)
    place, row = place.called(name or ""), row.called(name or "")
    sizes: dict[str, Mm | None] = {}
    for key in BOARDS.lengths:
        sizes[key] = yield from _size(place, row, key)
    price = row.get("price")
    cost = None if price is None else (yield from number(_unquoted(price), "price", RACK_SIZES["price"]))
    faults = yield from _faults(row, sizes["length"], sizes["width"])
    if name is None or faults is None or None in sizes.values() or (price is not None and cost is None):
        return None
    given = {key: size for key, size in sizes.items() if size is not None}
    return Entry(
        row,
        Board(
            name=name,
            price=Mm(0) if cost is None else cost,
            faults=tuple(one.fault for one in faults),
            where=place.at,
            **given,
        ),
    )


def _name(place: Said, row: Table) -> Reading[str | None]:
    said = row.get("board")
    if said is None and "board" in row.without:
        return None  # told at the header
    if said is None:
        yield missing(place, "the board's name", 'give it one, such as "B1", and chalk it on the board')
        return None
    return (yield from words(said, "the board's name", MOST_NAME))


def _size(place: Said, row: Table, key: str) -> Reading[Mm | None]:
    said = row.get(key)
    if said is not None:
        return (yield from length(said, key, RACK_SIZES[key]))
    if key not in NEEDED:
        return Mm(0)
    if key not in row.without:  # else told at the header
        yield missing(place, f"the {key}", f"tape the board and write it, such as {EXAMPLES[key]}")
    return None


def _unquoted(said: Said) -> Said:
    """A price in a text list, where every number is words."""
    found = str(said.value).replace(",", ".") if said.decimal_comma else str(said.value)
    return (
        replace(said, value=Number(found)) if isinstance(said.value, str) and PRICE.fullmatch(found) else said
    )


def _faults(row: Table, long: Mm | None, wide: Mm | None) -> Reading[tuple[FaultSaid, ...] | None]:
    """The faults of a board, or None if one of them is not right."""
    said = row.get("faults")
    if said is None:
        return ()
    faults, problems = gathered(_faults_on_board(said, long, wide))
    yield from problems
    return None if any(problem.stops for problem in problems) else faults


def _faults_on_board(said: Said, long: Mm | None, wide: Mm | None) -> Reading[tuple[FaultSaid, ...]]:
    text = yield from words(said, "faults")
    faults = () if text is None else (yield from faults_said(said))
    if long is not None and wide is not None:
        yield from check_on_board(said, faults, long, wide)
    return faults


def _check_twice(rows: Rows) -> Iterator[Problem]:
    """A name that stands twice: one board tallied twice, or two that cannot be told apart."""
    first: dict[str, Where] = {}
    for place, row in rows:
        name, _ = gathered(_name(place, row))
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
        yield _told(entry, "thickness", "board-thin", what, mend)
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
            yield _told(entry, "bow", "board-bowed", what, mend)


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
                yield _told(
                    entry, "board", "price-missing", what, "write its price, if that is not near enough"
                )
        boards.append(board)
    return tuple(boards)


def _told(entry: Entry, column: str, code: str, what: str, mend: str) -> Problem:
    where = entry.row.said[column].at
    return Problem(where=where, code=code, what=what, mend=mend, stops=False)
