"""The first page of a pack: what the job is, every doubt and every assumption, and what is where."""

from collections.abc import Iterator, Sequence

from pinchrod.ground import Mm, Problem, show, show_fixed
from pinchrod.job import Job, Shop
from pinchrod.papers.boards.board_page import DOCUMENT as BOARD
from pinchrod.papers.frames.frame_page import frame_pages
from pinchrod.papers.lists.cut_list import cut_list
from pinchrod.papers.lists.fronts_list import fronts_list
from pinchrod.papers.marks.sheet import Marks, Sheet
from pinchrod.papers.pages.bands import Band, blank, gathered, heading, paragraph
from pinchrod.papers.pages.identity import about
from pinchrod.papers.pages.listing import boxes, fact, listed
from pinchrod.papers.pages.page import Content, bind, body, pages_like
from pinchrod.papers.pieces.piece_page import DOCUMENT as PIECE
from pinchrod.papers.pieces.piece_page import piece_pages
from pinchrod.setting_out import Pattern, Rods, patterns

MM3_IN_M3 = Mm(10**9)


def bound_pack(
    job: Job, shop: Shop, rods: Rods, *, timber: Sequence[Content] = (), cards: Sequence[Content] = ()
) -> tuple[Sheet, ...]:
    """The sheets of the shop pack: cover, frames, lists, timber, cards, and each distinct member."""
    found = patterns(rods)
    contents = (
        *frame_pages(rods, job, shop, found),
        *cut_list(rods, job, shop),
        *fronts_list(rods, job, shop),
        *timber,
        *cards,
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
        *(fact(name, said, width) for name, said in facts(job, rods, found, shop)),
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


def _doubts(doubts: Sequence[Problem], width: float) -> Iterator[Band]:
    """Every doubt in a box of its own: where, what, and what would settle it."""
    name = {0: "No doubts", 1: "1 doubt, to be settled before wood is cut"}.get(
        len(doubts), f"{len(doubts)} doubts, to be settled before wood is cut"
    )
    yield heading(name, width)
    for doubt in doubts:
        places = [place for place in (doubt.where.name, str(doubt.where)) if place]
        yield from boxes([(" – ".join(places), True), (f"{doubt.what}; {doubt.mend}", False)], width)
    yield blank(3.0)


def _assumed(assumed: Sequence[str], width: float) -> Iterator[Band]:
    """Every usual size that stands because nothing else was said."""
    if not assumed:
        return
    yield heading("Taken as usual, since nothing was said", width)
    yield from boxes([(said, False) for said in assumed], width)
    yield blank(3.0)


def _contents(contents: Sequence[Content], width: float, before: int) -> Iterator[Band]:
    """What is on which sheet: papers by their titles, then boards, then pieces by their patterns' marks."""
    entries = [
        (content, str(number))
        for number, content in enumerate(contents, start=before + 1)
        if not content.continued
    ]
    papers = [(it.title, number) for it, number in entries if it.document_type not in {PIECE, BOARD}]
    boards = [(it.title.partition(" ")[2], number) for it, number in entries if it.document_type == BOARD]
    pieces = [(it.title.partition(":")[0], number) for it, number in entries if it.document_type == PIECE]
    yield from listed("Contents", papers, width)
    yield from listed("Contents: boards", boards, width)
    yield from listed("Contents: pieces", pieces, width)
