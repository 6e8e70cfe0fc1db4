"""The first page of a pack: what the job is, every doubt and every assumption, and what is where."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Problem, show, show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.frames.frame_page import frame_pages
from pinchrod.papers.lists.cut_list import cut_list
from pinchrod.papers.lists.fronts_list import fronts_list
from pinchrod.papers.marks.sheet import NARROW, Line, Mark, Marks, Sheet, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import (
    PLAIN,
    Band,
    blank,
    boxed,
    broken,
    fitting,
    gathered,
    heading,
    paragraph,
)
from pinchrod.papers.pages.identity import about
from pinchrod.papers.pages.page import Content, bind, body, pages_like
from pinchrod.papers.pieces.piece_page import DOCUMENT as PIECE
from pinchrod.papers.pieces.piece_page import piece_pages
from pinchrod.setting_out import Pattern, Rods, patterns

LABEL = 42.0  # mm from a fact's name to what it is
FACT = 6.2  # mm from fact to fact
ENTRY = 6.0  # mm from line to line of the contents
LEAST_COLUMNS, MOST_COLUMNS = 2, 5  # of the contents
BETWEEN = 6.0  # mm between them
APART = 3.0  # mm at least between a title and its sheet's number
MOST_IN_A_BOX = 10  # lines, so that a long box can go on overleaf
MM3_IN_M3 = Mm(10**9)


def bound_pack(job: Job, shop: Shop, rods: Rods) -> tuple[Sheet, ...]:
    """The sheets of the shop pack: cover, frames, cutting list, fronts, and each distinct member."""
    found = patterns(rods)
    contents = (
        *frame_pages(rods, job, shop, found),
        *cut_list(rods, job, shop),
        *fronts_list(rods, job, shop),
        *piece_pages(found, job, shop),
    )
    return bind((*cover(job, rods, found, contents, shop), *contents), about(job, shop))


def cover(
    job: Job, rods: Rods, found: Sequence[Pattern], contents: Sequence[Content], shop: Shop
) -> tuple[Content, ...]:
    """The cover of a pack of those contents, on as many pages as it needs."""
    pages = _pages(job, rods, found, contents, shop, before=0)
    return pages_like(
        Content(title="Contents and doubts", document_type="Cover", marks=()),
        _pages(job, rods, found, contents, shop, before=len(pages)),
    )


def _pages(
    job: Job, rods: Rods, found: Sequence[Pattern], contents: Sequence[Content], shop: Shop, *, before: int
) -> tuple[Marks, ...]:
    """The cover's pages, where so many of them stand before the first of the contents."""
    space = body(shop.papers.size, true_scale=False)
    width = space.right - space.left
    bands = (
        heading(job.name, width, 7.0),
        *([paragraph(job.customer, width, 5.0)] if job.customer else []),
        blank(3.0),
        *(_fact(name, said, width) for name, said in facts(job, rods, found, shop)),
        blank(3.0),
        *_doubts(rods.doubts, width),
        *_assumed(job.assumed, width),
        *_contents(contents, width, before),
    )
    return gathered(bands, space, space)


def facts(job: Job, rods: Rods, found: Sequence[Pattern], shop: Shop) -> Iterator[tuple[str, str]]:
    """The job in figures: a name and what it comes to, line by line."""
    step = shop.practice.resolution
    frames = sum(rod.frame.quantity for rod in rods.rods)
    pieces = [(pattern.drawn, pattern.quantity) for pattern in found]
    metres = sum((piece.length * number for piece, number in pieces), Mm(0)) / 1000
    volume = sum((piece.length * piece.width * piece.thickness * number for piece, number in pieces), Mm(0))
    yield "Frames", f"{frames}, of {len(rods.rods)} kinds" if frames > len(rods.rods) else str(frames)
    yield "Pieces", f"{sum(pattern.quantity for pattern in found)}, of {len(found)} patterns"
    yield "Finished wood", f"{show_fixed(metres)} m, {show_fixed(volume / MM3_IN_M3, Mm('0.0001'))} m³"
    yield "Timber", f"{job.timber.name}, finished {show(job.thickness, step)} thick"
    yield "Joint", job.joint.value
    yield "Bead", _bead(job, step)
    yield "Gaps", f"{show(job.gaps.edge, step)} at edges, {show(job.gaps.meeting, step)} where leaves meet"
    yield "Fronts", _fronts(job, rods, step)
    yield "Rounded to", f"{show(step, step)} mm, each position once, from the datum end"


