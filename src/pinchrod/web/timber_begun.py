"""A rack that was typed on a device and not saved: kept while one types, taken up again, dropped."""

from dataclasses import replace

from pinchrod.job import RackWords
from pinchrod.web.answers import Answer, Go
from pinchrod.web.begun import Begun, begun_at, drop_begun, fields_typed, keep_or_drop
from pinchrod.web.jobs_saving import revision_said
from pinchrod.web.known import Known
from pinchrod.web.timber_grid import RackPage, rack_in, rack_page, with_blank_rows
from pinchrod.web.timber_saving import boards_of_job
from pinchrod.web.visit import Visit

RACK = "rack"  # the place of its draft
PASTED = "pasted"


def begun_rack(visit: Visit, known: Known) -> Begun | None:
    """What was typed here and not saved, if the job's rack does not say so already."""
    found = begun_at(visit, RACK)
    return found if found is not None and _differs(known, found) else None


def rack_taken_up(known: Known, begun: Begun) -> RackPage:
    """The grid with what was typed in it; when it is saved, it is held against what it was begun from."""
    page = rack_page(known, with_blank_rows(_without_blank_end(rack_in(begun.words))), ())
    pasted = dict(begun.words).get(PASTED, "")
    return replace(page, begun=begun, taken_up=True, revision=begun.after, pasted=pasted)


def keep_typed(visit: Visit) -> Answer:
    """What stands in the fields is kept, unless it is what the job's rack says."""
    known, words = visit.floor.job(visit.place("job"), revision_said(visit)), fields_typed(visit)
    begun = Begun(words=words, after=known.number, at="")
    return keep_or_drop(visit, RACK, words, known.number, worth=_differs(known, begun))


def drop(visit: Visit) -> Answer:
    """What was typed is not wanted."""
    drop_begun(visit, RACK)
    return Go(to=f"/jobs/{visit.place('job')}/timber/rack")


def _differs(known: Known, begun: Begun) -> bool:
    typed, kept = rack_in(begun.words).boards, boards_of_job(known.files).boards
    return bool(dict(begun.words).get(PASTED)) or [*filter(any, typed)] != [*filter(any, kept)]


def _without_blank_end(rack: RackWords) -> RackWords:
    """The rows down to the last in which anything stands: blank ones are put below afresh."""
    filled = [at for at, board in enumerate(rack.boards, 1) if any(board)]
    return replace(rack, boards=rack.boards[: max(filled, default=0)])
