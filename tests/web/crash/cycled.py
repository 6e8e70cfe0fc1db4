"""A tablet's own browser under all that happens to it, the server killed beside it: where do the scans go?

Scans are typed as a hand scanner types them, and sent by the page's own script. After each few something happens:
the page is loaded anew, it is closed, the browser is killed as by a flat battery and comes again with what it kept,
the network is away for a moment, the server is killed and started anew. In the end every scan must stand in the
ledger once.
"""

import contextlib
import http.client
import multiprocessing
import os
import random
import signal
import socket
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserContext, Error, Page, Playwright, sync_playwright

from pinchrod.store import Deed, Folder, events_after, open_store, roll_at, save
from pinchrod.store.soundness import unsound
from pinchrod.web import Doors, Floor, Site, app_of
from pinchrod.web.command import server_of
from pinchrod.web.templates import STATIC
from tests.store.shop import PANTRY, a_job, a_saving, let_in
from tests.web.browser.conftest import QUIET

SECRET = "Tablet-2"
BENCH = "/bench?deed=broken%20out"
A_CYCLE = 2  # scans, and one more while the network or the server is away
PIECES = 6  # of a frame, at least
PATIENCE = 120_000  # ms
OFTEN = {
    "page loaded anew": 3,
    "page closed": 2,
    "browser killed": 1,
    "browser killed off line": 1,
    "network away": 2,
    "server killed": 3,
}
SOON = 0.12  # seconds after a scan in which something happens


@dataclass
class Cycled:
    """What came of it."""

    cycles: Counter[str] = field(default_factory=Counter)
    scanned: int = 0
    lost: int = 0
    doubled: int = 0
    phantom: int = 0
    refused: int = 0
    unsound: int = 0
    seconds: float = 0.0

    @property
    def clean(self) -> bool:
        return not (self.lost or self.doubled or self.phantom or self.refused or self.unsound)

    def __str__(self) -> str:
        kinds = ", ".join(f"{count} {kind}" for kind, count in sorted(self.cycles.items()))
        return (
            f"{self.cycles.total()} cycles ({kinds}), {self.scanned} scans in {self.seconds:.0f} s:"
            f" {self.lost} lost, {self.doubled} doubled, {self.phantom} never scanned,"
            f" {self.refused} refused, {self.unsound} unsound"
        )


