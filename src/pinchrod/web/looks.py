"""Light or dark, as each device likes it."""

from pinchrod.web.answers import Answer, Go
from pinchrod.web.roles import ANYBODY
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit, own_page
from pinchrod.web.visits import THEME, THEMES


def choose(visit: Visit) -> Answer:
    """The next of: as the device has it, light, dark."""
    wanted = visit.said("theme")
    return Go(to=own_page(visit.said("back")), cookies=((THEME, wanted if wanted in THEMES else ""),))


ROUTES = (Route(path="/look", does=choose, may=ANYBODY, method="POST"),)
