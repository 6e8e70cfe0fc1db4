"""What follows from a revision of a job, worked out once: revisions never change."""

from dataclasses import dataclass
from threading import Lock

from pinchrod.job import Job, Shop
from pinchrod.plan import check
from pinchrod.setting_out import Rods
from pinchrod.store import JobFiles, Revision, Roll, Store, files_at, revision_at, roll_of

MOST_KNOWN = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A revision of a job: what was said, and the job read and set out from it."""

    revision: Revision
    files: JobFiles
    job: Job
    shop: Shop
    rods: Rods
    roll: Roll

    @property
    def name(self) -> str:
        """What the store calls the job."""
        return self.revision.job

    @property
    def number(self) -> int:
        """The revision's number."""
        return self.revision.number


class Revisions:
    """The revisions that were looked at last, each set out once. A 500-frame job takes a second of it."""

    def __init__(self, store: Store) -> None:
        """Know none yet."""
        self._store = store
        self._known: dict[tuple[str, int], Known] = {}
        self._turn = Lock()

    def at(self, job: str, number: int = 0) -> Known:
        """A revision of a job, the newest unless said otherwise; NotYetRight if there is no such one."""
        revision = revision_at(self._store, job, number)
        place = revision.job, revision.number
        with self._turn:
            known = self._known.pop(place, None) or self._worked_out(revision)
            self._known[place] = known
            while len(self._known) > MOST_KNOWN:
                self._known.pop(next(iter(self._known)))
        return known

    def _worked_out(self, revision: Revision) -> Known:
        files = files_at(self._store, revision.job, revision.number)
        job, shop = files.read()
        rods = check(job, shop)
        roll = roll_of(rods, revision.job, revision.number, revision.mark)
        return Known(revision=revision, files=files, job=job, shop=shop, rods=rods, roll=roll)
