"""The cutting list as a workbook, with every single piece, the fronts, and what the job assumes."""

from collections.abc import Iterable, Iterator

from pinchrod.ground import Mm, Problem, rounded, show, show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.lists.cutting_csv import BETWEEN_MARKS
from pinchrod.papers.pages.identity import about
from pinchrod.papers.pieces.pieces import OnePiece, single_fronts, single_members, single_parts
from pinchrod.papers.writers.workbook import Book, Cell, Column, Row, Table, write_xlsx
from pinchrod.setting_out import CutLine, Front, Rods, cutting_list

LONGEST_CELL = 32_000
"""Letters in one cell: a little less than a workbook's own limit of 32,767."""

SIZES = (Column("length"), Column("width"), Column("thickness"))
BEADS = Column("beads", whole=True)
NAMED = (Column("mark", text=True), Column("frame", text=True))


def cutting_xlsx(rods: Rods, job: Job, shop: Shop) -> bytes:
    """The cutting list as the bytes of a workbook."""
    step = shop.practice.resolution
    tables = (
        _cut_lines(cutting_list(rods), step),
        _members(single_members(rods), step),
        _fronts(single_fronts(rods), step),
        *_door_parts(single_parts(rods), step),
        _about(rods, job, shop),
    )
    return write_xlsx(_book(tables, job, shop))


def _book(tables: tuple[Table, ...], job: Job, shop: Shop) -> Book:
    told = about(job, shop)
    return Book(
        title=f"{job.name}: cutting list",
        foot=" · ".join(filter(None, (job.name, told.revision and f"rev. {told.revision}", told.mark))),
        date=job.issue.date,
        paper=shop.papers.size,
        decimals=show_fixed(Mm(0), shop.practice.resolution),
        tables=tables,
    )


def _sizes(sizes: Iterable[Mm], step: Mm) -> tuple[Cell, ...]:
    return tuple(float(rounded(size, step)) for size in sizes)


def _cut_lines(lines: Iterable[CutLine], step: Mm) -> Table:
    columns = (*SIZES, BEADS, Column("quantity", whole=True), Column("members", text=True))
    return Table(name="Cutting list", columns=columns, rows=tuple(_cut_line(line, step) for line in lines))


def _cut_line(line: CutLine, step: Mm) -> Row:
    sizes = _sizes((line.length, line.width, line.thickness), step)
    return *sizes, line.beads, line.quantity, _marks(line.members)


def _marks(marks: tuple[str, ...]) -> str:
    """The marks in one cell; where they are too many for it, how many more there are."""
    text = BETWEEN_MARKS.join(marks)
    if len(text) <= LONGEST_CELL:
        return text
    kept = text[:LONGEST_CELL].rpartition(BETWEEN_MARKS)[0]
    more = len(marks) - len(kept.split(BETWEEN_MARKS))
    return f"{kept}{BETWEEN_MARKS}and {more} more: see Pieces"


def _members(pieces: Iterable[OnePiece], step: Mm) -> Table:
    columns = (*NAMED, Column("role", text=True), Column("pattern", text=True), *SIZES, BEADS)
    rows = ((it.mark, it.frame, it.role, it.pattern, *_piece_sizes(it, step), it.beads) for it in pieces)
    return Table(name="Pieces", columns=columns, rows=tuple(rows))


def _door_parts(pieces: tuple[OnePiece, ...], step: Mm) -> Iterator[Table]:
    """A table of the parts of five-piece doors, if there are any."""
    columns = (*NAMED, Column("role", text=True), *SIZES)
    rows = tuple((it.mark, it.frame, it.role, *_piece_sizes(it, step)) for it in pieces)
    if rows:
        yield Table(name="Door parts", columns=columns, rows=rows)


def _piece_sizes(piece: OnePiece, step: Mm) -> tuple[Cell, ...]:
    return _sizes((piece.length, piece.width, piece.thickness), step)


def _fronts(pieces: Iterable[OnePiece], step: Mm) -> Table:
    sizes = (Column("width"), Column("height"), Column("thickness"))
    columns = (*NAMED, Column("front", text=True), *sizes, Column("hinges from below", text=True))
    rows = (
        (it.mark, it.frame, it.role, *_front_cells(it.made, step))
        for it in pieces
        if isinstance(it.made, Front)
    )
    return Table(name="Fronts", columns=columns, rows=tuple(rows))


def _front_cells(front: Front, step: Mm) -> Row:
    hinges = BETWEEN_MARKS.join(show(place, step) for place in front.hinges)
    return *_sizes((front.width, front.height, front.thickness), step), hinges


def _about(rods: Rods, job: Job, shop: Shop) -> Table:
    told = about(job, shop)
    facts = (
        ("job", told.job),
        ("customer", told.customer),
        ("number", told.number),
        ("revision", told.revision),
        ("date of issue", told.date),
        ("content mark", told.mark),
        ("timber", job.timber.name),
        ("thickness", f"{show(job.thickness)} mm"),
        ("joint", str(job.joint)),
        ("unit", "mm; a length includes its tenons"),
    )
    assumed = (("assumed", saying) for saying in job.assumed)
    doubts = (("doubtful", _doubt(doubt)) for doubt in rods.doubts)
    columns = (Column("about", text=True), Column("what is said", text=True))
    return Table(name="About", columns=columns, rows=(*facts, *assumed, *doubts))


def _doubt(doubt: Problem) -> str:
    return ": ".join(filter(None, (doubt.where.name, f"{doubt.what}; {doubt.mend}")))
