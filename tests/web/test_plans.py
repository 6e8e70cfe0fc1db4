"""A plan outlasts the server: its sticks are the same when it starts again, however the search ended."""

from dataclasses import replace

import pytest

from pinchrod.job import Source
from pinchrod.store import Draft, keep_draft
from pinchrod.web.beside import Work
from pinchrod.web.floor import Floor
from pinchrod.web.plans import keep_plan, kept_plan
from pinchrod.web.sticks import mark_of
from tests.web.serving import a_floor, keep
from tests.web.small_shop import SMALL, kept, plan_of, small_files
from tests.web.test_planner import is_over, until


def started_again(floor):
    return Floor(floor.store, floor.backups)


def test_a_plan_made_beside_the_server_stands_when_the_server_starts_again(tmp_path):
    with a_floor(tmp_path) as floor:
        known = kept(floor)
        floor.planner.ask(known, Work.PLAN)
        until(lambda: is_over(floor, known))
        made = floor.planner.plan_of(known)

        again = started_again(floor).plans.of(known)

        assert made is not None
        assert again is not None
        assert again == made
        assert mark_of(again) == mark_of(made)


def test_the_best_so_far_is_kept_as_it_was_taken(tmp_path):
    with a_floor(tmp_path) as floor:
        known = kept(floor)
        plan = plan_of(known.files)
        assert plan.breakout is not None
        taken = replace(plan, breakout=replace(plan.breakout, stopped=True))

        keep_plan(floor.store, known, taken)

        assert kept_plan(floor.store, known) == taken


def test_a_plan_is_of_its_revision_alone(tmp_path):
    with a_floor(tmp_path) as floor:
        known = kept(floor)
        keep_plan(floor.store, known, plan_of(known.files))
        files = small_files()
        wider = files.main.content.replace(b"width = 900", b"width = 950")
        keep(floor, replace(files, main=Source(name="job.toml", content=wider)), job=SMALL, after=1)

        assert floor.plans.of(floor.job(SMALL)) is None
        assert floor.plans.of(floor.job(SMALL, 1)) is not None


@pytest.mark.parametrize("words", ["", "{}", "[1]", '{"stopped": false, "timber": {"sticks": []}}'])
def test_what_cannot_be_gone_by_is_no_plan(tmp_path, words):
    with a_floor(tmp_path) as floor:
        known = kept(floor)
        keep_plan(floor.store, known, plan_of(known.files))
        place, device = "sawing of revision 1", f"sawing of {SMALL}"
        keep_draft(floor.store, Draft(job=SMALL, place=place, device=device, after=1, words=words))

        assert kept_plan(floor.store, known) is None


def test_a_job_without_a_rack_keeps_no_sticks(tmp_path):
    with a_floor(tmp_path) as floor:
        known = kept(floor, small_files(rack=None))

        keep_plan(floor.store, known, plan_of(known.files))

        assert kept_plan(floor.store, known) is None
