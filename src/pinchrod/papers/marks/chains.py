"""Several dimensions on one line: end to end, or running from one datum; and how their numbers keep apart."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pinchrod.papers.marks.dimensions import BESIDE, PAST, Local, extension, fits, printed, stroke
from pinchrod.papers.marks.sheet import (
    NARROW,
    Anchor,
    Axis,
    Chain,
    Circle,
    Dimension,
    Line,
    PlainMark,
    RunningDimension,
    Spot,
    Turn,
    Where,
    Words,
)
from pinchrod.papers.marks.type import words_width

# In heights of the number:
PITCH = 1.5  # from number to number side by side
JOG = 1.4  # how far beyond the extension line's end a spread number's jog reaches
CIRCLE = 0.35  # radius of the datum's circle
TICK = 0.25  # how far an end stroke reaches, where many stand close


def spread(wanted: Sequence[float], rooms: Sequence[float]) -> tuple[float, ...]:
    """Where things go that want those middles, in rising order, and need such rooms: apart, and moved least.

    Least in the sum of squares: neighbours that would touch settle about the mean of their wishes.
    """
    apart = [0.0, *((a + b) / 2 for a, b in pairwise(rooms))]
    shifts = [sum(apart[: index + 1]) for index in range(len(wanted))]
    blocks: list[list[float]] = []
    for want, shift in zip(wanted, shifts, strict=True):
        blocks.append([want - shift])
        while len(blocks) > 1 and _mean(blocks[-2]) > _mean(blocks[-1]):
            blocks[-2:] = [blocks[-2] + blocks[-1]]
    level = [_mean(block) for block in blocks for _ in block]
    return tuple(at + shift for at, shift in zip(level, shifts, strict=True))


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def links(chain: Chain) -> tuple[Dimension, ...]:
    """The chain's dimensions one by one, each with its number where it has room."""
    line = _on_the_line(chain)
    gaps = tuple(
        Dimension(a, b, text, axis=chain.axis, size=chain.size, auxiliary=chain.auxiliary, layer=chain.layer)
        for (a, b), text in zip(pairwise(chain.points), chain.texts, strict=True)
    )
    settled = [replace(gap, away=_away(gap, line)) for gap in gaps]
    settled = [replace(gap, where=_where(chain, gap)) for gap in settled]
    return tuple(_apart([gap for gap in settled if gap.text]))


def _on_the_line(chain: Chain) -> float:
    """Where across the sheet the chain's line stands."""
    across = [spot.y if chain.axis == "x" else spot.x for spot in chain.points]
    return (max(across) if chain.away >= 0 else min(across)) + chain.away


def _away(gap: Dimension, line: float) -> float:
    across = [spot.y if gap.axis == "x" else spot.x for spot in (gap.a, gap.b)]
    outermost = max(across) if line >= max(across) else min(across)
    return line - outermost


def _where(chain: Chain, gap: Dimension) -> Where:
    """Where the gap's number goes: outside or lifted if it has no room between the ends."""
    if fits(gap) or len(chain.texts) == 1:
        return "fit"
    local = Local(gap.axis)
    along = [local.u(spot) for spot in chain.points]
    low, high = sorted((local.u(gap.a), local.u(gap.b)))
    if chain.ends == "outside" and low == min(along):
        return "before"
    if chain.ends == "outside" and high == max(along):
        return "after"
    return "lifted"


def _apart(gaps: Sequence[Dimension]) -> Iterator[Dimension]:
    """The dimensions with their lifted numbers spread so that none touch, nor stick out past the chain."""
    lifted = sorted((gap for gap in gaps if gap.where == "lifted"), key=_middle)
    rooms = [words_width(printed(gap), gap.size) + gap.size for gap in lifted]
    middles = [_middle(gap) for gap in lifted]
    along = [Local(gap.axis).u(spot) for gap in gaps for spot in (gap.a, gap.b)]
    stands = kept_within(spread(middles, rooms), rooms, (min(along, default=0.0), max(along, default=0.0)))
    lifts = {gap: to - at for gap, to, at in zip(lifted, stands, middles, strict=True)}
    for gap in gaps:
        yield replace(gap, lift=lifts.get(gap, 0.0))