def cycled(
    folder: Path,
    chromium: str,
    times: int,
    seed: int,
    *,
    often: Mapping[str, int] = OFTEN,
    spoil: Callable[[str], str] | None = None,
) -> Cycled:
    """So many cycles of one tablet, until nothing is unsent; its script may be spoiled, to see the losses."""
    place, began = Folder(folder / "shop"), time.monotonic()
    codes = _begun(place, 1 + times * (A_CYCLE + 1) // PIECES)
    found = Cycled()
    with _a_server(place) as server, sync_playwright() as player:
        tablet = _Tablet(player, chromium, folder / "profile", server.address, iter(codes), spoil)
        dice = random.Random(seed)
        happenings = _happenings(tablet, server)
        for kind in _dealt(often, times, dice):
            for _ in range(A_CYCLE):
                tablet.scan()
            time.sleep(SOON * dice.random())
            happenings[kind]()
            found.cycles[kind] += 1
        found.refused = tablet.until_sent()
        tablet.close()
    _judge(place, tablet.scanned, found)
    found.seconds = time.monotonic() - began
    return found


def _dealt(often: Mapping[str, int], times: int, dice: random.Random) -> list[str]:
    """What happens, in an order by chance: each kind as often as it is said, in every dozen."""
    dozen = [kind for kind, count in often.items() for _ in range(count)]
    kinds = [kind for _ in range(1 + times // len(dozen)) for kind in dice.sample(dozen, len(dozen))]
    return kinds[:times]


def _begun(place: Folder, frames: int) -> list[str]:
    """A job with pieces enough, a tablet that is let in, and the marks on the pieces."""
    with open_store(place) as store:
        save(store, a_saving(a_job(quantity=frames)))
        let_in(store, SECRET)
        return [entry.mark for entry in roll_at(store, PANTRY).entries if Deed.BROKEN_OUT in entry.steps]


def _happenings(tablet: "_Tablet", server: "_Server") -> dict[str, Callable[[], None]]:
    """Everything that happens, by its name."""

    def server_killed() -> None:
        server.kill()
        tablet.scan()
        server.start()

    def network_away() -> None:
        tablet.context.set_offline(True)
        tablet.scan()
        time.sleep(SOON)
        tablet.context.set_offline(False)

    def battery_flat_off_line() -> None:
        tablet.context.set_offline(True)
        tablet.scan()
        tablet.flat_battery()

    return {
        "page loaded anew": tablet.reload,
        "page closed": tablet.close_page,
        "browser killed": tablet.flat_battery,
        "browser killed off line": battery_flat_off_line,
        "network away": network_away,
        "server killed": server_killed,
    }


class _Tablet:
    """A browser with a folder of its own, and somebody with a scanner before it."""

    def __init__(
        self,
        player: Playwright,
        chromium: str,
        profile: Path,
        address: str,
        codes: Iterator[str],
        spoil: Callable[[str], str] | None,
    ) -> None:
        self.player, self.chromium, self.profile = player, chromium, profile
        self.address, self.codes, self.spoil = address, codes, spoil
        self.scanned: list[str] = []
        self.context, self.page = self._begun()

    def scan(self) -> None:
        """The next piece: its mark, and Enter."""
        code = next(self.codes)
        self.page.keyboard.type(code)
        self.page.keyboard.press("Enter")
        self.scanned.append(code)

    def reload(self) -> None:
        """Load the page anew."""
        self.page.goto(self.address + BENCH)
        self._ready()

    def close_page(self) -> None:
        """Close the page, and open another."""
        self.page.close()
        self.page = self._opened(self.context)

    def flat_battery(self) -> None:
        """Kill every process of the browser once the page has said of the last scan that it is kept; begin anew."""
        self._until_told(self.scanned[-1])
        for process in _processes_of(self.profile):
            with contextlib.suppress(ProcessLookupError):
                os.kill(process, signal.SIGKILL)
        with contextlib.suppress(Error):
            self.context.close()
        for lock in self.profile.glob("Singleton*"):
            lock.unlink(missing_ok=True)
        self.context, self.page = self._begun()

    def until_sent(self) -> int:
        """Wait until nothing is unsent; how many were refused."""
        self.page.wait_for_function(
            "() => /^Unsent: 0/.test(document.getElementById('unsent').textContent)", timeout=PATIENCE
        )
        return self.page.locator("#scans .refused, #scans .asks").count()

    def close(self) -> None:
        """Put the tablet away."""
        self.context.close()

    def _begun(self) -> tuple[BrowserContext, Page]:
        context = self.player.chromium.launch_persistent_context(
            self.profile, executable_path=self.chromium, args=list(QUIET)
        )
        context.set_default_timeout(PATIENCE)
        context.add_cookies([{"name": "pinchrod", "value": SECRET, "url": self.address}])
        if self.spoil is not None:
            body = self.spoil((STATIC / "scan.js").read_text(encoding="utf-8"))
            context.route(
                "**/scan.js*", lambda route: route.fulfill(body=body, content_type="text/javascript")
            )
        return context, self._opened(context)

    def _opened(self, context: BrowserContext) -> Page:
        page = context.new_page()
        page.on("dialog", lambda dialog: dialog.accept())
        page.goto(self.address + BENCH)
        self.page = page
        self._ready()
        return page

    def _ready(self) -> None:
        self.page.wait_for_selector("#unsent", state="attached")

    def _until_told(self, code: str) -> None:
        """Until the band says of that scan that it is kept, or that it is in the ledger with all others."""
        self.page.wait_for_function(
            """(code) => {
              const band = document.getElementById("band").textContent;
              const unsent = document.getElementById("unsent").textContent;
              return band.includes(`Kept on this tablet: ${code}`)
                || band.includes("In the ledger") && /^Unsent: 0/.test(unsent);
            }""",
            arg=code,
        )


def _processes_of(profile: Path) -> list[int]:
    """The browser that works in that folder, with all its parts."""
    found = []
    for each in Path("/proc").glob("[0-9]*/cmdline"):
        with contextlib.suppress(OSError):
            if f"--user-data-dir={profile}".encode() in each.read_bytes().split(b"\0"):
                found.append(int(each.parent.name))
    return found


class _Server:
    """The pages in a process of their own, which can be killed and started anew at the same address."""

    def __init__(self, place: Folder) -> None:
        self.place, self.port = place, _a_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self.nursery = multiprocessing.get_context("forkserver")
        self.nursery.set_forkserver_preload([__name__])
        self.start()

    def start(self) -> None:
        """Start it, and wait until it answers."""
        self.process = self.nursery.Process(target=_serve, args=(self.place, self.port), daemon=True)
        self.process.start()
        while not self._answers():
            time.sleep(0.02)

    def kill(self) -> None:
        """Kill it as it stands."""
        self.process.kill()
        self.process.join()

    def _answers(self) -> bool:
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        with contextlib.closing(line), contextlib.suppress(OSError):
            line.request("GET", "/health")
            return line.getresponse().status == http.HTTPStatus.OK
        return False


@contextmanager
def _a_server(place: Folder) -> Iterator[_Server]:
    server = _Server(place)
    try:
        yield server
    finally:
        server.kill()


def _a_port() -> int:
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        return int(line.getsockname()[1])


def _serve(place: Folder, port: int) -> None:
    """The pages, as `pinchrod serve` serves them."""
    line = socket.create_server(("127.0.0.1", port), reuse_port=False)
    with open_store(place) as store:
        site = Site(floor=Floor(store, place.backups), doors=Doors(hosts=frozenset({f"127.0.0.1:{port}"})))
        server_of(app_of(site)).run(sockets=[line])


def _judge(place: Folder, scanned: list[str], found: Cycled) -> None:
    """Look into the store: each scan once, and nothing else."""
    with open_store(place) as store:
        with store.reading() as base:
            found.unsound = len(list(unsound(base)))
        told = Counter(event.piece for event in events_after(store, 0, most=10_000_000) if event.piece)
    found.scanned = len(scanned)
    found.lost = len(set(scanned) - set(told))
    found.doubled = sum(count > 1 for count in told.values())
    found.phantom = len(set(told) - set(scanned))
