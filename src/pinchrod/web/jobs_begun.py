"""A job begun on a page: its name, what it is made of, its first frame; all else is as usual until said."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace

from pinchrod.job import Source, Words, a_new_job, one_frame, read_what_stands, usual_members, with_frames
from pinchrod.store import JobFiles
from pinchrod.web.frames_form import slip_of
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit

HEAD = ("name", "customer", "timber", "thickness")
FRAME = ("id", "width", "height", "layout")
LONGEST = 80
UNFIT = re.compile(r"[^a-z0-9]+")
USUAL_NAME = "job"


@dataclass(frozen=True, slots=True, kw_only=True)
class Begin:
    """What was typed to begin a job, field by field."""

    name: str = ""
    customer: str = ""
    timber: str = "yellow-poplar"
    thickness: str = "22"
    id: str = ""
    width: str = ""
    height: str = ""
    layout: str = ""

    @property
    def frame(self) -> Words:
        """The first frame's words."""
        return tuple((key, getattr(self, key)) for key in FRAME)

    @property
    def source(self) -> Source:
        """The job file without its frame."""
        return a_new_job(self.name, customer=self.customer, timber=self.timber, thickness=self.thickness)


def begin_said(visit: Visit) -> Begin:
    """What stands in the fields."""
    return Begin(**{key: visit.said(key).strip() for key in (*HEAD, *FRAME)})


def slips_of_begin(begin: Begin) -> tuple[Slip, ...]:
    """All that is wrong with it, field by field."""
    return (*slips_of_head(begin), *_slips_of_frame(begin))


def slips_of_head(begin: Begin) -> tuple[Slip, ...]:
    """What is wrong with the job's own words."""
    unnamed = Slip(words="the job has no name; say what it is called, or where it goes", field="name")
    return (*(() if begin.name else (unnamed,)), *_of_head(begin))


def _of_head(begin: Begin) -> Iterator[Slip]:
    """The reader's own words, each at the field whose line of the file it is about."""
    lines = begin.source.content.decode("utf-8", "replace").splitlines()
    for problem in read_what_stands(begin.source)[2]:
        line = lines[problem.where.line - 1] if problem.where.line else ""
        field = line.partition("=")[0].strip()
        if field in HEAD:
            yield replace(slip_of(problem), field=field)


def _slips_of_frame(begin: Begin) -> Iterator[Slip]:
    for problem in one_frame(usual_members(begin.source), begin.frame).problems:
        if problem.stops:
            yield slip_of(problem)


def begun_files(begin: Begin) -> JobFiles:
    """The job's files; NotYetRight with what is wrong in them."""
    made = with_frames(begin.source, (), [begin.frame])
    return JobFiles(main=made.main, joined=made.joined)


def store_name(name: str) -> str:
    """What the store calls a job of that name: small letters, figures, hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return UNFIT.sub("-", plain).strip("-")[:LONGEST].strip("-") or USUAL_NAME
