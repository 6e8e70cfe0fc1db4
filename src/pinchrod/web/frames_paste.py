"""Rows of a spreadsheet added to a job as frames: looked at first, then all of them or none."""

from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.jobs_rows import PastedRows, rows_into
from pinchrod.web.jobs_saving import is_overtaken, revision_said, save_job, told_saved
from pinchrod.web.known import Known
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

PASTE = "frames/paste.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class PastePage:
    """The rows as they were pasted, and how they are read."""

    within: Within
    text: str = ""
    rows: PastedRows | None = None
    slips: tuple[Slip, ...] = ()


def look(visit: Visit) -> Answer:
    """The form, empty."""
    known = visit.floor.job(visit.place("job"))
    return Page(template=PASTE, page=PastePage(within=within(known.revision, "frames")))


def paste(visit: Visit) -> Answer:
    """The rows looked at, or saved behind the job's last frame."""
    known = visit.floor.job(visit.place("job"), revision_said(visit))
    page = _page(visit, known)
    if page.slips:
        return Page(template=PASTE, page=page, status=422)
    if visit.said("do") != "save" or page.rows is None or page.rows.files is None:
        return Page(template=PASTE, page=page)
    count = len(page.rows.rows)
    note = f"{count} {'row' if count == 1 else 'rows'} pasted"
    try:
        revision = save_job(visit, known.name, page.rows.files, after=revision_said(visit), note=note)
    except NotYetRight as trouble:
        return _not_pasted(visit, page, trouble)
    told = told_saved(f"{count} {'frame' if count == 1 else 'frames'} added, saved", revision)
    return Go(to=f"/jobs/{known.name}/frames", told=told)


def _page(visit: Visit, known: Known) -> PastePage:
    text = visit.said("rows")
    rows = rows_into(known.files, text)
    return PastePage(within=within(known.revision, "frames"), text=text, rows=rows, slips=rows.faults)


def _not_pasted(visit: Visit, page: PastePage, trouble: NotYetRight) -> Answer:
    """The rows again; where somebody saved meanwhile, as they stand with the newest revision."""
    slips = slips_of(trouble.problems, "rows")
    if not is_overtaken(trouble):
        return Page(template=PASTE, page=replace(page, slips=slips), status=422)
    newest = _page(visit, visit.floor.job(visit.place("job")))
    return Page(template=PASTE, page=replace(newest, slips=(*slips, *newest.slips)), status=409)


ROUTES = (
    Route(path="/jobs/{job}/paste", does=look, may=OFFICE_ONLY),
    Route(path="/jobs/{job}/paste", does=paste, may=OFFICE_ONLY, method="POST"),
)
