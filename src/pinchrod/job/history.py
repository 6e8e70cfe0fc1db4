"""What a merchant sent before: a list in the rack's form, and whether it is of the offer at all."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Problem, Span, Where, quoted
from pinchrod.job.board_list import Entry, read_boards, told
from pinchrod.job.boards import Board
from pinchrod.job.names import plain
from pinchrod.job.offers import Offer
from pinchrod.job.said import Reading
from pinchrod.job.source import Source

# A sawn board may be a little over or under what it is sold as, and is tallied as it is. Our own choice,
# wider than the -1/+3 and -2/+6 mm of sawn softwood (BS 4471:1978, superseded, as a web page gives it).
SLACK = {"thickness": Mm(6), "width": Mm(10), "length": Mm(150)}


def read_history(source: Source) -> Reading[tuple[Board, ...]]:
    """The boards of past deliveries, of whatever thickness. A chalked name may come again in a later one."""
    read = yield from read_boards(source, "the history")
    yield from _check_twice(read.entries)
    return tuple(entry.board for entry in read.entries)


def _check_twice(entries: Sequence[Entry]) -> Iterator[Problem]:
    """Rows that say one board twice over: name, sizes and faults."""
    first: dict[tuple[object, ...], Where] = {}
    for entry in entries:
        board = entry.board
        same = (plain(board.name), board.thickness, board.width, board.length, board.faults)
        where = entry.row.said["board"].at
        if same in first:
            what = f"the board {quoted(board.name)} of the same size stands already at {first[same]}"
            mend = "take one of the two rows out, if one board was tallied twice"
            yield told(entry, "board", "history-twice", what, mend)
        first.setdefault(same, where)


def check_like(offer: Offer, where: Where) -> Iterator[Problem]:
    """A history of which most is not of the offer's sizes: another offer's file, or sizes typed wrong."""
    unlike = [board for board in offer.history if not _like(board, offer)]
    if 2 * len(unlike) > len(offer.history):
        what = (
            f"{len(unlike)} of the {len(offer.history)} boards in the history are not of this offer's sizes,"
            f" first {quoted(unlike[0].name)} at {unlike[0].where}"
        )
        mend = "look whether it is the right file, and whether the offer's sizes are right"
        yield Problem(where=where, code="history-unlike", what=what, mend=mend, stops=False)


def _like(board: Board, offer: Offer) -> bool:
    """Whether a board may have been sold under the offer."""
    sold = Span(offer.thickness, offer.thickness)
    return (
        _within(board.thickness, sold, SLACK["thickness"])
        and _within(board.width, offer.width, SLACK["width"])
        and _within(board.length, offer.length, SLACK["length"])
    )


def _within(size: Mm, sold: Span, slack: Mm) -> bool:
    return sold.low - slack <= size <= sold.high + slack
