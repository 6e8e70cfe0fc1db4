"""Help, in the same place on every page."""

from dataclasses import dataclass

from pinchrod.web.answers import Answer, Page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpPage:
    """How the pages are worked with."""

    office: bool


def look(visit: Visit) -> Answer:
    """What can be done here and how."""
    return Page(template="help/help.html", page=HelpPage(office=visit.role == "office"))


ROUTES = (Route(path="/help", does=look, may=WORKSHOP),)
