"""The files that a job or workshop file points at: their names, and which of those given each one is."""

from collections.abc import Sequence

from pinchrod.ground import Problem, quoted
from pinchrod.job.fields import words
from pinchrod.job.limits import MOST_NAME
from pinchrod.job.said import Reading, Said
from pinchrod.job.source import ENDINGS, Form, Source


def file_name(said: Said, part: str, forms: Sequence[Form]) -> Reading[str | None]:
    """The name that stands there, if its ending is one of a file that is read as this part."""
    name = yield from words(said, part, MOST_NAME)
    if name is None:
        return None
    endings = [ending for ending, form in ENDINGS.items() if form in forms]
    if any(name.lower().endswith(ending) for ending in endings):
        return name
    what = f"{part} is {quoted(name)}, no file that is read here"
    mend = f"name a file ending in {' or '.join(endings)}"
    yield Problem(where=said.at, code="file-kind", what=what, mend=mend)
    return None


def found(name: str, given: Sequence[Source]) -> Source | None:
    """The file of that name among those given, perhaps told with the folders that lead to it."""
    return next((source for source in given if _is(source, name)), None)


def given(said: Said, name: str, sources: Sequence[Source]) -> Reading[Source | None]:
    """The file of that name; one that is not there is told where it is named."""
    source = found(name, sources)
    if source is None:
        what = f"the file {quoted(name)} is not there"
        mend = "put it beside the job file, or write its name as it is"
        yield Problem(where=said.at, code="file-not-given", what=what, mend=mend)
    return source


def _is(source: Source, name: str) -> bool:
    return source.name == name or source.name.replace("\\", "/").endswith(f"/{name}")
