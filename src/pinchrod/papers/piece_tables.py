"""The numbers of a piece in large type, to be read at the machine."""

from collections.abc import Iterable, Iterator, Sequence

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.papers.bands import LARGE, Band, Column, blank, heading, number_column, table_head, table_row
from pinchrod.papers.lying import at_far_end
from pinchrod.papers.piece_words import end_name
from pinchrod.setting_out import Face, Fixing, Member

NUMBER = 29.0  # mm: room for 1234.5 in large type, and white before it
NONE = "–"


def table_bands(member: Member, width: float, step: Mm, top: Band) -> Iterator[Band]:
    """The tables of a piece: its notches, then all else with a place along it."""
    if member.notches:
        rows = (_notch_row(member, place, step) for place in range(len(member.notches)))
        deep = ", ".join(dict.fromkeys(show(notch.depth, step) for notch in member.notches))
        yield from _table(f"Notches, {deep} deep", _notch_columns(width), rows, top)
    others = tuple(_others(member, step))
    if others:
        name = "Fixings and hinges" if member.hinge_seats else "Fixings"
        yield from _table(name, _other_columns(member, width), others, top)


def _table(
    name: str, columns: Sequence[Column], rows: Iterable[tuple[str, ...]], top: Band
) -> Iterator[Band]:
    width = sum(column.width for column in columns)
    head = table_head(columns)
    yield heading(f"{name}, from the datum end", width, 3.5)
    yield head
    again = (top, head)
    yield from (table_row(columns, cells, again) for cells in rows)
    yield blank(2.5)


def _notch_columns(width: float) -> tuple[Column, ...]:
    numbers = tuple(
        number_column(head, NUMBER, LARGE, bold=True)
        for head in ("mouth from", "mouth to", "floor from", "floor to")
    )
    edge = 16.0
    takes = width - edge - 4 * NUMBER
    return Column("edge", edge), *numbers, Column("takes", takes, LARGE)


def _notch_row(member: Member, place: int, step: Mm) -> tuple[str, ...]:
    notch = member.notches[place]
    ends = (notch.mouth.low, notch.mouth.high, notch.floor.low, notch.floor.high)
    numbers = (show_fixed(end - member.datum, step) for end in ends)
    return notch.edge.value, *numbers, notch.takes


def _other_columns(member: Member, width: float) -> tuple[Column, ...]:
    widths = 59.5, 27.0, 22.0, 20.5, 13.0
    return (
        Column("what", widths[0]),
        number_column("centre", widths[1], LARGE, bold=True),
        number_column(f"from {member.low_edge}", widths[2], LARGE),
        Column("size", widths[3]),
        number_column("deep", widths[4]),
        Column("for", width - sum(widths), LARGE),
    )


def _others(member: Member, step: Mm) -> Iterator[tuple[str, ...]]:
    """A row for every shoulder, then every recess and every hinge seat from the datum end on."""
    for far, at in ((False, member.low_end.tenon), (True, member.length - member.high_end.tenon)):
        if (member.high_end if far else member.low_end).tenon:
            what = f"shoulder, {end_name(member, far=far)} end"
            yield what, show_fixed(at, step), NONE, NONE, NONE, ""
    for fixing in sorted(member.fixings, key=lambda fixing: fixing.at):
        yield _fixing_row(member, fixing, step)
    for seat in sorted(member.hinge_seats, key=lambda seat: (not seat.edge.low, seat.at)):
        what = f"hinge, {seat.edge} edge"
        yield what, show_fixed(seat.at, step), NONE, show(seat.long, step), NONE, seat.front


def _fixing_row(member: Member, fixing: Fixing, step: Mm) -> tuple[str, ...]:
    across = NONE if fixing.face is Face.EDGE else show_fixed(fixing.across, step)
    return (
        f"{fixing.recess}, {_place_words(member, fixing)}",
        show_fixed(fixing.at, step),
        across,
        f"{show(fixing.long, step)} × {show(fixing.wide, step)}",
        show_fixed(fixing.deep, step),
        fixing.to,
    )


def _place_words(member: Member, fixing: Fixing) -> str:
    if fixing.edge is not None:
        return f"{fixing.edge} edge"
    return f"{end_name(member, far=at_far_end(member, fixing))} end"
