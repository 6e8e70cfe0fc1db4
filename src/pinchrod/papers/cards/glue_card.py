"""The card for gluing up a frame: which part goes to which, which way; keys, clamps, times and diagonals."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pinchrod.bench import Clamp, GlueStep, Gluing
from pinchrod.ground import Mm, show
from pinchrod.job import Shop
from pinchrod.papers.cards.care import take_care
from pinchrod.papers.cards.glue_picture import ROUND, glue_picture, scale_in
from pinchrod.papers.cards.glue_words import at_hand_words, clamp_words, closing_words
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.placing import placed
from pinchrod.papers.pages.bands import (
    LARGE,
    PAD,
    PLAIN,
    TICK,
    Band,
    Column,
    blank,
    gathered,
    heading,
    height_of,
    number_column,
    paragraph,
    table_head,
    table_row,
)
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.setting_out import Rod

DOCUMENT = "Bench card"
PICTURE = Box(ROUND + 0.5, -60.0, 66.0, -1.0)  # numbers may stand out on its left
BESIDE = 6.0
NAMED = 52.0  # what a row of the table of diagonals is


def glue_card(rod: Rod, gluing: Gluing, shop: Shop) -> tuple[Content, ...]:
    """The pages of one frame's card."""
    space = body(shop.papers.size, true_scale=False)
    card = Content(title=f"Glue up {gluing.frame}", document_type=DOCUMENT, marks=(), level=1)
    bands = _bands(rod, gluing, shop.practice.resolution, space.right - space.left)
    return pages_like(card, gathered(bands, space, space))


def _bands(rod: Rod, gluing: Gluing, step: Mm, width: float) -> Iterator[Band]:
    alike = f", {gluing.quantity} alike" if gluing.quantity > 1 else ""
    yield heading(f"Glue up {gluing.frame}{alike}", width, 7.0)
    yield take_care(gluing.cautions, width, decides="")
    yield blank(3.0)
    yield _beside_the_picture(rod, gluing, width)
    yield blank(3.0)
    yield from _steps(gluing, width)
    yield blank(3.0)
    yield from _clamps(gluing.clamps, step, width)
    yield blank(1.0)
    yield from _diagonals(gluing, step, width)


def _beside_the_picture(rod: Rod, gluing: Gluing, width: float) -> Band:
    """The frame with its numbers, and beside it what to have at hand."""
    left = PICTURE.right + BESIDE
    facts = list(_facts(gluing, width - left))
    marks = [*glue_picture(rod, gluing, PICTURE)]
    top = 0.0
    for band in facts:
        marks.extend(placed(band.marks, dx=left, dy=top))
        top -= band.height
    high = max(height_of(facts), -_lowest(rod))
    return Band(height=high + 2.0, marks=tuple(marks))


def _lowest(rod: Rod) -> float:
    """How far down the picture reaches."""
    return PICTURE.top - scale_in(rod, PICTURE) * float(rod.frame.height) - ROUND


def _facts(gluing: Gluing, width: float) -> Iterator[Band]:
    """What to have at hand, and the glue's times."""
    for said in at_hand_words(gluing):
        yield paragraph(said, width)


def _steps(gluing: Gluing, width: float) -> Iterator[Band]:
    """One part at a time, in an order in which the last joint can still be closed."""
    columns = _columns(width)
    head = table_head(columns)
    again = (heading(f"Glue up {gluing.frame}, continued", width), head)
    yield head
    for number, step in enumerate(gluing.steps, start=1):
        yield table_row(columns, _row(gluing, number, step), again)


def _columns(width: float) -> tuple[Column, ...]:
    tick = 2 * PAD + LARGE
    number = number_column("step", 13.0, LARGE, bold=True)
    left = width - tick - number.width
    shares = (("bring", 0.22, True), ("to", 0.22, True), ("slides", 0.12, False), ("closes", 0.44, False))
    named = (Column(head, left * share, LARGE if bold else PLAIN, bold=bold) for head, share, bold in shares)
    return (number, *named, Column("", tick))


def _row(gluing: Gluing, number: int, step: GlueStep) -> tuple[str, ...]:
    way = str(step.way).removeprefix("to the ")
    return (str(number), step.part.name, step.onto.name, way, closing_words(gluing, step), TICK)


def _clamps(clamps: Sequence[Clamp], step: Mm, width: float) -> Iterator[Band]:
    for said in clamp_words(clamps, step):
        yield paragraph(said, width, bold=True)


def _diagonals(gluing: Gluing, step: Mm, width: float) -> Iterator[Band]:
    """What to tape, what a difference comes to, and from which on to pull."""
    table = gluing.diagonals
    fixed = Column("one longer by", NAMED, bold=True)
    columns = (
        fixed,
        *(
            number_column(show(row.difference, step), (width - NAMED) / len(table.rows), PLAIN)
            for row in table.rows
        ),
    )
    yield heading("Diagonals, while the glue is wet", width)
    yield paragraph(f"Both {show(table.diagonal, step)}, {table.taped_from}.", width, keeps=True)
    pull = f"Clamp across the longer one from a difference of {show(table.pull_from, step)} on."
    yield paragraph(pull, width, bold=True, keeps=True)
    yield replace(table_head(columns), keeps=True)
    leans = (show(row.lean, step) for row in table.rows)
    tapers = (show(row.taper, step) for row in table.rows)
    yield replace(table_row(columns, ("leans over the height", *leans)), keeps=True)
    yield table_row(columns, ("most a gap narrows", *tapers))
