"""Long work, done beside the server so that no scan waits for it: plans, and the papers made of them."""

import multiprocessing
import time
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from threading import Lock, Semaphore, Thread

from pinchrod.ground import Problem
from pinchrod.papers import Paper
from pinchrod.plan import Plan
from pinchrod.web.beside import Asked, Far, Work, carry_out
from pinchrod.web.known import Known

AT_ONCE = 2  # as many as an office computer has processors to spare
MOST_KEPT = 6
STOP_WITHIN = 1.0  # seconds that work has to stop of itself


class _Running:
    """Work under way; it changes as it goes on."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self.started = time.monotonic()
        self.process: BaseProcess | None = None
        self.line: Connection | None = None
        self.far = Far()
        self.stopped = False


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """How far a piece of work is, as a page tells it."""

    running: bool = False
    waiting: bool = False  # for other work to end
    seconds: int = 0
    tried: int = 0  # ways of sawing looked at so far
    made: int = 0  # papers made so far
    stopped: bool = False  # by hand
    problems: tuple[Problem, ...] = ()
    fault: str = ""  # a fault of ours, in short
    done: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Done:
    """Work that is over: what it made, or why it made nothing."""

    plan: Plan | None = None
    papers: tuple[Paper, ...] = ()
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    stopped: bool = False


class Planner:
    """Plans jobs and makes packs in processes of low priority; keeps the last few."""

    def __init__(self, tell: Callable[[], None]) -> None:
        """Nothing is under way; `tell` is called whenever there is news."""
        self._tell = tell
        self._turn = Lock()
        self._room = Semaphore(AT_ONCE)
        self._running: dict[tuple[str, int, Work], _Running] = {}
        self._done: dict[tuple[str, int, Work], _Done] = {}

    def plan_of(self, known: Known) -> Plan | None:
        """The plan of a revision, if it is made."""
        found = self._done.get(_place(known, Work.PLAN))
        return found.plan if found else None

    def pack_of(self, known: Known) -> tuple[Paper, ...]:
        """The papers of a revision, if they are made; else none."""
        found = self._done.get(_place(known, Work.PACK))
        return found.papers if found else ()

    def state(self, known: Known, work: Work = Work.PLAN) -> State:
        """How far it is."""
        with self._turn:
            running, done = self._running.get(_place(known, work)), self._done.get(_place(known, work))
        if running is not None:
            return State(
                running=True,
                waiting=running.process is None,
                seconds=int(time.monotonic() - running.started),
                tried=running.far.tried,
                made=running.far.made,
            )
        if done is None:
            return State()
        return State(
            done=not (done.problems or done.fault or done.stopped),
            stopped=done.stopped,
            problems=done.problems,
            fault=done.fault,
        )

    def ask(self, known: Known, work: Work = Work.PLAN) -> None:
        """Start it, unless it is made or under way. A pack wants the plan first: that is made on the way."""
        place = _place(known, work)
        with self._turn:
            done = self._done.get(place)
            if place in self._running or (done is not None and not (done.stopped or done.fault)):
                return
            self._done.pop(place, None)
            running = _Running(work)
            self._running[place] = running
        Thread(target=self._see_through, args=(known, running), daemon=True).start()
        self._tell()

    def stop(self, known: Known, work: Work = Work.PLAN) -> None:
        """Break it off at once; what was made before stays whole."""
        running = self._running.get(_place(known, work))
        if running is not None:
            running.stopped = True
            if running.process is not None:
                running.process.kill()

    def enough(self, known: Known) -> None:
        """Take the best plan found so far."""
        running = self._running.get(_place(known, Work.PLAN)) or self._running.get(_place(known, Work.PACK))
        if running is not None and running.line is not None:
            running.line.send("enough")

    def close(self) -> None:
        """Break off whatever runs."""
        for running in tuple(self._running.values()):
            running.stopped = True
            if running.process is not None:
                running.process.kill()

    def _see_through(self, known: Known, running: _Running) -> None:
        place = _place(known, running.work)
        with self._room:
            done = _Done(stopped=True) if running.stopped else self._carried_out(known, running)
        with self._turn:
            if done.plan is not None and running.work is Work.PACK:
                self._keep(_place(known, Work.PLAN), _Done(plan=done.plan))
            self._keep(place, done)
            del self._running[place]
        self._tell()

    def _keep(self, place: tuple[str, int, Work], done: _Done) -> None:
        self._done[place] = done
        while len(self._done) > MOST_KEPT:
            self._done.pop(next(iter(self._done)))

    def _carried_out(self, known: Known, running: _Running) -> _Done:
        spawn = multiprocessing.get_context("spawn")
        here, there = spawn.Pipe()
        asked = Asked(work=running.work, files=known.files, plan=self.plan_of(known))
        process = spawn.Process(target=carry_out, args=(there, asked), daemon=True)
        process.start()
        there.close()
        running.process, running.line = process, here
        try:
            return self._heard(here, running)
        except (EOFError, OSError):
            return _Done(stopped=True) if running.stopped else _Done(fault="the work ended before its time")
        finally:
            process.join(STOP_WITHIN)
            process.kill()
            here.close()

    def _heard(self, line: Connection, running: _Running) -> _Done:
        while True:
            said = line.recv()
            if isinstance(said, Far):
                running.far = said
                self._tell()
            else:
                return _Done(plan=said.plan, papers=said.papers, problems=said.problems, fault=said.fault)


def _place(known: Known, work: Work) -> tuple[str, int, Work]:
    return known.name, known.number, work
