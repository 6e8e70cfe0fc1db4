"""What was typed in a job's files and not saved: kept for the device, and offered again."""

import json
from contextlib import suppress
from dataclasses import dataclass

from pinchrod.store import Draft, draft_of, drop_draft, keep_draft
from pinchrod.web.visit import Visit
from pinchrod.web.words_files import Texts

PLACE = "words"


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """Texts that were typed and not saved."""

    texts: Texts
    after: int
    at: str

    @property
    def when(self) -> str:
        """When that was, as people read it."""
        return f"{self.at[:16].replace('T', ' ')} UTC"


def typed_before(visit: Visit) -> Typed | None:
    """What was typed on this device and not saved, if anything was."""
    draft = draft_of(visit.floor.store, visit.place("job"), PLACE, _device(visit))
    return None if draft is None else Typed(texts=_texts(draft.words), after=draft.after, at=draft.at)


def keep_texts(visit: Visit, texts: Texts, after: int) -> None:
    """Keep what stands in the fields now."""
    job, words = visit.place("job"), json.dumps(texts)
    draft = Draft(job=job, place=PLACE, device=_device(visit), after=after, words=words)
    keep_draft(visit.floor.store, draft)


def drop_texts(visit: Visit) -> None:
    """Forget it: it is saved, or not wanted."""
    drop_draft(visit.floor.store, visit.place("job"), PLACE, _device(visit))


def _device(visit: Visit) -> str:
    return visit.device.id if visit.device else "nobody"


def _texts(kept: str) -> Texts:
    with suppress(ValueError):
        return tuple((str(field), str(text)) for field, text in json.loads(kept))
    return ()
