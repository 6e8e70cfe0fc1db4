"""What outlives a crash, in small; benchmarks/store_crash.py tries the same at length.

The power goes on a disk in memory that forgets what it was not told to make sure of. Where the settings are
not safe something must be lost: a trial that could not see a loss would prove nothing.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from pinchrod.store import open_store, record
from tests.builders import so_many
from tests.store.crash import kills
from tests.store.crash.cuts import SAFE, UNSAFE, every_step, every_step_of_making, many_cuts
from tests.store.crash.failures import every_failure
from tests.store.crash.kills import many_kills
from tests.store.shop import MORNING

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


@pytest.mark.parametrize("trial", ["kills", "copies", "crowd", "repeats", "drills"])
def test_a_small_trial_ends_as_it_must(trial):
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.store_crash", trial],
        cwd=TOP,
        env={**os.environ, "PYTHONPATH": str(TOP / "src")},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stdout + done.stderr
    assert "as it must be" in done.stdout


def test_the_trial_sees_an_answer_given_before_it_was_true(tmp_path, monkeypatch):
    def too_early(place, roll, requests, say):
        with open_store(place) as store:
            for request in requests:
                say()
                time.sleep(0.01)
                record(store, request, roll, now=MORNING)

    monkeypatch.setattr(kills, "_work", too_early)

    assert many_kills(tmp_path, 8, seed=15).lost
