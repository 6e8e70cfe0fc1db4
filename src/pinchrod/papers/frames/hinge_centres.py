"""Where a frame's hinges stand on its two stiles, and in words those that are dimensioned nowhere."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from pinchrod.ground import Mm, show
from pinchrod.setting_out import Rod, Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """The hinges on one stile: their centres from the frame's bottom, and the fronts they carry."""

    centres: tuple[Mm, ...]
    fronts: frozenset[str]


def hung_on(rod: Rod, role: Role) -> Hung:
    """The hinges on the left or the right stile."""
    stile = next(member for member in rod.members if member.role is role)
    found = [(stile.datum + seat.at, seat.front) for seat in stile.hinge_seats]
    return Hung(centres=tuple(sorted(at for at, _ in found)), fronts=frozenset(front for _, front in found))


def centres_in_words(rod: Rod, said: frozenset[str], step: Mm) -> Iterator[str]:
    """A line for each set of hinge centres that is not dimensioned, measured up the fronts that share it."""
    sets: dict[tuple[Mm, ...], list[str]] = defaultdict(list)
    for front in rod.fronts:
        if front.hinges and front.name not in said:
            sets[front.hinges].append(front.name)
    for centres, fronts in sets.items():
        places = ", ".join(show(at, step) for at in centres)
        yield f"Hinge centres, up from the foot of {', '.join(fronts)}: {places}."
