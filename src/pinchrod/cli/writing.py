"""Papers put on the disk, each whole or not at all."""

import os
import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.papers import Paper

MARK_OF_A_PACK = "plan.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What was written, and what was cleared away because this job no longer has it."""

    folder: Path
    names: tuple[str, ...]
    cleared: tuple[str, ...]


def check_folder(folder: Path, *, force: bool) -> None:
    """NotYetRight if the folder holds something that is not a pack of ours, or is no folder."""
    if folder.exists() and not folder.is_dir():
        raise _not_there(folder, "out-is-file", "a file of that name stands there", "choose another --out")
    stranger = folder.is_dir() and any(folder.iterdir()) and not (folder / MARK_OF_A_PACK).is_file()
    if stranger and not force:
        what = "the folder holds other things than a pack"
        raise _not_there(
            folder, "out-not-empty", what, "choose another --out, or say --force to write into it"
        )


def check_demo_folder(folder: Path, files: Mapping[str, bytes], *, force: bool) -> None:
    """NotYetRight if a file of the demo stands in the folder with other words than ours."""
    changed = [
        name
        for name, content in files.items()
        if (folder / name).is_file() and (folder / name).read_bytes() != content
    ]
    if changed and not force:
        raise NotYetRight(
            [
                Problem(
                    where=Where(file=str(folder / name)),
                    code="demo-changed",
                    what="the file stands there already, and is not as we wrote it",
                    mend="name another folder, or say --force to write over it",
                )
                for name in changed
            ]
        )


def write(papers: Iterable[Paper], folder: Path, *, whole: bool) -> Written:
    """The papers written into the folder one after another.

    Each is written beside its place, made sure of on the disk, and then put in the place of the old one,
    so that whoever looks sees the whole old paper or the whole new one. After a whole pack, drawings that
    an earlier one left and this one does not have are taken away: a stale drawing costs timber.
    """
    names = []
    for paper in papers:
        place = folder / paper.name
        place.parent.mkdir(parents=True, exist_ok=True)
        put(place, paper.content)
        names.append(paper.name)
    cleared = _clear(folder, set(names)) if whole else ()
    return Written(folder=folder, names=tuple(names), cleared=cleared)


def put(place: Path, content: bytes) -> None:
    """Write a file so that its name holds the whole old content or the whole new one, never a part."""
    handle, name = tempfile.mkstemp(prefix=".new-", dir=place.parent)
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        fresh.chmod(0o644)
        fresh.replace(place)
    except BaseException:
        fresh.unlink(missing_ok=True)
        raise


def _clear(folder: Path, names: set[str]) -> tuple[str, ...]:
    drawn = [path for ending in ("svg", "dxf") for path in (folder / "drawings").glob(f"*.{ending}")]
    spare = [path for path in (*drawn, *folder.glob("*-[0-9].pdf")) if _name(path, folder) not in names]
    for path in spare:
        path.unlink()
    return tuple(sorted(_name(path, folder) for path in spare))


def _name(path: Path, folder: Path) -> str:
    return path.relative_to(folder).as_posix()


def _not_there(folder: Path, code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(file=str(folder)), code=code, what=what, mend=mend)])
