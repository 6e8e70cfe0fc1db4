"""A new job that was typed on a device and not saved: its first frame, or its rows, each kept by itself."""

from dataclasses import asdict, replace

from pinchrod.web.answers import Answer, Go
from pinchrod.web.begun import Begun, Fields, begun_at, drop_begun, fields_typed, keep_or_drop
from pinchrod.web.jobs_begun import Begin
from pinchrod.web.jobs_rows import FIELD
from pinchrod.web.visit import Visit

BY_NAME, OF_ROWS = "new job", "new job rows"  # the places of the two drafts
USUAL = asdict(Begin())
OF_HEAD = ("name", "customer")  # of the job that is made of rows: `rows-name`


def begun_new_job(visit: Visit) -> Begun | None:
    """What was typed in either form and not saved, if anything was."""
    found = [each for place in (BY_NAME, OF_ROWS) if (each := begun_at(visit, place))]
    if not found:
        return None
    words = tuple(pair for each in found for pair in each.words)
    return Begun(words=words, after=0, at=max(each.at for each in found))


def begin_in(words: Fields) -> Begin:
    """The job to be begun by its name, as it was typed."""
    said = dict(words)
    return Begin(**{key: said.get(key, usual) for key, usual in USUAL.items()})


def head_in(words: Fields) -> Begin:
    """The name and customer of the job that is to be made of rows."""
    said = dict(words)
    return replace(Begin(), **{key: said.get(f"rows-{key}", "") for key in OF_HEAD})


def rows_in(words: Fields) -> str:
    """The rows that were pasted."""
    return dict(words).get(FIELD, "")


def keep_typed(visit: Visit) -> Answer:
    """What stands in the fields is kept, if it is more than stands there anyway."""
    words = fields_typed(visit)
    return keep_or_drop(visit, BY_NAME, words, 0, worth=begin_in(words) != Begin())


def keep_rows_typed(visit: Visit) -> Answer:
    """The rows and the job's name are kept, if there are any."""
    words = fields_typed(visit)
    return keep_or_drop(visit, OF_ROWS, words, 0, worth=any(said.strip() for _, said in words))


def drop(visit: Visit) -> Answer:
    """What was typed is not wanted."""
    for place in (BY_NAME, OF_ROWS):
        drop_begun(visit, place)
    return Go(to="/new-job")
