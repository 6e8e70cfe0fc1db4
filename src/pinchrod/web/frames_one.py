"""One frame looked at, or begun; drawn, and kept for the device, while it is being typed."""

from dataclasses import dataclass, replace

from markupsafe import Markup

from pinchrod.job import Words
from pinchrod.web.answers import Answer, Go, Page
from pinchrod.web.begun import drop_begun, keep_or_drop
from pinchrod.web.frames_drafts import begun_frame, place_of
from pinchrod.web.frames_drawn import drawn
from pinchrod.web.frames_form import FrameForm, form_of, words_said
from pinchrod.web.frames_frame import frame_page, frame_said, with_begun
from pinchrod.web.jobs_saving import frame_address, revision_said
from pinchrod.web.known import Known
from pinchrod.web.roles import OFFICE_ONLY, WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

FRAME = "frames/frame.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPage:
    """The parts of a frame's page that follow the typing."""

    form: FrameForm
    svg: Markup | None


def look(visit: Visit) -> Answer:
    """A frame as the newest revision has it, or as it was begun and not saved."""
    known, frame = visit.floor.job(visit.place("job")), visit.place("frame")
    return _page(visit, known, frame, frame_said(known, frame).words)


def look_new(visit: Visit) -> Answer:
    """The fields of a frame to be added; those of another already in them if it is to be like that one."""
    known, like = visit.floor.job(visit.place("job")), visit.said("like")
    words: Words = frame_said(known, like).words if like else ()
    fresh = ("id", free_id(tuple(each.id for each in known.said), like))
    return _page(visit, known, "", (fresh, *(pair for pair in words if pair[0] != "id")))


def _page(visit: Visit, known: Known, frame: str, words: Words) -> Page:
    kept = begun_frame(visit, frame)
    if kept is not None and dict(kept.words) == dict(words):
        kept = None  # saved since: the last keeping came behind the saving
    taken_up = kept is not None and visit.said("draft") == "yes"
    page = frame_page(known, frame, kept.words if kept is not None and taken_up else words)
    page = replace(page, like=visit.said("like"))
    return Page(template=FRAME, page=with_begun(page, kept, taken_up=taken_up))


def free_id(ids: tuple[str, ...], like: str) -> str:
    """An id that no frame has: the letters of that one, or of the last, and the next number."""
    letters = (like or ids[-1]).rstrip("0123456789")
    taken = {each.upper() for each in ids}
    numbers = (f"{letters}{number}" for number in range(1, len(ids) + 2))
    return next(each for each in numbers if each.upper() not in taken)


def draw(visit: Visit) -> Answer:
    """The drawing of what stands in the fields now, and what is said of them."""
    known, words = visit.floor.job(visit.place("job"), revision_said(visit)), words_said(visit)
    found = drawn(known, words)
    return Page(template="frames/drawn.html", page=DrawnPage(form=form_of(words, found), svg=found.svg))


def keep_typed(visit: Visit) -> Answer:
    """What stands in the fields is kept, unless it is what the revision says."""
    frame, words = dict(visit.places).get("frame", ""), words_said(visit)
    known = visit.floor.job(visit.place("job"), revision_said(visit))
    said = next((each for each in known.said if frame and each.id == frame), None)
    worth = said is None or dict(said.words) != dict(words)
    return keep_or_drop(visit, place_of(frame), words, known.number, worth=worth)


def drop(visit: Visit) -> Answer:
    """What was begun is not wanted."""
    frame = dict(visit.places).get("frame", "")
    drop_begun(visit, place_of(frame))
    job = visit.place("job")
    return Go(to=frame_address(job, frame) if frame else f"/jobs/{job}/new-frame")


ROUTES = (
    Route(path="/jobs/{job}/new-frame", does=look_new, may=OFFICE_ONLY),
    Route(path="/jobs/{job}/new-frame/draw", does=draw, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/new-frame/typed", does=keep_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/new-frame/drop", does=drop, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}/frames/{frame}/draw", does=draw, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}/typed", does=keep_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}/drop", does=drop, may=OFFICE_ONLY, method="POST"),
)
