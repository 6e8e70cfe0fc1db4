"""A new job: begun with its name and first frame, read from files, made of pasted rows, or our own to try."""

from dataclasses import dataclass, replace
from importlib.resources import files as files_of_ours

from pinchrod.ground import NotYetRight
from pinchrod.job import Source, known_timbers
from pinchrod.plan import check
from pinchrod.store import JobFiles, jobs
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.begun import Begun, typed_at
from pinchrod.web.jobs_away import told_new
from pinchrod.web.jobs_begun import Begin, begin_said, begun_files, slips_of_begin, slips_of_head, store_name
from pinchrod.web.jobs_files import chosen
from pinchrod.web.jobs_new_begun import (
    BY_NAME,
    OF_ROWS,
    begin_in,
    begun_new_job,
    drop,
    head_in,
    keep_rows_typed,
    keep_typed,
    rows_in,
)
from pinchrod.web.jobs_rows import PastedRows, rows_into
from pinchrod.web.jobs_saving import save_job
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit

NEW = "jobs/new.html"
NOT_BEGUN = Begin()
DEMO = ("job.toml", "boot-room.csv", "workshop.toml")


@dataclass(frozen=True, slots=True, kw_only=True)
class NewJobPage:
    """The ways to begin a job, with what was typed and what is wrong with it."""

    timbers: tuple[str, ...]
    begin: Begin = NOT_BEGUN
    called: str = ""
    head: Begin = NOT_BEGUN  # of the job of pasted rows
    text: str = ""
    rows: PastedRows | None = None
    slips: tuple[Slip, ...] = ()
    way: str = ""  # the one that was tried
    begun: Begun | None = None
    taken_up: bool = False


def look(visit: Visit) -> Answer:
    """The forms, empty; or with what was typed here and not saved."""
    begun = begun_new_job(visit)
    page = NewJobPage(timbers=tuple(known_timbers()), begun=begun)
    if begun is not None and visit.said("draft") == "yes":
        words = begun.words
        page = replace(page, begin=begin_in(words), head=head_in(words), text=rows_in(words), taken_up=True)
    return _page(page, status=200)


def begin(visit: Visit) -> Answer:
    """The job of that name with its first frame."""
    said = begin_said(visit)
    page = NewJobPage(timbers=tuple(known_timbers()), begin=said, way="begin")
    slips = slips_of_begin(said)
    if slips:
        return _page(replace(page, slips=slips))
    try:
        files = begun_files(said)
        check(*files.read())
    except NotYetRight as trouble:
        return _page(replace(page, slips=slips_of(trouble.problems, "layout")))
    try:
        return _saved(visit, store_name(said.name), files, place=BY_NAME)
    except NotYetRight as trouble:
        return _page(replace(page, slips=slips_of(trouble.problems, "name")))


def from_files(visit: Visit) -> Answer:
    """The job of the files that were chosen."""
    called = visit.said("called").strip()
    page = NewJobPage(timbers=tuple(known_timbers()), called=called, way="files")
    try:
        found = chosen([source for field, source in visit.files if field == "files"])
        job, shop = found.files.read()
        check(job, shop)
        left = f" Not part of it, and left aside: {', '.join(found.left)}." if found.left else ""
        return _saved(visit, store_name(called or job.name), found.files, left)
    except NotYetRight as trouble:
        stops = tuple(problem for problem in trouble.problems if problem.stops)
        return _page(replace(page, slips=slips_of(stops, "files")))


def from_rows(visit: Visit) -> Answer:
    """The rows that were pasted, looked at; or the job made of them."""
    said = replace(Begin(), **{key: visit.said(f"rows-{key}").strip() for key in ("name", "customer")})
    text = visit.said("rows")
    rows = rows_into(JobFiles(main=said.source), text)
    slips = tuple(replace(slip, field=f"rows-{slip.field}") for slip in slips_of_head(said))
    page = NewJobPage(timbers=tuple(known_timbers()), head=said, text=text, rows=rows, way="rows")
    if slips or rows.files is None:
        return _page(replace(page, slips=(*slips, *rows.faults)))
    if visit.said("do") != "save":
        return _page(page, status=200)
    try:
        return _saved(visit, store_name(said.name), rows.files, place=OF_ROWS)
    except NotYetRight as trouble:
        return _page(replace(page, slips=slips_of(trouble.problems, "rows-name")))


def demo(visit: Visit) -> Answer:
    """Our demo job, as if its files had been chosen; where it is already, it is opened."""
    folder = files_of_ours("pinchrod") / "cli" / "saltmarsh_row"
    main, *joined = (Source(name=name, content=(folder / name).read_bytes()) for name in DEMO)
    found = JobFiles(main=main, joined=tuple(joined))
    name = store_name(found.read()[0].name)
    if any(each.job == name for each in jobs(visit.floor.store)):
        return Go(to=f"/jobs/{name}/frames", told=Told(words="Our demo job was here already."))
    return _saved(visit, name, found)


def _saved(visit: Visit, name: str, files: JobFiles, more: str = "", place: str = "") -> Answer:
    revision = save_job(visit, name, files, after=0, typed=typed_at(visit, place) if place else None)
    return Go(to=f"/jobs/{name}/frames", told=told_new(revision, more))


def _page(page: NewJobPage, status: int = 422) -> Page:
    return Page(template=NEW, page=page, status=status)


ROUTES = (
    Route(path="/new-job", does=look, may=OFFICE_ONLY),
    Route(path="/new-job", does=begin, may=OFFICE_ONLY, method="POST"),
    Route(path="/new-job/typed", does=keep_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/new-job/rows/typed", does=keep_rows_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/new-job/drop", does=drop, may=OFFICE_ONLY, method="POST"),
    Route(path="/new-job/files", does=from_files, may=OFFICE_ONLY, method="POST"),
    Route(path="/new-job/rows", does=from_rows, may=OFFICE_ONLY, method="POST"),
    Route(path="/demo-job", does=demo, may=OFFICE_ONLY, method="POST"),
)
