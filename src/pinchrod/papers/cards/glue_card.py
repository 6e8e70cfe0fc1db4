"""The card for gluing up a frame: which part goes to which, which way; keys, clamps, times and diagonals."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pinchrod.bench import Clamp, GlueStep, Gluing
from pinchrod.ground import Mm, show
from pinchrod.job import Joint, Shop
from pinchrod.papers.cards.care import take_care
from pinchrod.papers.cards.glue_picture import ROUND, glue_picture, scale_in
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
TENTH = Mm("0.1")
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
    cure, (least, most) = gluing.cure, gluing.pressure
    joints = sum(len(step.joints) for step in gluing.steps)
    for said in (
        f"{joints} joints, {gluing.joint}{_at_hand(gluing)}.",
        "Fit it up dry, right through, and take it apart again before any glue.",
        f"From the first glue to the last joint closed: {show(cure.open_minutes)} minutes.",
        f"In clamps {show(cure.clamped_minutes)} minutes, pressed with {show(least)} to {show(most)} MPa.",
        f"Leave it {show(cure.cured_hours)} hours before it is worked. The glue's label decides.",
    ):
        yield paragraph(said, width)


def _at_hand(gluing: Gluing) -> str:
    """How many keys, dowels or the like; a tenon is on its member already."""
    worked = gluing.joint is Joint.MORTICE_AND_TENON
    return "" if worked else f": {gluing.fixings} to have at hand"


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
    made = step.makes.name
    letter = f"; this makes {made}" if made not in (gluing.frame, step.onto.name) else ""
    return (
        str(number),
        step.part.name,
        step.onto.name,
        str(step.way).removeprefix("to the "),
        f"{_closed(step)}{letter}",
        TICK,
    )


def _closed(step: GlueStep) -> str:
    """The joints that a step closes, those at one member said together."""
    into: dict[str, list[str]] = {}
    for joint in step.joints:
        into.setdefault(joint.receiver, []).append(joint.arriving)
    return "; ".join(f"{', '.join(arriving)} into {receiver}" for receiver, arriving in into.items())


def _clamps(clamps: Sequence[Clamp], step: Mm, width: float) -> Iterator[Band]:
    """Lines of clamps that open as wide are said together."""
    if not clamps:
        yield paragraph("No clamps: the joints draw themselves together.", width, bold=True)
    alike: dict[tuple[bool, Mm], list[Clamp]] = {}
    for clamp in clamps:
        alike.setdefault((clamp.level, clamp.opens), []).append(clamp)
    for (level, opens), lines in alike.items():
        places = ", ".join(show(clamp.at, step) for clamp in lines)
        way, where = ("across", "from the lower edge") if level else ("upright", "from the left")
        least = min(clamp.newtons[0] for clamp in lines) / 1000
        most = max(clamp.newtons[1] for clamp in lines) / 1000
        force = f"{show(least, TENTH)} to {show(most, TENTH)} kN each"
        said = f"Clamps {way}, opening {show(opens, step)}: at {places} {where}; {force}."
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
