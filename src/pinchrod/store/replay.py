"""How the pieces stand: the ledger gone through from its first line. Nothing else says it."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.store.deeds import STEPS, Deed, Event


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How one piece stands: every event of it that was not taken back, the oldest first."""

    job: str
    piece: str
    events: tuple[Event, ...] = ()

    @property
    def of_this_wood(self) -> tuple[Event, ...]:
        """What was said of the wood that bears the mark now: everything since it was last made again."""
        for place in reversed(range(len(self.events))):
            if self.events[place].deed is Deed.MADE_AGAIN:
                return self.events[place + 1 :]
        return self.events

    @property
    def done(self) -> tuple[Event, ...]:
        """The steps done on the wood that bears the mark now."""
        return tuple(event for event in self.of_this_wood if event.deed in STEPS)

    @property
    def through(self) -> tuple[str, ...]:
        """The settings that the wood went through, in the order in which that was said."""
        return tuple(event.spot for event in self.of_this_wood if event.deed is Deed.THROUGH)

    @property
    def spoiled(self) -> Event | None:
        """When the wood that bears the mark was spoiled, if it was."""
        last = self.last
        return last if last is not None and last.deed is Deed.SPOILED else None

    @property
    def made(self) -> int:
        """How many pieces of wood have borne the mark: 1, and 1 more each time it was made again."""
        return 1 + sum(event.deed is Deed.MADE_AGAIN for event in self.events)

    @property
    def last(self) -> Event | None:
        """The newest event that stands."""
        return self.events[-1] if self.events else None

    def when(self, deed: Deed, spot: str = "") -> Event | None:
        """The event of that step, or of that setting, on the wood that bears the mark now, if it is done."""
        found = (event for event in self.of_this_wood if event.deed is deed)
        return next((event for event in found if deed is not Deed.THROUGH or event.spot == spot), None)


def after(standing: Standing, event: Event) -> Standing:
    """How the piece stands once the event is in the ledger."""
    if event.deed is Deed.UNDONE:
        left = tuple(each for each in standing.events if each.seq != event.undoes)
    else:
        left = (*standing.events, event)
    return Standing(job=standing.job, piece=standing.piece, events=left)


def replay(events: Iterable[Event], before: Iterable[Standing] = ()) -> tuple[Standing, ...]:
    """How each piece stands after these events, in the order in which the pieces first came up.

    `before` is how they stood before the first of the events, for whoever has gone through the ledger so
    far. Events of a job or a stick say nothing of a piece and are passed over. Each event is touched once
    or twice, however many there are of its piece.
    """
    pieces = {
        (standing.job, standing.piece): {event.seq: event for event in standing.events} for standing in before
    }
    for event in events:
        if event.piece:
            standing = pieces.setdefault((event.job, event.piece), {})
            if event.deed is Deed.UNDONE:
                standing.pop(event.undoes, None)
            else:
                standing[event.seq] = event
    return tuple(
        Standing(job=job, piece=piece, events=tuple(standing.values()))
        for (job, piece), standing in pieces.items()
    )
