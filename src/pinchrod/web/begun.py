"""What was typed on a device and not saved: kept field by field, and offered when somebody comes back."""

import json
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass

from pinchrod.store import Draft, DraftAt, draft_of, drop_draft, keep_draft
from pinchrod.web.answers import Sent
from pinchrod.web.visit import Visit

Fields = tuple[tuple[str, str], ...]
NOT_TYPED = ("key", "revision", "do")  # what a form carries beside what is typed in it
DONE = Sent(content=b"", media="text/plain", status=204)
"""What a browser gets that kept something: it has nothing to show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """What was typed at one place, and the revision that it was begun from."""

    words: Fields
    after: int
    at: str

    @property
    def when(self) -> str:
        """When it was typed, as people read it."""
        return f"{self.at[:16].replace('T', ' ')} UTC"


def typed_at(visit: Visit, place: str) -> DraftAt:
    """Where this device types: at that place of the job that the address names, if it names one."""
    device = visit.device.id if visit.device else "nobody"
    return DraftAt(job=dict(visit.places).get("job", ""), place=place, device=device)


def begun_at(visit: Visit, place: str) -> Begun | None:
    """What was begun there on this device, if anything was."""
    at = typed_at(visit, place)
    draft = draft_of(visit.floor.store, at.job, at.place, at.device)
    return None if draft is None else Begun(words=_fields(draft.words), after=draft.after, at=draft.at)


def keep_begun(visit: Visit, place: str, words: Fields, after: int) -> None:
    """Keep what stands in the fields now."""
    at = typed_at(visit, place)
    draft = Draft(job=at.job, place=at.place, device=at.device, after=after, words=json.dumps(words))
    keep_draft(visit.floor.store, draft)


def drop_begun(visit: Visit, place: str) -> None:
    """Forget it: it is not wanted, or stands so in the job already."""
    at = typed_at(visit, place)
    drop_draft(visit.floor.store, at.job, at.place, at.device)


def keep_or_drop(visit: Visit, place: str, words: Fields, after: int, *, worth: bool) -> Sent:
    """Keep what stands in the fields if it is worth that; else there is nothing to come back to."""
    if worth:
        keep_begun(visit, place, words, after)
    else:
        drop_begun(visit, place)
    return DONE


def fields_typed(visit: Visit) -> Fields:
    """Every field of the form that somebody types in."""
    return tuple((name, words) for name, words in visit.form if name not in NOT_TYPED)


def _fields(kept: str) -> Fields:
    with suppress(ValueError, TypeError):
        return tuple(_pairs(json.loads(kept)))
    return ()


def _pairs(kept: list[list[str]]) -> Iterator[tuple[str, str]]:
    for name, words in kept:
        yield str(name), str(words)
