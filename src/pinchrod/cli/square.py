"""pinchrod square: what two diagonals say of a frame on the bench."""

import re
from difflib import get_close_matches
from pathlib import Path

import click

from pinchrod.cli.check import json_option, workshop_option
from pinchrod.cli.files import Shown, as_shown, find_files
from pinchrod.cli.telling import as_json, clean
from pinchrod.fit import (
    Diagonals,
    Squareness,
    advice_words,
    check_taped,
    leaning_words,
    squareness,
    taped_from,
    tapering_words,
)
from pinchrod.ground import Mm, NotALength, NotYetRight, Problem, Where, doubts_of, read_length, show
from pinchrod.job import Shop, read_what_stands
from pinchrod.setting_out import Rod, set_out

OF_A_JOB = re.compile(r"^\s*(\[\s*job\s*\]|\[\[\s*frame\s*\]\])", re.MULTILINE)
MOST_READ = 2_000_000  # characters of a file that is asked whether it is a job


def lengths(_context: click.Context, _option: click.Parameter, said: tuple[str, ...]) -> tuple[Mm, ...]:
    """The lengths that were said; click says so of each that is none, or nothing at all."""
    found, slips = [], []
    for words in said:
        try:
            length = read_length(words)
        except NotALength as trouble:
            slips.append(str(trouble))
        else:
            found.append(length)
            slips += [] if length else [f"{words!r} is no length of a diagonal; tape it"]
    if slips:
        raise click.BadParameter(" -- ".join(slips))
    return tuple(found)


@click.command()
@click.argument("frame")
@click.option(
    "--diagonals",
    nargs=2,
    required=True,
    callback=lengths,
    metavar="RISING FALLING",
    help="From lower left to upper right, then from upper left to lower right, seen from the face.",
)
@click.option("--job", type=click.Path(path_type=Path), help="The job file; else the one in this folder.")
@workshop_option
@json_option
def square(
    frame: str, diagonals: tuple[Mm, Mm], job: Path | None, workshop: Path | None, *, machine: bool
) -> None:
    """Say how far FRAME is out of square by its two diagonals, what its doors show of it, and how to pull it.

    Tape on the face, between the outer corners of the stiles.

    \b
    pinchrod square K7 --diagonals 1077 1079.5
    """
    rod, shop, shown = _rod(frame, job or _only_job(Path()), workshop)
    taped = Diagonals(rising=diagonals[0], falling=diagonals[1])
    misread = check_taped(rod, taped, shop.taping)
    if misread:
        raise NotYetRight(as_shown([misread], shown))
    found = squareness(rod, taped, shop.taping)
    if machine:
        click.echo(as_json(None, (), square=_for_machines(found, rod)))
    else:
        _tell(found, rod)


def _only_job(folder: Path) -> Path:
    """The one job file in the folder; NotYetRight if there is none, or more than one."""
    jobs = sorted(path for path in folder.glob("*.toml") if _is_job(path))
    if len(jobs) == 1:
        return jobs[0]
    if jobs:
        what = f"this folder holds {len(jobs)} job files: {', '.join(path.name for path in jobs)}"
        raise _fault(folder, "job-not-named", what, f"say which: --job {jobs[0].name}")
    what = "no job is named, and this folder holds no job file"
    raise _fault(folder, "job-not-named", what, "say --job and its file, or go to the job's folder")


def _is_job(path: Path) -> bool:
    """Whether a file says anything of a job or of frames."""
    try:
        with path.open(encoding="utf-8", errors="replace") as file:
            return OF_A_JOB.search(file.read(MOST_READ)) is not None
    except OSError:
        return False


def _rod(name: str, path: Path, workshop: Path | None) -> tuple[Rod, Shop, tuple[Shown, ...]]:
    """The frame of that name set out, and the workshop; NotYetRight with all that keeps it from it."""
    files = find_files(path, workshop)
    job, shop, problems = read_what_stands(files.main, files.joined, workshop=files.workshop)
    doubts_of((*files.missing, *as_shown(problems, files.shown)))
    assert job is not None  # noqa: S101 -- only what stops the work leaves nothing
    try:
        rods = set_out(job, shop).rods
    except NotYetRight as trouble:
        raise NotYetRight(as_shown(trouble.problems, files.shown)) from None
    return _named(name, rods, path), shop, files.shown


def _named(name: str, rods: tuple[Rod, ...], path: Path) -> Rod:
    by_name = {rod.frame.id.casefold(): rod for rod in rods}
    if name.casefold() in by_name:
        return by_name[name.casefold()]
    near = get_close_matches(name.casefold(), by_name, n=1)
    guess = f"did you mean {by_name[near[0]].frame.id}?" if near else f"it has {_ids(rods)}"
    raise _fault(path, "frame-not-there", f"the job has no frame {name!r}", guess)


def _ids(rods: tuple[Rod, ...]) -> str:
    ids = [rod.frame.id for rod in rods]
    return ", ".join(ids[:10]) + (f" and {len(ids) - 10} more" if len(ids) > 10 else "")


def _fault(path: Path, code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(file=str(path)), code=code, what=what, mend=mend)])


def _tell(found: Squareness, rod: Rod) -> None:
    frame = rod.frame
    click.echo(clean(f"{frame.id}, {show(frame.width)} x {show(frame.height)}: {leaning_words(found)}"))
    if found.worst:
        click.echo(clean(tapering_words(found.worst)))
    click.echo(advice_words(found))
    click.echo(f"Taped {taped_from(rod)}.")


def _for_machines(found: Squareness, rod: Rod) -> dict[str, object]:
    """The same in figures, to a thousandth of a millimetre."""
    return {
        "frame": found.frame,
        "diagonals": [_number(found.taped.rising), _number(found.taped.falling)],
        "out_of_square": _number(found.lean),
        "give_or_take": _number(found.give_or_take),
        "verdict": str(found.verdict),
        "pull": found.pull,
        "taped": taped_from(rod),
        "gaps": [
            {
                "front": taper.front,
                "gap": _number(taper.gap),
                "over_height": _number(taper.over_height),
                "over_width": _number(taper.over_width),
                "binds": taper.binds,
            }
            for taper in found.tapers
        ],
    }


def _number(length: Mm) -> float:
    return round(float(length), 3)
