"""A job put away before anything happened to it, and brought back: each by one press that names it."""

from pinchrod.store import Revision, bring_back, is_put_away, may_be_put_away, put_away, revision_at
from pinchrod.web.answers import Answer, Go, Told
from pinchrod.web.floor import Floor
from pinchrod.web.jobs_saving import revision_said
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


def away(visit: Visit) -> Answer:
    """The job put away: it is at hand no more, and nothing of it is lost."""
    revision = revision_at(visit.floor.store, visit.place("job"))
    number = revision_said(visit) or revision.number
    put_away(visit.floor.store, revision.job, number, by=visit.by, key=visit.key)
    visit.floor.feed.tell()
    told = Told(
        words=f"{revision.name} is put away.", undo=back_address(revision), undo_words=back_words(revision)
    )
    return Go(to="/", told=told)


def back(visit: Visit) -> Answer:
    """A job that was put away, at hand again as it was."""
    revision = revision_at(visit.floor.store, visit.place("job"))
    bring_back(visit.floor.store, revision.job, by=visit.by, key=visit.key)
    visit.floor.feed.tell()
    return Go(to=f"/jobs/{revision.job}/frames", told=Told(words=f"{revision.name} is brought back."))


def told_new(revision: Revision, more: str = "") -> Told:
    """What is told of a new job, and how it is taken away again."""
    again = ", as it had been put away" if revision.number > 1 else ""
    words = f"{revision.name} is kept, as revision {revision.number}{again}.{more}"
    return Told(words=words, undo=away_address(revision), undo_words=away_words(revision))


def undo_of_new(floor: Floor, revision: Revision) -> tuple[str, str]:
    """Where it is sent and what is pressed to put a new job away, or to bring it back; else nothing."""
    if is_put_away(floor.store, revision.job):
        return back_address(revision), back_words(revision)
    if revision.number == 1 and may_be_put_away(floor.store, revision.job):
        return away_address(revision), away_words(revision)
    return "", ""


def away_address(revision: Revision) -> str:
    """Where it is sent that a job is to be put away, as long as that revision is its newest."""
    return f"/jobs/{revision.job}/away?revision={revision.number}"


def away_words(revision: Revision) -> str:
    """What stands on the button that does it."""
    return f"Undo: put {revision.name} away"


def back_address(revision: Revision) -> str:
    """Where it is sent that a job is to be brought back."""
    return f"/jobs/{revision.job}/bring-back"


def back_words(revision: Revision) -> str:
    """What stands on the button that does it."""
    return f"Bring {revision.name} back"


ROUTES = (
    Route(path="/jobs/{job}/away", does=away, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/bring-back", does=back, may=OFFICE_ONLY, method="POST"),
)
