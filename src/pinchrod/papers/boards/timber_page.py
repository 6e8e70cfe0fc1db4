"""The timber of a job at a glance: what is taken and costs, how near that is to the least, what is left."""

from collections.abc import Iterator

from pinchrod.ground import Mm, show
from pinchrod.job import Shop, by_volume
from pinchrod.papers.boards.board_words import many
from pinchrod.papers.boards.sawn import Sawn, totals
from pinchrod.papers.boards.timber_figures import beside_each_other, bound_words, by_eye_words
from pinchrod.papers.boards.timber_tables import fetched, left_over
from pinchrod.papers.pages.bands import LARGE, Band, blank, boxed, filled, gathered, heading, paragraph
from pinchrod.papers.pages.listing import fact
from pinchrod.papers.pages.page import Content, body, pages_like

TITLE = "Timber"
MOST_LINES = 10  # in a box


def timber_page(sawn: Sawn, shop: Shop) -> tuple[Content, ...]:
    """The timber in figures, beside a plan by eye; the boards to fetch, and the offcuts for the rack."""
    space = body(shop.papers.size, true_scale=False)
    content = Content(title=TITLE, document_type="Timber summary", marks=())
    bands = _bands(sawn, shop.practice.resolution, space.right - space.left)
    return pages_like(content, gathered(bands, space, space))


def _bands(sawn: Sawn, step: Mm, width: float) -> Iterator[Band]:
    priced = not by_volume(sawn.question.boards)
    plan, by_eye = totals(sawn)
    yield heading(TITLE, width, 7.0)
    yield from beside_each_other(plan, by_eye, priced=priced)
    yield blank(2.0)
    for said in (bound_words(sawn, priced=priced), by_eye_words(plan, by_eye, priced=priced)):
        yield paragraph(said, width)
    yield blank(2.0)
    yield from _rules(sawn, width)
    yield from _short(sawn, width)
    if sawn.boards:
        yield from fetched(sawn, step, width)
    yield from left_over(sawn, step, width)


def _rules(sawn: Sawn, width: float) -> Iterator[Band]:
    """The rules of sawing that the plan and the proof keep to."""
    practice, machines = sawn.question.practice, sawn.question.machines
    ends = f"{show(practice.stick_end)} left on both ends"
    lengths = f"{show(practice.shortest_stick)} to {show(practice.longest_stick)} long"
    rip, cross = machines.rip_saw.kerf, machines.crosscut_saw.kerf
    yield heading("The rules it keeps to", width)
    skim = f"{show(practice.skim)} lost cleaning both faces"
    for name, said in (
        ("Sticks", f"{ends}, {lengths}, as straight as cleans up: {skim}"),
        ("Strips", f"{show(practice.width_allowance)} over the finished width, along the whole board"),
        ("Board edges", f"{show(practice.board_edge)} off each, and the spring off the sprung one"),
        ("Saw cuts", f"{show(rip)} ripping, {show(cross)} crosscutting"),
    ):
        yield fact(name, said, width)
    yield blank(2.0)


def _short(sawn: Sawn, width: float) -> Iterator[Band]:
    """The members for which there is no wood, in a box, if there are any."""
    short = sawn.breakout.short
    if short:
        yield heading(f"No wood for {many(len(short), 'member')}", width)
        lines = filled(short, LARGE, width - 5.0, bold=True)
        for start in range(0, len(lines), MOST_LINES):
            yield boxed([(line, True) for line in lines[start : start + MOST_LINES]], width, LARGE)
        yield blank(3.0)
