"""The cutting list as it lies by the saw: a line a length, section by section.

Thick before thin, wide before narrow, long before short: the fence is set once for a section, the stop moves
one way, and what is spoiled in a long piece makes a shorter one.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.pages.bands import (
    LARGE,
    LONGEST,
    PAD,
    TICK,
    WIDEST,
    Band,
    Column,
    blank,
    gathered,
    heading,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.marks_list import Marked, shared_rows
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.setting_out import CutLine, Rods, cutting_list

TITLE = "Cutting list"
MM3_IN_M3 = Mm(10**9)


def cut_list(rods: Rods, job: Job, shop: Shop) -> tuple[Content, ...]:
    """The pages of the cutting list."""
    space = body(shop.papers.size, true_scale=False)
    width = space.right - space.left
    bands = (*_top(job, width), *_sections(rods, job, shop, width))
    content = Content(title=TITLE, document_type="Cutting list", marks=())
    return pages_like(content, gathered(bands, space, space))


def _top(job: Job, width: float) -> Iterator[Band]:
    yield heading(TITLE, width, 7.0)
    yield paragraph(
        f"{job.timber.name}. Finished sizes, tenons included. Wide before narrow, long before short.",
        width,
    )
    yield blank(3.0)


def columns(width: float, step: Mm) -> tuple[Column, ...]:
    """The columns of a cutting list of that width."""
    longest, widest = show_fixed(LONGEST, step), show_fixed(WIDEST, step)
    fixed = (
        number_column("pieces", 17.0, LARGE, bold=True),
        number_column("length", 29.7, LARGE, bold=True, longest=longest),
        number_column("width", 16.5, longest=widest),
        number_column("thick", 13.5, longest=widest),
        number_column("beads", 13.0),
    )
    tick = 2 * PAD + LARGE
    marks = width - tick - sum(column.width for column in fixed)
    return (*fixed, Column("marks", marks, LARGE), Column("", tick))


def _sections(rods: Rods, job: Job, shop: Shop, width: float) -> Iterator[Band]:
    quantities = {member.name: rod.frame.quantity for rod in rods.rods for member in rod.members}
    table = columns(width, shop.practice.resolution)
    lines = cutting_list(rods)
    for _, section in groupby(lines, key=lambda line: (line.thickness, line.width, line.beads)):
        yield from _section(tuple(section), quantities, table, shop.practice.resolution)
    yield _totals(f"All of it, {job.timber.name}", lines, width)


def _section(
    lines: Sequence[CutLine], quantities: Mapping[str, int], table: Sequence[Column], step: Mm
) -> Iterator[Band]:
    name = section_name(lines[0])
    width = sum(column.width for column in table)
    head = table_head(table)
    yield heading(name, width)
    yield head
    again = (heading(f"{name}, continued", width), head)
    rows = [
        table_row(table, cells, again) for line in lines for cells in _rows(line, quantities, table, step)
    ]
    yield from rows[:-1]
    yield replace(rows[-1], keeps=True)
    yield blank(1.0, keeps=True)
    yield _totals("Together", lines, width)
    yield blank(4.0)


def section_name(line: CutLine) -> str:
    """What a section is called: `45 × 22, one bead`."""
    beads = {0: "square", 1: "one bead", 2: "two beads"}[line.beads]
    return f"{show(line.width)} × {show(line.thickness)}, {beads}"


def _rows(
    line: CutLine, quantities: Mapping[str, int], table: Sequence[Column], step: Mm
) -> Iterator[tuple[str, ...]]:
    """A line of the list as one row; or as several, each with its own pieces, if it has very many marks."""
    sizes = [show_fixed(size, step) for size in (line.length, line.width, line.thickness)]
    marks = [Marked(name, quantities[name]) for name in line.members]
    for pieces, names in shared_rows(marks, table[-2]):
        yield str(pieces), *sizes, str(line.beads), names, TICK


def _totals(name: str, lines: Sequence[CutLine], width: float) -> Band:
    """What lines come to: pieces, metres and cubic metres of finished wood."""
    pieces = sum(line.quantity for line in lines)
    metres = sum((line.length * line.quantity for line in lines), Mm(0)) / 1000
    volume = sum((line.length * line.width * line.thickness * line.quantity for line in lines), Mm(0))
    said = (
        f"{name}: {pieces} {'piece' if pieces == 1 else 'pieces'}, {show_fixed(metres)} m, "
        f"{show_fixed(volume / MM3_IN_M3, Mm('0.0001'))} m³ finished"
    )
    return paragraph(said, width, bold=True)
