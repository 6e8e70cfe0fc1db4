"""Our demo job, read and planned once for all the tests that look at it whole."""

from functools import cache
from pathlib import Path

import pinchrod.cli
from pinchrod.job import Source, joined_files, read_job
from pinchrod.papers import Paper, pack
from pinchrod.plan import Plan, make_plan

FOLDER = Path(pinchrod.cli.__file__).parent / "saltmarsh_row"


@cache
def the_plan() -> Plan:
    """Saltmarsh Row, planned."""
    main = _source("job.toml")
    job, shop = read_job(main, tuple(_source(name) for name in joined_files(main)))
    return make_plan(job, shop)


@cache
def the_papers() -> dict[str, Paper]:
    """Its whole pack, by name."""
    plan = the_plan()
    return {paper.name: paper for paper in pack(plan.job, plan.shop, plan.rods)}


def _source(name: str) -> Source:
    return Source(name=name, content=(FOLDER / name).read_bytes())
