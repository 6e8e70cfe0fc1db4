"""The bench again after a scan that was refused: why, what was typed, and whether to go on all the same."""

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer, Page
from pinchrod.web.bench_jobs import jobs_at_hand
from pinchrod.web.bench_pages import Box, bench_page
from pinchrod.web.scans_answers import ASKS, refusal
from pinchrod.web.scans_touches import last_touch
from pinchrod.web.visit import Visit, own_page

SENT_AGAIN = ("key", "code", "deed", "job", "reason", "more", "spot", "undoes", "back", "box")


def refused_page(visit: Visit, trouble: NotYetRight) -> Answer:
    """The page."""
    answered = refusal(trouble)
    asks = answered.state == ASKS
    again = [(name, visit.said(name)) for name in SENT_AGAIN]
    again += [("despite", code) for code in (*visit.all_said("despite"), *answered.despite)]
    job = visit.said("job")
    box = Box(
        job=job,
        back=own_page(visit.said("back") or "/bench"),
        code=visit.said("code"),
        deed=visit.said("deed"),
        refused=answered.words,
        asks=asks,
        again=tuple(again) if asks else (),
    )
    page = bench_page(jobs_at_hand(visit.floor, job), box, last_touch(visit.floor, visit.by.device))
    return Page(template="bench/bench.html", page=page, status=422)
