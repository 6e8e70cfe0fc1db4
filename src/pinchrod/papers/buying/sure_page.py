"""How sure the order is: the promise, cost against confidence, what else was weighed, how bars are cut."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.ground import Mm, show, show_fixed
from pinchrod.papers.buying.curve import curve
from pinchrod.papers.buying.order_words import CENT, LITRE, both_ways, percent
from pinchrod.papers.buying.ordered import Ordered
from pinchrod.papers.pages.bands import (
    PLAIN,
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
from pinchrod.papers.pages.listing import boxes
from pinchrod.papers.pages.page import Content, body, pages_like
from pinchrod.timber import Amount, Level, Planed, Weighed

TITLE = "How sure the order is"
MADE_UP = (
    "Deliveries are made up from what this merchant sent before and, as far as that is little, from what is"
    " usual. They are no more than a belief: tally what comes, and keep it as this offer's history."
)
MOST_WAYS = 8


def sure_page(ordered: Ordered) -> tuple[Content, ...]:
    """The pages to keep: not for the merchant."""
    space = body(ordered.shop.papers.size, true_scale=False)
    content = Content(title=TITLE, document_type="Buying", marks=())
    return pages_like(content, gathered(_bands(ordered, space.right - space.left), space, space))


def _bands(ordered: Ordered, width: float) -> Iterator[Band]:
    bought = ordered.bought
    yield heading(TITLE, width, 7.0)
    for said in promise_words(ordered):
        yield paragraph(said, width)
    yield from _refused(ordered, width)
    if bought.levels:
        yield from _levels(ordered, width)
    if len(bought.curve) > 1 and any(less.cost < more.cost for less, more in pairwise(bought.curve)):
        yield heading("Cost against confidence", width)
        yield curve(bought.curve, ordered.asked.confidence, width)
    if len(bought.weighed) > 1:
        yield from _weighed(bought.weighed[:MOST_WAYS], width)
    for planed in bought.planed:
        yield from _planed(planed, width)
    if bought.promise:
        yield blank(2.0)
        yield from boxes([(MADE_UP, False)], width)


def promise_words(ordered: Ordered) -> Iterator[str]:
    """What is promised, and what may be left over or missing."""
    bought, promise = ordered.bought, ordered.bought.promise
    if promise is None:
        yield "No chance is in it: planed lengths are taken to be as offered, the rack as it was tallied."
        return
    between = f"the true share lies between {percent(promise.low)} and {percent(promise.high)}"
    yield (
        f"Of {promise.deliveries} deliveries made up, this order was enough for {promise.enough}:"
        f" {percent(promise.share)}, where {percent(ordered.asked.confidence)} were asked;"
        f" with 95 % confidence {between}."
    )
    left = f"{show(bought.left_over, LITRE)} m³ of whole boards go on the rack"
    lacks = f"{show(bought.missing, LITRE)} m³ are missing"
    yield f"Where it is enough, {left} on average; where it is not, {lacks} on average."
    rack = len(ordered.asked.rack)
    if rack:
        yield f"The rack's {rack} boards are cut first."


def _refused(ordered: Ordered, width: float) -> Iterator[Band]:
    for one in ordered.bought.refused:
        section = f"{show(one.kind.width)} × {show(one.kind.thickness)}, {show(one.length)} long"
        marks = ", ".join(one.marks[:6]) + (" …" if len(one.marks) > 6 else "")
        yield from boxes(
            [(f"Nobody offers {marks}: {section}", True), *((why, False) for why in one.why)], width
        )
        yield blank(1.0)


def _levels(ordered: Ordered, width: float) -> Iterator[Band]:
    """The table: for each confidence, what is ordered of each offer, and what it costs."""
    told = [level for level in ordered.bought.levels if level.amounts]
    always = _always(told)
    columns = (
        number_column("sure by", 24.0),
        Column("to order", width - 92.0),
        number_column("cost, expected", 34.0),
        number_column("seldom over", 34.0),
    )
    head = table_head(columns)
    yield heading("What it takes to be surer, or less sure", width)
    yield head
    for level in told:
        said = _amounts(ordered, [one for one in level.amounts if _named(one) not in always])
        yield table_row(columns, (percent(level.confidence), said, *_costs(level)), (head,))
    besides = [one for one in ordered.bought.amounts if _named(one) in always]
    if besides:
        yield paragraph(f"Besides, each time: {_amounts(ordered, besides)}.", width)


def _always(levels: Sequence[Level]) -> frozenset[tuple[str, Mm]]:
    """What is ordered alike however sure one wants to be; nothing if there is but one level."""
    if len(levels) < 2:
        return frozenset()
    return frozenset.intersection(*(frozenset(map(_named, level.amounts)) for level in levels))


def _named(amount: Amount) -> tuple[str, Mm]:
    return amount.offer, amount.quantity


def _amounts(ordered: Ordered, amounts: Sequence[Amount]) -> str:
    return "; ".join(f"{both_ways(ordered.offer(one.offer), one)[0]} of {one.offer}" for one in amounts)


def _costs(level: Level) -> tuple[str, str]:
    return show_fixed(level.cost, CENT), show_fixed(level.at_most, CENT)


def _weighed(ways: Sequence[Weighed], width: float) -> Iterator[Band]:
    """Other ways to buy, the cheapest first."""
    cost = number_column("cost, about", 34.0)
    columns = (Column("ways to buy that were weighed, on fewer deliveries", width - 34.0), cost)
    head = table_head(columns)
    yield blank(2.0)
    yield head
    for way in ways:
        yield table_row(columns, (_way(way), show_fixed(way.cost, CENT)), (head,))


def _way(way: Weighed) -> str:
    sawn = " and ".join(way.sawn) or "the rack"
    planed = ", ".join(
        f"{show(kind.width)} × {show(kind.thickness)} with {_beads(kind.beads)}" for kind in way.planed
    )
    return f"{sawn}; planed lengths for {planed}" if planed else sawn


def _beads(beads: int) -> str:
    return f"{beads} bead" if beads == 1 else f"{beads} beads"


def _planed(planed: Planed, width: float) -> Iterator[Band]:
    """How the bars of a section are cut, and what is proven of their cost."""
    lengths = {piece.mark: piece.length for piece in planed.question.pieces}
    kind, answer = planed.kind, planed.answer
    name = f"Planed {show(kind.width)} × {show(kind.thickness)}, {_beads(kind.beads)}"
    rows = [
        (f"{one.times} ×", one.stock, ", ".join(_share(lengths[it.mark], it.count) for it in one.shares))
        for one in answer.patterns
    ]
    if answer.proven and answer.cost == answer.bound:
        proof = f"These bars cost {show_fixed(answer.cost, CENT)}; it is proven that none cheaper do."
    else:
        least = show_fixed(answer.bound, CENT)
        proof = f"These bars cost {show_fixed(answer.cost, CENT)}; none under {least} can do."
    first = narrowed(number_column("bars", 20.0), [row[0] for row in rows])
    second = narrowed(Column("of", 60.0), [row[1] for row in rows])
    columns = (first, second, Column("each cut into", width - first.width - second.width))
    head = table_head(columns)
    yield heading(name, width)
    yield paragraph(proof, width, PLAIN, keeps=True)
    yield head
    for row in rows:
        yield table_row(columns, row, (head,))


def _share(length: Mm, count: int) -> str:
    return show(length) if count == 1 else f"{count} of {show(length)}"
