"""Long work beside the server: planned, stopped, taken as far as it has come, told when it cannot be."""

import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from pinchrod.store import JobFiles
from pinchrod.web.beside import Work
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known
from tests.web.serving import JOB, a_floor, demo_files, keep


def until(there: Callable[[], Any], seconds: float = 300) -> Any:
    end = time.monotonic() + seconds
    while not (found := there()):
        assert time.monotonic() < end, "it took too long"
        time.sleep(0.05)
    return found


def planned(floor: Floor, files: JobFiles) -> Known:
    keep(floor, files)
    known = floor.job(JOB)
    floor.planner.ask(known)
    return known


def is_over(floor: Floor, known: Known, work: Work = Work.PLAN) -> bool:
    return not floor.planner.state(known, work).running


def test_a_plan_is_made_beside_the_server_and_kept(tmp_path):
    with a_floor(tmp_path) as floor:
        known = planned(floor, demo_files())

        assert floor.planner.state(known).running
        until(lambda: is_over(floor, known))

        plan = floor.planner.plan_of(known)
        assert plan is not None
        assert plan.rods.rods == known.rods.rods
        assert floor.planner.state(known).done


def test_a_search_can_be_ended_with_the_best_plan_so_far(tmp_path):
    with a_floor(tmp_path) as floor:
        known = planned(floor, demo_files(rack=True))
        until(lambda: floor.planner.state(known).tried)

        floor.planner.enough(known)
        until(lambda: is_over(floor, known), 30)

        plan = floor.planner.plan_of(known)
        assert plan is not None
        assert plan.breakout is not None
        assert plan.breakout.stopped
        assert not plan.breakout.short


def test_work_that_is_stopped_ends_within_a_second_and_can_be_asked_for_again(tmp_path):
    with a_floor(tmp_path) as floor:
        known = planned(floor, demo_files(rack=True))
        until(lambda: floor.planner.state(known).tried)

        floor.planner.stop(known)
        until(lambda: is_over(floor, known), 2)

        assert floor.planner.state(known).stopped
        assert floor.planner.plan_of(known) is None
        floor.planner.ask(known)
        assert floor.planner.state(known).running


def test_what_cannot_be_planned_is_told_in_the_joiners_words(tmp_path):
    files = demo_files()
    with a_floor(tmp_path) as floor:
        keep(floor, files)
        known = floor.job(JOB)
        broken = replace(known, files=replace(files, main=replace(files.main, content=b"nonsense")))

        floor.planner.ask(broken)
        until(lambda: is_over(floor, broken))

        state = floor.planner.state(broken)
        assert state.problems
        assert not state.fault
        assert not state.done
