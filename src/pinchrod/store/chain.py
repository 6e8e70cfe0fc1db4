"""The chain through the ledger: each event's seal is made of the event and of the seal before it."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from hashlib import sha256

from pinchrod.ground import Problem, Where
from pinchrod.store.deeds import Event

START = sha256(b"pinchrod ledger 1").hexdigest()
"""What stands before the first event."""


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A row of the ledger that no event was ever written as."""

    seq: int


@dataclass(frozen=True, slots=True)
class Head:
    """The ledger's last event: its number and seal. It is kept apart, so that a lost last line shows."""

    seq: int = 0
    seal: str = START


def sealed(event: Event, before: str) -> Event:
    """The event with its seal."""
    return replace(event, seal=seal_of(event, before))


def seal_of(event: Event, before: str) -> str:
    """The sha256, in hex, of the seal before and of all that the event says, each word in its quotes."""
    said = [
        before,
        event.seq,
        event.key,
        event.part,
        str(event.deed),
        event.job,
        event.revision,
        event.at,
        event.by.person,
        event.by.device,
        event.piece,
        event.paper,
        event.reason,
        event.spot,
        [str(length) for length in event.diagonals],
        event.undoes,
        list(event.despite),
        event.proof,
    ]
    return sha256(json.dumps(said, separators=(",", ":")).encode()).hexdigest()


def breaks(events: Iterable[Event | Unreadable], head: Head) -> Iterator[Problem]:
    """The first place where the chain is broken, if it is: everything after it is in doubt too."""
    last = Head()
    for event in events:
        if event.seq != last.seq + 1:
            yield _broken(last.seq + 1, f"event {last.seq + 1} is gone: after {last.seq} comes {event.seq}")
            return
        if isinstance(event, Unreadable) or event.seal != seal_of(event, last.seal):
            yield _broken(event.seq, f"event {event.seq} is not as it was written, or not in its place")
            return
        last = Head(event.seq, event.seal)
    if last != head:
        seq = min(last.seq, head.seq) + 1 if last.seq != head.seq else last.seq
        what = f"the ledger ends with event {last.seq}, where event {head.seq} was written last"
        yield _broken(seq, what if last.seq != head.seq else f"event {seq} has another seal than was noted")


def _broken(seq: int, what: str) -> Problem:
    mend = "restore the newest copy that is sound; keep this one aside, to see what happened"
    return Problem(where=Where(name=f"event {seq}"), code="ledger-broken", what=what, mend=mend)
