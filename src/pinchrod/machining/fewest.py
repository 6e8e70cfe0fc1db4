"""The fewest stop settings that reach every stroke, with the proof that no fewer do.

Each stroke is a choice between one left-hand and one right-hand setting: a line between two points. So the
fewest settings are the fewest points that touch every line, those forced by reach taken first.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, rounded
from pinchrod.machining.matching import fewest_touching
from pinchrod.machining.stops import Hand, StopQuestion, Stops, StopSetting, Stroke

Place = tuple[Hand, Mm]
"""Where a stop can be set: the side, and the distance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """A stroke with the places of a stop from which it can be made: one or two."""

    stroke: Stroke
    places: tuple[Place, ...]


def fewest_settings(question: StopQuestion) -> Stops:
    """The fewest settings that reach every stroke, each stroke at one of them, and the proof."""
    offered = [(stroke, places_of(stroke, question)) for stroke in question.strokes]
    unreached = tuple(stroke for stroke, places in offered if not places)
    reached = [Reached(stroke=stroke, places=places) for stroke, places in offered if places]
    forced = {each.places[0]: each.stroke for each in reversed(reached) if len(each.places) == 1}
    open_to_choice = [each for each in reached if not any(place in forced for place in each.places)]
    chosen, proof = _chosen(open_to_choice)
    settings = settings_at({*forced, *chosen}, reached)
    return Stops(settings=settings, unreached=unreached, proof=(*forced.values(), *proof))


def places_of(stroke: Stroke, question: StopQuestion) -> tuple[Place, ...]:
    """Where a stop can be set for the stroke, within the bed's reach on either side."""
    found = []
    for hand, reach in ((Hand.LEFT, question.reach_left), (Hand.RIGHT, question.reach_right)):
        distance = _set_to(stroke.distance(hand), question.step)
        if 0 <= distance <= reach:
            found.append((hand, distance))
    return tuple(found)


def _set_to(distance: Mm, step: Mm) -> Mm:
    return rounded(distance, step) if step else distance


def _chosen(reached: Sequence[Reached]) -> tuple[list[Place], list[Stroke]]:
    """The fewest places that reach strokes of two places each, and as many strokes that share none."""
    witness = {each.places: each.stroke for each in reversed(reached)}
    lefts = sorted({left for left, _ in witness})
    rights = sorted({right for _, right in witness})
    number = {place: each for each, place in enumerate(rights)}
    joined: dict[Place, list[int]] = defaultdict(list)
    for left, right in witness:
        joined[left].append(number[right])
    few = fewest_touching([sorted(joined[left]) for left in lefts], len(rights))
    chosen = [*(lefts[each] for each in few.lefts), *(rights[each] for each in few.rights)]
    return chosen, [witness[lefts[left], rights[right]] for left, right in few.matched]


def settings_at(chosen: Iterable[Place], reached: Sequence[Reached]) -> tuple[StopSetting, ...]:
    """Settings at these places: left ones outwards, then right ones, so that each stop moves one way only.

    A stroke that two of them reach is made at the one that serves more.
    """
    kept = set(chosen)
    served = Counter(place for each in reached for place in each.places if place in kept)
    strokes: dict[Place, list[Stroke]] = defaultdict(list)
    for each in reached:
        best = max((place for place in each.places if place in kept), key=served.__getitem__)
        strokes[best].append(each.stroke)
    return tuple(_settings(strokes))


def _settings(strokes: dict[Place, list[Stroke]]) -> Iterator[StopSetting]:
    for hand, distance in sorted(strokes):
        yield StopSetting(hand=hand, distance=distance, strokes=tuple(strokes[hand, distance]))


def by_eye(question: StopQuestion) -> Stops:
    """Settings as a joiner would pick them: again and again the one that serves most strokes still to make.

    The yardstick; it proves nothing.
    """
    offered = [(stroke, places_of(stroke, question)) for stroke in question.strokes]
    reached = [Reached(stroke=stroke, places=places) for stroke, places in offered if places]
    chosen: list[Place] = []
    waiting = reached
    while waiting:
        served = Counter(place for each in waiting for place in each.places)
        best = min(served, key=lambda place: (-served[place], place))
        chosen.append(best)
        waiting = [each for each in waiting if best not in each.places]
    unreached = tuple(stroke for stroke, places in offered if not places)
    return Stops(settings=settings_at(chosen, reached), unreached=unreached, proof=())
