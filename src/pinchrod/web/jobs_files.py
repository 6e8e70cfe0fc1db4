"""Files that were chosen, put together as one job: which of them is the job's own, and which it names."""

from collections.abc import Sequence
from dataclasses import dataclass

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.job import Source, joined_files
from pinchrod.store import JobFiles

TOML = ".toml"
USUAL_MAIN = "job.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A job's files, and the names of those that were chosen and have no part in it."""

    files: JobFiles
    left: tuple[str, ...]


def chosen(sources: Sequence[Source]) -> Chosen:
    """The job that these files make; NotYetRight if none of them can be its own file, or two could be."""
    if not sources:
        raise _amiss(
            "no-file", "no file is chosen", "choose the job file and those that it names, or one list"
        )
    twice = _twice(sources)
    if twice:
        raise _amiss("file-twice", f"two of the files are called {twice}", "choose each file once")
    main = sources[0] if len(sources) == 1 else _main(sources)
    joined = tuple(_joined(main, sources))
    left = tuple(source.name for source in sources if source not in (main, *joined))
    return Chosen(files=JobFiles(main=main, joined=joined), left=left)


def _twice(sources: Sequence[Source]) -> str:
    names = [source.name for source in sources]
    return next((name for name in names if names.count(name) > 1), "")


def _main(sources: Sequence[Source]) -> Source:
    """The job file: the one that no other names, or the one that is called as job files are."""
    tomls = [source for source in sources if source.ending == TOML]
    named = {name for source in tomls for name in joined_files(source)}
    free = [source for source in tomls if source.name not in named]
    found = [source for source in free if source.name == USUAL_MAIN] or free
    if len(found) == 1:
        return found[0]
    if not found:
        names = ", ".join(source.name for source in sources)
        what = f"none of {names} is a job file, and a list of frames stands alone"
        raise _amiss("no-job-file", what, "choose one list by itself, or a job file (.toml) that names it")
    names = " and ".join(source.name for source in found)
    raise _amiss("job-files", f"{names} could each be the job file", f"choose one, or call it {USUAL_MAIN}")


def _joined(main: Source, sources: Sequence[Source]) -> list[Source]:
    """The files that the job file names, and those that the files it names do."""
    found: list[Source] = []
    wanted = list(joined_files(main)) if main.ending == TOML else []
    while wanted:
        name = wanted.pop(0)
        source = next((each for each in sources if each.name == name and each not in found), None)
        if source is not None:
            found.append(source)
            wanted += joined_files(source) if source.ending == TOML else ()
    return found


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="files"), code=code, what=what, mend=mend)])
