"""Papers put on the disk, each whole or not at all."""

import json
import os
import re
import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.papers import Paper

OURS = re.compile(
    r"plan(\.schema)?\.json|recut\.json|(pack|rods|labels)(-[0-9]+)?\.pdf|label-test\.pdf"
    r"|rack-after\.csv|cutting-list\.(csv|xlsx)|drawings(/.+\.(svg|dxf))?"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What was written, what was cleared away, and what still stands there of another job."""

    names: tuple[str, ...]
    cleared: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OldPack:
    """A pack that stands in a folder: the fingerprint of its job, and its frames' ids."""

    fingerprint: str
    frames: tuple[str, ...]


def check_folder(folder: Path, *, force: bool) -> None:
    """NotYetRight if papers in the folder might be somebody else's, or it is no folder."""
    if folder.exists() and not folder.is_dir():
        raise _not_there(folder, "out-is-file", "a file of that name stands there", "choose another --out")
    if (folder / "drawings").is_file():
        what, mend = (
            "a file called drawings stands where a folder is wanted",
            "move it, or choose another --out",
        )
        raise _not_there(folder / "drawings", "out-is-file", what, mend)
    if not force and folder.is_dir() and _may_be_others(folder) and old_pack(folder) is None:
        what = "among other things the folder holds files with names of a pack's, and no pack of ours"
        mend = "choose another --out, or say --force to write over them"
        raise _not_there(folder, "out-not-empty", what, mend)


def check_order_folder(folder: Path) -> None:
    """NotYetRight if the folder for an order is no folder."""
    if folder.exists() and not folder.is_dir():
        raise _not_there(folder, "out-is-file", "a file of that name stands there", "choose another --out")


def _may_be_others(folder: Path) -> bool:
    """Whether files named like a pack's stand in a folder among files that are not."""
    ours = [OURS.fullmatch(each.name) is not None for each in folder.iterdir()]
    return any(ours) and not all(ours)


def old_pack(folder: Path) -> OldPack | None:
    """The pack in a folder, by its plan.json; None if there is none, or it is not ours."""
    try:
        said = json.loads((folder / "plan.json").read_bytes())
        frames = tuple(str(frame["id"]) for frame in said["frames"])
        return (
            OldPack(fingerprint=str(said["job"]["fingerprint"]), frames=frames) if said["pinchrod"] else None
        )
    except (OSError, ValueError, LookupError, TypeError):
        return None


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


def write(papers: Iterable[Paper], folder: Path, fingerprint: str, *, whole: bool) -> Written:
    """The papers written into the folder one after another.

    Each is written beside its place, made sure of on the disk, and then put in the place of the old one,
    so that whoever looks sees the whole old paper or the whole new one. After a whole pack, drawings of
    frames that the old pack had and this job does not are taken away: a stale drawing costs timber. After
    a part of one, the papers of another job that still stand beside it are named.
    """
    old = old_pack(folder)
    names = []
    for paper in papers:
        place = folder / paper.name
        place.parent.mkdir(parents=True, exist_ok=True)
        put(place, paper.content)
        names.append(paper.name)
    left = _left_by(old, folder, set(names))
    if not whole:
        other = old is not None and old.fingerprint != fingerprint
        return Written(names=tuple(names), stale=left if other else ())
    for name in left:
        (folder / name).unlink()
    return Written(names=tuple(names), cleared=left)


def _left_by(old: OldPack | None, folder: Path, fresh: set[str]) -> tuple[str, ...]:
    """What an old pack left in a folder, of the names it could have written, but for those just written."""
    if old is None:
        return ()
    drawn = {f"drawings/{name}.{ending}" for name in old.frames for ending in ("svg", "dxf")}
    there = {each.name for each in folder.iterdir() if each.is_file() and OURS.fullmatch(each.name)}
    there |= {name for name in drawn if (folder / name).is_file()}
    return tuple(sorted(there - fresh))


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


def _not_there(folder: Path, code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(file=str(folder)), code=code, what=what, mend=mend)])
