"""Stops of the crosscut saw: one setting for each length, and what each stick is cut into."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.machining.pieces import Wood
from pinchrod.timber import Stick


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthStop:
    """A length stop set once, and every piece cut to it."""

    length: Mm
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StickCuts:
    """What one stick is cut into, in the order in which its pieces come to the saw: long before short."""

    stick: str
    pieces: tuple[str, ...]


def length_stops(woods: Iterable[Wood]) -> tuple[LengthStop, ...]:
    """One setting for each length. No fewer will do, since a stop cuts one length.

    Long before short: the stop moves one way, and a piece spoiled may still give a shorter one.
    """
    pieces: dict[Mm, list[str]] = defaultdict(list)
    for wood in woods:
        pieces[wood.member.length].extend(wood.marks)
    return tuple(
        LengthStop(length=length, pieces=tuple(pieces[length])) for length in sorted(pieces, reverse=True)
    )


def stick_cuts(sticks: Iterable[Stick], woods: Iterable[Wood]) -> tuple[StickCuts, ...]:
    """What each stick is cut into; it comes back to the saw as the stop moves to its next length."""
    length = {mark: wood.member.length for wood in woods for mark in wood.marks}
    return tuple(
        StickCuts(
            stick=stick.name,
            pieces=tuple(sorted(stick.members, key=lambda mark: -length[mark])),
        )
        for stick in sticks
    )
