"""Copies of the store on a timer, and how old the newest is."""

import logging
from datetime import timedelta
from threading import Event, Thread
from types import TracebackType

from pinchrod.ground import NotYetRight
from pinchrod.store import back_up_when_due, copies_in, taken_at, this_moment
from pinchrod.web.floor import Floor

LOG = logging.getLogger("pinchrod.web")
LOOK_EVERY = 60.0  # seconds; a copy is taken every 15 minutes
TOO_OLD = timedelta(hours=24)


class Copying:
    """Takes a copy whenever one is due, in a thread of its own, while the block lasts."""

    def __init__(self, floor: Floor) -> None:
        """Not begun yet."""
        self._floor = floor
        self._over = Event()
        self._thread = Thread(target=self._see_to_it, daemon=True)

    def _see_to_it(self) -> None:
        while not self._over.is_set():
            try:
                back_up_when_due(self._floor.store, self._floor.backups)
            except (NotYetRight, OSError) as trouble:
                LOG.error("no copy could be taken: %s", trouble)
            self._over.wait(LOOK_EVERY)

    def __enter__(self) -> "Copying":
        """Begin."""
        self._thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, trouble: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End; a copy that is being taken is finished or leaves nothing."""
        self._over.set()
        self._thread.join(timeout=10)


def copy_alarm(floor: Floor) -> str:
    """What the first page says if the newest sound copy is older than a day; nothing if it is not."""
    copies = copies_in(floor.backups) if floor.backups.is_dir() else ()
    if not copies:
        return "There is no copy of the store yet."
    taken = taken_at(copies[-1])
    if this_moment() - taken > TOO_OLD:
        return f"The newest copy of the store is of {taken:%d %B, %H:%M} UTC: look why none is taken."
    return ""
