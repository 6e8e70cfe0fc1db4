"""The job's files read from the disk, and what is said when they cannot be."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path

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


def find_files(path: Path, workshop: Path | None) -> Files:
    """A job's files as they stand on the disk; NotYetRight if the job's own cannot be read."""
    main = _read(path, path.name)
    if isinstance(main, Problem):
        raise NotYetRight([main])
    names = joined_files(main)
    joined = [_joined(path, main, name) for name in names]
    own = _read(workshop, workshop.name) if workshop else None
    return Files(
        main=main,
        joined=tuple(file for file in joined if isinstance(file, Source)),
        workshop=own if isinstance(own, Source) else None,
        missing=tuple(found for found in (*joined, own) if isinstance(found, Problem)),
        shown=_shown(path, workshop, names),
    )


def _shown(path: Path, workshop: Path | None, joined: Sequence[str]) -> tuple[Shown, ...]:
    names = [Shown(name=name, path=str(path.parent / name)) for name in (path.name, *joined)]
    return (*names, *([Shown(name=workshop.name, path=str(workshop))] if workshop else []))


def as_shown(problems: Iterable[Problem], shown: tuple[Shown, ...]) -> tuple[Problem, ...]:
    """The problems, their files named as the joiner finds them from where he stands."""
    paths = {file.name: file.path for file in shown}
    return tuple(
        replace(problem, where=replace(problem.where, file=paths.get(problem.where.file, problem.where.file)))
        for problem in problems
    )


def _joined(path: Path, main: Source, name: str) -> Source | Problem:
    """A file that the job names, or why it cannot be read, at the place that names it."""
    read = _read(path.parent / name, name)
    if isinstance(read, Source):
        return read
    lines = main.content.decode("utf-8", "replace").splitlines()
    line = next((number for number, text in enumerate(lines, start=1) if name in text), 0)
    column = lines[line - 1].index(name) + 1 if line else 0
    return replace(read, where=Where(file=str(path), line=line, column=column), what=f"{name}: {read.what}")


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
