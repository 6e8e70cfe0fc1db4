"""How far a share that was counted may be from the true one (Clopper and Pearson, Biometrika 26, 1934)."""

from collections.abc import Callable

from pinchrod.ground import Mm

HALVINGS = 14
STEP = Mm(1, 1 << HALVINGS)


def interval(yes: int, of: int, sure: Mm) -> tuple[Mm, Mm]:
    """Between which shares the true one lies, as sure as that; each end at most a 16,000th too wide."""
    tail = float(1 - sure) / 2
    low, high = Mm(0), Mm(1)
    if yes > 0:
        low = _crossing(lambda share: 1 - at_most(yes - 1, of, share) > tail) - STEP
    if yes < of:
        high = _crossing(lambda share: at_most(yes, of, share) <= tail)
    return max(low, Mm(0)), min(high, Mm(1))


def at_most(yes: int, of: int, share: float) -> float:
    """How likely no more than so many of those come out, each as likely as that."""
    if yes >= of:
        return 1.0
    if share > 0.5:
        return 1.0 - at_most(of - yes - 1, of, 1.0 - share) if yes >= 0 else 0.0
    total, term = 0.0, 1.0
    for _ in range(of):
        term *= 1.0 - share
    for number in range(yes + 1):
        total += term
        term *= share / (1.0 - share) * (of - number) / (number + 1)
    return total


def _crossing(beyond: Callable[[float], bool]) -> Mm:
    """The least share, in steps, from which on that holds."""
    low, high = 0, 1 << HALVINGS
    while low < high:
        middle = (low + high) // 2
        if beyond(float(middle * STEP)):
            high = middle
        else:
            low = middle + 1
    return low * STEP
