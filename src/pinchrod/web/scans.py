"""Scans: what a label means is shown, or said of its piece. What is answered is safe in the ledger."""

from urllib.parse import urlencode

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer, Go, Told
from pinchrod.web.bench_refused import refused_page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.scans_answers import FOUND, answer_to, as_json, refused_as_json
from pinchrod.web.scans_asked import Asked, as_form, asked_in
from pinchrod.web.visit import Visit, own_page


def said(visit: Visit) -> Answer:
    """The answer to a scan that the page's script sent: JSON in, JSON out."""
    try:
        as_typed = as_form(visit)
        answered = answer_to(as_typed, asked_in(as_typed))
    except NotYetRight as trouble:
        return refused_as_json(trouble)
    return as_json(answered)


def scan(visit: Visit) -> Answer:
    """The same from a form: on to the piece's page, or back to where one was with what was done on top."""
    try:
        asked = asked_in(visit)
        answered = answer_to(visit, asked)
    except NotYetRight as trouble:
        return refused_page(visit, trouble)
    if answered.state == FOUND:
        return Go(to=answered.page)
    return Go(to=_back(visit, asked), told=Told(words=answered.words))


def _back(visit: Visit, asked: Asked) -> str:
    """Where one was; in the field to scan into, what a scan says stays chosen."""
    chosen = f"?{urlencode({'deed': asked.deed})}" if visit.said("box") and asked.deed else ""
    return f"{own_page(asked.back or '/bench')}{chosen}"


ROUTES = (
    Route(path="/bench/said", does=said, may=WORKSHOP, method="POST"),
    Route(path="/bench/scan", does=scan, may=WORKSHOP, method="POST"),
)
