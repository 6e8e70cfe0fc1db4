"""The job's frames: all of them side by side."""

from pinchrod.web import frames_keeping, frames_one, frames_paste
from pinchrod.web.answers import Answer, Page
from pinchrod.web.frames_page import frames_page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


def look(visit: Visit) -> Answer:
    """All frames of the newest revision."""
    said = visit.said("from")
    first = int(said) if said.isascii() and said.isdecimal() and len(said) < 5 else 0
    page = frames_page(visit.floor, visit.floor.job(visit.place("job")), first)
    return Page(template="frames/list.html", page=page)


ROUTES = (
    Route(path="/jobs/{job}/frames", does=look, may=WORKSHOP),
    *frames_one.ROUTES,
    *frames_keeping.ROUTES,
    *frames_paste.ROUTES,
)
