"""Strokes of the notching knife: which cut a notch, and where each lies along its piece.

The knife has a flat between flanks at 45 degrees, so that one stroke leaves a floor as wide as the flat.
"""

from collections.abc import Iterable, Iterator
from math import ceil

from pinchrod.ground import Mm
from pinchrod.machining.pieces import Wood
from pinchrod.machining.stops import Stroke
from pinchrod.setting_out import Edge, Member, Notch


def centres(notch: Notch, flat: Mm) -> tuple[Mm, ...]:
    """Where the middle of the knife stands for each stroke of a notch, in frame coordinates.

    A floor wider than the flat takes the fewest strokes that cover it: the first against one flank, the last
    against the other (or flush with the piece's end where the notch runs out), equal steps between. One
    narrower than the flat takes one stroke against its flank; it must run out, and setting out refuses those
    that do not.
    """
    low, high = notch.floor.low + flat / 2, notch.floor.high - flat / 2
    if notch.floor.length <= flat:
        flank_is_low = notch.mouth.low < notch.floor.low
        return (low if flank_is_low else high,)
    number = ceil(notch.floor.length / flat)
    step = (high - low) / (number - 1)
    return tuple(low + step * each for each in range(number))


def notch_strokes(woods: Iterable[Wood], flat: Mm) -> Iterator[Stroke]:
    """Every stroke of every piece: piece by piece, edge by edge, from the datum end."""
    for wood in woods:
        places = tuple(_places(wood.member, flat))
        for mark in wood.marks:
            yield from (stroke_along(wood.member, mark, edge, at) for edge, at in places)


def _places(member: Member, flat: Mm) -> Iterator[tuple[Edge, Mm]]:
    for notch in member.notches:
        yield from ((notch.edge, centre - member.datum) for centre in centres(notch, flat))


def stroke_along(member: Member, mark: str, edge: Edge, at: Mm, *, face_up: bool = True) -> Stroke:
    """A stroke in one edge of a piece that lies with that edge towards the tool.

    Face up, with edge left or upper towards the tool the datum end lies to the left, with right or lower to
    the right; back up it is the other way.
    """
    datum_to_the_left = edge in (Edge.LEFT, Edge.UPPER)
    return Stroke(piece=mark, side=edge, at=at, length=member.length, from_left=datum_to_the_left == face_up)
