"""A largest matching of a two-sided graph, and from it the fewest points that touch every line.

Hopcroft and Karp (1973) find the matching in at most about the square root of the points' number of rounds;
by König's theorem as many points as it has lines touch every line, and fewer cannot. Both from memory of
textbooks.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

Lines = Sequence[Sequence[int]]  # from each point of one side, the points of the other that it is joined to
FREE = -1
FAR = 1 << 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Touching:
    """The fewest points that touch every line, and a matching with as many lines."""

    lefts: tuple[int, ...]
    rights: tuple[int, ...]
    matched: tuple[tuple[int, int], ...]


def fewest_touching(lines: Lines, rights: int) -> Touching:
    """The fewest points that touch every line; `lines` from the left side, `rights` points on the other.

    Of all that are as few, one of the two that lie most to one side: the one with fewer on its lesser side,
    the left one where they are equal. Neither depends on which largest matching was found.
    """
    to_right, to_left = largest_matching(lines, rights)
    most_left = _touching(lines, to_right, to_left)
    turned = _turned(lines, rights)
    most_right = _touching(turned, to_left, to_right)[::-1]
    left_one = min(map(len, most_left)) <= min(map(len, most_right))
    lefts, chosen_rights = most_left if left_one else most_right
    matched = tuple((left, right) for left, right in enumerate(to_right) if right != FREE)
    return Touching(lefts=lefts, rights=chosen_rights, matched=matched)


def largest_matching(lines: Lines, rights: int) -> tuple[list[int], list[int]]:
    """For each point on the left its partner, and the other way round; FREE for those without one."""
    to_right, to_left = [FREE] * len(lines), [FREE] * rights
    while True:
        rounds = _rounds(lines, to_right, to_left)
        untried = [iter(joined) for joined in lines]
        free = [left for left, right in enumerate(to_right) if right == FREE]
        if not sum(_lengthened(left, untried, rounds, to_right, to_left) for left in free):
            return to_right, to_left


def _rounds(lines: Lines, to_right: list[int], to_left: list[int]) -> list[int]:
    """How many steps each left point lies from a free one, up to where a free right point is first met."""
    rounds = [0 if right == FREE else FAR for right in to_right]
    front = [left for left, right in enumerate(to_right) if right == FREE]
    met = False
    while front and not met:
        following = []
        for left in front:
            for right in lines[left]:
                partner = to_left[right]
                if partner == FREE:
                    met = True
                elif rounds[partner] == FAR:
                    rounds[partner] = rounds[left] + 1
                    following.append(partner)
        front = following
    return rounds


def _lengthened(
    start: int, untried: list[Iterator[int]], rounds: list[int], to_right: list[int], to_left: list[int]
) -> bool:
    """Whether a way was found from a free left point to a free right one: one line more is matched.

    Each point's lines are tried once a round, which is what keeps the search short.
    """
    path = [start]
    taken: list[int] = []
    while path:
        right = next(untried[path[-1]], FREE)
        if right == FREE:
            path.pop()
            if taken:
                taken.pop()
            continue
        partner = to_left[right]
        if partner == FREE:
            for left, other in zip(path, [*taken, right], strict=True):
                to_right[left], to_left[other] = other, left
            return True
        if rounds[partner] == rounds[path[-1]] + 1:
            path.append(partner)
            taken.append(right)
    return False


def _touching(lines: Lines, ours: list[int], theirs: list[int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """König's points, with as many on our side as there can be: all but those a free one of ours leads to."""
    reached, met = [partner == FREE for partner in ours], [False] * len(theirs)
    waiting = [point for point, free in enumerate(reached) if free]
    while waiting:
        for other in lines[waiting.pop()]:
            if not met[other]:
                met[other] = True
                partner = theirs[other]  # never free: the matching would not be the largest
                if not reached[partner]:
                    reached[partner] = True
                    waiting.append(partner)
    kept = (point for point, there in enumerate(reached) if not there and lines[point])
    return tuple(kept), tuple(other for other, there in enumerate(met) if there)


def _turned(lines: Lines, rights: int) -> list[list[int]]:
    """The same lines seen from the right side."""
    turned: list[list[int]] = [[] for _ in range(rights)]
    for left, joined in enumerate(lines):
        for right in joined:
            turned[right].append(left)
    return turned
