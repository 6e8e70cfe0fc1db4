"""How every piece stands, kept up with the ledger: each line of it is gone through once."""

from collections.abc import Mapping
from threading import Lock

from pinchrod.store import Standing, Store, after, events_after

AT_ONCE = 1_000


class Standings:
    """How the pieces of each job stand, as of the ledger's newest line."""

    def __init__(self, store: Store) -> None:
        """Nothing gone through yet."""
        self._store = store
        self._turn = Lock()
        self._seen = 0
        self._jobs: dict[str, dict[str, Standing]] = {}

    def of(self, job: str) -> Mapping[str, Standing]:
        """How each piece of a job stands of which anything was said."""
        with self._turn:
            self._catch_up()
            return dict(self._jobs.get(job, {}))

    def _catch_up(self) -> None:
        while events := events_after(self._store, self._seen, most=AT_ONCE):
            for event in events:
                self._seen = event.seq
                if event.piece:
                    pieces = self._jobs.setdefault(event.job, {})
                    old = pieces.get(event.piece) or Standing(job=event.job, piece=event.piece)
                    pieces[event.piece] = after(old, event)
