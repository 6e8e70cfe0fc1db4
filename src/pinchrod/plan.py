"""The whole day in one short function."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from pinchrod.bench import Bench, check_gluing, order_bench_work
from pinchrod.fit import check_panels
from pinchrod.ground import Problem, doubts_of, must_be_right
from pinchrod.job import Board, Frame, Job, Shop
from pinchrod.machining import Machining, arrange, check_machining
from pinchrod.machining import flaws as machining_flaws
from pinchrod.setting_out import Member, Rods, set_out
from pinchrod.timber import (
    ORDINARY,
    Breakout,
    Effort,
    GoesOn,
    always,
    break_out,
    flaws,
    question_of,
)

NO_WOOD = "no-wood"
NO_BOARD_WILL = (
    "no board will, since the stick is longer than the workshop's longest_stick: see stick-too-long"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A job planned: what was said, the workshop, its rods, their sticks, the set-ups and the bench work."""

    job: Job
    shop: Shop
    rods: Rods
    machining: Machining
    bench: Bench
    breakout: Breakout | None = None  # None: the job names no rack


def check(job: Job, shop: Shop) -> Rods:
    """The job set out, with all that is doubtful in it; NotYetRight if anything must be mended first.

    What shows only when it is sawn, such as members that the rack has no wood for, `make_plan` says.
    """
    rods = set_out(job, shop)
    return replace(rods, doubts=(*_checked(job, shop, rods), *check_gluing(rods)))


def make_plan(job: Job, shop: Shop, effort: Effort = ORDINARY, goes_on: GoesOn = always) -> Plan:
    """Plan a job from the joiner's words to the bench; NotYetRight if anything must be mended first."""
    rods = set_out(job, shop)
    doubts = _checked(job, shop, rods)
    breakout = _broken_out(job, shop, rods, effort, goes_on) if job.rack else None
    return _planned(job, shop, replace(rods, doubts=doubts), breakout)


def plan_of_sticks(job: Job, shop: Shop, breakout: Breakout) -> Plan:
    """The plan of a job whose sticks were kept; RuntimeError if they are not of this job."""
    rods = set_out(job, shop)
    must_be_right("the break-out that was kept is", flaws(question_of(job, shop, rods), breakout))
    return _planned(job, shop, replace(rods, doubts=_checked(job, shop, rods)), breakout)


def with_sticks(plan: Plan, boards: tuple[Board, ...], breakout: Breakout) -> Plan:
    """The plan with other sticks, as after a fault found at the saw: set-ups anew, the bench as it was.

    `boards` are the rack's with what is known of them now. Whoever made the sticks has had them judged.
    """
    job = replace(plan.job, rack=boards)
    kept = (doubt for doubt in plan.rods.doubts if doubt.code != NO_WOOD)
    rods = replace(plan.rods, doubts=(*kept, *_short(plan.shop, plan.rods, breakout)))
    machining = _arranged(job, plan.shop, rods, breakout)
    return replace(plan, job=job, rods=rods, breakout=breakout, machining=machining)


def _planned(job: Job, shop: Shop, rods: Rods, breakout: Breakout | None) -> Plan:
    """The plan of a job whose sticks are found, or that names no rack."""
    short = tuple(_short(shop, rods, breakout)) if breakout else ()
    machining = _arranged(job, shop, rods, breakout)
    bench = order_bench_work(job, shop, rods)
    doubted = replace(rods, doubts=(*rods.doubts, *short, *bench.doubts))
    return Plan(job=job, shop=shop, rods=doubted, machining=machining, bench=bench, breakout=breakout)


def _checked(job: Job, shop: Shop, rods: Rods) -> tuple[Problem, ...]:
    """All that is doubtful in a job set out; NotYetRight if it cannot be machined."""
    return doubts_of((*rods.doubts, *check_panels(rods, job, shop), *check_machining(rods, shop)))


def _arranged(job: Job, shop: Shop, rods: Rods, breakout: Breakout | None) -> Machining:
    """The set-ups, looked over by the judge before any paper is made of them."""
    machining = arrange(job, shop, rods, breakout)
    must_be_right("the set-ups are", machining_flaws(machining, shop, rods))
    return machining


def _broken_out(job: Job, shop: Shop, rods: Rods, effort: Effort, goes_on: GoesOn) -> Breakout:
    """The sticks, looked over by the judge before any paper is made of them."""
    question = question_of(job, shop, rods)
    breakout = break_out(question, effort, goes_on)
    must_be_right("the break-out is", flaws(question, breakout))
    return breakout


def _short(shop: Shop, rods: Rods, breakout: Breakout) -> Iterator[Problem]:
    """A doubt for each member of a frame that the rack has no wood for, said once for all its copies."""
    short = frozenset(breakout.short)
    for rod in rods.rods if short else ():
        for member in rod.members:
            marks = [f"{member.name}{copy}" for copy in rod.frame.copies]
            without = [at for at, mark in enumerate(marks) if mark in short]
            if without:
                yield _no_wood(rod.frame, member, marks, without, shop)


def _no_wood(
    frame: Frame, member: Member, marks: Sequence[str], without: Sequence[int], shop: Shop
) -> Problem:
    """The doubt where the frame is said: no board helps a member that no stick can be long enough for."""
    too_long = member.length + 2 * shop.practice.stick_end > shop.practice.longest_stick
    which = _which(marks, without) if len(marks) > 1 else "it"
    return Problem(
        where=frame.where.called(f"{frame.id}, {member.role} {member.name}"),
        code=NO_WOOD,
        what=f"no board left on the rack gives a stick for {which}",
        mend=NO_BOARD_WILL if too_long else "put more boards on the rack, or buy some",
        stops=False,
    )


def _which(marks: Sequence[str], some: Sequence[int]) -> str:
    """How many of the copies, and their marks."""
    number = f"any of the {len(marks)}" if len(some) == len(marks) else f"{len(some)} of the {len(marks)}"
    return f"{number}: {', '.join(_in_rows(marks, some))}"


def _in_rows(marks: Sequence[str], some: Sequence[int]) -> Iterator[str]:
    """Some of the marks; three or more that follow each other by the first and the last."""
    for _, row in groupby(enumerate(some), key=lambda one: one[1] - one[0]):
        named = [marks[at] for _, at in row]
        yield from named if len(named) < 3 else (f"{named[0]} to {named[-1]}",)
