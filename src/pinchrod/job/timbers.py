"""Timbers with what is published of them: those of our table, and the joiner's own."""

import csv
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from importlib.resources import files
from io import StringIO

from pinchrod.ground import Mm, Problem, quoted
from pinchrod.job.fields import tables_in, words
from pinchrod.job.found import missing
from pinchrod.job.keys import unknown_names
from pinchrod.job.limits import MOST_NAME, MOST_NOTE, TIMBER_FIGURES
from pinchrod.job.names import nearest
from pinchrod.job.records import Timber
from pinchrod.job.said import Reading, Said, Table
from pinchrod.job.sizes import number

USUAL_TIMBER = "yellow-poplar"
MOST_OFFERED = 10  # timbers that one problem names
TIMBER_KEYS = ("name", *TIMBER_FIGURES, "source")


@cache
def known_timbers() -> Mapping[str, Timber]:
    """The timbers of our table by name. The table comes with us, as a font does: it is no input."""
    table = files("pinchrod.job").joinpath("timbers.csv").read_text(encoding="utf-8")
    return {row["name"]: _of_row(row) for row in csv.DictReader(StringIO(table))}


def read_timber(said: Said | None, own: Mapping[str, Timber]) -> Reading[Timber]:
    """The timber of that name; the usual one if none is named, or none that we know."""
    usual = known_timbers()[USUAL_TIMBER]
    if said is None:
        return usual
    name = yield from words(said, "timber", MOST_NAME)
    if name is None:
        return usual
    timbers = {**known_timbers(), **own}
    for known in (name, _written(name)):
        if known in timbers:
            return timbers[known]
    otherwise = "describe it under [[timber]] with its name and what you know of it"
    what = f"timber {quoted(name)} is neither in our table nor under [[timber]]"
    mend = f"write {_listed(near)}, or {otherwise}" if (near := _near(name, timbers)) else otherwise
    yield Problem(where=said.at, code="timber-unknown", what=what, mend=mend)
    return usual


def _near(name: str, timbers: Iterable[str]) -> tuple[str, ...]:
    """The timbers whose names hold the word, as red-oak does oak, or else those that look like it.

    The shortest names come first, since not all can be told.
    """
    holding = [timber for timber in timbers if _written(name) in _written(timber).split("-")]
    return tuple(sorted(holding, key=len)[:MOST_OFFERED]) or nearest(name, timbers)


def _listed(names: Sequence[str]) -> str:
    """The names with "or" before the last."""
    *first, last = names
    return f"{', '.join(first)} or {last}" if first else last


def read_own_timbers(job: Table) -> Reading[Mapping[str, Timber]]:
    """The timbers that the job describes, by name."""
    said = job.get("timber")
    own: dict[str, Timber] = {}
    for place, table in () if said is None else (yield from tables_in(said, "timber")):
        yield from unknown_names(table, "[timber]", {"[timber]": TIMBER_KEYS})
        timber = yield from _own(place, table)
        if timber is None:
            continue
        if timber.name in own:
            what = f"the timber {quoted(timber.name)} is described a second time"
            yield Problem(where=place.at, code="timber-twice", what=what, mend="keep one of the two")
        own[timber.name] = timber
    return own


def _own(place: Said, table: Table) -> Reading[Timber | None]:
    said = table.get("name")
    if said is None:
        yield missing(place, "the timber's name", 'give it one, such as "plum"')
        return None
    name = yield from words(said, "the timber's name", MOST_NAME)
    figures = {}
    for key, between in TIMBER_FIGURES.items():
        found = table.get(key)
        figures[key] = None if found is None else (yield from number(found, key, between))
    note = table.get("source")
    source = None if note is None else (yield from words(note, "source", MOST_NOTE))
    return None if name is None else Timber(name=name, source=source or "the job file", **figures)


def _of_row(row: Mapping[str, str]) -> Timber:
    figures = {key: Mm(row[key]) if row[key] else None for key in TIMBER_FIGURES}
    return Timber(name=row["name"], source=row["source"], **figures)


def _written(name: str) -> str:
    """A timber's name as our table writes it: small letters, hyphens between."""
    return "-".join(name.casefold().replace("-", " ").replace("_", " ").split())
