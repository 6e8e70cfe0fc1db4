"""pinchrod recut: a fault found in the stick in hand, planned around."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from pinchrod.cli.telling import clean, told_timber
from pinchrod.cli.writing import put
from pinchrod.ground import (
    Mm,
    NotALength,
    NotYetRight,
    Problem,
    Span,
    Where,
    must_be_right,
    read_length,
    show,
)
from pinchrod.papers import moved, read_timber, recut_json
from pinchrod.timber import Breakout, Question, Recut, Stick, flaws
from pinchrod.timber import recut as recut_stick

RECUT = "recut.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How the sticks of a pack stand, after every fault found so far."""

    fingerprint: str
    question: Question
    breakout: Breakout
    done: frozenset[str]

    def stick(self, name: str) -> Stick | None:
        """The stick of that name, if there is one."""
        return next((stick for stick in self.breakout.sticks if stick.name == name), None)


def stretch(_context: click.Context, _option: click.Parameter, said: str) -> Span:
    """The stretch that was named, from-to; click says so if it is none."""
    low, dash, high = said.partition("-")
    try:
        found = Span(read_length(low), read_length(high)) if dash else None
    except NotALength:
        found = None
    if found is None or found.low < 0 or found.high <= found.low:
        raise click.BadParameter(f"{said!r} is no stretch; write it as 412-440, in mm from the stick's start")
    return found


def names(_context: click.Context, _option: click.Parameter, said: str | None) -> frozenset[str]:
    """The sticks that were named."""
    return frozenset(name.strip() for name in (said or "").split(",") if name.strip())


@click.command()
@click.argument("pack", type=click.Path(path_type=Path))
@click.option("--stick", "name", required=True, metavar="STICK", help="The stick the fault is in: S14.")
@click.option("--fault", required=True, callback=stretch, metavar="FROM-TO", help="From the stick's start.")
@click.option("--done", callback=names, metavar="STICK,...", help="Sticks already cut, which stay.")
@click.option("--json", "machine", is_flag=True, help="Print what is written into recut.json.")
def recut(pack: Path, name: str, fault: Span, done: frozenset[str], *, machine: bool) -> None:
    """Plan around a fault found in a stick of PACK, and say what changes.

    PACK is the folder of a shop pack whose job has a rack. What is done stays as it is. What changed is
    written into PACK/recut.json; the next recut goes on from there.

    \b
    pinchrod recut kitchen-pack --stick S14 --fault 412-440 --done S1,S2
    """
    standing = _standing(pack)
    done |= standing.done
    _check(standing, name, fault, done)
    after = recut_stick(standing.question, standing.breakout, stick=name, fault=fault, done=done)
    must_be_right("the new break-out is", flaws(after.question, after.breakout))
    content = recut_json(
        standing.fingerprint, stick=name, fault=fault, done=done, before=standing.breakout, after=after
    )
    put(pack / RECUT, content)
    if machine:
        click.echo(content.decode(), nl=False)
        return
    _tell(standing.breakout, after)
    click.echo(f"wrote {pack / RECUT}")


def _standing(pack: Path) -> Standing:
    """The pack's sticks: as planned, or as the last recut of that very plan left them."""
    plan = _read(pack / "plan.json")
    if "timber" not in plan:
        what = "the pack has no sticks: its job names no rack"
        mend = 'say rack = "rack.csv" in [job], and plan it again'
        raise _fault(pack / "plan.json", "pack-no-timber", what, mend)
    seal = _seal(pack / "plan.json", plan)
    if (pack / RECUT).is_file():
        later = _read(pack / RECUT)
        if _seal(pack / RECUT, later) == seal:
            return _stands(pack / RECUT, later, seal)
    return _stands(pack / "plan.json", plan, seal)


def _read(path: Path) -> Mapping[str, Any]:
    try:
        said = json.loads(path.read_bytes())
    except FileNotFoundError:
        mend = "name the folder that pinchrod plan wrote"
        raise _fault(path, "file-missing", "there is no such file", mend) from None
    except ValueError:
        raise _not_ours(path) from None
    if not isinstance(said, dict):
        raise _not_ours(path)
    return said


def _seal(path: Path, said: Mapping[str, Any]) -> str:
    try:
        return str(said["job"]["fingerprint"])
    except (KeyError, TypeError):
        raise _not_ours(path) from None


def _stands(path: Path, said: Mapping[str, Any], seal: str) -> Standing:
    """The sticks in a file; one that was changed by hand, so that it cannot be sawn, is told."""
    try:
        question, breakout, done = read_timber(said["timber"])
    except (KeyError, TypeError, ValueError, ZeroDivisionError):
        raise _not_ours(path) from None
    if any(flaws(question, breakout)):
        raise _not_ours(path)
    return Standing(fingerprint=seal, question=question, breakout=breakout, done=done)


def _not_ours(path: Path) -> NotYetRight:
    what = "the file is not as pinchrod wrote it"
    return _fault(path, "pack-changed", what, "plan the job again; a damaged recut.json can be deleted")


def _fault(path: Path, code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(file=str(path)), code=code, what=what, mend=mend)])


def _check(standing: Standing, name: str, fault: Span, done: frozenset[str]) -> None:
    """Click says so if a stick is not there, is done, or is shorter than the fault's place."""
    unknown = sorted(one for one in done if standing.stick(one) is None)
    if unknown:
        raise click.UsageError(f"--done: there is no stick {unknown[0]} in this pack")
    stick = standing.stick(name)
    if stick is None:
        raise click.UsageError(f"--stick: there is no stick {name} in this pack")
    if name in done:
        raise click.UsageError(f"--stick: {name} is done; a fault in a stick already cut is a spoiled piece")
    if fault.high > stick.length:
        raise click.UsageError(
            f"--fault: {name} is {show(stick.length)} long; {show(fault.high)} is beyond it"
        )


def _tell(before: Breakout, after: Recut) -> None:
    for one in moved(before, after.breakout):
        click.echo(clean(str(one)))
    for mark in after.breakout.short:
        if mark not in before.short:
            click.echo(clean(f"no wood for {mark}"))
    click.echo(_dearer(after.dearer))
    click.echo(told_timber(len(after.question.boards), after.breakout))


def _dearer(cost: Mm) -> str:
    return f"it costs {show(cost, Mm('0.01'))} more" if cost else "it costs nothing more"
