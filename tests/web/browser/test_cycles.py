"""A tablet that is loaded anew, closed, killed and cut off, in small; benchmarks/pages.py tries the same at length."""

import os
from concurrent.futures import ThreadPoolExecutor
from functools import partial

import pytest

from tests.web.browser.conftest import NONE_THERE, where_chromium_is

if os.name == "nt":
    pytest.skip("it is killed by what only Linux tells of processes", allow_module_level=True)

from tests.web.crash.cycled import OFTEN, cycled

OFF_LINE = "browser killed off line"


def in_a_thread(trial):
    """What comes of a trial: each thread has a player of browsers of its own, and this one has one already."""
    with ThreadPoolExecutor(1) as hand:
        return hand.submit(trial).result()


@pytest.fixture(scope="module")
def where():
    found = where_chromium_is()
    if found is None:
        pytest.skip(NONE_THERE)
    return found


def test_every_scan_is_in_the_ledger_once_whatever_happens_to_tablet_and_server(tmp_path, where):
    once_each = dict.fromkeys(OFTEN, 1)

    found = in_a_thread(partial(cycled, tmp_path, where, len(OFTEN), 5, often=once_each))

    assert set(found.cycles) == set(OFTEN)
    assert found.scanned > 2 * len(OFTEN)
    assert found.clean, found


def test_the_trial_sees_what_a_flat_battery_takes_along_where_scans_are_kept_once_only(tmp_path, where):
    def kept_once(script):
        assert "const box = new Promise(" in script
        return script.replace(
            "const box = new Promise(", "const box = Promise.resolve(null), none = new Promise("
        )

    found = in_a_thread(partial(cycled, tmp_path, where, 2, 6, often={OFF_LINE: 1}, spoil=kept_once))

    assert found.lost
