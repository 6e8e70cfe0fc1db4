"""What the commands say: problems to standard error, results to standard output."""

import json
import os
import shutil
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

import click

from pinchrod.ground import Mm, Problem, show
from pinchrod.job import Job, content_mark
from pinchrod.setting_out import Rods
from pinchrod.timber import Breakout

MOST_SHOWN = 50
CENT = Mm("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """A job in figures."""

    name: str
    mark: str
    frames: int
    openings: int
    fronts: int
    pieces: int
    timber: str  # the boards taken and what they cost; empty: the job has no rack


def summary_of(job: Job, rods: Rods, breakout: Breakout | None = None) -> Summary:
    """The figures of a job, alike frames counted each."""
    return Summary(
        name=job.name,
        mark=content_mark(job.fingerprint),
        frames=sum(rod.frame.quantity for rod in rods.rods),
        openings=sum(rod.frame.quantity * len(rod.openings) for rod in rods.rods),
        fronts=sum(rod.frame.quantity * len(rod.fronts) for rod in rods.rods),
        pieces=sum(rod.frame.quantity * len(rod.members) for rod in rods.rods),
        timber=told_timber(len(job.rack), breakout) if breakout else "",
    )


def told_timber(boards: int, breakout: Breakout) -> str:
    """The boards taken, the yield, the cost, and how near that is to the least that is possible."""
    taken = len({stick.board for stick in breakout.sticks})
    said = (
        f"{_many(len(breakout.sticks), 'stick')} out of {taken} of {_many(boards, 'board')},"
        f" yield {show(100 * breakout.share)} %, cost {show(breakout.cost, CENT)}"
    )
    if breakout.short:
        said = f"{said}, {_many(len(breakout.short), 'member')} without wood"
    if breakout.stopped:
        said = f"{said}, the search stopped before its end as you asked"
    return f"{said}, {_how_near(breakout)}" if breakout.sticks else said


def _how_near(breakout: Breakout) -> str:
    if breakout.bound == breakout.cost:
        return "and no plan costs less"
    if not breakout.bound:
        return "how near the least is not known"
    over = 100 * (breakout.cost - breakout.bound) / breakout.bound
    return f"at most {show(over)} % over the least possible"


def tell_summary(summary: Summary) -> None:
    """Print a job in figures, in two lines or three."""
    click.echo(f"{clean(summary.name)}, content mark {summary.mark}")
    click.echo(
        f"{_many(summary.frames, 'frame')}, {_many(summary.openings, 'opening')},"
        f" {_many(summary.fronts, 'door or drawer front', 'doors and drawer fronts')},"
        f" {_many(summary.pieces, 'piece')}"
    )
    if summary.timber:
        click.echo(summary.timber)


def tell_problems(problems: Sequence[Problem]) -> None:
    """Print every fault and doubt to standard error, one a line, and last how many there are."""
    faults = [problem for problem in problems if problem.stops]
    doubts = [problem for problem in problems if not problem.stops]
    _list(faults, "")
    _list(doubts, "to look at: ")
    if faults:
        click.echo(f"{_many(len(faults), 'thing')} to mend; nothing was written", err=True)
    elif doubts:
        click.echo(f"{_many(len(doubts), 'thing')} to look at", err=True)


def _list(problems: Sequence[Problem], before: str) -> None:
    for problem in problems[:MOST_SHOWN]:
        click.echo(clean(f"{problem.where}: {before}{_said(problem)}"), err=True)
    if len(problems) > MOST_SHOWN:
        click.echo(f"... and {len(problems) - MOST_SHOWN} more", err=True)


def _said(problem: Problem) -> str:
    named = f"{problem.where.name}: " if problem.where.name else ""
    return f"{named}{problem.what}; {problem.mend} [{problem.code}]"


def as_json(summary: Summary | None, problems: Iterable[Problem], **further: object) -> str:
    """The same for machines: the figures, the problems, and what else is given, as JSON."""
    said: dict[str, object] = {"pinchrod": 1}
    if summary:
        said["job"] = {
            "name": summary.name,
            "mark": summary.mark,
            "frames": summary.frames,
            "openings": summary.openings,
            "fronts": summary.fronts,
            "pieces": summary.pieces,
            "timber": summary.timber,
        }
    said["problems"] = [_problem(problem) for problem in problems]
    return json.dumps({**said, **further}, ensure_ascii=False, indent=1)


def _problem(problem: Problem) -> dict[str, object]:
    where = problem.where
    return {
        "file": where.file,
        "line": where.line,
        "column": where.column,
        "cell": where.cell,
        "where": where.name,
        "code": problem.code,
        "what": problem.what,
        "mend": problem.mend,
        "stops": problem.stops,
    }


def did_you_mean(said: str, known: Iterable[str]) -> str:
    """A guess at what was meant, in brackets; nothing where nothing is near."""
    near = get_close_matches(said.lower(), list(known), n=1)
    return f" (did you mean {near[0]}?)" if near else ""


def program() -> str:
    """What to type to say a command again: pinchrod, or where it stands if the system does not find it."""
    said = Path(sys.argv[0])
    if said.name == "__main__.py":
        return "python -m pinchrod"
    if not said.name.startswith("pinchrod") or shutil.which(said.name):
        return "pinchrod"
    near = Path(os.path.relpath(said))
    return str(said if ".." in near.parts else near)


def clean(text: str) -> str:
    """The text with every control character shown as a box, so that no file can drive the terminal."""
    return "".join(letter if letter.isprintable() else "\N{WHITE SQUARE}" for letter in text)


def _many(number: int, one: str, several: str = "") -> str:
    return f"{number} {one if number == 1 else several or one + 's'}"
