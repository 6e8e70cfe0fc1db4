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
    return _planned(_source("job.toml"))


@cache
def the_plan_with_its_rack() -> Plan:
    """The same, its sticks taken out of the rack that stands beside it: as its commented line bids."""
    said = _source("job.toml")
    content = said.content.replace(b'# rack = "rack.csv" ', b'rack = "rack.csv" ')
    assert content != said.content
    return _planned(Source(name=said.name, content=content))


def _planned(main: Source) -> Plan:
    job, shop = read_job(main, tuple(_source(name) for name in joined_files(main)))
    return make_plan(job, shop)


@cache
def the_papers() -> dict[str, Paper]:
    """Its whole pack, by name."""
    plan = the_plan()
    return {
        paper.name: paper
        for paper in pack(plan.job, plan.shop, plan.rods, breakout=plan.breakout, machining=plan.machining)
    }


@cache
def the_papers_with_its_rack() -> dict[str, Paper]:
    """The pack's sheets and the rack that is left, by name, of the job that has a rack."""
    plan = the_plan_with_its_rack()
    made = pack(plan.job, plan.shop, plan.rods, ("pack",), breakout=plan.breakout)
    return {paper.name: paper for paper in made}


def _source(name: str) -> Source:
    return Source(name=name, content=(FOLDER / name).read_bytes())
