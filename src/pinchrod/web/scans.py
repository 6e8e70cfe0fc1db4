"""Scans: what a label means is shown, or said of its piece. What is answered is safe in the ledger."""

import json
from dataclasses import asdict

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer, Go, Sent, Told
from pinchrod.web.bench_refused import refused_page
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.scans_answers import FOUND, Answered, answer_to, refusal
from pinchrod.web.scans_asked import as_form, asked_in
from pinchrod.web.trouble import OVERTAKEN
from pinchrod.web.visit import Visit, own_page


def said(visit: Visit) -> Answer:
    """The answer to a scan that the page's script sent: JSON in, JSON out."""
    try:
        as_typed = as_form(visit)
        answered = answer_to(as_typed, asked_in(as_typed))
    except NotYetRight as trouble:
        overtaken = any(problem.code in OVERTAKEN for problem in trouble.problems)
        return _json(refusal(trouble), 409 if overtaken else 422)
    return _json(answered, 200)


def scan(visit: Visit) -> Answer:
    """The same from a form: on to the piece's page, or back to where one was with what was done on top."""
    try:
        asked = asked_in(visit)
        answered = answer_to(visit, asked)
    except NotYetRight as trouble:
        return refused_page(visit, trouble)
    if answered.state == FOUND:
        return Go(to=answered.page)
    return Go(to=own_page(asked.back or "/bench"), told=Told(words=answered.words))


def _json(answered: Answered, status: int) -> Sent:
    return Sent(content=json.dumps(asdict(answered)).encode(), media="application/json", status=status)


ROUTES = (
    Route(path="/bench/said", does=said, may=WORKSHOP, method="POST"),
    Route(path="/bench/scan", does=scan, may=WORKSHOP, method="POST"),
)
