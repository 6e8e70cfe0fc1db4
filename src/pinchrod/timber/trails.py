"""Things that begin with one setting and end with another, put in a row so that settings change least.

Each is an arrow from its first setting to its last. A row without a change between is a trail of arrows, each
beginning where the one before it ends; the fewest trails that take in every arrow are known exactly (Euler):
in each group of arrows that hang together, as many as more arrows leave their settings than come to them, and
at least one.
"""

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence


def fewest_trails(ends: Sequence[tuple[Hashable, Hashable]]) -> tuple[tuple[int, ...], ...]:
    """The arrows by their places in as few trails as can be; those that stand first come first."""
    arrows = [*ends, *_joins(ends)]
    leaving: dict[Hashable, list[int]] = defaultdict(list)
    for place in reversed(range(len(arrows))):
        leaving[arrows[place][0]].append(place)  # to be taken from the end: the first place first
    trails: list[tuple[int, ...]] = []
    for place in range(len(ends)):
        begin = arrows[place][0]
        if place in leaving[begin]:
            trails.extend(_parted(_round_trip(arrows, leaving, begin), len(ends)))
    return tuple(sorted(trails))


def _joins(ends: Sequence[tuple[Hashable, Hashable]]) -> Iterator[tuple[Hashable, Hashable]]:
    """Arrows to be added from where trails end to where others begin, so that all go round.

    Those that hang together are joined among themselves alone: a trail must not pay for another's.
    """
    group = _groups(ends)
    surplus: dict[Hashable, int] = defaultdict(int)
    for first, last in ends:
        surplus[first] += 1
        surplus[last] -= 1
    begins = [setting for setting, more in surplus.items() for _ in range(more)]
    stops = [setting for setting, more in surplus.items() for _ in range(-more)]
    for name in dict.fromkeys(group.values()):
        here = [setting for setting in begins if group[setting] == name]
        yield from zip((setting for setting in stops if group[setting] == name), here, strict=True)


def _groups(ends: Sequence[tuple[Hashable, Hashable]]) -> dict[Hashable, int]:
    """A number for each setting, the same for those that arrows join."""
    group: dict[Hashable, int] = {}
    for place, (first, last) in enumerate(ends):
        one, other = group.setdefault(first, place), group.setdefault(last, place)
        group = {setting: one if name == other else name for setting, name in group.items()}
    return group


def _round_trip(
    arrows: Sequence[tuple[Hashable, Hashable]], leaving: dict[Hashable, list[int]], begin: Hashable
) -> tuple[int, ...]:
    """All arrows that hang together, one after another and back to the beginning (Hierholzer's way)."""
    trip: list[int] = []
    path: list[tuple[Hashable, int]] = [(begin, -1)]
    while path:
        setting, came_by = path[-1]
        if leaving[setting]:
            taken = leaving[setting].pop()
            path.append((arrows[taken][1], taken))
            continue
        path.pop()
        trip.append(came_by)
    return tuple(reversed(trip[:-1]))


def _parted(trip: Sequence[int], own: int) -> Iterator[tuple[int, ...]]:
    """The trip without the arrows that were added: the trails between them, its end joined to its start."""
    added = [at for at, place in enumerate(trip) if place >= own]
    if not added:
        yield tuple(trip)
        return
    turned = [*trip[added[0] + 1 :], *trip[: added[0] + 1]]
    trail: list[int] = []
    for place in turned:
        if place < own:
            trail.append(place)
            continue
        if trail:
            yield tuple(trail)
        trail = []
