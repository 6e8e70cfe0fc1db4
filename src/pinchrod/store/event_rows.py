"""Events as rows of the ledger, and rows as events."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import cast

from pinchrod.ground import Mm
from pinchrod.store.base import Base, Row, Value, insert
from pinchrod.store.chain import Head, Unreadable, sealed
from pinchrod.store.copying import rows_of
from pinchrod.store.deeds import By, Deed, Event
from pinchrod.store.requests import answer_before, keep_answer
from pinchrod.store.tables import EVENTS

NAMES = ", ".join(EVENTS.names)
DEEDS = {str(deed): deed for deed in Deed}
EventRow = tuple[
    int, str, int, str, str, int, str, str, str, str, str, str, str, str, int, str, str, str
]  # as EVENTS has its columns


def append(base: Base, events: tuple[Event, ...]) -> tuple[Event, ...]:
    """The events as they stand in the ledger now, numbered on from its last and sealed to it.

    The caller is in a transaction that has the store to itself.
    """
    head = head_of(base)
    written = []
    for event in events:
        event = sealed(replace(event, seq=head.seq + 1), head.seal)
        insert(base, EVENTS.name, **values_of(event))
        head = Head(event.seq, event.seal)
        written.append(event)
    base.do("UPDATE head SET seq = :seq, seal = :seal", seq=head.seq, seal=head.seal)
    return tuple(written)


def event_before(base: Base, key: str, payload: str) -> Event | None:
    """The event that the same request wrote before; None if it is new. NotYetRight as `answer_before`."""
    if answer_before(base, key, payload) is None:
        return None
    return select(base, "key = :key", key=key)[0]


def keep_event(base: Base, event: Event, payload: str) -> Event:
    """The one event of a request as it stands in the ledger now, the request noted with it."""
    keep_answer(base, event.key, payload, "")
    [written] = append(base, (event,))
    return written


def head_of(base: Base) -> Head:
    """The last event of the ledger, as it was noted."""
    found = base.rows("SELECT seq, seal FROM head")
    return Head(int(found[0][0]), str(found[0][1])) if found else Head()


def select(base: Base, where: str, **values: Value) -> tuple[Event, ...]:
    """Events of the ledger in their order."""
    return tuple(map(event_of, rows_where(base, where, **values)))


def rows_where(base: Base, where: str, **values: Value) -> list[Row]:
    """Rows of the ledger in their order, to be read as events when nobody waits for the database any more."""
    sql = f"SELECT {NAMES} FROM events WHERE {where} ORDER BY seq"  # noqa: S608 -- our own names only
    return base.rows(sql, **values)


def every_event(base: Base) -> Iterator[Event | Unreadable]:
    """The whole ledger, row by row, also where a row is no event any more."""
    for row in rows_of(base, EVENTS):
        try:
            yield event_of(row)
        except (ValueError, ZeroDivisionError):
            yield Unreadable(int(row[0]))


def values_of(event: Event) -> dict[str, Value]:
    """The event as it stands in its row."""
    return {
        "seq": event.seq,
        "key": event.key,
        "part": event.part,
        "deed": str(event.deed),
        "job": event.job,
        "revision": event.revision,
        "at": event.at,
        "person": event.by.person,
        "device": event.by.device,
        "piece": event.piece,
        "paper": event.paper,
        "reason": event.reason,
        "spot": event.spot,
        "diagonals": " ".join(str(length) for length in event.diagonals),
        "undoes": event.undoes,
        "despite": " ".join(event.despite),
        "proof": event.proof,
        "seal": event.seal,
    }


def event_of(row: Row) -> Event:
    """The event that a row holds; ValueError if it is not as an event is written.

    Columns hold what they are made for: the database sees to that. What is left to look at is the deed and
    what is spelled in words of our own. Rows come by the hundred thousand, so names of people and devices,
    lengths and doubts are each read once and used again.
    """
    said = cast("EventRow", row)
    return Event(
        seq=said[0],
        key=said[1],
        part=said[2],
        deed=DEEDS.get(said[3]) or Deed(said[3]),
        job=said[4],
        revision=said[5],
        at=said[6],
        by=_by(said[7], said[8]),
        piece=said[9],
        paper=said[10],
        reason=said[11],
        spot=said[12],
        diagonals=_lengths(said[13]) if said[13] else (),
        undoes=said[14],
        despite=_codes(said[15]) if said[15] else (),
        proof=said[16],
        seal=said[17],
    )


@lru_cache(maxsize=1_000)
def _by(person: str, device: str) -> By:
    return By(person=person, device=device)


@lru_cache(maxsize=10_000)
def _lengths(said: str) -> tuple[Mm, ...]:
    lengths = tuple(Mm(length) for length in said.split())
    _check_spelling(said, " ".join(str(length) for length in lengths))
    return lengths


@lru_cache(maxsize=1_000)
def _codes(said: str) -> tuple[str, ...]:
    codes = tuple(said.split())
    _check_spelling(said, " ".join(codes))
    return codes


def _check_spelling(said: str, written: str) -> None:
    if said != written:
        raise ValueError(f"{said!r} is not as an event is written")
