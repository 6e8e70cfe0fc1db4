"""The timber of a job: its boards, what is sawn from them, planning; and the addresses of all that."""

from pinchrod.web import timber_board, timber_rack, timber_stick
from pinchrod.web.answers import Answer, Go, Page, Sent
from pinchrod.web.beside import Work
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.timber_drawn import rack_of_page, svg_of
from pinchrod.web.timber_page import Boards, boards_of, planning_of, timber_page
from pinchrod.web.visit import Visit

SVG = "image/svg+xml; charset=utf-8"


def look(visit: Visit) -> Answer:
    """The page."""
    return Page(template="timber/timber.html", page=timber_page(visit, _known(visit)))


def planning(visit: Visit) -> Answer:
    """The part of the page that says how far planning is."""
    return Page(template="timber/planning.html", page=planning_of(visit, _known(visit)))


def boards(visit: Visit) -> Answer:
    """The part of the page with the boards; nothing if what the page shows is how they stand."""
    known = _known(visit)
    if visit.said("seen") == rack_of_page(visit, known).seen:
        return Sent(content=b"", media="text/html", status=204)
    found: Boards = boards_of(visit, known)
    return Page(template="timber/boards.html", page=found)


def plan(visit: Visit) -> Answer:
    """Have it planned, beside the server."""
    known = _known(visit)
    visit.floor.planner.ask(known, Work.PLAN)
    return _back(known)


def stop(visit: Visit) -> Answer:
    """Break planning off."""
    known = _known(visit)
    visit.floor.planner.stop(known, Work.PLAN)
    return _back(known)


def enough(visit: Visit) -> Answer:
    """Take the best plan found so far."""
    known = _known(visit)
    visit.floor.planner.enough(known)
    return _back(known)


def picture(visit: Visit) -> Answer:
    """The picture of a board."""
    rack = rack_of_page(visit, _known(visit))
    content = svg_of(rack, visit.place("board"), visit.place("width"))
    return Sent(content=content, media=SVG, lasting=visit.said("seen") == rack.seen)


def _known(visit: Visit) -> Known:
    return visit.floor.job(visit.place("job"))


def _back(known: Known) -> Go:
    return Go(to=f"/jobs/{known.name}/timber")


HOME = "/jobs/{job}/timber"
ROUTES = (
    Route(path=HOME, does=look, may=WORKSHOP),
    Route(path=f"{HOME}/planning", does=planning, may=WORKSHOP),
    Route(path=f"{HOME}/boards", does=boards, may=WORKSHOP),
    Route(path=f"{HOME}/plan", does=plan, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/stop", does=stop, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/enough", does=enough, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/picture/{{width}}/{{board:path}}", does=picture, may=WORKSHOP),
    *timber_rack.ROUTES,
    *timber_board.ROUTES,
    *timber_stick.ROUTES,
)
