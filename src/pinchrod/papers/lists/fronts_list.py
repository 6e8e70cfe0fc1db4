"""The list of what stands in the openings: doors and their parts, drawer fronts, fixed panels."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.job import Job, Kind, Shop
from pinchrod.papers.pages.bands import (
    LARGE,
    LONGEST,
    PAD,
    TICK,
    Band,
    Column,
    blank,
    gathered,
    heading,
    narrowed,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.marks_list import Marked, shared_rows
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.setting_out import DoorPart, DoorPartRole, Front, Rods

TITLE = "Fronts and panels"
FRONTS = {Kind.PAIR: "leaf", Kind.DRAWER: "drawer"}
PARTS = {
    DoorPartRole.LEFT_STILE: "stile",
    DoorPartRole.RIGHT_STILE: "stile",
    DoorPartRole.TOP_RAIL: "rail",
    DoorPartRole.BOTTOM_RAIL: "rail",
    DoorPartRole.PANEL: "panel",
}


class Sort(NamedTuple):
    """What alike things share: their sizes, what they are, and what else is said of them."""

    sizes: tuple[Mm, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Alike things."""

    sort: Sort
    marks: tuple[Marked, ...]

    @property
    def pieces(self) -> int:
        """How many there are of them."""
        return sum(marked.quantity for marked in self.marks)


@dataclass(frozen=True, slots=True)
class Table:
    """A table of alike things: its name, a line under it, and the columns between pieces and marks."""

    name: str
    note: str
    columns: tuple[Column, ...]
    groups: tuple[Group, ...]


def fronts_list(rods: Rods, job: Job, shop: Shop) -> tuple[Content, ...]:
    """The pages of the list of fronts; none if all openings stay open.

    Parts have long marks and many alike: they have pages of their own, lying ones if these are fewer.
    """
    step = shop.practice.resolution
    whole, parts = (_fronts(rods, job, step), _panels(rods, step)), (_parts(rods, step),)
    ways = [_pages(parts, shop, landscape=landscape) for landscape in (False, True)]
    pages = (*_pages(whole, shop), *min(ways, key=len))
    return tuple(replace(page, continued=place > 0) for place, page in enumerate(pages))


def _pages(tables: Iterable[Table], shop: Shop, *, landscape: bool = False) -> tuple[Content, ...]:
    """The pages of those of the tables that have anything in them."""
    space = body(shop.papers.size, landscape=landscape, true_scale=False)
    width, step = space.right - space.left, shop.practice.resolution
    bands = [band for table in tables if table.groups for band in _bands(table, step, width)]
    content = Content(title=TITLE, document_type="Fronts list", marks=(), landscape=landscape)
    return pages_like(content, gathered((heading(TITLE, width, 7.0), *bands), space, space)) if bands else ()


def _size(head: str, step: Mm) -> Column:
    return number_column(head, 29.7, LARGE, bold=True, longest=show_fixed(LONGEST, step))


def _small(head: str, width: float, step: Mm) -> Column:
    return number_column(head, width, longest=show_fixed(LONGEST, step))


def _fronts(rods: Rods, job: Job, step: Mm) -> Table:
    found = (
        (_front_sort(front, step), Marked(front.name, rod.frame.quantity))
        for rod in rods.rods
        for front in rod.fronts
    )
    gaps = (
        f"gaps of {show(job.gaps.edge, step)} at the edges, {show(job.gaps.meeting, step)} where leaves meet"
    )
    return Table(
        name=f"Doors and drawer fronts, {show(job.front_thickness, step)} thick",
        note=f"Finished sizes, with {gaps}. Centres: of hinges, from the lower end.",
        columns=(
            _size("width", step),
            _size("height", step),
            Column("what, hung", 28.5),
            _small("centres", 21.6, step),
        ),
        groups=_grouped(found),
    )


def _front_sort(front: Front, step: Mm) -> Sort:
    kind = FRONTS.get(front.kind, front.kind.value)
    what = f"{kind}, {front.hung}" if front.hung else kind
    centres = "\n".join(show(centre, step) for centre in front.hinges)
    hinges = f"\n{len(front.hinges)} hinges" if front.hinges else ""
    return Sort((front.width, front.height), (f"{what}{hinges}", centres))


def _parts(rods: Rods, step: Mm) -> Table:
    found = (
        (_part_sort(part), Marked(part.name, rod.frame.quantity))
        for rod in rods.rods
        for front in rod.fronts
        for part in front.parts
    )
    return Table(
        name="Parts of five-piece doors",
        note="A rail's length includes its stub tenons. A panel's length runs with its grain.",
        columns=(
            _size("length", step),
            _size("width", step),
            _small("thick", 13.5, step),
            Column("what", 16.6),
        ),
        groups=_grouped(found),
    )


def _part_sort(part: DoorPart) -> Sort:
    return Sort((part.length, part.width, part.thickness), (PARTS[part.role],))


def _panels(rods: Rods, step: Mm) -> Table:
    found = (
        (Sort((opening.x.length, opening.y.length), ()), Marked(opening.name, rod.frame.quantity))
        for rod in rods.rods
        for opening in rod.openings
        if opening.kind is Kind.PANEL
    )
    return Table(
        name="Fixed panels",
        note="The sight size of the opening. Add what the panel needs behind the frame.",
        columns=(_size("width", step), _size("height", step)),
        groups=_grouped(found),
    )


def _grouped(found: Iterable[tuple[Sort, Marked]]) -> tuple[Group, ...]:
    """Alike things together, in the order of their groups."""
    groups: dict[Sort, list[Marked]] = defaultdict(list)
    for sort, marked in found:
        groups[sort].append(marked)
    return tuple(Group(sort, tuple(groups[sort])) for sort in sorted(groups, key=_order))


def _order(sort: Sort) -> tuple[object, ...]:
    """Thick before thin and wide before narrow for parts; fronts by what they are, then by width."""
    if len(sort.sizes) == 3:
        length, width, thickness = sort.sizes
        return -thickness, -width, -length, sort.said
    what = "".join(sort.said[:1]).split("\n")[0]
    return what, *(-size for size in sort.sizes), sort.said


def _bands(table: Table, step: Mm, width: float) -> Iterator[Band]:
    columns = _columns(table, width, step)
    head = table_head(columns)
    total = sum(group.pieces for group in table.groups)
    yield heading(f"{table.name}: {total}", width)
    yield paragraph(table.note, width, keeps=True)
    yield blank(1.5, keeps=True)
    yield head
    again = (heading(f"{table.name}, continued", width), head)
    for group in table.groups:
        for pieces, marks in shared_rows(group.marks, columns[-2]):
            yield table_row(columns, (str(pieces), *_cells(group, step), marks, TICK), again)
    yield blank(4.0)


def _cells(group: Group, step: Mm) -> tuple[str, ...]:
    return (*(show_fixed(size, step) for size in group.sort.sizes), *group.sort.said)


def _columns(table: Table, width: float, step: Mm) -> tuple[Column, ...]:
    """The table's columns: each no wider than what is in it, all the rest for the marks."""
    pieces = number_column("pieces", 17.0, LARGE, bold=True)
    rows = [(str(group.pieces), *_cells(group, step)) for group in table.groups]
    fixed = [
        narrowed(column, cells)
        for column, cells in zip((pieces, *table.columns), zip(*rows, strict=True), strict=True)
    ]
    tick = 2 * PAD + LARGE
    marks = width - tick - sum(column.width for column in fixed)
    return (*fixed, Column("marks", marks, LARGE), Column("", tick))
