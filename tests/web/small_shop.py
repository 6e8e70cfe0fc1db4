"""A job small enough to be planned in a breath: one frame of five members, and four boards on the rack."""

from functools import cache

from pinchrod.job import Source
from pinchrod.plan import Plan, make_plan
from pinchrod.store import JobFiles
from pinchrod.web.beside import Work
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known
from pinchrod.web.planner import _Done
from tests.web.serving import keep

SMALL = "pantry"
JOB = """
pinchrod = 1

[job]
name = "Pantry"
timber = "yellow-poplar"
thickness = 22
joint = "dovetail key"
rack = "rack.csv"

[[frame]]
id = "P1"
width = 900
height = 800
layout = "drawer 140 over pair"
"""
RACK = """board,thickness,width,length,bow,spring,price,faults
B1,27,150,2600,,,12.00,0-40; 900-960@60-90
B2,27,130,2400,2,4,11.00,
B3,27,140,2500,,,11.50,2450-2500
B4,32,160,2700,,,19.00,1200-1260@0-30 back
"""


def small_files(job: str = JOB, rack: str | None = RACK) -> JobFiles:
    """Its files; without a rack if none is given."""
    main = job if rack is not None else job.replace('rack = "rack.csv"\n', "")
    joined = () if rack is None else (Source(name="rack.csv", content=rack.encode()),)
    return JobFiles(main=Source(name="job.toml", content=main.encode()), joined=joined)


def kept(floor: Floor, files: JobFiles | None = None) -> Known:
    """The job, saved."""
    keep(floor, files or small_files(), job=SMALL)
    return floor.job(SMALL)


@cache
def plan_of(files: JobFiles) -> Plan:
    """Its plan, worked out once for all tests."""
    return make_plan(*files.read())


def planned(floor: Floor, files: JobFiles | None = None) -> Known:
    """The job, saved and planned, as if the planner had just done it."""
    known = kept(floor, files)
    floor.planner._keep((known.name, known.number, Work.PLAN), _Done(plan=plan_of(known.files)))
    return known
