"""What follows from a revision of a job, worked out once: revisions never change."""

from concurrent.futures import Future
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock

from pinchrod.job import FrameWords, Job, Members, Shop, frames_as_said, usual_members
from pinchrod.plan import check
from pinchrod.setting_out import Rods
from pinchrod.store import JobFiles, Revision, Roll, Store, files_at, revision_at, roll_of

MOST_KNOWN = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A revision of a job: what was said, and the job read and set out from it.

    What only the pages of its frames need is read when they do: no other page waits for it.
    """

    revision: Revision
    files: JobFiles
    job: Job
    shop: Shop
    rods: Rods
    roll: Roll

    @property
    def said(self) -> tuple[FrameWords, ...]:
        """Its frames, word for word."""
        return _said_in(self.files)

    @property
    def usual(self) -> Members:
        """What stands in its frames where they say nothing."""
        return _usual_in(self.files)

    @property
    def name(self) -> str:
        """What the store calls the job."""
        return self.revision.job

    @property
    def number(self) -> int:
        """The revision's number."""
        return self.revision.number


@lru_cache(maxsize=MOST_KNOWN)
def _said_in(files: JobFiles) -> tuple[FrameWords, ...]:
    return frames_as_said(files.main, files.joined)


@lru_cache(maxsize=MOST_KNOWN)
def _usual_in(files: JobFiles) -> Members:
    return usual_members(files.main)


class Revisions:
    """The revisions that were looked at last, each set out once: 500 frames take a second or two of it."""

    def __init__(self, store: Store) -> None:
        """Know none yet."""
        self._store = store
        self._known: dict[tuple[str, int], Future[Known]] = {}
        self._turn = Lock()

    def at(self, job: str, number: int = 0) -> Known:
        """A revision of a job, the newest unless said otherwise; NotYetRight if there is no such one.

        Whoever asks while it is being set out waits for that, and for no other.
        """
        revision = revision_at(self._store, job, number)
        place = revision.job, revision.number
        with self._turn:
            begun = self._known.pop(place, None)
            known: Future[Known] = begun or Future()
            self._known[place] = known
            while len(self._known) > MOST_KNOWN:
                self._known.pop(next(iter(self._known)))
        if begun is None:
            self._work_out(revision, known)
        return known.result()

    def _work_out(self, revision: Revision, known: "Future[Known]") -> None:
        try:
            known.set_result(self._worked_out(revision))
        except BaseException as trouble:  # noqa: BLE001 -- handed on to all who wait for it
            known.set_exception(trouble)
            with self._turn:  # the next who asks tries afresh
                self._known.pop((revision.job, revision.number), None)

    def _worked_out(self, revision: Revision) -> Known:
        files = files_at(self._store, revision.job, revision.number)
        job, shop = files.read()
        rods = check(job, shop)
        roll = roll_of(rods, revision.job, revision.number, revision.mark)
        return Known(
            revision=revision,
            files=files,
            job=job,
            shop=shop,
            rods=rods,
            roll=roll,
        )
