"""The bench work of a whole job: the room's one door."""

from collections.abc import Iterator
from functools import lru_cache

from pinchrod.bench.gluing import glue_steps
from pinchrod.bench.joints import joints_of
from pinchrod.bench.pressing import clamps_of, is_clamped, pressure_for
from pinchrod.bench.records import Bench, Cure, Gluing
from pinchrod.bench.spares import spares_of
from pinchrod.fit import table_for
from pinchrod.ground import Problem
from pinchrod.job import Glue, Job, Joint, Shop
from pinchrod.setting_out import Rod, Rods

CAUTIONS = (
    "Read the glue's safety sheet; keep it off skin and out of eyes.",
    "Fingers clear of a joint that closes, and of the clamps.",
)
"""General practice: the sheet of the glue in hand decides."""


def order_bench_work(job: Job, shop: Shop, rods: Rods) -> Bench:
    """Spares to make of each kind of piece, and how each frame is glued up; with what is doubtful of it."""
    gluings = tuple(_gluing(rod, job, shop, rods.joint) for rod in rods.rods)
    doubts = tuple(_unglued(rod) for rod, gluing in zip(rods.rods, gluings, strict=True) if not gluing.steps)
    return Bench(spares=spares_of(rods, shop), gluings=gluings, doubts=doubts)


def check_gluing(rods: Rods) -> Iterator[Problem]:
    """A doubt for each frame that no order of gluing is found for."""
    return (_unglued(rod) for rod in rods.rods if not _can_be_glued(rod, rods.joint))


@lru_cache(maxsize=2_000)  # a job is checked anew at each change; most of its frames stay as they were
def _can_be_glued(rod: Rod, joint: Joint) -> bool:
    return bool(glue_steps(rod, joints_of(rod), joint))


def _gluing(rod: Rod, job: Job, shop: Shop, joint: Joint) -> Gluing:
    joints = joints_of(rod)
    pressure = pressure_for(job.timber, shop.glue)
    clamped = is_clamped(joint, job.timber, shop.glue)
    return Gluing(
        frame=rod.frame.id,
        quantity=rod.frame.quantity,
        steps=glue_steps(rod, joints, joint) or (),
        joint=joint,
        fixings=sum(each.fixings for each in joints),
        clamps=clamps_of(rod, joints, pressure) if clamped else (),
        pressure=pressure,
        cure=_cure(shop.glue),
        diagonals=table_for(rod, shop.taping),
        cautions=CAUTIONS,
    )


def _cure(glue: Glue) -> Cure:
    return Cure(
        open_minutes=glue.open_minutes,
        clamped_minutes=glue.clamped_minutes,
        cured_hours=glue.cured_hours,
    )


def _unglued(rod: Rod) -> Problem:
    return Problem(
        where=rod.frame.layout_where.called(rod.frame.id),
        code="no-gluing-order",
        what=f"its {len(rod.members)} members cannot be brought together one after another along"
        " straight lines: whichever goes on last, wood or what stands in a joint is in its way",
        mend="let one of its dividers run through to the next, or press the last member in from the"
        " back, its joints drawn together with keys or screws",
        stops=False,
    )
