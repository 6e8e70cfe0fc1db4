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
    def done(self) -> tuple[Event, ...]:
        """The steps done on the wood that bears the mark now: those since it was last made again."""
        steps: tuple[Event, ...] = ()
        for event in self.events:
            if event.deed is Deed.MADE_AGAIN:
                steps = ()
            elif event.deed in STEPS:
                steps = (*steps, event)
        return steps

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
        """The newest event that stands; it alone can be taken back."""
        return self.events[-1] if self.events else None

    def when(self, step: Deed) -> Event | None:
        """The event of that step on the wood that bears the mark now, if it is done."""
        return next((event for event in self.done if event.deed is step), None)


def after(standing: Standing, event: Event) -> Standing:
    """How the piece stands once the event is in the ledger."""
    if event.deed is Deed.UNDONE:
        left = tuple(each for each in standing.events if each.seq != event.undoes)
    else:
        left = (*standing.events, event)
    return Standing(job=standing.job, piece=standing.piece, events=left)


def replay(events: Iterable[Event]) -> tuple[Standing, ...]:
    """How each piece stands after these events, in the order in which the pieces first came up.

    Events of a job alone, such as a saved revision, say nothing of a piece and are passed over.
    """
    pieces: dict[tuple[str, str], Standing] = {}
    for event in events:
        if event.piece:
            place = event.job, event.piece
            standing = pieces.get(place) or Standing(job=event.job, piece=event.piece)
            pieces[place] = after(standing, event)
    return tuple(pieces.values())
