"""Cost against the share of deliveries that an order of that cost is enough for, drawn."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.ground import Mm, show
from pinchrod.papers.marks.sheet import HIDDEN, NARROW, WIDE, Circle, Line, Mark, Path, Spot, Words
from pinchrod.papers.marks.type import words_width
from pinchrod.papers.pages.bands import LEAST, PLAIN, Band
from pinchrod.timber import Sure

HIGH = 72.0  # mm of the drawing
FOOT, LEFT, HEAD = 13.0, 20.0, 5.0  # for the words about it
STEPS = tuple(Mm(number) * 10**power for power in range(-2, 6) for number in (1, 2, 5))
MOST_LINES = 6


def curve(points: Sequence[Sure], asked: Mm, width: float) -> Band:
    """The curve, with the confidence asked marked on it."""
    return Band(height=HIGH + FOOT + HEAD, marks=tuple(_marks(points, asked, width)))


def cost_lines(points: Sequence[Sure]) -> tuple[Mm, ...]:
    """Round costs from below the least to above the most, few enough to be read."""
    low, high = min(point.cost for point in points), max(point.cost for point in points)
    step = next((step for step in STEPS if (high - low) / step <= MOST_LINES - 2), STEPS[-1])
    first, last = low // step, -(-high // step)
    return tuple(step * number for number in range(int(first), int(max(last, first + 1)) + 1))


def _marks(points: Sequence[Sure], asked: Mm, width: float) -> Iterator[Mark]:
    costs = cost_lines(points)
    right, bottom = width - 6.0, -HIGH - HEAD

    def spot(share: Mm, cost: Mm) -> Spot:
        along = float((share - Mm("0.5")) / Mm("0.5")) * (right - LEFT)
        up = float((cost - costs[0]) / (costs[-1] - costs[0])) * HIGH
        return Spot(LEFT + along, bottom + up)

    for cost in costs:
        at = spot(Mm("0.5"), cost)
        yield Line(at, Spot(right, at.y), pen=NARROW, layer="table")
        yield Words(Spot(LEFT - 2, at.y - 1.2), show(cost), size=PLAIN, anchor="right")
    for tenths in range(5, 11):
        at = spot(Mm(tenths, 10), costs[0])
        yield Line(at, Spot(at.x, at.y - 1.5), pen=NARROW, layer="table")
        yield Words(Spot(at.x, at.y - 6), f"{10 * tenths} %", size=PLAIN, anchor="middle")
    yield Words(Spot(right, bottom - 11.5), "of deliveries it is enough for", size=LEAST, anchor="right")
    yield Words(Spot(0, -2.5), "cost", size=LEAST)
    yield Path(tuple(_stairs([spot(point.share, point.cost) for point in points])), closed=False, pen=WIDE)
    found = next((point for point in points if point.share >= asked), None)
    if found is not None:
        at = spot(found.share, found.cost)
        yield Line(Spot(at.x, bottom), at, pen=HIDDEN)
        yield Circle(at, 1.6, fill="black")
        yield from _named(f"this order: {show(found.cost, Mm(1))}", Spot(at.x - 3, at.y + 3.5))


def _named(said: str, right: Spot) -> Iterator[Mark]:
    """Words that end there, on white so that no line goes through them."""
    left, low, high = right.x - words_width(said, PLAIN, bold=True) - 1, right.y - 1, right.y + PLAIN + 1
    corners = Spot(left, low), Spot(right.x + 1, low), Spot(right.x + 1, high), Spot(left, high)
    yield Path(corners, pen=None, fill="white", layer="table")
    yield Words(right, said, bold=True, anchor="right")


def _stairs(spots: Sequence[Spot]) -> Iterator[Spot]:
    """From point to point, each cost holding until the next surer order is needed."""
    yield Spot(LEFT, spots[0].y)
    yield spots[0]
    for before, after in pairwise(spots):
        yield Spot(before.x, after.y)
        yield after
