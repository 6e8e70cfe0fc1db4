"""The timber of a job in figures, beside a plan by eye, and in plain words what is proven of it."""

from collections.abc import Iterator

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.papers.boards.board_words import CENT, many
from pinchrod.papers.boards.sawn import Sawn, Total
from pinchrod.papers.pages.bands import LARGE, Band, Column, number_column, table_head, table_row

CUBIC = Mm("0.0001")
COST = "cost of the boards taken"
NAMES = ("boards taken", "sticks", "wood in them, m³", "yield: finished of that, %", COST, "members short")
BY_EYE = (
    "By eye: longest first, each where it leaves least, the cheapest wood next, as a joiner would chalk it."
)


def beside_each_other(plan: Total, by_eye: Total, *, priced: bool) -> Iterator[Band]:
    """This plan and the one by eye, in figures beside each other."""
    columns = (
        Column("", 62.0),
        number_column("this plan", 34.0, LARGE, bold=True),
        number_column("by eye", 34.0, LARGE),
    )
    yield table_head(columns)
    for row in figure_rows(plan, by_eye, priced=priced):
        yield table_row(columns, row)


def figure_rows(plan: Total, by_eye: Total, *, priced: bool) -> Iterator[tuple[str, str, str]]:
    """What each figure is of, and what it is in this plan and in the one by eye."""
    rows = [_figures(total) for total in (plan, by_eye)]
    for name, one, other in zip(NAMES, *rows, strict=True):
        if priced or name != COST:
            yield name, one, other


def _figures(total: Total) -> tuple[str, ...]:
    wood = show_fixed(total.used, CUBIC), show_fixed(100 * total.share), show_fixed(total.cost, CENT)
    return str(total.boards), str(total.sticks), *wood, str(total.short)


def bound_words(sawn: Sawn, *, priced: bool) -> str:
    """What is proven of the plan's cost, in plain words."""
    breakout = sawn.breakout
    costs, unit, cent = ("costs", "", CENT) if priced else ("takes", " m³ of boards", CUBIC)
    bound = show_fixed(breakout.bound // cent * cent, cent)
    members = "all members but those short" if breakout.short else "these members"
    if not breakout.sticks:
        return "No stick can be had from this rack."
    if not breakout.bound:
        return "How near this is to the least possible is not known."
    if breakout.bound == breakout.cost:
        return f"Proven: no plan for {members}, out of these boards and by these rules, {costs} less."
    over = show(100 * (breakout.cost - breakout.bound) / breakout.bound)
    return (
        f"Proven: no plan for {members}, out of these boards and by these rules, {costs} less than"
        f" {bound}{unit}. This one is {over} % over that, and may be the least there is."
    )


def by_eye_words(plan: Total, by_eye: Total, *, priced: bool) -> str:
    """What by eye means, and what it would have come to."""
    if plan.short != by_eye.short:
        found = by_eye.short - plan.short
        way = "more" if found > 0 else "fewer"
        return f"{BY_EYE} It leaves {many(abs(found), 'member')} {way} without wood."
    more = by_eye.cost - plan.cost
    if not more or not plan.cost:
        return f"{BY_EYE} It comes to the same."
    way, share = "more" if more > 0 else "less", show(100 * abs(more) / plan.cost)
    if not priced:
        return f"{BY_EYE} It takes {share} % {way} wood."
    return f"{BY_EYE} It costs {show_fixed(abs(more), CENT)} {way}, which is {share} %."
