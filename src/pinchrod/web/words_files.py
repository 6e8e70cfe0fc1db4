"""A job's files as texts in fields, each with what is wrong line by line; and the files typed anew."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import Source, read_what_stands, retyped, text_of
from pinchrod.plan import check
from pinchrod.store import JobFiles
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit

Texts = tuple[tuple[str, str], ...]
"""What stands in each field, by the field's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsFile:
    """A file of the job: its text, if it is one, and what is said of its lines."""

    place: int  # among all files of the revision, from 0
    name: str
    text: str | None  # None: a workbook, which is taken home and chosen anew
    slips: tuple[Slip, ...]

    @property
    def field(self) -> str:
        """The name of its field."""
        return field_at(self.place)

    @property
    def rows(self) -> int:
        """How many lines of it are in view at once."""
        return min(max((self.text or "").count("\n") + 2, 4), 30)


def field_at(place: int) -> str:
    """The field of the file at that place."""
    return f"file-{place}"


def sources_of(files: JobFiles) -> tuple[Source, ...]:
    """Every file of a job in the order in which the store has them, each before those beside it."""
    tops = (files.main, *files.joined, *((files.workshop,) if files.workshop is not None else ()))
    return tuple(each for top in tops for each in _with_beside(top))


def _with_beside(source: Source) -> Iterator[Source]:
    yield source
    for each in source.beside:
        yield from _with_beside(each)


def texts_said(visit: Visit) -> Texts:
    """What stands in the fields of the files."""
    return tuple((name, words) for name, words in visit.form if name.startswith(field_at(0)[:-1]))


def with_texts(files: JobFiles, texts: Texts) -> JobFiles:
    """The files with these texts in them; a file whose field says what it said stays to the byte."""
    typed = dict(texts)
    places = iter(range(len(sources_of(files))))

    def anew(source: Source) -> Source:
        text = typed.get(field_at(next(places)))
        beside = tuple(anew(each) for each in source.beside)
        made = source if text is None else retyped(source, text)
        return replace(made, beside=beside)

    main, joined = anew(files.main), tuple([anew(each) for each in files.joined])
    return JobFiles(main=main, joined=joined, workshop=anew(files.workshop) if files.workshop else None)


def in_places(texts: Texts, old: JobFiles, new: JobFiles) -> Texts:
    """Texts typed in one revision's files, at the places that files of those names have in another."""
    names = [source.name for source in sources_of(old)]
    places = {source.name: place for place, source in enumerate(sources_of(new))}
    typed = dict(texts)
    return tuple(
        (field_at(places[name]), typed[field_at(place)])
        for place, name in enumerate(names)
        if field_at(place) in typed and name in places
    )


def problems_of(files: JobFiles) -> tuple[Problem, ...]:
    """Everything that is wrong or doubtful in a job's files, in reading and in setting out, at once."""
    job, shop, problems = read_what_stands(files.main, files.joined, workshop=files.workshop)
    if job is None or not job.frames:
        return problems
    try:
        return (*(each for each in problems if each.stops), *check(job, shop).doubts)
    except NotYetRight as trouble:
        stops = (each for each in problems if each.stops)
        return (*stops, *(each for each in trouble.problems if each not in problems or not each.stops))


def words_files(files: JobFiles, problems: Sequence[Problem], texts: Texts = ()) -> tuple[WordsFile, ...]:
    """Every file with its text, as it was typed if it was, and with the problems that are told of it."""
    typed = dict(texts)
    return tuple(
        WordsFile(
            place=place,
            name=source.name,
            text=typed.get(field_at(place), text_of(source)),
            slips=tuple(slips_at(source.name, problems, field_at(place))),
        )
        for place, source in enumerate(sources_of(files))
    )


def slips_at(name: str, problems: Iterable[Problem], field: str) -> Iterator[Slip]:
    """The problems of one file, each with its line."""
    for problem in problems:
        if problem.where.file == name:
            yield from (replace(slip, place=_line(problem)) for slip in slips_of((problem,), field))


def _line(problem: Problem) -> str:
    where = problem.where
    if where.cell:
        return f"cell {where.cell}"
    return f"line {where.line}" if where.line else ""
