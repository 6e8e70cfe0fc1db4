"""What one touch says of pieces, and what was said last on a device and can be taken back."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.store import (
    Deed,
    Event,
    Recorded,
    Request,
    Said,
    Store,
    events_after,
    last_seq,
    record,
    undoing,
)
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known
from pinchrod.web.visit import Visit

MOST_AT_ONCE = 1_000  # things said in one request
PART = "~"  # a touch that says more goes into several requests: key, key~1, key~2
LOOKED_BACK = (300, 3_000)  # events: nearly always enough, and for a device that was idle for days


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """What was said with one touch, and what the button says that takes it back."""

    key: str
    job: str
    words: str  # "K3-LS through"


def say(
    visit: Visit, known: Known, said: Sequence[Said], *, mark: str = "", despite: Iterable[str] = ()
) -> tuple[Recorded, ...]:
    """What is said, taken down; every open page hears of it."""
    shares = [said[start : start + MOST_AT_ONCE] for start in range(0, len(said), MOST_AT_ONCE)]
    answers = []
    for key, share in zip(_keys(visit.key), shares, strict=False):
        request = Request(key=key, by=visit.by, said=tuple(share), mark=mark, despite=tuple(despite))
        answers.append(record(visit.floor.store, request, known.roll))
    visit.floor.feed.tell()
    return tuple(answers)


def _keys(key: str) -> Iterator[str]:
    yield key
    yield from (f"{key}{PART}{number}" for number in count(1))


def counted(store: Store, key: str) -> bool:
    """Whether a touch was taken down before: asked after looking how the pieces stand, never before."""
    return bool(undoing(store, key))


def take_back(visit: Visit, job: str, touch: str) -> str:
    """Take back all that a touch said, the last first; the words of what was taken back."""
    known = visit.floor.job(job)
    shares = []
    for key in _keys(touch):
        share = undoing(visit.floor.store, key)
        if not share:
            break
        shares.append(share)
    if not shares:
        what = "nothing of that touch stands: it was taken back already"
        mend = "look at what stands, and choose from that"
        raise NotYetRight([Problem(where=Where(name="undo"), code="undo-nothing", what=what, mend=mend)])
    for key, share in zip(_keys(visit.key), reversed(shares), strict=False):
        record(visit.floor.store, Request(key=key, by=visit.by, said=share), known.roll)
    visit.floor.feed.tell()
    pieces = dict.fromkeys(said.piece for share in shares for said in share)
    return f"Taken back: {named(list(pieces))}"


def last_touch(floor: Floor, device: str) -> Touch | None:
    """The newest touch on a device that still stands; taking it back again and again goes back in time."""
    newest = last_seq(floor.store)
    for far in LOOKED_BACK:
        events = events_after(floor.store, max(0, newest - far), most=far)
        found = _last_of(events, device)
        if found and found[0].seq > events[0].seq:  # else it may have begun before
            break
    return touch_of(found) if found else None


def _last_of(events: Sequence[Event], device: str) -> list[Event]:
    """Those of the events that the device's last standing touch said."""
    gone = {event.undoes for event in events if event.deed is Deed.UNDONE}
    mine = [
        event
        for event in events
        if event.by.device == device
        and event.piece
        and event.deed is not Deed.UNDONE
        and event.seq not in gone
    ]
    return [event for event in mine if _touch(event) == _touch(mine[-1])]


def _touch(event: Event) -> str:
    return event.key.partition(PART)[0]


def touch_of(events: Sequence[Event]) -> Touch:
    """The events of one touch as it is named: `K3-LS through`, `7 pieces glued`."""
    pieces = list(dict.fromkeys(event.piece for event in events))
    through = any(event.deed is Deed.THROUGH for event in events)
    deed = Deed.THROUGH if through else events[-1].deed
    return Touch(key=_touch(events[0]), job=events[0].job, words=f"{named(pieces)} {deed}")


def named(pieces: Sequence[str]) -> str:
    """What a touch was about: the piece, or how many there were."""
    return pieces[0] if len(pieces) == 1 else f"{len(pieces)} pieces"
