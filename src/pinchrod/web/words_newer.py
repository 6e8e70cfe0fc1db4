"""Whether a job was saved again while a page of it was open: every page of it asks, and says so."""

from dataclasses import dataclass

from pinchrod.store import Revision, revision_at
from pinchrod.web.answers import Answer, Page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class NewerPart:
    """The newest revision, if it is newer than the one that a page shows."""

    newer: Revision | None
    address: str


def look(visit: Visit) -> Answer:
    """A line that says so, or nothing."""
    job, said = visit.place("job"), visit.said("than")
    newest = revision_at(visit.floor.store, job)
    newer = newest if said.isdecimal() and newest.number > int(said) else None
    return Page(template="words/newer.html", page=NewerPart(newer=newer, address=f"/jobs/{job}/frames"))


ROUTES = (Route(path="/jobs/{job}/newer", does=look, may=WORKSHOP),)
