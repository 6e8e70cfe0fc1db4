"""The workshop's floor: the store, and what the server keeps in its head of it while it runs."""

from contextlib import suppress
from functools import partial
from pathlib import Path

from pinchrod.ground import NotYetRight
from pinchrod.store import Store, jobs
from pinchrod.web.feed import Feed
from pinchrod.web.known import Known, Revisions
from pinchrod.web.letting_in import LettingIn
from pinchrod.web.planner import Planner
from pinchrod.web.plans import Plans, keep_plan
from pinchrod.web.standings import Standings
from pinchrod.web.sticks import Sticks


class Floor:
    """All that pages work with. What it remembers can be worked out again from the store."""

    def __init__(self, store: Store, backups: Path, *, addresses: tuple[str, ...] = ()) -> None:
        """Start with an empty head; `addresses` are where tablets find the pages: `http://192.168.1.5:8737`."""
        self.store = store
        self.backups = backups
        self.addresses = addresses
        self.feed = Feed()
        self.revisions = Revisions(store)
        self.standings = Standings(store)
        self.letting_in = LettingIn()
        self.planner = Planner(self.feed.tell, partial(keep_plan, store))
        self.plans = Plans(store, self.planner)
        self.sticks = Sticks(store, self.plans.of)

    def job(self, name: str, number: int = 0) -> Known:
        """A job's newest revision, or the one of that number; NotYetRight if there is none."""
        return self.revisions.at(name, number)

    def warm_up(self) -> None:
        """Set every job's newest revision out, so that nobody waits for it at the first page."""
        for revision in jobs(self.store):
            with suppress(NotYetRight):  # it is told where it is looked at
                known = self.job(revision.job)
                _ = known.said, known.usual

    def close(self) -> None:
        """Stop what runs, and let go of the store."""
        self.planner.close()
        self.store.close()
