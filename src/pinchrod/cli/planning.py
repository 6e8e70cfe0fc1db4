"""A job planned from its files, or every fault of all of them at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pinchrod.cli.files import Files, Shown, as_shown, find_files
from pinchrod.ground import NotYetRight, Problem
from pinchrod.job import Job, Shop, read_what_stands
from pinchrod.plan import Plan, make_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan, and its files' names as the joiner finds them from where he stands."""

    plan: Plan
    shown: tuple[Shown, ...]


def plan_from(path: Path, workshop: Path | None) -> Planned:
    """The job in these files planned; NotYetRight with every fault of every file and every frame.

    Frames that could be read are set out even where others could not, so that all faults come in one go.
    """
    files = find_files(path, workshop)
    job, shop, read = read_what_stands(files.main, files.joined, workshop=files.workshop)
    plan, told = _try_out(job, shop)
    problems = _all_of(files, read, told)
    if plan is None or any(problem.stops for problem in problems):
        raise NotYetRight(problems)
    return Planned(plan=plan, shown=files.shown)


def _try_out(job: Job | None, shop: Shop) -> tuple[Plan | None, tuple[Problem, ...]]:
    """The plan, if the frames that could be read make one, and what is wrong or doubtful in them."""
    if job is None:
        return None, ()
    try:
        plan = make_plan(job, shop)
    except NotYetRight as trouble:
        return None, trouble.problems
    return plan, plan.rods.doubts


def _all_of(files: Files, read: Sequence[Problem], told: Sequence[Problem]) -> tuple[Problem, ...]:
    """What is missing, then what was read wrong, then what setting out found: each once."""
    known = [problem for problem in read if not (files.missing and problem.code == "file-not-given")]
    return (*files.missing, *as_shown(dict.fromkeys((*known, *told)), files.shown))
