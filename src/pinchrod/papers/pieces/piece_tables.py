"""The numbers of a piece in large type, to be read at the machine."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.papers.pages.bands import (
    LARGE,
    LOW_ROW,
    WIDEST,
    Band,
    Column,
    blank,
    number_column,
    table_head,
    table_row,
)
from pinchrod.papers.pieces.lying import Lying, at_far_end
from pinchrod.papers.pieces.piece_words import end_name
from pinchrod.setting_out import Face, Fixing, Member, Recess

NUMBER = 30.2  # mm: room for 1234.5 in large type, and white before it
NONE = "–"
SHORT = {Recess.DOWEL_HOLE: "dowel"}


def table_bands(lying: Lying, width: float, step: Mm, top: Band, row: float = LOW_ROW) -> Iterator[Band]:
    """The tables of a piece: its notches, then all else with a place along it; in rows so high."""
    member = lying.member
    if member.notches:
        rows = (_notch_row(member, place, step) for place in range(len(member.notches)))
        yield from _table(_notch_columns(member, width, step), rows, top, row)
    others = (*_shoulders(lying, step), *_others(member, step))
    if others:
        yield from _table(_other_columns(member, width, step), others, top, row)


def _table(
    columns: Sequence[Column], rows: Iterable[tuple[str, ...]], top: Band, row: float
) -> Iterator[Band]:
    head = table_head(columns)
    again = (top, head)
    yield replace(head, head=(top,))
    yield from (table_row(columns, cells, again, row) for cells in rows)
    yield blank(2.5)


def _notch_columns(member: Member, width: float, step: Mm) -> tuple[Column, ...]:
    mouth = tuple(number_column(f"mouth {end}", NUMBER, LARGE, bold=True) for end in ("from", "to"))
    floor = tuple(number_column(f"floor {end}", NUMBER, LARGE) for end in ("from", "to"))
    deep = ", ".join(dict.fromkeys(show(notch.depth, step) for notch in member.notches))
    edge = Column("notches", 18.0)
    takes = width - edge.width - 4 * NUMBER
    return edge, *mouth, *floor, Column(f"{deep} deep, for", takes, LARGE)


def _notch_row(member: Member, place: int, step: Mm) -> tuple[str, ...]:
    notch = member.notches[place]
    ends = (notch.mouth.low, notch.mouth.high, notch.floor.low, notch.floor.high)
    numbers = (show_fixed(end - member.datum, step) for end in ends)
    return notch.edge.value, *numbers, notch.takes


def _other_columns(member: Member, width: float, step: Mm) -> tuple[Column, ...]:
    fixed = (
        Column("hinges and fixings" if member.hinge_seats else "fixings", 44.0),
        number_column("centre", NUMBER, LARGE, bold=True),
        number_column(f"from {member.low_edge}", 23.0, LARGE),
        Column("size", 29.0),
        number_column("deep", 13.0, longest=show_fixed(WIDEST, step)),
    )
    return (*fixed, Column("for", width - sum(column.width for column in fixed), LARGE))


def _shoulders(lying: Lying, step: Mm) -> Iterator[tuple[str, ...]]:
    """A row for the shoulder of each tenon, with the tenon's own place across the piece and its size."""
    member = lying.member
    near, far = lying.tenons
    for tenon, end in ((near, member.low_end), (far, member.high_end)):
        if tenon:
            at = member.length - tenon.long if tenon is far else tenon.long
            size = f"{show(tenon.across.length, step)} × {show(tenon.thick, step)}"
            across, long = show_fixed(tenon.across.middle, step), show_fixed(tenon.long, step)
            what = f"{end_name(member, far=tenon is far)} shoulder"
            yield what, show_fixed(at, step), across, size, long, end.meets


def _others(member: Member, step: Mm) -> Iterator[tuple[str, ...]]:
    """A row for every recess and every hinge seat, each from the datum end on."""
    for fixing in sorted(member.fixings, key=lambda fixing: fixing.at):
        yield _fixing_row(member, fixing, step)
    for seat in sorted(member.hinge_seats, key=lambda seat: (not seat.edge.low, seat.at)):
        what = f"hinge, {seat.edge}"
        yield what, show_fixed(seat.at, step), NONE, show(seat.long, step), NONE, seat.front


def _fixing_row(member: Member, fixing: Fixing, step: Mm) -> tuple[str, ...]:
    across = NONE if fixing.face is Face.EDGE else show_fixed(fixing.across, step)
    return (
        f"{SHORT.get(fixing.recess, fixing.recess)}, {_place_words(member, fixing)}",
        show_fixed(fixing.at, step),
        across,
        f"{show(fixing.long, step)} × {show(fixing.wide, step)}",
        show_fixed(fixing.deep, step),
        fixing.to,
    )


def _place_words(member: Member, fixing: Fixing) -> str:
    """The edge or end a recess is in; no piece has an edge and an end of one name."""
    return str(fixing.edge or end_name(member, far=at_far_end(member, fixing)))
