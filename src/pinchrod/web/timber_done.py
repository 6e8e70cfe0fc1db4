"""Which sticks are done: what the ledger says of their members."""

from pinchrod.store import STEPS, Deed, Standing
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known

CUT = frozenset((*STEPS, Deed.THROUGH, Deed.SPOILED))


def done_sticks(floor: Floor, known: Known) -> frozenset[str]:
    """The sticks in force of which any member was begun: their wood lies sawn, so none of them may move.

    Sticks that were done when a fault was said before stay done.
    """
    stands = floor.sticks.of(known)
    if stands is None:
        return frozenset()
    pieces = floor.standings.of(known.name)
    begun = {mark for mark, standing in pieces.items() if is_begun(standing)}
    before = {name for one in stands.found for name in one.done}
    return frozenset(
        stick.name
        for stick in stands.breakout.sticks
        if stick.name in before or begun.intersection(stick.members)
    )


def is_begun(standing: Standing) -> bool:
    """Whether wood was sawn for the piece at any time: what was made again came out of another stick."""
    return any(event.deed in CUT for event in standing.events)