def kept_within(
    stands: Sequence[float], rooms: Sequence[float], ends: tuple[float, float]
) -> tuple[float, ...]:
    """The middles pushed back between two ends, still apart; without room for all, the last stick out."""
    pushed: list[float] = []
    edge = ends[1]
    for at, room in zip(reversed(stands), reversed(rooms), strict=True):
        pushed.insert(0, min(at, edge - room / 2))
        edge = pushed[0] - room / 2
    edge = ends[0]
    for index, room in enumerate(rooms):
        pushed[index] = max(pushed[index], edge + room / 2)
        edge = pushed[index] + room / 2
    return tuple(pushed)


def _middle(gap: Dimension) -> float:
    local = Local(gap.axis)
    return (local.u(gap.a) + local.u(gap.b)) / 2


@dataclass(frozen=True, slots=True)
class Run:
    """One value of a running dimension: its point, its number, and where along the line the number stands."""

    spot: Spot
    text: str
    stands: float
    marks: tuple[PlainMark, ...]


def runs(mark: RunningDimension) -> tuple[Run, ...]:
    """The running dimension's values one by one, along the line, the datum among them."""
    local = Local(mark.axis)
    line = local.line_at((mark.datum, *mark.points), mark.away)
    values = [(mark.datum, mark.datum_text), *zip(mark.points, mark.texts, strict=True)]
    values.sort(key=lambda value: local.u(value[0]))
    wanted = [local.u(spot) for spot, _ in values]
    stands = spread(wanted, [PITCH * mark.size] * len(wanted))
    jogged = any(abs(a - b) > 0.05 * mark.size for a, b in zip(wanted, stands, strict=True))
    draft = _Draft(mark, local, line, 1.0 if local.away(mark.away) >= 0 else -1.0, jogged)
    return tuple(
        Run(spot, text, at, tuple(_value(draft, spot, text, at)))
        for (spot, text), at in zip(values, stands, strict=True)
    )


@dataclass(frozen=True, slots=True)
class _Draft:
    mark: RunningDimension
    local: Local
    line: float
    out: float
    jogged: bool

    def height(self, sizes: float) -> float:
        """So many heights of the number beyond the dimension line."""
        return self.line + self.out * sizes * self.mark.size


def _value(draft: _Draft, spot: Spot, text: str, stands: float) -> Iterator[PlainMark]:
    mark, local, u = draft.mark, draft.local, draft.local.u(spot)
    yield extension(mark, local, spot, draft.height(PAST))
    if spot == mark.datum:
        yield Circle(
            local.spot(u, draft.line), CIRCLE * mark.size, pen=NARROW, fill="white", layer=mark.layer
        )
        yield from _long_lines(draft)
    else:
        yield stroke(mark, local, u, draft.line, TICK)
    if draft.jogged:
        a, b = local.spot(u, draft.height(PAST)), local.spot(stands, draft.height(PAST + JOG))
        yield Line(a, b, pen=NARROW, layer=mark.layer)
    yield _number(draft, text, stands)


def _long_lines(draft: _Draft) -> Iterator[PlainMark]:
    """The dimension line, from the edge of the datum's circle to the furthest point on each side."""
    local, start = draft.local, draft.local.u(draft.mark.datum)
    along = [local.u(spot) for spot in draft.mark.points]
    edge = CIRCLE * draft.mark.size
    for end, side in ((max(along, default=start), edge), (min(along, default=start), -edge)):
        if (end - start) * side > edge * edge:
            a, b = local.spot(start + side, draft.line), local.spot(end, draft.line)
            yield Line(a, b, pen=NARROW, layer=draft.mark.layer)


def _number(draft: _Draft, text: str, stands: float) -> Words:
    """The number, standing along its extension line beyond its end."""
    mark, half = draft.mark, draft.mark.size / 2
    beyond = draft.height(PAST + (JOG if draft.jogged else 0.0) + BESIDE / 2)
    on_axis = draft.local.spot(stands, beyond)
    anchor: Anchor = "left" if mark.away >= 0 else "right"
    turn: Turn = 90 if mark.axis == "x" else 0
    at = _below(on_axis, mark.axis, half)
    return Words(at, text, size=mark.size, anchor=anchor, turn=turn, layer=mark.layer)


def _below(spot: Spot, axis: Axis, half: float) -> Spot:
    """Where the baseline goes so that the number's middle lies on its line."""
    return Spot(spot.x + half, spot.y) if axis == "x" else Spot(spot.x, spot.y - half)
