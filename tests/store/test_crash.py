"""What outlives a crash, in small; benchmarks/store_crash.py tries the same at length.

The power goes on a disk in memory that forgets what it was not told to make sure of. Where the settings are
not safe something must be lost: a trial that could not see a loss would prove nothing.
"""

import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import Server, events_after, open_store, record, save, verify
from tests.builders import so_many
from tests.store.conftest import NONE_THERE
from tests.store.crash import kills
from tests.store.crash.cuts import (
    CHANGES,
    SAFE,
    UNSAFE,
    every_step,
    every_step_of_a_change,
    every_step_of_making,
    many_cuts,
)
from tests.store.crash.failures import every_failure
from tests.store.crash.kills import many_kills, requests_for
from tests.store.postgresql import a_server, programs
from tests.store.shop import MORNING, a_job, a_roll, a_saving, quick_folder

TOP = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no fork, and no socket in a folder")
safe = pytest.mark.parametrize("settings", SAFE.values(), ids=[*SAFE])


@safe
def test_nothing_acknowledged_is_lost_when_the_power_goes(settings):
    tally = many_cuts(settings, so_many(100), seed=11)

    assert tally.clean, tally
    assert tally.acknowledged > tally.cuts


@pytest.mark.parametrize("settings", UNSAFE.values(), ids=[*UNSAFE])
def test_the_trial_sees_the_losses_of_settings_that_are_not_safe(settings):
    tally = many_cuts(settings, 40, seed=12)

    assert tally.lost or tally.damaged


@safe
def test_the_power_may_go_at_any_step_of_any_way_of_writing(settings):
    working = every_step(settings, seed=13, every=5)
    making = every_step_of_making(settings, seed=14, every=3)

    assert working.clean, working
    assert making.clean, making


@safe
def test_a_disk_that_is_full_or_broken_is_told_and_leaves_the_store_whole(settings):
    found = every_failure(settings, every=23)

    assert found.clean, found
    assert found.told > found.tried / 2


@safe
@pytest.mark.parametrize(("old", "new"), CHANGES.values(), ids=[*CHANGES])
def test_the_power_may_go_at_any_step_of_a_change_of_form(settings, old, new):
    tally = every_step_of_a_change(settings, 16, old, new)

    assert tally.clean, tally
    assert tally.cuts > 5


def test_a_server_that_crashes_under_the_bench_loses_nothing_it_acknowledged():
    if programs() is None:
        pytest.skip(NONE_THERE)
    requests = requests_for(a_roll(20))
    acknowledged: list[str] = []
    told: list[str] = []
    with a_server() as running, open_store(Server(running.url), now=MORNING) as store:
        save(store, a_saving(a_job(quantity=20)), now=MORNING)
        for _ in range(2):
            crashing = threading.Timer(0.3, running.crash)
            crashing.start()
            for request in requests[len(acknowledged) :]:
                try:
                    acknowledged.append(record(store, request, a_roll(20)).events[0].key)
                except NotYetRight as trouble:
                    told += [problem.code for problem in trouble.problems]
                    break
            crashing.join()
        with open_store(Server(running.url), writing=False) as again:
            keys = [event.key for event in events_after(again, 1, most=100_000)]
            verify(again)

    assert set(told) == {"server-away"}
    assert set(acknowledged) <= set(keys)
    assert len(keys) == len(set(keys)) <= len(acknowledged) + 1


def test_kills_copies_crowds_repeats_and_drills_end_as_they_must():
    trials = ["kills", "copies", "crowd", "repeats", "drills"]
    quick = ["--folder", where] if (where := quick_folder()) else []
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.store_crash", *trials, *quick],
        cwd=TOP,
        env={**os.environ, "PYTHONPATH": str(TOP / "src")},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count(" as it must be") == len(trials)


def test_the_trial_sees_an_answer_given_before_it_was_true(tmp_path, monkeypatch):
    def too_early(place, roll, requests, say):
        with open_store(place) as store:
            for request in requests:
                say()
                time.sleep(0.01)
                record(store, request, roll, now=MORNING)

    monkeypatch.setattr(kills, "_work", too_early)

    assert many_kills(tmp_path, 8, seed=15).lost
