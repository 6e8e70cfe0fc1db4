"""What is wrong or doubtful with the boards of a rack for the job in hand, each told at its cell.

A board that gives no stick is a doubt: it stays on the rack. But a slip of the pen may have made it so.
"""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Problem, Span, Where, quoted, show
from pinchrod.job.board_list import Entry, read_name, told
from pinchrod.job.boards import Board
from pinchrod.job.names import plain
from pinchrod.job.said import gathered
from pinchrod.job.shop import Practice
from pinchrod.job.tables.list_file import Rows

LEFT = "it is left on the rack"


def check_twice(rows: Rows) -> Iterator[Problem]:
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


def check_thickness(whole: Where, rows: Rows, entries: Sequence[Entry], least: Mm) -> Iterator[Problem]:
    """Boards too thin to clean up to the job's thickness; where all are, nothing can be cut."""
    thin = [entry for entry in entries if entry.board.thickness < least]
    for entry in thin:
        what = f"{show(entry.board.thickness)} thick is too thin: the job needs {show(least)} with the skim"
        mend = f"{LEFT}; look whether the size is right"
        yield told(entry, "thickness", "board-thin", what, mend)
    if rows and len(thin) == len(rows):
        thickest = max(entry.board.thickness for entry in entries)
        what = (
            f"no board is thick enough: the thickest is {show(thickest)},"
            f" and the job needs {show(least)} with the skim"
        )
        mend = "name a rack of thicker boards, make the job thinner, or take the rack out of [job]"
        yield Problem(where=whole, code="rack-thin", what=what, mend=mend)


def check_straightness(entries: Sequence[Entry], thickness: Mm, practice: Practice) -> Iterator[Problem]:
    """Boards so bowed that no stick long enough for the machines cleans up."""
    for entry in entries:
        longest = entry.board.longest_clean(entry.board.thickness - practice.skim - thickness)
        if longest is not None and longest < practice.shortest_stick <= entry.board.length:
            what = (
                f"a bow of {show(entry.board.bow)} leaves no clean stick: the longest is {show(longest)},"
                f" the shortest that is cut {show(practice.shortest_stick)}"
            )
            mend = f"{LEFT}; look whether the bow is right"
            yield told(entry, "bow", "board-bowed", what, mend)


def check_width(entries: Sequence[Entry], narrowest: Mm, practice: Practice) -> Iterator[Problem]:
    """Boards of which both edges, or spring, leave too little for the narrowest member."""
    least = narrowest + practice.width_allowance + 2 * practice.board_edge
    for entry in entries:
        board = entry.board
        left = f"the narrowest member needs {show(least)} with its allowance and both edges"
        if board.width < least:
            what = f"{show(board.width)} wide is too narrow: {left}"
            yield told(entry, "width", "board-narrow", what, f"{LEFT}; look whether the width is right")
        elif board.width - board.spring < least:
            rest = show(board.width - board.spring)
            what = f"a spring of {show(board.spring)} leaves {rest} of the width: {left}"
            yield told(entry, "spring", "board-sprung", what, f"{LEFT}; look whether the spring is right")


def check_length(entries: Sequence[Entry], shortest: Mm) -> Iterator[Problem]:
    """Boards in which no stretch without a fault over the whole width is as long as the shortest stick."""
    for entry in entries:
        board, longest = entry.board, _longest_clear(entry.board)
        cut = f"the shortest stick that is cut is {show(shortest)}"
        if board.length < shortest:
            what = f"{show(board.length)} long is too short: {cut}"
            yield told(entry, "length", "board-short", what, f"{LEFT}; look whether the length is right")
        elif longest < shortest:
            what = f"the faults over the whole width leave no more than {show(longest)} clear: {cut}"
            yield told(entry, "faults", "board-faulty", what, f"{LEFT}; look whether the faults are right")


def _longest_clear(board: Board) -> Mm:
    """The longest stretch of a board that no fault over its whole width lies in, but for one on the back."""
    longest = start = Mm(0)
    over = [fault for fault in board.faults if not fault.back_only and _whole(fault.across, board.width)]
    for fault in sorted(over, key=lambda fault: fault.along.low):
        longest = max(longest, fault.along.low - start)
        start = max(start, fault.along.high)
    return max(longest, board.length - start)


def _whole(across: Span | None, width: Mm) -> bool:
    return across is None or (across.low == 0 and across.high >= width)
