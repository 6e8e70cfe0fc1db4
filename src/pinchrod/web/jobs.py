"""The jobs: what is where, what is next."""

from dataclasses import dataclass

from pinchrod.store import Revision, jobs
from pinchrod.web import jobs_new
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.copying import copy_alarm
from pinchrod.web.jobs_list import JobRow, row_of
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

MOST_IN_FULL = 20  # jobs whose pieces are counted; those saved longest ago are only named


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """Every job, the one saved last on top, and whether copies are taken."""

    rows: tuple[JobRow, ...]
    older: tuple[Revision, ...]
    alarm: str


def look(visit: Visit) -> Answer:
    """The list of jobs."""
    found = sorted(jobs(visit.floor.store), key=lambda each: (each.at, each.job), reverse=True)
    page = JobsPage(
        rows=tuple(row_of(visit.floor, each) for each in found[:MOST_IN_FULL]),
        older=tuple(found[MOST_IN_FULL:]),
        alarm=copy_alarm(visit.floor),
    )
    return Page(template="jobs/list.html", page=page)


def home(visit: Visit) -> Answer:
    """A job's first page: its frames."""
    return Go(to=f"/jobs/{visit.place('job')}/frames")


ROUTES = (
    Route(path="/", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}", does=home, may=WORKSHOP),
    *jobs_new.ROUTES,
)
