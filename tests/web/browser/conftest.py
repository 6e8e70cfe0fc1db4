"""A real browser before real pages: a floor served on this machine, and a screen to look at it with.

The browser is chromium, at PINCHROD_CHROMIUM or where systems usually have it. Without one these tests are
skipped, and the run says so aloud: `pytest -rs`.
"""

import os
import shutil
from pathlib import Path

import pytest

from tests.web.browser.served import NAME, WAIT, served
from tests.web.serving import a_floor, keep
from tests.web.small_job import SMALL, small_files

USUAL = ("chromium", "chromium-browser", "google-chrome-stable")
QUIET = (
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--disable-quic",
    f"--host-resolver-rules=MAP {NAME} 127.0.0.1",
)
NONE_THERE = "NO BROWSER: nothing was tried in one. Install chromium, or say where it is: PINCHROD_CHROMIUM"


def where_chromium_is() -> str | None:
    said = os.environ.get("PINCHROD_CHROMIUM")
    return said or next((found for name in USUAL if (found := shutil.which(name))), None)


@pytest.fixture(scope="package")
def chromium():
    path = where_chromium_is()
    if path is None:
        pytest.skip(NONE_THERE)
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=WAIT)
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=path, args=list(QUIET))
        yield browser
        browser.close()


@pytest.fixture(scope="package")
def planned(tmp_path_factory: pytest.TempPathFactory, chromium):
    """A workshop whose job is planned, its papers made: to be looked at, not changed."""
    with a_floor(tmp_path_factory.mktemp("planned")) as floor:
        keep(floor, small_files(), job=SMALL)
        with served(floor, chromium) as workshop:
            workshop.plan(SMALL)
            yield workshop


@pytest.fixture
def workshop(tmp_path: Path, chromium):
    """A workshop of a test's own, with nothing in it."""
    with a_floor(tmp_path) as floor, served(floor, chromium) as workshop:
        yield workshop
