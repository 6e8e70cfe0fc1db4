"""A copy of the store taken when the office asks for one: where it is, and that it was found sound."""

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.store import back_up, copies_in
from pinchrod.web.answers import Answer, Go, Told
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit


def copy_now(visit: Visit) -> Answer:
    """Copy the store as it stands, while others go on working with it; NotYetRight if that cannot be."""
    floor = visit.floor
    try:
        copy = back_up(floor.store, floor.backups)
    except OSError as trouble:
        raise NotYetRight([_not_written(visit, trouble)]) from trouble
    floor.feed.tell()
    number = len(copies_in(floor.backups))
    words = f"Copied, looked over and sound: {copy}. Copies there: {number}; keep one on another disk, too."
    return Go(to="/", told=Told(words=words))


def _not_written(visit: Visit, trouble: OSError) -> Problem:
    what = f"no copy could be written into {visit.floor.backups}: {trouble.strerror or trouble}"
    mend = "see that the folder may be written to and its disk has room, then copy once more"
    return Problem(where=Where(name="copy"), code="copy-not-written", what=what, mend=mend)


ROUTES = (Route(path="/copy", does=copy_now, may=OFFICE_ONLY, method="POST"),)