def _bead(job: Job, step: Mm) -> str:
    if not job.bead.width:
        return "none: square edges"
    return f"{show(job.bead.width, step)} wide, its quirk of {show(job.bead.quirk, step)} included"


def _fronts(job: Job, rods: Rods, step: Mm) -> str:
    number = sum(len(rod.fronts) * rod.frame.quantity for rod in rods.rods)
    doors = "five-piece doors" if job.doors else "plain doors"
    return f"{number}, {show(job.front_thickness, step)} thick, {doors}"


def _fact(name: str, said: str, width: float) -> Band:
    lines = broken(said, PLAIN, width - LABEL)
    words = (Words(Spot(LABEL, -PLAIN - FACT * place), line) for place, line in enumerate(lines))
    return Band(height=FACT * len(lines), marks=(Words(Spot(0.0, -PLAIN), name, bold=True), *words))


def _doubts(doubts: Sequence[Problem], width: float) -> Iterator[Band]:
    """Every doubt in a box of its own: where, what, and what would settle it."""
    name = {0: "No doubts", 1: "1 doubt, to be settled before wood is cut"}.get(
        len(doubts), f"{len(doubts)} doubts, to be settled before wood is cut"
    )
    yield heading(name, width)
    for doubt in doubts:
        places = [place for place in (doubt.where.name, str(doubt.where)) if place]
        yield from _boxes([(" – ".join(places), True), (f"{doubt.what}; {doubt.mend}", False)], width)
    yield blank(3.0)


def _assumed(assumed: Sequence[str], width: float) -> Iterator[Band]:
    """Every usual size that stands because nothing else was said."""
    if not assumed:
        return
    yield heading("Taken as usual, since nothing was said", width)
    yield from _boxes([(said, False) for said in assumed], width)
    yield blank(3.0)


def _boxes(said: Sequence[tuple[str, bool]], width: float) -> Iterator[Band]:
    """What is said in a box, or in boxes one under another if it is long."""
    lines = [(line, bold) for text, bold in said for line in broken(text, PLAIN, width - 5.0, bold=bold)]
    for start in range(0, len(lines), MOST_IN_A_BOX):
        yield boxed(lines[start : start + MOST_IN_A_BOX], width)


def _contents(contents: Sequence[Content], width: float, before: int) -> Iterator[Band]:
    """What is on which sheet: papers by their titles, then pieces by their patterns' marks."""
    entries = [
        (content, str(number))
        for number, content in enumerate(contents, start=before + 1)
        if not content.continued
    ]
    papers = [(it.title, number) for it, number in entries if it.document_type != PIECE]
    pieces = [(it.title.partition(":")[0], number) for it, number in entries if it.document_type == PIECE]
    yield from _listed("Contents", papers, width)
    yield from _listed("Contents: pieces", pieces, width)


def _listed(name: str, entries: Sequence[tuple[str, str]], width: float) -> Iterator[Band]:
    """The entries in as many columns as hold the longest; they read from row to row."""
    if not entries:
        return
    yield heading(name, width)
    again = (heading(f"{name}, continued", width),)
    longest = max(words_width(title, PLAIN) + words_width(number, PLAIN) for title, number in entries)
    columns = max(LEAST_COLUMNS, min(MOST_COLUMNS, int((width + BETWEEN) / (longest + APART + BETWEEN))))
    for start in range(0, len(entries), columns):
        yield _entries(entries[start : start + columns], columns, width, again)


def _entries(row: Sequence[tuple[str, str]], columns: int, width: float, again: tuple[Band, ...]) -> Band:
    wide = (width - BETWEEN * (columns - 1)) / columns
    marks: list[Mark] = []
    for place, (title, number) in enumerate(row):
        marks.extend(_entry(title, number, place * (wide + BETWEEN), wide))
    return Band(height=ENTRY, marks=tuple(marks), head=again)


def _entry(title: str, number: str, left: float, wide: float) -> Iterator[Mark]:
    room = wide - words_width(number, PLAIN) - APART
    size = fitting(title, PLAIN, room)
    yield Words(Spot(left, -PLAIN - 1.0), title, size=size, max_width=room)
    yield Words(Spot(left + wide, -PLAIN - 1.0), number, anchor="right")
    yield Line(Spot(left, -ENTRY + 0.2), Spot(left + wide, -ENTRY + 0.2), pen=NARROW, layer="table")
