"""What was typed of a frame and not saved: kept for the device, and offered when somebody comes back."""

import json
from contextlib import suppress
from dataclasses import dataclass

from pinchrod.job import Words
from pinchrod.store import Draft, draft_of, drop_draft, keep_draft
from pinchrod.web.frames_form import LABELS
from pinchrod.web.visit import Visit

NEW = "new frame"


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A frame that was begun and not saved."""

    words: Words
    after: int
    at: str

    @property
    def when(self) -> str:
        """When it was typed, as people read it."""
        return f"{self.at[:16].replace('T', ' ')} UTC"


def begun(visit: Visit, frame: str) -> Begun | None:
    """What was begun of a frame on this device, if anything was; without an id, of a new one."""
    draft = draft_of(visit.floor.store, visit.place("job"), _place(frame), _device(visit))
    return None if draft is None else Begun(words=_words(draft.words), after=draft.after, at=draft.at)


def keep_begun(visit: Visit, frame: str, words: Words, after: int) -> None:
    """Keep what stands in the fields now."""
    draft = Draft(
        job=visit.place("job"),
        place=_place(frame),
        device=_device(visit),
        after=after,
        words=json.dumps(words),
    )
    keep_draft(visit.floor.store, draft)


def drop_begun(visit: Visit, frame: str) -> None:
    """Forget it: it is saved, or not wanted."""
    drop_draft(visit.floor.store, visit.place("job"), _place(frame), _device(visit))


def _place(frame: str) -> str:
    return f"frame {frame}" if frame else NEW


def _device(visit: Visit) -> str:
    return visit.device.id if visit.device else "nobody"


def _words(kept: str) -> Words:
    with suppress(ValueError):
        return tuple((key, str(word)) for key, word in json.loads(kept) if key in LABELS)
    return ()
