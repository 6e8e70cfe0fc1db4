"""The pages under load: python -m benchmarks.pages TRIAL [--times N] [--clients N] [--seed N] [--each N].

scans: how long a scan takes until it is safe and answered, with so many tablets while two plans run.
kills: the server killed again and again under scans; ends with 1 if any was lost or doubled.
cycles: a tablet's page loaded anew and closed, its browser killed, the network away, the server killed,
    so many times; scans are sent by the page's own script. Ends with 1 if any was lost or doubled.
repeats: each scan said so often, the last two at once; ends with 1 if any is not there just once.
first: how long the first pages of a job of 500 frames take.
"""

import argparse
import http.client
import json
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import quantiles
from threading import Thread
from typing import TYPE_CHECKING

from pinchrod.store import SHAPING, Folder, Request, open_store, roll_at, save
from tests.store.crash.crowd import dealt
from tests.store.crash.kills import requests_for
from tests.store.shop import PANTRY, a_job, a_saving, let_in, quick_folder
from tests.web.crash.killed import Found, killed_under_load, repeated, tablet
from tests.web.serving import demo_files

if TYPE_CHECKING:
    from tests.web.crash.cycled import Cycled

PORT = 8749
EVERY = 0.5  # seconds between two scans of a tablet: brisk
DESK = "Desk-1"
PLANNED = tuple(f"kitchen-{number}" for number in range(1, 9))  # two at a time are planned, the others wait


