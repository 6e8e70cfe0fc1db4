"""A job planned from its files, or only checked, or every fault of all of them at once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from pinchrod.cli.files import Files, Shown, as_shown, find_files
from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import Job, Shop, read_what_stands
from pinchrod.plan import Plan, check, make_plan
from pinchrod.setting_out import Rods
from pinchrod.timber import GoesOn, ToBuy, always, to_buy

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan, and its files' names as the joiner finds them from where he stands."""

    plan: Plan
    shown: tuple[Shown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be bought for a job set out, and its files' names as the joiner finds them."""

    job: Job
    shop: Shop
    rods: Rods
    asked: ToBuy
    shown: tuple[Shown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A job set out and looked over, and its files' names as the joiner finds them."""

    job: Job
    rods: Rods
    shown: tuple[Shown, ...]


def plan_from(path: Path, workshop: Path | None, goes_on: GoesOn = always) -> Planned:
    """The job in these files planned; NotYetRight with every fault of every file and every frame."""
    files = find_files(path, workshop)
    _, plan = _made(
        files,
        lambda job, shop: make_plan(job, shop, goes_on=goes_on),
        lambda plan: plan.rods.doubts,
        in_part=check,
    )
    return Planned(plan=plan, shown=files.shown)


def check_from(path: Path, workshop: Path | None) -> Checked:
    """The job in these files set out and looked over; NotYetRight as when it is planned."""
    files = find_files(path, workshop)
    job, rods = _made(files, check, lambda rods: rods.doubts)
    return Checked(job=job, rods=rods, shown=files.shown)


def asked_from(path: Path, workshop: Path | None) -> Asked:
    """What the job in these files asks of a merchant; NotYetRight as when it is planned."""
    files = find_files(path, workshop)

    def ask(job: Job, shop: Shop) -> Asked:
        rods = check(job, shop)
        return Asked(job=job, shop=shop, rods=rods, asked=to_buy(job, shop, rods), shown=files.shown)

    _, asked = _made(files, ask, lambda made: made.rods.doubts)
    return asked


def _made(
    files: Files,
    make: Callable[[Job, Shop], Made],
    doubts_of: Callable[[Made], Sequence[Problem]],
    in_part: Callable[[Job, Shop], Rods] | None = None,
) -> tuple[Job, Made]:
    """What is made of the job in these files.

    Frames that could be read are set out even where others could not, so that all faults come in one go. What
    is read only in part can be looked over `in_part`: to saw members out of the boards that could be read
    would take long, and call short what a mended rack has wood for.
    """
    job, shop, read = read_what_stands(files.main, files.joined, workshop=files.workshop)
    made: Made | None = None
    told: Sequence[Problem] = ()
    if job is not None:
        try:
            if in_part is not None and any(problem.stops for problem in read):
                told = in_part(job, shop).doubts
            else:
                made = make(job, shop)
                told = doubts_of(made)
        except NotYetRight as trouble:
            told = trouble.problems
    problems = _all_of(files, read, told)
    if job is None or made is None or any(problem.stops for problem in problems):
        raise NotYetRight(problems)
    return job, made


def _all_of(files: Files, read: Sequence[Problem], told: Sequence[Problem]) -> tuple[Problem, ...]:
    """What is missing, then what was read wrong, then what setting out found: each once."""
    known = [problem for problem in read if not (files.missing and problem.code == "file-not-given")]
    return (*files.missing, *as_shown(dict.fromkeys((*known, *told)), files.shown))
