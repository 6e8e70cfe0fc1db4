"""The rack typed at the office: a row a board, saved with the job; rows pasted from a spreadsheet."""

from dataclasses import replace

from pinchrod.ground import NotYetRight
from pinchrod.job import RackWords
from pinchrod.store import Revision
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.jobs_saving import is_overtaken, revision_said
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.timber_grid import RackPage, pasted_rows, rack_page, rack_typed, with_blank_rows
from pinchrod.web.timber_saving import (
    boards_of_job,
    judged,
    rack_changed_since,
    saved,
    what_changed,
    why_not,
)
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit

HOME = "/jobs/{job}/timber"


def look(visit: Visit) -> Answer:
    """The boards as they were typed, and a few blank rows."""
    known = visit.floor.job(visit.place("job"))
    rack = boards_of_job(known.files)
    return _shown(
        rack_page(known, with_blank_rows(rack), judged(known.files, rack).slips if rack.boards else ())
    )


def typed(visit: Visit) -> Answer:
    """What was typed, saved; or shown again with more rows, pasted rows, or what is wrong."""
    known = visit.floor.job(visit.place("job"))
    rack = rack_typed(visit)
    match visit.said("do"):
        case "more":
            return _shown(_page(known, with_blank_rows(rack)))
        case "paste":
            return _shown(_page(known, pasted_rows(rack, visit.said("pasted"))))
        case "check":
            return _shown(_page(known, rack))
        case _:
            return _saved(visit, known, rack)


def undo(visit: Visit) -> Answer:
    """The rack as it was in a revision, put into the newest; only if it was not changed again since."""
    known, number = visit.floor.job(visit.place("job")), int(visit.place("number"))
    before = boards_of_job(visit.floor.job(known.name, number).files)
    if rack_changed_since(visit, known, number + 1):
        words = "The rack was changed again since, so that it was not put back."
        return Go(to=f"/jobs/{known.name}/timber/rack", told=Told(words=words))
    revision = saved(visit, known, judged(known.files, before), f"Rack as in revision {number}")
    words = f"The rack is as it was: revision {revision.number}."
    return Go(to=f"/jobs/{known.name}/timber", told=Told(words=words))


def _saved(visit: Visit, known: Known, rack: RackWords) -> Answer:
    seen = revision_said(visit)
    if not seen or seen > known.number:
        seen = known.number
    try:
        made = judged(known.files, rack)
        if made.stops:
            return _shown(_page(known, rack), status=422)
        if boards_of_job(made.files) == boards_of_job(known.files):
            return Go(to=f"/jobs/{known.name}/timber", told=Told(words="The rack is saved just so."))
        if rack_changed_since(visit, known, seen):
            return _shown(_overtaken(known, rack), status=409)
        revision = saved(visit, known, made, what_changed(boards_of_job(known.files), rack))
    except NotYetRight as trouble:
        page = replace(_page(known, rack), said=why_not(trouble))
        return _shown(page, status=409 if is_overtaken(trouble) else 422)
    return Go(to=f"/jobs/{known.name}/timber", told=told_rack(known, revision, revision.note))


def told_rack(known: Known, revision: Revision, what: str) -> Told:
    """What the next page says of a rack that was saved, and how it is taken back."""
    words = f"{what}. Saved as revision {revision.number}."
    if not known.job.rack:
        return Told(words=words)
    undo_at = f"/jobs/{known.name}/timber/rack/back/{revision.number - 1}"
    return Told(words=words, undo=undo_at, undo_words=f"Undo: rack as in revision {revision.number - 1}")


def _page(known: Known, rack: RackWords) -> RackPage:
    """The page with what was typed, and everything wrong or doubtful in it."""
    try:
        slips = judged(known.files, rack).slips
    except NotYetRight as trouble:
        return replace(rack_page(known, rack, ()), said=why_not(trouble))
    return rack_page(known, rack, slips)


def _overtaken(known: Known, rack: RackWords) -> RackPage:
    """Somebody changed the rack meanwhile: told once; saved again, what was typed takes its place."""
    by, what = known.revision.by, known.revision.note or "no note"
    words = (
        f"Somebody changed the rack while you typed: revision {known.number} by {by.person}, {what}."
        " What you typed stands below and is not saved. Saved again, it takes that rack's place."
    )
    return replace(_page(known, rack), said=(Slip(words=words),))


def _shown(page: RackPage, status: int = 200) -> Page:
    return Page(template="timber/rack.html", page=page, status=status)


ROUTES = (
    Route(path=f"{HOME}/rack", does=look, may=WORKSHOP),
    Route(path=f"{HOME}/rack", does=typed, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/rack/back/{{number:int}}", does=undo, may=WORKSHOP, method="POST"),
)
