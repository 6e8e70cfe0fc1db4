"""Long work, carried out beside the server in a process of its own and told of as it goes on."""

import os
import time
import traceback
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from enum import StrEnum
from multiprocessing.connection import Connection
from threading import Lock

from pinchrod.ground import NotYetRight, Problem
from pinchrod.papers import PARTS, Paper, for_printing, pack
from pinchrod.plan import Plan, make_plan
from pinchrod.store import JobFiles

SOMETIMES = 0.5  # seconds between two tellings


class Work(StrEnum):
    """What there is to do that takes long."""

    PLAN = "plan"
    PACK = "pack"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be done with the files of a revision, and its plan if that is made already."""

    work: Work
    files: JobFiles
    plan: Plan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Far:
    """How far it is."""

    tried: int = 0
    made: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What came of it."""

    plan: Plan | None = None
    papers: tuple[Paper, ...] = ()
    problems: tuple[Problem, ...] = ()
    fault: str = ""


def carry_out(line: Connection, asked: Asked) -> None:
    """Do what is asked and send what comes of it; news of it on the way, now and then."""
    with suppress(OSError, AttributeError):
        os.nice(10)  # scans go first; systems without it share as they see fit
    with suppress(BrokenPipeError):  # nobody waits for it any more
        line.send(_made(line, asked))


def _made(line: Connection, asked: Asked) -> Made:
    news = _News(line)
    try:
        plan = asked.plan or _planned(asked.files, news)
        papers = tuple(_papers(plan, news)) if asked.work is Work.PACK else ()
        return Made(plan=plan, papers=papers)
    except BrokenPipeError:
        raise
    except NotYetRight as trouble:
        return Made(problems=trouble.problems)
    except Exception:  # noqa: BLE001 -- the edge of a process: told in the page, written in the log
        return Made(fault=traceback.format_exc())


def _planned(files: JobFiles, news: "_News") -> Plan:
    job, shop = files.read()
    return make_plan(job, shop, goes_on=news.another_way)


def _papers(plan: Plan, news: "_News") -> Iterator[Paper]:
    rods = for_printing(plan.job, plan.shop, plan.rods)
    made = pack(
        plan.job,
        plan.shop,
        rods,
        PARTS,
        breakout=plan.breakout,
        machining=plan.machining,
        bench=plan.bench,
    )
    for paper in made:
        news.another_paper()
        yield paper


class _News:
    """What is told of work on its way; it counts. Two searches may tell at once."""

    def __init__(self, line: Connection) -> None:
        self._line = line
        self._far = Far()
        self._told = time.monotonic()
        self._enough = False
        self._turn = Lock()

    def another_way(self) -> bool:
        """Count another way of sawing; whether to go on looking for a cheaper one."""
        with self._turn:
            self._far = replace(self._far, tried=self._far.tried + 1)
            self._tell()
        return not self._enough

    def another_paper(self) -> None:
        """Count another paper."""
        with self._turn:
            self._far = replace(self._far, made=self._far.made + 1)
            self._tell()

    def _tell(self) -> None:
        now = time.monotonic()
        if now - self._told >= SOMETIMES:
            self._told = now
            self._line.send(self._far)
            self._enough = self._enough or self._line.poll()
