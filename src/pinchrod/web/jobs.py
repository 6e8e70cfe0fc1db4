"""The jobs: what is where, what is next."""

from dataclasses import dataclass

from pinchrod.store import Revision, jobs
from pinchrod.web.answers import Answer, Page
from pinchrod.web.copying import copy_alarm
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """Every job, and whether copies are taken."""

    jobs: tuple[Revision, ...]
    alarm: str


def look(visit: Visit) -> Answer:
    """The list of jobs."""
    page = JobsPage(jobs=jobs(visit.floor.store), alarm=copy_alarm(visit.floor))
    return Page(template="jobs/list.html", page=page)


ROUTES = (Route(path="/", does=look, may=WORKSHOP),)
