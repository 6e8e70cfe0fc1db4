"""The whole day in one short function."""

from dataclasses import dataclass, replace

from pinchrod.fit import check_panels
from pinchrod.job import Job, Shop
from pinchrod.setting_out import Rods, set_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A job planned: what was said, the workshop it is for, and its rods."""

    job: Job
    shop: Shop
    rods: Rods


def make_plan(job: Job, shop: Shop) -> Plan:
    """Plan a job from the joiner's words to the rods; NotYetRight if anything must be mended first."""
    rods = set_out(job, shop)
    panels = tuple(check_panels(rods, job, shop))
    return Plan(job=job, shop=shop, rods=replace(rods, doubts=rods.doubts + panels))
