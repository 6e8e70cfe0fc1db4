"""Rows of a spreadsheet added to a job as frames: looked at first, then all of them or none."""

from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.begun import Begun, begun_at, drop_begun, keep_or_drop, typed_at
from pinchrod.web.jobs_rows import FIELD, PastedRows, rows_into
from pinchrod.web.jobs_saving import is_overtaken, revision_said, save_job, told_saved
from pinchrod.web.known import Known
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

PASTE = "frames/paste.html"
ROWS = "rows"  # the place of their draft


@dataclass(frozen=True, slots=True, kw_only=True)
class PastePage:
    """The rows as they were pasted, and how they are read."""

    within: Within
    text: str = ""
    rows: PastedRows | None = None
    slips: tuple[Slip, ...] = ()
    begun: Begun | None = None
    taken_up: bool = False


def look(visit: Visit) -> Answer:
    """The form, empty; or with the rows that were pasted here and not saved."""
    known, begun = visit.floor.job(visit.place("job")), begun_at(visit, ROWS)
    page = PastePage(within=within(known.revision, "frames"), begun=begun)
    if begun is not None and visit.said("draft") == "yes":
        page = replace(page, text=dict(begun.words).get(FIELD, ""), taken_up=True)
    return Page(template=PASTE, page=page)


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
        after, typed = revision_said(visit), typed_at(visit, ROWS)
        revision = save_job(visit, known.name, page.rows.files, after=after, note=note, typed=typed)
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


def keep_typed(visit: Visit) -> Answer:
    """The rows as they stand in the field are kept, if there are any."""
    words = ((FIELD, visit.said(FIELD)),)
    return keep_or_drop(visit, ROWS, words, revision_said(visit), worth=bool(visit.said(FIELD).strip()))


def drop(visit: Visit) -> Answer:
    """The rows are not wanted."""
    drop_begun(visit, ROWS)
    return Go(to=f"/jobs/{visit.place('job')}/paste")


ROUTES = (
    Route(path="/jobs/{job}/paste", does=look, may=OFFICE_ONLY),
    Route(path="/jobs/{job}/paste/typed", does=keep_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/paste/drop", does=drop, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/paste", does=paste, may=OFFICE_ONLY, method="POST"),
)
