"""Passes through the thicknesser: the fewest bed heights that bring everything from sawn to finished.

The bed moves one way, up, so that heights only grow less. All that is thicker than a height goes through
before it moves. No pass is deeper than the machine takes; the last one of each piece is deep enough to clear
the marks of a serrated feed roller and shallow enough to leave a good finish.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from pinchrod.ground import Mm
from pinchrod.job import Thicknesser


@dataclass(frozen=True, slots=True, kw_only=True)
class Planing:
    """One stick to be planed: on its face to thickness, or on its edge to width."""

    name: str
    sawn: Mm
    finished: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One bed height, and all that goes through before it moves."""

    height: Mm
    through: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Passes:
    """Bed heights from high to low. `of`: thickness, or width."""

    of: str
    passes: tuple[Pass, ...]
    shallow: tuple[
        str, ...
    ] = ()  # so little to take off that the only pass is shallower than a last one should be

    @property
    def heights(self) -> tuple[Mm, ...]:
        """The bed heights alone."""
        return tuple(each.height for each in self.passes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """All sticks of one finished size, by the thickest of them."""

    finished: Mm
    thickest: Mm


def passes_of(of: str, sticks: Sequence[Planing], machine: Thicknesser, step: Mm) -> Passes:
    """The fewest bed heights, and what goes through at each; on whole steps where that costs no pass more."""
    heights = fewest_heights(sticks, machine, step)
    through: dict[Mm, list[str]] = {height: [] for height in heights}
    for stick in sticks:
        for height in _way_down(stick, heights, machine):
            through[height].append(stick.name)
    least = machine.final_pass[0]
    return Passes(
        of=of,
        passes=tuple(Pass(height=height, through=tuple(through[height])) for height in heights),
        shallow=tuple(stick.name for stick in sticks if 0 < stick.sawn - stick.finished < least),
    )


def fewest_heights(sticks: Iterable[Planing], machine: Thicknesser, step: Mm = Mm(0)) -> tuple[Mm, ...]:
    """The fewest bed heights that plane all sticks within the machine's limits, from high to low."""
    if machine.final_pass[0] > machine.deepest_pass:
        raise ValueError(
            "a last pass must be no deeper than the deepest"
        )  # reading a workshop file refuses it
    thickest: dict[Mm, Mm] = {}
    for stick in sticks:
        if stick.sawn > stick.finished:
            thickest[stick.finished] = max(stick.sawn, thickest.get(stick.finished, stick.sawn))
    runs = tuple(Run(finished=size, thickest=thickest[size]) for size in sorted(thickest, reverse=True))
    exact = _heights(runs, machine, Mm(0))
    on_steps = _heights(runs, machine, step) if step else exact
    return on_steps if len(on_steps) == len(exact) else exact


def _heights(runs: Sequence[Run], machine: Thicknesser, step: Mm) -> tuple[Mm, ...]:
    """Each height as low as what is still to be done allows; so none can be saved.

    A finished size must be met exactly. A run with more to take off than a last pass does needs a height in
    the reach of its last pass, and down to there no step deeper than the machine takes. Whatever heights a
    plan has, its highest can be lowered to the one chosen here and still serves all it served.
    """
    to_meet = [run.finished for run in runs]
    to_lead = [run for run in runs if run.thickest - run.finished > _most_of_last(machine)]
    heights: list[Mm] = []
    while to_meet or to_lead:
        last = heights[-1] if heights else None
        low = max((*to_meet[:1], *(_lowest_next(run, last, machine) for run in to_lead)))
        height = low if low in to_meet[:1] else _on_step(low, last, step)
        heights.append(height)
        to_meet = [size for size in to_meet if size < height]
        to_lead = [run for run in to_lead if not _leads(height, run.finished, machine)]
    return tuple(heights)


def _most_of_last(machine: Thicknesser) -> Mm:
    return min(machine.final_pass[1], machine.deepest_pass)


def _lowest_next(run: Run, last: Mm | None, machine: Thicknesser) -> Mm:
    """The lowest that the next height may be, for the run's sake."""
    now = run.thickest if last is None else min(run.thickest, last)
    return max(run.finished + machine.final_pass[0], now - machine.deepest_pass)


def _leads(height: Mm, finished: Mm, machine: Thicknesser) -> bool:
    """Whether the last pass may follow this height."""
    return machine.final_pass[0] <= height - finished <= _most_of_last(machine)


def _on_step(low: Mm, last: Mm | None, step: Mm) -> Mm:
    """The next whole step above, if the bed still moves down by it."""
    if not step:
        return low
    height = ceil(low / step) * step
    return height if last is None or height < last else low


def _way_down(stick: Planing, heights: Sequence[Mm], machine: Thicknesser) -> tuple[Mm, ...]:
    """The heights one stick goes through: all below it, but those too near its finished size."""
    if stick.sawn <= stick.finished:
        return ()
    if stick.sawn - stick.finished <= _most_of_last(machine):
        return (stick.finished,)
    below = [height for height in heights if stick.finished < height < stick.sawn]
    lead = next(height for height in below if _leads(height, stick.finished, machine))
    return (*(height for height in below if height >= lead), stick.finished)
