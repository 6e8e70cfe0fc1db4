"""The judge of passes: follows each stick through the bed heights. Shares no code with the chooser."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pinchrod.ground import Mm, show
from pinchrod.job import Thicknesser
from pinchrod.machining.passes import Passes, Planing


def flaws_of_passes(sticks: Sequence[Planing], answer: Passes, machine: Thicknesser) -> Iterator[str]:
    """Say which stick is cut too deep, finished badly or not brought to size, and if the bed turns back."""
    if any(later >= earlier for earlier, later in pairwise(answer.heights)):
        yield f"{answer.of}: the bed does not move one way only"
    met = _met(answer)
    for stick in sticks:
        yield from (f"{stick.name}: {said}" for said in _stick_flaws(stick, met.pop(stick.name, ()), machine))
    yield from (f"{name}: goes through, and is not asked for" for name in met)
    shallow = {stick.name for stick in sticks if 0 < stick.sawn - stick.finished < machine.final_pass[0]}
    if shallow != set(answer.shallow):
        yield f"{answer.of}: what is said to have too little to take off is not what has"


def _met(answer: Passes) -> dict[str, tuple[Mm, ...]]:
    """The heights each stick goes through, in their order."""
    met: dict[str, tuple[Mm, ...]] = {}
    for each in answer.passes:
        for name in each.through:
            met[name] = (*met.get(name, ()), each.height)
    return met


def _stick_flaws(stick: Planing, heights: tuple[Mm, ...], machine: Thicknesser) -> Iterator[str]:
    if stick.sawn <= stick.finished:
        yield from ("goes through, and has nothing to take off",) * bool(heights)
        return
    if heights[-1:] != (stick.finished,):
        yield f"is not brought to {show(stick.finished)}"
        return
    cuts = [before - after for before, after in pairwise((stick.sawn, *heights))]
    if min(cuts) <= 0 or max(cuts) > machine.deepest_pass:
        yield f"a pass takes {show(min(cuts))} at least and {show(max(cuts))} at most"
    least, most = machine.final_pass
    if cuts[-1] > most or (cuts[-1] < least and len(cuts) > 1):
        yield f"its last pass takes {show(cuts[-1])}"
