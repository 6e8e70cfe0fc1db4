"""Going back to an earlier revision: what it said is saved as a new one, so that nothing is ever lost."""

from pinchrod.store import files_at
from pinchrod.web.answers import Answer, Go
from pinchrod.web.jobs_saving import frame_address, save_job, told_saved
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


def go_back(visit: Visit) -> Answer:
    """The job as an earlier revision had it; `from` is the newest that was seen when this was asked for."""
    job, to, seen = visit.place("job"), _number(visit, "to"), _number(visit, "from")
    files = files_at(visit.floor.store, job, to)
    revision = save_job(visit, job, files, after=seen, note=f"back to revision {to}")
    frame = visit.said("frame")
    known = visit.floor.job(job)
    there = any(each.id == frame for each in known.job.frames)
    told = told_saved(f"As it was in revision {to}, saved", revision, frame if there else "")
    return Go(to=frame_address(job, frame) if there else f"/jobs/{job}/frames", told=told)


def _number(visit: Visit, name: str) -> int:
    said = visit.place(name)
    return int(said) if said.isascii() and said.isdecimal() and len(said) < 10 else -1


ROUTES = (Route(path="/jobs/{job}/back/{to}/{from}", does=go_back, may=OFFICE_ONLY, method="POST"),)
