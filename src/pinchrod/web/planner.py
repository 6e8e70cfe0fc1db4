"""Long work, done beside the server so that no scan waits for it: plans, and the papers made of them."""

import multiprocessing
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from threading import Lock, Semaphore, Thread

from pinchrod.ground import Problem
from pinchrod.papers import Paper
from pinchrod.plan import Plan
from pinchrod.web.beside import Asked, Far, Work, carry_out
from pinchrod.web.known import Known
from pinchrod.web.own_faults import log_fault, log_told

AT_ONCE = 2  # as many as an office computer has processors to spare
MOST_KEPT = 6
STOP_WITHIN = 1.0  # seconds that work has to stop of itself
END_WITHIN = 5.0  # seconds that a server which shuts waits for what was just made to be kept
LOOK_EVERY = 0.2  # seconds between two looks whether waiting work was stopped


class _Running:
    """Work under way; it changes as it goes on."""

    def __init__(self, work: Work, plan: Plan | None) -> None:
        self.work = work
        self.plan = plan  # what a pack is made of, if it is made already
        self.started = time.monotonic()
        self.thread: Thread | None = None
        self.process: BaseProcess | None = None
        self.line: Connection | None = None
        self.far = Far()
        self.last_way = self.started  # when it was told of a way of sawing: papers come after the last
        self.stopped = False


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """How far a piece of work is, as a page tells it."""

    running: bool = False
    waiting: bool = False  # for other work to end
    seconds: int = 0
    tried: int = 0  # ways of sawing looked at so far
    made: int = 0  # papers made so far
    making: int = 0  # seconds for which papers were made
    stopped: bool = False  # by hand
    problems: tuple[Problem, ...] = ()
    fault: str = ""  # the number under which a fault of ours stands in the log
    done: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Done:
    """Work that is over: what it made, or why it made nothing."""

    plan: Plan | None = None  # that was made, or of which the papers are
    papers: tuple[Paper, ...] = ()
    problems: tuple[Problem, ...] = ()
    fault: str = ""
    stopped: bool = False


class Planner:
    """Plans jobs and makes packs in processes of low priority; keeps the last few."""

    def __init__(
        self, tell: Callable[[], None], keep: Callable[[Known, Plan], None] = lambda _known, _plan: None
    ) -> None:
        """Nothing is under way; `tell` is called whenever there is news, `keep` for each plan made."""
        self._tell = tell
        self._keep_plan = keep
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

    def pack_plan_of(self, known: Known) -> Plan | None:
        """The very plan that those papers were made of."""
        found = self._done.get(_place(known, Work.PACK))
        return found.plan if found else None

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
                making=int(time.monotonic() - running.last_way),
            )
        if done is None:
            return State()
        return State(
            done=not (done.problems or done.fault or done.stopped),
            stopped=done.stopped,
            problems=done.problems,
            fault=done.fault,
        )

    def ask(self, known: Known, work: Work = Work.PLAN, *, plan: Plan | None = None) -> None:
        """Start it, unless it is made or under way.

        A pack is made of the plan that is given: the one in force. Without one it is planned on the way.
        """
        place = _place(known, work)
        with self._turn:
            if place in self._running or _stands(self._done.get(place), plan):
                return
            self._done.pop(place, None)
            running = _Running(work, plan or self.plan_of(known))
            self._running[place] = running
            running.thread = Thread(target=self._see_through, args=(known, running), daemon=True)
            running.thread.start()
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
            with suppress(OSError):  # it came to its end this moment
                running.line.send("enough")

    def close(self) -> None:
        """Break off whatever runs, and see it end: a plan that was made this moment is kept."""
        with self._turn:
            under_way = tuple(self._running.values())
        for running in under_way:
            running.stopped = True
            if running.process is not None:
                running.process.kill()
        for running in under_way:
            if running.thread is not None:
                running.thread.join(END_WITHIN)

    def _see_through(self, known: Known, running: _Running) -> None:
        place = _place(known, running.work)
        done = self._in_turn(known, running)
        if done.plan is not None and running.plan is None:
            self._kept(known, done.plan)  # before anybody is told of it: what was seen outlasts the server
        with self._turn:
            if done.plan is not None and running.work is Work.PACK and running.plan is None:
                self._keep(_place(known, Work.PLAN), _Done(plan=done.plan))
            self._keep(place, done)
            del self._running[place]
        self._tell()

    def _kept(self, known: Known, plan: Plan) -> None:
        """Have the plan kept; without that it is good as long as the server runs."""
        try:
            self._keep_plan(known, plan)
        except Exception:  # noqa: BLE001 -- the edge of a thread: it is written down, the plan stands
            log_fault(f"keeping the plan of {known.name}")

    def _in_turn(self, known: Known, running: _Running) -> _Done:
        """The work carried out once there is room for it, or stopped while it waited."""
        while not self._room.acquire(timeout=LOOK_EVERY):
            if running.stopped:
                return _Done(stopped=True)
        try:
            return _Done(stopped=True) if running.stopped else self._carried_out(known, running)
        except Exception:  # noqa: BLE001 -- the edge of a thread: a page that waits is told
            return _Done(fault=log_fault(f"{running.work} of {known.name}"))
        finally:
            self._room.release()

    def _keep(self, place: tuple[str, int, Work], done: _Done) -> None:
        self._done[place] = done
        while len(self._done) > MOST_KEPT:
            self._done.pop(next(iter(self._done)))

    def _carried_out(self, known: Known, running: _Running) -> _Done:
        spawn = multiprocessing.get_context("spawn")
        here, there = spawn.Pipe()
        asked = Asked(work=running.work, files=known.files, plan=running.plan)
        process = spawn.Process(target=carry_out, args=(there, asked), daemon=True)
        process.start()
        there.close()
        running.process, running.line = process, here
        if running.stopped:  # while it was being started
            process.kill()
        try:
            return self._heard(here, running, f"{running.work} of {known.name}")
        except (EOFError, OSError):
            return _Done(stopped=True) if running.stopped else _Done(fault=log_fault(running.work))
        finally:
            process.join(STOP_WITHIN)
            process.kill()
            here.close()

    def _heard(self, line: Connection, running: _Running, place: str) -> _Done:
        while isinstance(said := line.recv(), Far):
            if not said.made:
                running.last_way = time.monotonic()
            running.far = said
            self._tell()
        fault = log_told(place, said.fault) if said.fault else ""
        plan = running.plan or said.plan
        return _Done(plan=plan, papers=said.papers, problems=said.problems, fault=fault)


def _stands(done: _Done | None, plan: Plan | None) -> bool:
    """Whether nothing is left to do: it is done, and of the plan that is in force."""
    if done is None or done.stopped or done.fault:
        return False
    return plan is None or done.plan is plan


def _place(known: Known, work: Work) -> tuple[str, int, Work]:
    return known.name, known.number, work
