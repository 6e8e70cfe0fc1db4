"""The order of work on one page: every step, at which machine, how many settings, and why it comes there."""

from collections.abc import Iterator

from pinchrod.machining import WHO_DECIDES, Machining, Step
from pinchrod.papers.pages.bands import (
    LARGE,
    PAD,
    TICK,
    Band,
    Column,
    blank,
    heading,
    number_column,
    paragraph,
    table_head,
    table_row,
)

TITLE = "Order of work"
MACHINE = 38.0  # the column has room for the longest machine's name, unbroken


def order_bands(machining: Machining, width: float) -> Iterator[Band]:
    """The bands of the page."""
    columns = _columns(width)
    head = table_head(columns)
    again = (heading(f"{TITLE}, continued", width), head)
    yield heading(TITLE, width, 7.0)
    yield paragraph("Each setting is set once, everything that needs it goes through, then the next.", width)
    yield blank(2.0)
    yield head
    for number, step in enumerate(machining.steps, start=1):
        yield table_row(columns, _row(number, step), again)
    yield blank(3.0)
    yield paragraph(WHO_DECIDES, width)


def _columns(width: float) -> tuple[Column, ...]:
    tick = 2 * PAD + LARGE
    fixed = (
        number_column("step", 12.0, LARGE, bold=True),
        Column("machine", MACHINE, bold=True),
        number_column("settings", 17.0, LARGE),
    )
    left = width - tick - sum(column.width for column in fixed)
    what, why = Column("what", left * 0.39, bold=True), Column("why", left * 0.61)
    return (*fixed[:2], what, fixed[2], why, Column("", tick))


def _row(number: int, step: Step) -> tuple[str, ...]:
    turns = sum(1 for setting in step.settings if setting.through)
    return (str(number), step.machine, step.title, str(turns or 1), step.why, TICK)
