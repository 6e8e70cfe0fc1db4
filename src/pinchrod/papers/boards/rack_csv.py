"""The rack as it stands after the job, as a list that a job may name: `rack = "rack-after.csv"`."""

import csv
import io
from collections.abc import Sequence

from pinchrod.ground import Mm, spell
from pinchrod.job import by_volume
from pinchrod.timber import Board, Fault

HEAD = ("board", "thickness", "width", "length", "bow", "spring", "price", "faults")
UNIT = " mm"
LONGEST_CELL = 1000  # letters that the list's reader takes


def rack_csv(boards: Sequence[Board]) -> bytes:
    """The boards as the bytes of a CSV file (RFC 4180), every size to the last fraction.

    Where all boards count for what they measure there are no prices, as in the rack they came from.
    """
    priced = not by_volume(boards)
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEAD)
    writer.writerows(_cells(board, priced=priced) for board in boards)
    return text.getvalue().encode()


def _cells(board: Board, *, priced: bool) -> tuple[str, ...]:
    sizes = (_size(size) for size in (board.thickness, board.width, board.length))
    bent = (_size(size) if size else "" for size in (board.bow, board.spring))
    price = _size(board.price) if priced else ""
    faults = [_fault(fault) for fault in board.faults]
    roomy = "; ".join(faults)
    return board.name, *sizes, *bent, price, roomy if len(roomy) <= LONGEST_CELL else ";".join(faults)


def _size(size: Mm) -> str:
    """The size as the list is read: bare decimals, or, where they have no end, a fraction with its unit."""
    spelled = spell(size)
    return spelled if "/" in spelled else spelled.removesuffix(UNIT)


def _fault(fault: Fault) -> str:
    across = f"@{_size(fault.across.low)}-{_size(fault.across.high)}" if fault.across else ""
    back = " back" if fault.back_only else ""
    return f"{_size(fault.along.low)}-{_size(fault.along.high)}{across}{back}"
