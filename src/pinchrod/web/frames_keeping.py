"""A frame saved, added, stood elsewhere or taken out: each a new revision that can be taken back."""

import unicodedata
from collections.abc import Callable
from dataclasses import replace

from pinchrod.ground import NotYetRight
from pinchrod.job import Files, Words, moved, with_frame, with_frames, without_frame
from pinchrod.store import DraftAt, JobFiles, Revision
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.begun import drop_begun, keep_begun, typed_at
from pinchrod.web.frames_drafts import place_of
from pinchrod.web.frames_drawn import drawn
from pinchrod.web.frames_form import slip_of, words_said
from pinchrod.web.frames_frame import FramePage, frame_page, overtaken_page
from pinchrod.web.jobs_saving import (
    frame_address,
    is_nothing_new,
    is_overtaken,
    revision_said,
    save_job,
    told_saved,
)
from pinchrod.web.known import Known
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.visit import Visit

FRAME = "frames/frame.html"
Change = Callable[[JobFiles, Words], Files]
"""How the words get into the files."""


def keep(visit: Visit) -> Answer:
    """The frame saved as it was typed, or the page again with what is to be mended."""
    frame = visit.place("frame")
    return _kept(visit, frame, lambda files, words: with_frame(files.main, files.joined, frame, words))


def add(visit: Visit) -> Answer:
    """The frame that was typed added: behind the one that it is like, or behind the last."""
    known = visit.floor.job(visit.place("job"), revision_said(visit))
    like = visit.said("like")
    after = like if any(each.id == like for each in known.said) else ""
    return _kept(visit, "", lambda files, words: with_frames(files.main, files.joined, [words], after))


def _kept(visit: Visit, frame: str, change: Change) -> Answer:
    job, number, words = visit.place("job"), revision_said(visit), words_said(visit)
    known = visit.floor.job(job, number)
    name = unicodedata.normalize("NFC", dict(words).get("id", "").strip())  # as the job has it
    if drawn(known, words).stops:
        return _again(visit, frame_page(known, frame, words, sent=True))
    try:
        files = change(known.files, words)
        note = f"{name} {'changed' if frame else 'added'}"
        typed = typed_at(visit, place_of(frame))
        revision = save_job(visit, job, _files(known, files), after=number, note=note, typed=typed)
    except NotYetRight as trouble:
        return _not_kept(visit, known, frame, words, trouble)
    told = told_saved(f"{name} {'saved' if frame else 'added'}", revision, frame)
    return Go(to=frame_address(job, name), told=_with_notes(told, files))


def _not_kept(visit: Visit, known: Known, frame: str, words: Words, trouble: NotYetRight) -> Answer:
    """What comes instead of a frame that could not be saved; what was typed is never lost by it."""
    if is_overtaken(trouble):
        keep_begun(visit, place_of(frame), words, known.number)
        page = overtaken_page(visit, frame, words, known.number)
        return Page(template=FRAME, page=page, status=409)
    if is_nothing_new(trouble):
        drop_begun(visit, place_of(frame))
        words_told = f"Nothing is new in it: {frame} stands so in revision {known.number}."
        return Go(to=frame_address(known.name, frame), told=Told(words=words_told))
    slips = tuple(slip_of(problem) for problem in trouble.problems)
    return _again(visit, frame_page(known, frame, words, slips, sent=True))


def _again(visit: Visit, page: FramePage) -> Page:
    return Page(template=FRAME, page=replace(page, like=visit.said("like")), status=422)


def take_out(visit: Visit) -> Answer:
    """The job without that frame."""
    known, frame = _looked_at(visit), visit.place("frame")
    files = without_frame(known.files.main, known.files.joined, frame)
    revision = _saved(visit, known, files, f"{frame} taken out", typed_at(visit, place_of(frame)))
    return Go(to=f"/jobs/{known.name}/frames", told=told_saved(f"{frame} taken out, saved", revision, frame))


def stand_elsewhere(visit: Visit) -> Answer:
    """The frame one place further to the left or to the right among the others."""
    known, frame = _looked_at(visit), visit.place("frame")
    ids = [each.id for each in known.said]
    at = ids.index(frame) if frame in ids else 0
    before = ids[max(at - 1, 0)] if visit.said("to") == "left" else "".join(ids[at + 2 : at + 3])
    files = moved(known.files.main, known.files.joined, frame, before)
    revision = _saved(visit, known, files, f"{frame} stands elsewhere")
    told = told_saved(f"{frame} stands elsewhere, saved", revision, frame)
    return Go(to=frame_address(known.name, frame), told=told)


def _looked_at(visit: Visit) -> Known:
    return visit.floor.job(visit.place("job"), revision_said(visit))


def _saved(visit: Visit, known: Known, files: Files, note: str, typed: DraftAt | None = None) -> Revision:
    new = _files(known, files)
    return save_job(visit, known.name, new, after=revision_said(visit), note=note, typed=typed)


def _files(known: Known, files: Files) -> JobFiles:
    return replace(known.files, main=files.main, joined=files.joined)


def _with_notes(told: Told, files: Files) -> Told:
    """What else was changed on the way: a workbook became a list, say."""
    notes = "".join(f" {note.what[0].upper()}{note.what[1:]}." for note in files.notes)
    return replace(told, words=told.words + notes)


ROUTES = (
    Route(path="/jobs/{job}/new-frame", does=add, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}", does=keep, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}/take-out", does=take_out, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/frames/{frame}/stand", does=stand_elsewhere, may=OFFICE_ONLY, method="POST"),
)