def main() -> int:
    """0 if nothing was lost."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("trial", choices=("scans", "kills", "repeats", "cycles", "first"))
    words.add_argument("--times", type=int, default=200, help="scans of each tablet")
    words.add_argument("--clients", type=int, default=8)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument(
        "--each", type=int, default=100, help="times that a scan is said, where it is repeated"
    )
    said = words.parse_args()
    with tempfile.TemporaryDirectory(
        dir=quick_folder() if said.trial in ("kills", "repeats") else None
    ) as folder:
        if said.trial == "kills":
            return verdict(killed_under_load(Path(folder), said.clients, said.times, said.seed, longest=1.2))
        if said.trial == "repeats":
            found = repeated(Path(folder), said.clients, said.times, said.each)
            return verdict(found, f"{said.each} times each: ")
        if said.trial == "cycles":
            return cycles(Path(folder), said.times, said.seed)
        if said.trial == "scans":
            scans(Folder(Path(folder)), said.clients, said.times)
        else:
            first(Folder(Path(folder)))
    return 0


def verdict(found: "Found | Cycled", how: str = "") -> int:
    """Tell what came of a trial; 0 if every scan is there once, and nothing else."""
    print(f"{how}{found}")
    return 0 if found.clean else 1


def cycles(folder: Path, times: int, seed: int) -> int:
    """Tell what became of the scans of a tablet that is cycled; 0 if all of them are there once."""
    from tests.web.browser.conftest import NONE_THERE, where_chromium_is
    from tests.web.crash.cycled import cycled

    chromium = where_chromium_is()
    if chromium is None:
        print(NONE_THERE)
        return 2
    return verdict(cycled(folder, chromium, times, seed))


def scans(place: Folder, clients: int, times: int) -> None:
    """Tell how long scans take, first with nothing else to do, then while two plans run."""
    pieces = clients * (1 + 2 * times // (len(SHAPING) - 2))
    _prepare(place, frames=1 + pieces // 5, tablets=clients, planned=True)
    with open_store(place, writing=False) as store:
        roll = roll_at(store, PANTRY)
    requests = [request for request in requests_for(roll) if request.said[0].deed in SHAPING]
    shares = dealt(requests, clients, 2 * times)
    with _served(place):
        _tell("alone", _all_scanned([share[:times] for share in shares]))
        for job in PLANNED:
            _get(f"/jobs/{job}/machines")
        _tell("while two plans run", _all_scanned([share[times:] for share in shares]))
        left = sum("Stop" in _get(f"/jobs/{job}/machines") for job in PLANNED)
        print("plans under way or waiting at the end, two of them under way:", left)


def first(place: Folder) -> None:
    """Tell how long pages of a job of 500 frames take, the first time and the second."""
    with open_store(place) as store:
        files = demo_files()
        frames = re.split(r"(?=\[\[frame\]\])", _plain(files.main.content.decode()))
        words = frames[0] + "".join(_another(frames[1 + at % 6], at) for at in range(500))
        save(store, a_saving(words))
        let_in(store, DESK, "office")
    with _served(place):
        for path in ("/", f"/jobs/{PANTRY}/frames", f"/jobs/{PANTRY}/bench", f"/jobs/{PANTRY}/frames/F7"):
            for turn in ("first", "again"):
                began = time.perf_counter()
                size = len(_get(path))
                print(f"{path} {turn}: {time.perf_counter() - began:.2f} s, {size / 1000:.0f} kB")


def _plain(words: str) -> str:
    return "\n".join(line for line in words.splitlines() if not line.startswith(("frames =", "workshop =")))


def _another(frame: str, at: int) -> str:
    return re.sub(r'id = "[^"]*"', f'id = "F{at + 1}"', frame) + "\n"


def _prepare(place: Folder, *, frames: int, tablets: int, planned: bool) -> None:
    with open_store(place) as store:
        save(store, a_saving(a_job(quantity=frames)))
        for job in PLANNED if planned else ():
            save(store, a_saving(key=f"save-{job}", job=job, files=demo_files(rack=True)))
        for number in range(tablets):
            let_in(store, tablet(number))
        let_in(store, DESK, "office")


@contextmanager
def _served(place: Folder) -> Iterator[None]:
    """The pages, by the command."""
    words = [sys.executable, "-m", "pinchrod", "serve", "--data", str(place), "--port", str(PORT)]
    server = subprocess.Popen(words, stdout=subprocess.DEVNULL)
    try:
        for _ in range(200):
            try:
                _get("/health")
                break
            except OSError:
                time.sleep(0.1)
        yield
    finally:
        server.terminate()
        server.wait(20)


def _get(path: str) -> str:
    line = http.client.HTTPConnection("127.0.0.1", PORT, timeout=60)
    line.request("GET", path, headers={"Cookie": f"pinchrod={DESK}"})
    return line.getresponse().read().decode()


def _all_scanned(shares: list[list[Request]]) -> list[float]:
    """The seconds that each scan took, of all tablets at once."""
    took: list[float] = []
    threads = [
        Thread(target=_scan, args=(tablet(at), share, took, at / len(shares)))
        for at, share in enumerate(shares)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return took


def _scan(secret: str, share: list[Request], took: list[float], late: float) -> None:
    time.sleep(late * EVERY)
    line = http.client.HTTPConnection("127.0.0.1", PORT, timeout=60)
    headers = {
        "Content-Type": "application/json",
        "Origin": f"http://127.0.0.1:{PORT}",
        "Cookie": f"pinchrod={secret}",
    }
    for request in share:
        said = request.said[0]
        body = {"key": request.key, "code": said.piece, "deed": said.deed, "job": PANTRY}
        began = time.perf_counter()
        line.request("POST", "/bench/said", json.dumps(body), headers)
        answer = line.getresponse()
        answer.read()
        assert answer.status == http.HTTPStatus.OK
        spent = time.perf_counter() - began
        took.append(spent)
        time.sleep(max(0.0, EVERY - spent))


def _tell(what: str, took: list[float]) -> None:
    parts = quantiles(took, n=100)
    print(
        f"{what}: {len(took)} scans, median {parts[49] * 1000:.0f} ms, 95 % {parts[94] * 1000:.0f} ms,"
        f" 99 % {parts[98] * 1000:.0f} ms, most {max(took) * 1000:.0f} ms"
    )


if __name__ == "__main__":
    sys.exit(main())
