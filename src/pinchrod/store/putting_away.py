"""A job put away: nothing is taken out of a store, so the ledger says it; and so when it is brought back."""

from collections.abc import Iterator
from datetime import datetime

from pinchrod.ground import NotYetRight, Problem
from pinchrod.store.base import Base
from pinchrod.store.deeds import By, Deed, Event
from pinchrod.store.event_rows import event_before, keep_event, select
from pinchrod.store.jobs import OF_JOBS, Revision, is_away, revision_in
from pinchrod.store.opening import Store
from pinchrod.store.requests import odd_words, payload_of
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

HAPPENED = f"job = :job AND deed NOT IN ('{Deed.SAVED}', '{Deed.PUT_AWAY}', '{Deed.BROUGHT_BACK}')"


def put_away(
    store: Store, job: str, revision: int, *, by: By, key: str, now: datetime | None = None
) -> Event:
    """The event that puts a job away: it is at hand no more, and stays in the store as it is.

    NotYetRight once anything but saving happened to it, or if a newer revision than that was saved.
    """
    problems = list(odd_words(key, by))
    if problems:
        raise NotYetRight(problems)
    payload = payload_of("put away", by, job, revision)
    with store.writing() as base:
        before = event_before(base, key, payload)
        if before is not None:
            return before
        newest = revision_in(base, job)
        problems = list(_why_not(base, newest, revision))
        if problems:
            raise NotYetRight(problems)
        return keep_event(base, _event(newest, Deed.PUT_AWAY, by, key, now), payload)


def bring_back(store: Store, job: str, *, by: By, key: str, now: datetime | None = None) -> Event:
    """The event that brings a job back which was put away."""
    problems = list(odd_words(key, by))
    if problems:
        raise NotYetRight(problems)
    payload = payload_of("bring back", by, job)
    with store.writing() as base:
        before = event_before(base, key, payload)
        if before is not None:
            return before
        newest = revision_in(base, job)
        if not is_away(base, job):
            what = f"{newest.name} is not put away"
            raise NotYetRight([amiss("job", "job-not-away", what, "nothing is left to do here")])
        return keep_event(base, _event(newest, Deed.BROUGHT_BACK, by, key, now), payload)


def is_put_away(store: Store, job: str) -> bool:
    """Whether a job is put away."""
    with store.reading() as base:
        return is_away(base, job)


def may_be_put_away(store: Store, job: str) -> bool:
    """Whether nothing but saving happened to a job, so that it can be taken away again."""
    with store.reading() as base:
        begun = base.rows(f"SELECT 1 FROM events WHERE {HAPPENED} LIMIT 1", job=job)  # noqa: S608 -- our own names
        return not begun and not is_away(base, job)


def check_at_hand(base: Base, job: str) -> Iterator[Problem]:
    """That a job is put away, if it is: nothing is said of its pieces, and no papers of it go out."""
    if is_away(base, job):
        what = f"the job {job} is put away"
        yield amiss("job", "job-put-away", what, "bring it back first: page Jobs, Put away")


def broken_putting_away(base: Base) -> Iterator[Problem]:
    """Lines of the ledger that put away what is away, or bring back what is at hand."""
    away: set[str] = set()
    for event in select(base, OF_JOBS):
        if (event.deed is Deed.PUT_AWAY) is (event.job in away):
            what = f"event {event.seq} says that {event.job} was {event.deed}, and it was so already"
            mend = "restore the newest copy that is sound"
            yield amiss(event.job, "ledger-unlawful", what, mend)
        away ^= {event.job}


def _why_not(base: Base, newest: Revision, revision: int) -> Iterator[Problem]:
    if newest.number != revision:
        what = f"revision {newest.number} was saved at {newest.at} by {newest.by}"
        yield amiss("job", "revision-overtaken", what, "look at it before the job is put away")
    elif is_away(base, newest.job):
        yield amiss("job", "job-put-away", f"{newest.name} is put away already", "nothing is left to do")
    else:
        for event in select(base, HAPPENED, job=newest.job)[-1:]:
            said = f"{event.piece or event.paper or event.spot} was {event}"
            what = f"{newest.name} is begun: {said}"
            yield amiss("job", "job-begun", what, "leave it where it is")


def _event(newest: Revision, deed: Deed, by: By, key: str, now: datetime | None) -> Event:
    return Event(
        seq=0,
        key=key,
        part=0,
        deed=deed,
        job=newest.job,
        revision=newest.number,
        at=spelled(now or this_moment()),
        by=by,
    )
