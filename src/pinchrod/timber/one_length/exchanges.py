"""What a longer piece's place on a bar could be used for: a shorter one, or two that are together no longer.

Told of that, the programme over the bars known so far needs half the bars and a third of the rounds, for
every bar stands for many. It may then find too low a cost, where a bar would hold more of a kind than are
wanted; so it is told at the start only, and no proof rests on it.
"""

import numpy as np

from pinchrod.timber.one_length.counted import Whole

PAIRS = 4  # for each kind, at most about so many


def exchanges(size: Whole) -> tuple[tuple[int, ...], ...]:
    """For each exchange the kind given up, then the kinds got; kinds are longest first."""
    singles = [(kind, kind + 1) for kind in range(len(size) - 1)]
    pairs = [pair for kind in range(len(size)) for pair in _pairs(size, kind)]
    return (*singles, *pairs)


def _pairs(size: Whole, kind: int) -> list[tuple[int, ...]]:
    """Exchanges for two: one at least half as long, and the longest that still fits beside it."""
    shorter = np.flatnonzero((size < size[kind]) & (2 * size >= size[kind]))
    out: list[tuple[int, ...]] = []
    for one in shorter[:: max(1, len(shorter) // PAIRS)].tolist():
        beside = np.flatnonzero(size <= size[kind] - size[one])
        if beside.size and beside[0] != one:
            out.append((kind, one, int(beside[0])))
    return out
