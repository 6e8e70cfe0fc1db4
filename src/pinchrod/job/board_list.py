"""A list of boards, each row read as one board, with every problem at its cell."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import Mm, Problem
from pinchrod.job.board_faults import FaultSaid, faults_said, on_board
from pinchrod.job.boards import Board
from pinchrod.job.fields import words
from pinchrod.job.found import missing
from pinchrod.job.limits import MOST_BOARDS, MOST_NAME, RACK_SIZES
from pinchrod.job.quarters import thickness_in
from pinchrod.job.said import Number, Reading, Said, Table, gathered
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
PRICE = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class Entry:
    """A row of the list and the board it says."""

    row: Table
    board: Board


@dataclass(frozen=True, slots=True)
class Tallied:
    """All rows of a list, and an entry for each of them that could be read."""

    rows: Rows
    entries: Sequence[Entry]


def read_boards(source: Source, of: str) -> Reading[Tallied]:
    """The boards of a list that can be read; `of` is what the list is, such as the rack."""
    rows = yield from read_list(source, BOARDS)
    if len(rows) > MOST_BOARDS:
        what = f"{of} has {len(rows)} boards; at most {MOST_BOARDS} are read"
        yield Problem(
            where=source.whole, code="boards-many", what=what, mend="leave out what this job will not use"
        )
        return Tallied((), ())
    read = []
    for place, row in rows:
        read.append((yield from _entry(place, row)))
    return Tallied(rows, tuple(entry for entry in read if entry is not None))


def read_name(place: Said, row: Table) -> Reading[str | None]:
    """The name chalked on the board."""
    said = row.get("board")
    if said is None and "board" in row.without:
        return None  # told at the header
    if said is None:
        yield missing(place, "the board's name", 'give it one, such as "B1", and chalk it on the board')
        return None
    return (yield from words(said, "the board's name", MOST_NAME))


def told(entry: Entry, column: str, code: str, what: str, mend: str) -> Problem:
    """A doubt at one cell of a board's row."""
    where = entry.row.said[column].at
    return Problem(where=where, code=code, what=what, mend=mend, stops=False)


def _entry(place: Said, row: Table) -> Reading[Entry | None]:
    """A row as a board, or None if a part of it is at fault."""
    name = yield from read_name(place, row)
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


def _size(place: Said, row: Table, key: str) -> Reading[Mm | None]:
    said = row.get(key)
    if said is not None and key == "thickness":
        return (yield from thickness_in(said, RACK_SIZES[key]))
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
        return (yield from on_board(said, faults, long, wide))
    return faults
