"""Faults found in sticks at the saw: said of a stick of a plan, and taken back the last first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from pinchrod.ground import Mm, NotYetRight, Problem, quoted
from pinchrod.store.base import Base
from pinchrod.store.deeds import By, Deed, Event
from pinchrod.store.event_rows import event_before, keep_event, select
from pinchrod.store.jobs import check_revision
from pinchrod.store.opening import Store
from pinchrod.store.putting_away import check_at_hand
from pinchrod.store.requests import LONGEST_NAME, odd_name, odd_words, payload_of
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

MOST_STICKS = 10_000  # done, in one job
OF_STICKS = f"(deed = '{Deed.FAULT}' OR (deed = '{Deed.UNDONE}' AND piece = ''))"


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultFound:
    """A fault in a stick, from `low` to `high` along it, and which sticks were done when it was found."""

    key: str
    by: By
    job: str
    revision: int  # whose plan the stick is of
    stick: str
    low: Mm
    high: Mm
    done: tuple[str, ...]
    proof: str  # the mark of the plan that it was said of


def record_fault(store: Store, found: FaultFound, *, now: datetime | None = None) -> Event:
    """The event of a fault, once it is safe in the ledger. The same request again gets the same event."""
    problems = list(_odd(found))
    if problems:
        raise NotYetRight(problems)
    span = [str(found.low), str(found.high)]
    payload = payload_of(
        "fault", found.by, found.job, found.revision, found.stick, span, list(found.done), found.proof
    )
    with store.writing() as base:
        before = event_before(base, found.key, payload)
        if before is not None:
            return before
        check_revision(base, found.job, found.revision)
        problems = list(check_at_hand(base, found.job))
        if problems:
            raise NotYetRight(problems)
        return keep_event(base, _event(found, spelled(now or this_moment())), payload)


def faults_of(store: Store, job: str, revision: int) -> tuple[FaultFound, ...]:
    """The faults of a revision's sticks that were not taken back, in the order in which they were said."""
    with store.reading() as base:
        events = select(base, f"job = :job AND {OF_STICKS}", job=job)
    return tuple(fault_of(event) for event in _standing(events) if event.revision == revision)


def undo_fault(store: Store, found: str, *, key: str, by: By, now: datetime | None = None) -> Event:
    """The event that takes back the fault said by the request of the key `found`.

    The last of its revision goes first: sticks that came after it are of a plan that was made with it.
    """
    problems = list(odd_words(key, by))
    if problems:
        raise NotYetRight(problems)
    payload = payload_of("fault undone", by, found)
    with store.writing() as base:
        before = event_before(base, key, payload)
        if before is not None:
            return before
        said = select(base, f"key = :key AND deed = '{Deed.FAULT}'", key=found)
        seq = said[0].seq if said else 0
        standing = _standing(select(base, f"job = :job AND {OF_STICKS}", job=said[0].job)) if said else ()
        problems = list(_not_to_be_undone(seq, standing))
        if problems:
            raise NotYetRight(problems)
        return keep_event(base, _undoing(said[0], key, by, spelled(now or this_moment())), payload)


def fault_of(event: Event) -> FaultFound:
    """The fault that an event of the ledger says; ValueError if it says none."""
    stick, _, span = event.spot.rpartition(" ")
    low, _, high = span.partition("-")
    found = FaultFound(
        key=event.key,
        by=event.by,
        job=event.job,
        revision=event.revision,
        stick=stick,
        low=Mm(low),
        high=Mm(high),
        done=tuple(event.reason.split(",")) if event.reason else (),
        proof=event.proof,
    )
    if spot_of(found) != event.spot or any(_odd(found)):
        raise ValueError(f"event {event.seq} is not as a fault is written")
    return found


def spot_of(found: FaultFound) -> str:
    """The stick and the place on it: `S14 412-440`."""
    return f"{found.stick} {found.low}-{found.high}"


def broken_faults(base: Base) -> Iterator[Problem]:
    """What the ledger says of sticks that cannot have been, each line named by its number."""
    jobs: dict[str, tuple[Event, ...]] = {}
    for event in select(base, OF_STICKS):
        standing = jobs.get(event.job, ())
        for what in _unlawful(event, standing):
            mend = "restore the newest copy that is sound"
            yield amiss(f"event {event.seq}", "ledger-unlawful", f"event {event.seq}: {what}", mend)
        jobs[event.job] = _standing((*standing, event))


def _unlawful(event: Event, standing: tuple[Event, ...]) -> Iterator[str]:
    if event.deed is Deed.UNDONE:
        yield from (problem.what for problem in _not_to_be_undone(event.undoes, standing))
        return
    try:
        fault_of(event)
    except (ValueError, ZeroDivisionError):
        yield "no stick and no place on one can be read in it"


def _standing(events: Iterable[Event]) -> tuple[Event, ...]:
    """The faults among these events that were not taken back."""
    standing: dict[int, Event] = {}
    for event in events:
        if event.deed is Deed.UNDONE:
            standing.pop(event.undoes, None)
        else:
            standing[event.seq] = event
    return tuple(standing.values())


def _not_to_be_undone(seq: int, standing: tuple[Event, ...]) -> Iterator[Problem]:
    revision = next((event.revision for event in standing if event.seq == seq), 0)
    if not revision:
        what = "no such fault stands: it was taken back already, or was never said"
        yield amiss("fault", "undo-nothing", what, "look at what stands, and choose from that")
        return
    last = [event for event in standing if event.revision == revision][-1]
    if last.seq != seq:
        what = f"since then there was a {last}, {last.spot}"
        yield amiss("fault", "undo-not-last", what, f"take back event {last.seq} first")


def _event(found: FaultFound, at: str) -> Event:
    return Event(
        seq=0,
        key=found.key,
        part=0,
        deed=Deed.FAULT,
        job=found.job,
        revision=found.revision,
        at=at,
        by=found.by,
        reason=",".join(found.done),
        spot=spot_of(found),
        proof=found.proof,
    )


def _undoing(said: Event, key: str, by: By, at: str) -> Event:
    return Event(
        seq=0,
        key=key,
        part=0,
        deed=Deed.UNDONE,
        job=said.job,
        revision=said.revision,
        at=at,
        by=by,
        undoes=said.seq,
    )


def _odd(found: FaultFound) -> Iterator[Problem]:
    yield from odd_words(found.key, found.by, proof=found.proof)
    for stick in dict.fromkeys((found.stick, *found.done)):
        yield from odd_name("stick", stick, LONGEST_NAME)
        if "," in stick or stick != stick.strip():
            what = f"a stick cannot be called {quoted(stick)}"
            yield amiss("stick", "stick-name", what, "use its name as the plan has it, without a comma")
    if len(found.done) > MOST_STICKS:
        what = f"{len(found.done)} sticks are said to be done"
        yield amiss("stick", "said-count", what, f"say {MOST_STICKS} at most")
    if not 0 <= found.low < found.high:
        what = f"a fault cannot go from {found.low} to {found.high}"
        yield amiss("fault", "fault-span", what, "give both ends from the stick's start, the nearer first")
