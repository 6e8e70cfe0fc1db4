"""What is done to a piece of wood, who did it, and the record of it in the ledger."""

from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import Mm, Problem


class Deed(StrEnum):
    """What an event of the ledger says was done."""

    BROKEN_OUT = "broken out"
    PASSED = "passed"
    MOULDED = "moulded"
    CUT = "cut"
    NOTCHED = "notched"
    SLOTTED = "slotted"
    GLUED = "glued"
    CHECKED = "checked"
    DELIVERED = "delivered"
    SPOILED = "spoiled"
    MADE_AGAIN = "made again"
    UNDONE = "undone"
    SAVED = "saved"
    ISSUED = "issued"
    THROUGH = "through"  # one setting of one step
    FAULT = "fault found"  # in a stick of a job
    PUT_AWAY = "put away"  # a job at which nobody works
    BROUGHT_BACK = "brought back"  # one that was put away


STEPS = tuple(Deed)[: tuple(Deed).index(Deed.SPOILED)]
"""The steps a piece goes through, in the usual order (the trade's: break out, plane, mould, cut, notch)."""
SHAPING = STEPS[: STEPS.index(Deed.GLUED)]
"""Steps that cannot follow gluing: a glued frame goes through no machine of these."""
OF_PIECES = (*STEPS, Deed.SPOILED, Deed.MADE_AGAIN, Deed.UNDONE, Deed.THROUGH)
"""What may be said of a piece; saving, issuing and putting away are said of a job, a fault of a stick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class By:
    """Who did it, and at which tablet or computer it was said."""

    person: str
    device: str

    def __str__(self) -> str:
        """As it is told: `Bench (tablet 2)`."""
        return f"{self.person} ({self.device})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One thing said of one piece."""

    deed: Deed
    piece: str
    reason: str = ""  # why a piece is spoiled, or a note
    spot: str = ""  # where on the piece, or which setting it went through
    diagonals: tuple[Mm, ...] = ()  # both, of a frame that was checked
    undoes: int = 0  # the event that is taken back


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What a tablet sends: one or more things said at once, kept all or none.

    `key` is made up by the tablet, once for each touch: however often the request comes, it counts once.
    `mark` is the content mark on the label that was scanned; empty where none was. `despite` are the codes
    of doubts that were shown and that the person goes on in spite of.
    """

    key: str
    by: By
    said: tuple[Said, ...]
    mark: str = ""
    despite: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One line of the ledger. It is never changed; what was wrong is taken back by a later line."""

    seq: int  # from 1, without gaps, never used again: the one order of things
    key: str  # of the request that said it
    part: int  # which of the request's events it is, from 0
    deed: Deed
    job: str
    revision: int
    at: str  # UTC, for people to read; nothing is ordered by it
    by: By
    piece: str = ""
    paper: str = ""  # the name of a paper that went out
    reason: str = ""
    spot: str = ""
    diagonals: tuple[Mm, ...] = ()
    undoes: int = 0
    despite: tuple[str, ...] = ()  # codes of the doubts that the request went on in spite of
    proof: str = ""  # sha256 of what was saved or issued
    seal: str = ""  # sha256 over this event and the seal before it

    def __str__(self) -> str:
        """As it is told: `notched at 2026-11-25 20:10 UTC by Bench (tablet 2)`."""
        return f"{self.deed} at {self.at[:16].replace('T', ' ')} UTC by {self.by}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """The answer to a request: its events, and the doubts that it went on in spite of.

    The same request, sent again, gets the same answer.
    """

    events: tuple[Event, ...]
    doubts: tuple[Problem, ...] = ()
