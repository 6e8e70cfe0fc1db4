"""The ledger: what is said of pieces, taken down once and for good, and read again."""

import json
from dataclasses import replace
from datetime import datetime

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.store.base import Base
from pinchrod.store.deeds import Deed, Event, Recorded, Request, Said
from pinchrod.store.event_rows import append, event_of, head_of, rows_where, select
from pinchrod.store.lawful import doubts_and_faults
from pinchrod.store.opening import Store
from pinchrod.store.putting_away import check_at_hand
from pinchrod.store.replay import Standing, after, replay
from pinchrod.store.requests import answer_before, keep_answer, odd_words, payload_of
from pinchrod.store.rolls import Roll
from pinchrod.store.superseded import check_current
from pinchrod.store.times import spelled, this_moment

MOST_AT_ONCE = 1_000  # things said in one request


def record(store: Store, request: Request, roll: Roll, *, now: datetime | None = None) -> Recorded:
    """The answer to a request, once its events are safe in the ledger: all of them, or none.

    The same request again gets the same answer and adds nothing. NotYetRight if anything said cannot be,
    or is doubtful and its code is not among those that the request goes on in spite of: where every problem
    only casts doubt, the person may look and say it again with their codes in `despite`.
    """
    _check(request)
    said = [_in_words(each) for each in request.said]
    payload = payload_of("pieces", request.by, roll.job, request.mark, said, list(request.despite))
    with store.writing() as base:
        answer = answer_before(base, request.key, payload)
        if answer is not None:
            return Recorded(events=select(base, "key = :key", key=request.key), doubts=_doubts_in(answer))
        events, doubts = _judged(base, request, roll, spelled(now or this_moment()))
        keep_answer(base, request.key, payload, _answer(doubts))
        return Recorded(events=append(base, events), doubts=doubts)


def undoing(store: Store, key: str) -> tuple[Said, ...]:
    """What takes back all that a request said, the last first: to be sent as a request of its own."""
    with store.reading() as base:
        events = select(base, "key = :key", key=key)
    return tuple(Said(deed=Deed.UNDONE, piece=event.piece, undoes=event.seq) for event in reversed(events))


def events_after(store: Store, seq: int, *, most: int = 1_000) -> tuple[Event, ...]:
    """The next events of the ledger after the one of that number, for whoever has seen it so far."""
    with store.reading() as base:
        rows = rows_where(base, "seq > :seq AND seq <= :last", seq=seq, last=seq + most)
    return tuple(map(event_of, rows))


def events_of(store: Store, job: str, piece: str = "") -> tuple[Event, ...]:
    """The events of a job, or of one of its pieces, the oldest first."""
    named = {"job": job, "piece": piece} if piece else {"job": job}
    with store.reading() as base:
        rows = rows_where(base, " AND ".join(f"{name} = :{name}" for name in named), **named)
    return tuple(map(event_of, rows))


def last_seq(store: Store) -> int:
    """The number of the ledger's last event; 0 if there is none."""
    with store.reading() as base:
        return head_of(base).seq


def standing_of(store: Store, job: str) -> tuple[Standing, ...]:
    """How every piece of a job stands of which anything was said."""
    return replay(events_of(store, job))


def _judged(
    base: Base, request: Request, roll: Roll, at: str
) -> tuple[tuple[Event, ...], tuple[Problem, ...]]:
    """The events of the request, not yet numbered, and its doubts; NotYetRight if it cannot go on."""
    problems = [*check_at_hand(base, roll.job), *check_current(base, request.mark, roll)]
    standings: dict[str, Standing] = {}
    events = []
    for part, said in enumerate(request.said):
        entry = roll.entry(said.piece)
        piece = entry.mark if entry else said.piece
        standing = standings.get(piece) or _standing(base, roll.job, piece)
        problems += doubts_and_faults(said, standing, roll)
        event = _event(request, replace(said, piece=piece), roll, part, at)
        standings[piece] = after(standing, event)
        events.append(event)
    if any(problem.stops or problem.code not in request.despite for problem in problems):
        raise NotYetRight(problems)
    codes = tuple(sorted({problem.code for problem in problems}))
    return tuple(replace(event, despite=codes) for event in events), tuple(problems)


def _standing(base: Base, job: str, piece: str) -> Standing:
    events = select(base, "job = :job AND piece = :piece", job=job, piece=piece)
    return next(iter(replay(events)), Standing(job=job, piece=piece))


def _event(request: Request, said: Said, roll: Roll, part: int, at: str) -> Event:
    return Event(
        seq=0,
        key=request.key,
        part=part,
        deed=said.deed,
        job=roll.job,
        revision=roll.revision,
        at=at,
        by=request.by,
        piece=said.piece,
        reason=said.reason,
        spot=said.spot,
        diagonals=said.diagonals,
        undoes=said.undoes,
    )


def _check(request: Request) -> None:
    problems = list(odd_words(request.key, request.by))
    for said in request.said:
        problems += odd_words(request.key or "-", request.by, reason=said.reason, spot=said.spot)
    if not 0 < len(request.said) <= MOST_AT_ONCE:
        what = f"{len(request.said)} things are said at once"
        mend = f"say 1 to {MOST_AT_ONCE}"
        problems.append(Problem(where=Where(name="request"), code="said-count", what=what, mend=mend))
    if problems:
        raise NotYetRight(dict.fromkeys(problems))


def _in_words(said: Said) -> list[object]:
    lengths = [str(length) for length in said.diagonals]
    return [str(said.deed), said.piece, said.reason, said.spot, lengths, said.undoes]


def _answer(doubts: tuple[Problem, ...]) -> str:
    return json.dumps([[doubt.where.name, doubt.code, doubt.what, doubt.mend] for doubt in doubts])


def _doubts_in(answer: str) -> tuple[Problem, ...]:
    return tuple(
        Problem(where=Where(name=name), code=code, what=what, mend=mend, stops=False)
        for name, code, what, mend in json.loads(answer)
    )
