"""A job's words: its files as said, looked over and saved; its revisions, compared and gone back to."""

from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight
from pinchrod.job import Change, changes_between
from pinchrod.plan import check
from pinchrod.store import JobFiles, files_at
from pinchrod.web import words_back, words_newer
from pinchrod.web.answers import Answer, Go, Page, Sent, Told
from pinchrod.web.begun import begun_at, drop_begun, keep_begun, keep_or_drop, typed_at
from pinchrod.web.jobs_files import chosen
from pinchrod.web.jobs_saving import is_nothing_new, is_overtaken, revision_said, save_job, told_saved
from pinchrod.web.roles import OFFICE_ONLY, WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.trouble import not_taken, slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within
from pinchrod.web.words_files import Texts, in_places, sources_of, texts_said, with_texts
from pinchrod.web.words_page import Kept, WordsPage, kept_at, meanwhile_of, words_page

WORDS = "words/words.html"
PLACE = "words"  # of a draft


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparePage:
    """What was changed from one revision to another."""

    within: Within
    old: int
    new: int
    changes: tuple[Change, ...]


def look(visit: Visit) -> Answer:
    """The files as the newest revision has them, or as they were typed and not saved."""
    floor, job = visit.floor, visit.place("job")
    typed = begun_at(visit, PLACE)
    if typed is None or visit.said("draft") != "yes":
        page = words_page(floor, kept_at(floor, job))
        return Page(template=WORDS, page=replace(page, typed=typed))
    kept = kept_at(floor, job, typed.after)
    page = words_page(floor, kept, typed.words, with_texts(kept.files, typed.words))
    return Page(template=WORDS, page=replace(page, typed=typed, taken_up=True, slips=()))


def keep(visit: Visit) -> Answer:
    """What was typed, looked over or saved."""
    kept, texts = kept_at(visit.floor, visit.place("job"), revision_said(visit)), texts_said(visit)
    files = with_texts(kept.files, texts)
    page = replace(words_page(visit.floor, kept, texts, files), note=visit.said("note"))
    if page.slips:
        return Page(template=WORDS, page=page, status=422)
    if visit.said("do") != "save":
        return Page(template=WORDS, page=replace(page, changes=_changed(kept, files)))
    return _saved(visit, kept, page, files)


def _changed(kept: Kept, files: JobFiles) -> tuple[Change, ...]:
    return changes_between(kept.files.read()[0], files.read()[0])


def _saved(visit: Visit, kept: Kept, page: WordsPage, files: JobFiles) -> Answer:
    try:
        job, note, typed = kept.revision.job, page.note.strip(), typed_at(visit, PLACE)
        revision = save_job(visit, job, files, after=revision_said(visit), note=note, typed=typed)
    except NotYetRight as trouble:
        return _not_saved(visit, kept, page, trouble)
    return Go(to=f"/jobs/{kept.revision.job}/words", told=told_saved("The words are kept", revision))


def _not_saved(visit: Visit, kept: Kept, page: WordsPage, trouble: NotYetRight) -> Answer:
    if is_nothing_new(trouble):
        drop_begun(visit, PLACE)
        told = Told(words=f"Nothing is new in them: so they stand in revision {kept.revision.number}.")
        return Go(to=f"/jobs/{kept.revision.job}/words", told=told)
    if not is_overtaken(trouble):
        return Page(template=WORDS, page=replace(page, slips=slips_of(trouble.problems)), status=422)
    keep_begun(visit, PLACE, texts_said(visit), kept.revision.number)
    newest = kept_at(visit.floor, kept.revision.job)
    texts = in_places(texts_said(visit), kept.files, newest.files)
    files = with_texts(newest.files, texts)
    page = replace(words_page(visit.floor, newest, texts, files), note=page.note)
    return Page(template=WORDS, page=replace(page, meanwhile=meanwhile_of(kept, newest)), status=409)


def keep_typed(visit: Visit) -> Answer:
    """What stands in the fields is kept, unless it is what the revision says."""
    kept, texts = kept_at(visit.floor, visit.place("job"), revision_said(visit)), texts_said(visit)
    changed = _of_changed(kept, texts)
    return keep_or_drop(visit, PLACE, changed, kept.revision.number, worth=bool(changed))


def keep_files(visit: Visit) -> Answer:
    """Files that were chosen, in the place of those that the job had."""
    kept = kept_at(visit.floor, visit.place("job"), revision_said(visit))
    page = words_page(visit.floor, kept)
    try:
        found = chosen([source for field, source in visit.files if field == "files"])
        files = replace(found.files, workshop=kept.files.workshop)
        check(*files.read())
        revision = save_job(
            visit, kept.revision.job, files, after=revision_said(visit), note=visit.said("note")
        )
    except NotYetRight as trouble:
        status = 409 if is_overtaken(trouble) else 422
        stops = tuple(problem for problem in trouble.problems if problem.stops)
        return Page(template=WORDS, page=replace(page, slips=slips_of(stops, "files")), status=status)
    told = told_saved("The files are kept", revision)
    left = f" Not part of the job, and left aside: {', '.join(found.left)}." if found.left else ""
    return Go(to=f"/jobs/{kept.revision.job}/words", told=replace(told, words=told.words + left))


def _of_changed(kept: Kept, texts: Texts) -> Texts:
    """The texts that differ: the others need not be kept twice."""
    return tuple(pair for pair in texts if with_texts(kept.files, (pair,)) != kept.files)


def drop(visit: Visit) -> Answer:
    """What was typed is not wanted."""
    drop_begun(visit, PLACE)
    return Go(to=f"/jobs/{visit.place('job')}/words")


def compare(visit: Visit) -> Answer:
    """What was changed from one revision to another."""
    floor, job = visit.floor, visit.place("job")
    newest = kept_at(floor, job).revision
    old, new = (_number(visit.said(name)) for name in ("old", "new"))
    older, newer = kept_at(floor, job, old or max(newest.number - 1, 1)), kept_at(floor, job, new)
    page = ComparePage(
        within=within(newest, "words"),
        old=older.revision.number,
        new=newer.revision.number,
        changes=_changed(older, newer.files),
    )
    return Page(template="words/compare.html", page=page)


def take_home(visit: Visit) -> Answer:
    """One file of one revision, as it was given."""
    found = sources_of(files_at(visit.floor.store, visit.place("job"), _number(visit.place("number"))))
    place = _number(visit.place("place"))
    if place >= len(found):
        return not_taken(visit, 404)
    return Sent(content=found[place].content, media="application/octet-stream", name=found[place].name)


def _number(said: str) -> int:
    return int(said) if said.isascii() and said.isdecimal() and len(said) < 10 else 0


ROUTES = (
    Route(path="/jobs/{job}/words", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}/words", does=keep, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/words/files", does=keep_files, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/words/typed", does=keep_typed, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/words/drop", does=drop, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/words/compare", does=compare, may=WORKSHOP),
    Route(path="/jobs/{job}/words/file/{number}/{place}", does=take_home, may=WORKSHOP),
    *words_back.ROUTES,
    *words_newer.ROUTES,
)
