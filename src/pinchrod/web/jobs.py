"""The jobs: what is where, what is next."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pinchrod.ground import NotYetRight
from pinchrod.store import Revision, drafts_of, jobs, jobs_put_away, revision_at
from pinchrod.web import jobs_away, jobs_new
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.copying import copy_alarm
from pinchrod.web.jobs_list import JobRow, row_of
from pinchrod.web.jobs_saving import frame_address
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

BEGUN = {"new": "new-frame", "words": "words", "rack": "timber/rack", "rows": "paste"}
"""Places of drafts, and their pages; a frame's is its own."""
CALLED = {"words": "the words of", "rack": "the rack of", "rows": "rows for"}
MOST_IN_FULL = 20  # jobs whose pieces are counted; those saved longest ago are only named


@dataclass(frozen=True, slots=True, kw_only=True)
class BegunHere:
    """What was typed on this device and not saved."""

    address: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """Every job, the one saved last on top, and whether copies are taken."""

    rows: tuple[JobRow, ...]
    older: tuple[Revision, ...]
    alarm: str
    begun: tuple[BegunHere, ...] = ()
    away: tuple[Revision, ...] = ()  # jobs that were put away


def look(visit: Visit) -> Answer:
    """The list of jobs."""
    found = sorted(jobs(visit.floor.store), key=lambda each: (each.at, each.job), reverse=True)
    page = JobsPage(
        rows=tuple(row_of(visit.floor, each) for each in found[:MOST_IN_FULL]),
        older=tuple(found[MOST_IN_FULL:]),
        alarm=copy_alarm(visit.floor),
        begun=tuple(_begun(visit, {each.job: each.name for each in found})),
        away=jobs_put_away(visit.floor.store),
    )
    return Page(template="jobs/list.html", page=page)


def _begun(visit: Visit, names: Mapping[str, str]) -> Iterator[BegunHere]:
    """What waits on this device to be taken up again, each with its page."""
    drafts = drafts_of(visit.floor.store, visit.device.id) if visit.device else ()
    if any(not draft.job for draft in drafts):
        yield BegunHere(address="/new-job", words="a new job")
    for draft in drafts:
        name, (kind, _, frame) = names.get(draft.job, ""), draft.place.partition(" ")
        if name and kind == "frame":
            yield BegunHere(address=frame_address(draft.job, frame), words=f"{draft.place} of {name}")
        elif name and kind in BEGUN:
            words = f"{CALLED.get(kind, f'{draft.place} of')} {name}"
            yield BegunHere(address=f"/jobs/{draft.job}/{BEGUN[kind]}", words=words)


def home(visit: Visit) -> Answer:
    """A job's first page: its frames; its words, where it was kept and cannot be made."""
    job = revision_at(visit.floor.store, visit.place("job")).job
    try:
        visit.floor.job(job)
    except NotYetRight:
        return Go(to=f"/jobs/{job}/words")
    return Go(to=f"/jobs/{job}/frames")


ROUTES = (
    Route(path="/", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}", does=home, may=WORKSHOP),
    *jobs_new.ROUTES,
    *jobs_away.ROUTES,
)
