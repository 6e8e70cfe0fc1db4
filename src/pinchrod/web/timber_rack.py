"""The rack typed at the office: a row a board, saved with the job; rows pasted from a spreadsheet."""

from dataclasses import replace

from pinchrod.ground import NotYetRight
from pinchrod.job import RackWords
from pinchrod.store import Revision
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.begun import drop_begun, fields_typed, keep_begun, typed_at
from pinchrod.web.jobs_saving import is_overtaken, revision_said
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.timber_begun import RACK, begun_rack, drop, keep_typed, rack_taken_up
from pinchrod.web.timber_grid import RackPage, pasted_rows, rack_in, rack_page, with_blank_rows
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
    begun = begun_rack(visit, known)
    if begun is not None and visit.said("draft") == "yes":
        return _shown(rack_taken_up(known, begun))
    rack = boards_of_job(known.files)
    slips = judged(known.files, rack).slips if rack.boards else ()
    return _shown(replace(rack_page(known, with_blank_rows(rack), slips), begun=begun))


def typed(visit: Visit) -> Answer:
    """What was typed, saved; or shown again with more rows, pasted rows, or what is wrong."""
    known = visit.floor.job(visit.place("job"))
    rack = rack_in(visit.form)
    match visit.said("do"):
        case "more":
            return _again(visit, known, with_blank_rows(rack))
        case "paste":
            return _again(visit, known, pasted_rows(rack, visit.said("pasted")))
        case "check":
            return _again(visit, known, rack)
        case _:
            return _saved(visit, known, rack)


def _again(visit: Visit, known: Known, rack: RackWords, status: int = 200) -> Page:
    """What was typed, begun from the revision that it was begun from."""
    return _shown(replace(_page(known, rack), revision=_seen(visit, known)), status)


def _seen(visit: Visit, known: Known) -> int:
    """The revision that was looked at while the rack was typed; the newest, if the form says none."""
    said = revision_said(visit)
    return said if 0 < said <= known.number else known.number


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
    try:
        made = judged(known.files, rack)
        if made.stops:
            return _again(visit, known, rack, status=422)
        if boards_of_job(made.files) == boards_of_job(known.files):
            drop_begun(visit, RACK)
            return Go(to=f"/jobs/{known.name}/timber", told=Told(words="The rack is saved just so."))
        if rack_changed_since(visit, known, _seen(visit, known)):
            keep_begun(visit, RACK, fields_typed(visit), _seen(visit, known))
            return _shown(_overtaken(known, rack), status=409)
        note = what_changed(boards_of_job(known.files), rack)
        revision = saved(visit, known, made, note, typed_at(visit, RACK))
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
    Route(path=f"{HOME}/rack/typed", does=keep_typed, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/rack/drop", does=drop, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/rack/back/{{number:int}}", does=undo, may=WORKSHOP, method="POST"),
)
