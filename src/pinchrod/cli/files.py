"""The job's files read from the disk, and what is said when they cannot be."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path, PurePath

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.job import Source, joined_files

MOST_BYTES = 12_000_000  # a little over what any reader takes: the reader itself says what is too large


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A file's name as papers have it, and as the joiner finds it from where he stands."""

    name: str
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Files:
    """What was found of a job's files: the job's own, those it names, a workshop's, and what is missing."""

    main: Source
    joined: tuple[Source, ...]
    workshop: Source | None
    missing: tuple[Problem, ...]
    shown: tuple[Shown, ...]


@dataclass(frozen=True, slots=True)
class _Found:
    """What was read of a file, or why it was not; and the file that names it, if that is not the job."""

    read: Source | Problem
    shown: Shown
    by: str = ""


def find_files(path: Path, workshop: Path | None) -> Files:
    """A job's files as they stand on the disk; NotYetRight if the job's own cannot be read."""
    main = _read(path, path.name)
    if isinstance(main, Problem):
        raise NotYetRight([main])
    joined = [_joined(path, main, name) for name in joined_files(main)]
    own = [_Found(_read(workshop, workshop.name), _shown(workshop, workshop.name))] if workshop else []
    beside = [file for found in (*joined, *own) for file in _beside(found)]
    return Files(
        main=main,
        joined=_sources(joined, beside),
        workshop=next(iter(_sources(own, beside)), None),
        missing=tuple(found.read for found in (*joined, *own, *beside) if isinstance(found.read, Problem)),
        shown=(Shown(name=path.name, path=str(path)), *(found.shown for found in (*joined, *own, *beside))),
    )


def _beside(found: _Found) -> list[_Found]:
    """The files that a workshop file names in turn, from its own folder."""
    if not isinstance(found.read, Source) or found.read.ending != ".toml":
        return []
    path, folder = Path(found.shown.path), PurePath(found.read.name).parent
    return [
        _joined(path, found.read, name, (folder / name).as_posix(), by=found.read.name)
        for name in joined_files(found.read)
    ]


def _sources(files: Sequence[_Found], beside: Sequence[_Found]) -> tuple[Source, ...]:
    """Those of the files that could be read, each with what it names in turn."""
    return tuple(
        replace(found.read, beside=tuple(_named_by(found.read.name, beside)))
        for found in files
        if isinstance(found.read, Source)
    )


def _named_by(name: str, beside: Sequence[_Found]) -> Iterator[Source]:
    yield from (found.read for found in beside if found.by == name and isinstance(found.read, Source))


def as_shown(problems: Iterable[Problem], shown: tuple[Shown, ...]) -> tuple[Problem, ...]:
    """The problems, their files named as the joiner finds them from where he stands."""
    paths = {file.name: file.path for file in shown}
    return tuple(
        replace(problem, where=replace(problem.where, file=paths.get(problem.where.file, problem.where.file)))
        for problem in problems
    )


def _joined(path: Path, main: Source, name: str, called: str = "", by: str = "") -> _Found:
    """A file that the job names, or why it cannot be read, at the place that names it."""
    called, place = called or name, path.parent / name
    read = _read(place, called)
    if isinstance(read, Problem):
        read = replace(read, where=_where_named(path, main, name), what=f"{name}: {read.what}")
    return _Found(read, _shown(place, called), by=by)


def _where_named(path: Path, main: Source, name: str) -> Where:
    lines = main.content.decode("utf-8", "replace").splitlines()
    line = next((number for number, text in enumerate(lines, start=1) if name in text), 0)
    column = lines[line - 1].index(name) + 1 if line else 0
    return Where(file=str(path), line=line, column=column)


def _shown(path: Path, name: str) -> Shown:
    return Shown(name=name, path=str(path))


def _read(path: Path, name: str) -> Source | Problem:
    """A file's content, or why it cannot be read."""
    try:
        if path.exists() and not (path.is_file() or path.is_dir()):
            return _fault(path, "file-unreadable", "this is no plain file", "name the job file itself")
        with path.open("rb") as file:
            return Source(name=name, content=file.read(MOST_BYTES))
    except OSError as trouble:
        return _unreadable(path, trouble)
    except ValueError:  # a name with a NUL in it
        return _fault(path, "file-missing", "no file can have that name", "check the name")


def _unreadable(path: Path, trouble: OSError) -> Problem:
    match trouble:
        case FileNotFoundError():
            near = _near(path)
            mend = f"did you mean {near}?" if near else "check the name and the folder"
            return _fault(path, "file-missing", "there is no such file", mend)
        case IsADirectoryError():
            what = "this is a folder, not a file"
            return _fault(path, "file-is-folder", what, "name the job file in it, job.toml say")
        case PermissionError():
            what = "the file may not be read: another program may hold it, or it belongs to someone else"
            return _fault(path, "file-locked", what, "close it elsewhere, or change who may read it")
    what = f"the file cannot be read ({trouble.strerror or 'no reason given'})"
    return _fault(path, "file-unreadable", what, "copy it to this computer and try again")


def _near(path: Path) -> str:
    """The file in the same folder whose name is nearest to the one looked for, if any is near."""
    try:
        names = [each.name for each in path.parent.iterdir() if each.is_file() and each.suffix == path.suffix]
    except OSError:
        return ""
    return next(iter(get_close_matches(path.name, names, n=1)), "")


def _fault(path: Path, code: str, what: str, mend: str) -> Problem:
    return Problem(where=Where(file=str(path)), code=code, what=what, mend=mend)
