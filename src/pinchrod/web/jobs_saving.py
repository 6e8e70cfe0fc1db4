"""Saving a job from a page: as the revision after the one that was looked at, and how that is taken back."""

from urllib.parse import quote

from pinchrod.ground import NotYetRight
from pinchrod.store import DraftAt, JobFiles, Revision, Saving, save
from pinchrod.web.answers import Told
from pinchrod.web.visit import Visit

OVERTAKEN, NOTHING_NEW = "revision-overtaken", "revision-same"


def save_job(
    visit: Visit, job: str, files: JobFiles, *, after: int, note: str = "", typed: DraftAt | None = None
) -> Revision:
    """The new revision, of which every open page is told; the draft that it was typed as is gone with it.

    NotYetRight as the store has it.
    """
    saving = Saving(key=visit.key, by=visit.by, job=job, after=after, files=files, note=note, typed=typed)
    revision = save(visit.floor.store, saving)
    visit.floor.feed.tell()
    return revision


def revision_said(visit: Visit) -> int:
    """The number of the revision that a form was made of; 0, which no job is at, if it says none."""
    said = visit.said("revision")
    return int(said) if said.isascii() and said.isdecimal() and len(said) < 10 else 0


def is_overtaken(trouble: NotYetRight) -> bool:
    """Whether somebody saved meanwhile."""
    return any(problem.code == OVERTAKEN for problem in trouble.problems)


def is_nothing_new(trouble: NotYetRight) -> bool:
    """Whether there was nothing to save."""
    return any(problem.code == NOTHING_NEW for problem in trouble.problems)


def told_saved(what: str, revision: Revision, frame: str = "") -> Told:
    """What the next page says: what was saved as which revision, and how it is taken back."""
    words = f"{what} as revision {revision.number}."
    if revision.number == 1:
        return Told(words=words)
    more = f"?frame={quote(frame, safe='')}" if frame else ""
    return Told(words=words, undo=undo_address(revision) + more, undo_words=undo_words(revision))


def undo_address(revision: Revision) -> str:
    """Where it is sent that the newest revision is to be taken back."""
    return f"/jobs/{revision.job}/back/{revision.number - 1}/{revision.number}"


def undo_words(revision: Revision) -> str:
    """What stands on the button that does it."""
    return f"Undo: back to revision {revision.number - 1}"


def frame_address(job: str, frame: str) -> str:
    """Where a frame's page is."""
    return f"/jobs/{job}/frames/{quote(frame, safe='')}"
