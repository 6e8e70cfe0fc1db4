"""The answer to a scan: the piece it means; or what was said of it, once that is safe in the ledger."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from urllib.parse import quote, urlencode

from pinchrod.ground import NotYetRight, Problem
from pinchrod.store import STEPS, Deed, Event, Said, events_after, this_moment, undoing
from pinchrod.web.answers import Sent
from pinchrod.web.bench_pages import frame_address
from pinchrod.web.floor import Floor
from pinchrod.web.scans_asked import WHOLE_FRAME, Asked
from pinchrod.web.scans_reading import Found, find_frame, find_piece
from pinchrod.web.scans_touches import say, take_back, touch_of
from pinchrod.web.trouble import OVERTAKEN
from pinchrod.web.visit import Visit

LEDGER, FOUND, REFUSED, ASKS = "in the ledger", "found", "refused", "asks"
TWICE = timedelta(seconds=2)  # the same code so soon after is the same scan


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What a scan is answered: in a word, in a sentence, and where it goes on from there."""

    state: str
    words: str
    piece: str = ""
    next: str = ""  # the piece's next step
    undo: str = ""  # the touch that takes it back
    page: str = ""  # of the piece
    job: str = ""
    despite: tuple[str, ...] = ()  # codes to go on in spite of, where it asks


def answer_to(visit: Visit, asked: Asked) -> Answered:
    """The answer; NotYetRight if the scan means no piece, or what it says cannot be."""
    if asked.touch:
        return Answered(state=LEDGER, words=take_back(visit, asked.job, asked.touch))
    try:
        return _answer(visit, asked)
    except NotYetRight as trouble:
        events = _said_before(visit.floor, visit.key)
        if not events or any(problem.code == "key-used" for problem in trouble.problems):
            raise
        return _in_ledger(visit.floor, events)


def refusal(trouble: NotYetRight) -> Answered:
    """What stands in the way, in words; if it is all doubtful only, whether to go on all the same."""
    asks = not any(problem.stops for problem in trouble.problems)
    return Answered(
        state=ASKS if asks else REFUSED,
        words=in_words(trouble.problems),
        despite=tuple(dict.fromkeys(problem.code for problem in trouble.problems)) if asks else (),
    )


def as_json(answered: Answered, status: int = 200) -> Sent:
    """The answer for the script of a page."""
    return Sent(content=json.dumps(asdict(answered)).encode(), media="application/json", status=status)


def refused_as_json(trouble: NotYetRight) -> Sent:
    """What stands in the way, for the script of a page."""
    overtaken = any(problem.code in OVERTAKEN for problem in trouble.problems)
    return as_json(refusal(trouble), 409 if overtaken else 422)


def in_words(problems: Sequence[Problem]) -> str:
    """Problems as a band says them."""
    said = (f"{_name(problem)}{problem.what}; {_ended(problem.mend)}" for problem in problems)
    return " ".join(dict.fromkeys(said))


def _ended(words: str) -> str:
    return words if words.endswith("?") else f"{words}."


def _name(problem: Problem) -> str:
    """The piece's mark before what is said of it; words about a scan or a label say themselves whose."""
    name = problem.where.name
    return f"{name}: " if name and name not in ("scan", "label", "job", "key", "undo", "request") else ""


def _answer(visit: Visit, asked: Asked) -> Answered:
    frame = find_frame(visit.floor, asked.code, asked.job) if asked.deed is None else None
    if frame is not None:
        known, name = frame
        page = frame_address(known.name, name)
        return Answered(state=FOUND, words=f"frame {name}, {known.revision.name}", page=page, job=known.name)
    found = find_piece(visit.floor, asked.code, asked.job)
    if asked.deed is None:
        return _shown(found)
    try:
        recorded = say(visit, found.known, _said(found, asked), mark=found.mark, despite=asked.despite)
    except NotYetRight as trouble:
        twice = _just_said(visit, found, asked, trouble)
        if twice is None:
            raise
        return twice
    return _in_ledger(visit.floor, [event for part in recorded for event in part.events])


def _said(found: Found, asked: Asked) -> tuple[Said, ...]:
    """What is said: of a piece, or of every piece of its frame where that is meant."""
    deed, entry = asked.deed or Deed.UNDONE, found.entry
    if deed in WHOLE_FRAME:
        frame = found.known.roll.of_frame(entry.frame)
        return tuple(Said(deed=deed, piece=each.mark) for each in frame)
    return (Said(deed=deed, piece=entry.mark, reason=asked.reason, spot=asked.spot, undoes=asked.undoes),)


def _shown(found: Found) -> Answered:
    known, entry = found.known, found.entry
    old = found.mark and found.mark != known.revision.mark
    words = f"{entry.mark}, {known.revision.name}" + (": its label is of an older revision" if old else "")
    return Answered(state=FOUND, words=words, piece=entry.mark, page=page_of(found), job=known.name)


def page_of(found: Found) -> str:
    """Where a piece is shown; the label's content mark goes along, so that an old one is told of."""
    label = f"?{urlencode({'label': found.mark})}" if found.mark else ""
    return f"{piece_address(found.known.name, found.entry.mark)}{label}"


def piece_address(job: str, piece: str) -> str:
    """Where a piece of a job is shown."""
    return f"/jobs/{job}/bench/pieces/{quote(piece)}"


def _in_ledger(floor: Floor, events: Sequence[Event]) -> Answered:
    """What was said, from the ledger's own lines: the same whenever it is asked again."""
    first = events[0]
    entry = floor.job(first.job, first.revision).roll.entry(first.piece)
    touch = touch_of(events)
    later = STEPS[STEPS.index(first.deed) + 1 :] if first.deed in STEPS else ()
    steps = entry.steps if entry else ()
    return Answered(
        state=LEDGER,
        words=touch.words,
        piece=first.piece,
        next=str(next((step for step in later if step in steps), "")),
        undo=touch.key if first.deed is not Deed.UNDONE else "",
        page=piece_address(first.job, first.piece),
        job=first.job,
    )


def _said_before(floor: Floor, key: str) -> tuple[Event, ...]:
    """The events of a request that was answered before, if it was."""
    numbers = [said.undoes for said in undoing(floor.store, key)]
    return events_after(floor.store, min(numbers) - 1, most=len(numbers)) if numbers else ()


def _just_said(visit: Visit, found: Found, asked: Asked, trouble: NotYetRight) -> Answered | None:
    """The answer where the same code came twice within two seconds at one device: it counts once."""
    if {problem.code for problem in trouble.problems} != {"already-done"} or asked.deed is None:
        return None
    standing = visit.floor.standings.of(found.known.name).get(found.entry.mark)
    event = standing.when(asked.deed) if standing else None
    if event is None or event.by != visit.by or this_moment() - datetime.fromisoformat(event.at) > TWICE:
        return None
    words = f"{found.entry.mark} came twice within two seconds: it counts once"
    return Answered(
        state=LEDGER, words=words, piece=found.entry.mark, page=page_of(found), job=found.known.name
    )
