"""What a scan, a tick and the pages at machines and bench cost in processor time: python -m benchmarks.scans.

A small job and one of 500 frames, each in a store of its own; the requests go through the whole application,
without a network.
"""

import re
import statistics
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

from starlette.testclient import TestClient

from pinchrod.plan import make_plan
from pinchrod.store import JobFiles
from pinchrod.web import Role
from tests.store.shop import files_of, quick_folder
from tests.web.serving import JOB, a_floor, browser, demo_files, keep

LAYOUTS = ("drawer 140 over pair", "3 drawers", "(drawer beside drawer) 140 over 2 doors")
SCANS = 150
SETTING = f"/jobs/{JOB}/machines/7/3"
PAGES = ("/bench", f"/jobs/{JOB}/bench", f"/jobs/{JOB}/machines", f"/jobs/{JOB}/machines/7", SETTING)
HEAD = (
    'pinchrod = 1\n\n[job]\nname = "Many"\ntimber = "yellow-poplar"\nthickness = 22\njoint = "dovetail key"\n'
)


def main() -> None:
    """Print the figures of both jobs."""
    for name, files in (("the demo job", demo_files()), ("500 frames", many(500))):
        with TemporaryDirectory(dir=quick_folder()) as folder:
            try_out(name, files, Path(folder))


def many(frames: int) -> JobFiles:
    """A job of so many frames, no two alike next to each other."""
    return files_of(
        HEAD
        + "".join(
            f'\n[[frame]]\nid = "K{number}"\nwidth = {500 + number % 200}\nheight = {700 + number % 90}\n'
            f'layout = "{LAYOUTS[number % len(LAYOUTS)]}"\n'
            for number in range(1, frames + 1)
        )
    )


def try_out(name: str, files: JobFiles, folder: Path) -> None:
    """One job: scans, then pages, then ticks."""
    with a_floor(folder) as floor:
        keep(floor, files)
        tablet = browser(floor, Role.TABLET)
        known = floor.job(JOB)
        plan = make_plan(known.job, known.shop)
        vars(floor.planner)["plan_of"] = lambda _known: plan
        print(f"{name}: {len(known.roll.entries)} pieces")
        letters = known.revision.mark.replace("-", "")
        codes = [f"{letters}/{entry.mark}" for entry in known.roll.entries[-SCANS:]]
        for deed in ("broken out", ""):
            took = [cost(partial(said, tablet, code, deed)) for code in codes]
            print(f"  scan, {deed or 'look'}: {spread(took)}")
        for path in PAGES:
            print(f"  {path}: {1000 * cost(partial(tablet.get, path)):.0f} ms")
        ticks(tablet)


def ticks(tablet: TestClient) -> None:
    """One piece through a setting, then all that are left."""
    page = tablet.get(SETTING).text
    fields = dict(re.findall(r'name="(spot|lot)" value="([^"]*)"', page))
    one = {"key": "one", **fields}
    every = {"key": "every", "spot": fields["spot"], "all": "yes"}
    for what in (one, every):
        took = cost(partial(tablet.post, SETTING, json=what))
        print(f"  tick, {what['key']}: {1000 * took:.0f} ms")


def said(tablet: TestClient, code: str, deed: str) -> None:
    """One scan, which must be answered."""
    answer = tablet.post("/bench/said", json={"code": code, "key": f"{code} {deed}", "deed": deed})
    assert answer.status_code == 200


def cost(does: Callable[[], object]) -> float:
    """Processor seconds."""
    start = time.process_time()
    does()
    return time.process_time() - start


def spread(took: list[float]) -> str:
    """The middle one, and the 95th of a hundred."""
    worst = sorted(took)[int(len(took) * 0.95)]
    return f"{1000 * statistics.median(took):.1f} ms, 95 of 100 within {1000 * worst:.1f} ms"


if __name__ == "__main__":
    main()
