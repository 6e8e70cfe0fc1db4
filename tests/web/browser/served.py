"""A floor served on a free port of this machine, and browsers of its office and its tablets."""

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Literal

import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page

from pinchrod.store import By, enrol
from pinchrod.web import Doors, Floor, Role, Site, app_of
from pinchrod.web.beside import Work
from pinchrod.web.letting_in import mark_of_secret, new_secret
from tests.web.browser.proxy import Proxy

Theme = Literal["light", "dark"]
THEMES: tuple[Theme, ...] = ("light", "dark")
DESK, TALL, PHONE = (1280, 800), (800, 1280), (390, 844)
SIZES = (DESK, TALL, PHONE)
NAME = "workshop.test"  # what tablets call this computer: to browsers no safe line, as 127.0.0.1 is
WAIT = 60_000.0  # ms for whatever a page should come to show
AT_MOST = 300.0  # seconds for the plan of three frames on a busy machine
WATCH = """
window.ran = [];
window.broken = [];
document.addEventListener("securitypolicyviolation", (event) =>
  window.broken.push(`${event.violatedDirective}: ${event.blockedURI} ${event.sample} ${event.sourceFile}:${event.lineNumber}`));
"""


class Served:
    """A workshop's pages as browsers find them."""

    def __init__(self, floor: Floor, address: str, chromium: Browser) -> None:
        self.floor = floor
        self.address = address
        self.chromium = chromium
        self.outside: list[str] = []  # what was asked of any other machine
        self.complaints: list[str] = []  # what a page's console said was wrong
        self._contexts: list[BrowserContext] = []

    def browser(
        self, role: Role = Role.OFFICE, size: tuple[int, int] = DESK, theme: Theme = "light", **more: Any
    ) -> BrowserContext:
        """A browser of its own, let in; a tablet's is touched."""
        width, height = size
        context = self.chromium.new_context(
            base_url=self.address,
            viewport={"width": width, "height": height},
            color_scheme=theme,
            reduced_motion="reduce",
            has_touch=role is Role.TABLET,
            **{"service_workers": "block", **more},
        )
        self._contexts.append(context)
        context.set_default_timeout(WAIT)
        context.add_init_script(WATCH)
        context.on("request", self._asked)
        context.on("console", self._complained)
        context.on("weberror", lambda error: self.complaints.append(str(error.error)))
        if role is not Role.NOBODY:
            self._let_in(context, role)
        return context

    def page(self, role: Role = Role.OFFICE, size: tuple[int, int] = DESK, **more: Any) -> Page:
        """A page of a browser of its own."""
        return self.browser(role, size, **more).new_page()

    def plan(self, job: str) -> None:
        """Have a job planned and its papers made, the first plan that is good being good enough."""
        known, until = self.floor.job(job), time.monotonic() + AT_MOST
        self.floor.planner.ask(known, Work.PACK)
        while self.floor.planner.state(known, Work.PACK).running:
            assert time.monotonic() < until, "the plan is not made"
            if self.floor.planner.state(known, Work.PACK).tried:
                self.floor.planner.enough(known)
            time.sleep(0.2)
        assert self.floor.planner.state(known, Work.PACK).done

    def close(self) -> None:
        """Shut every browser."""
        for context in self._contexts:
            context.close()

    def _let_in(self, context: BrowserContext, role: Role) -> None:
        secret = new_secret()
        name = f"{role} {secret[:6]}"
        by = By(person=name, device=name)
        enrol(
            self.floor.store,
            name=name,
            role=str(role),
            token_mark=mark_of_secret(secret),
            by=by,
            key=secret[:20],
        )
        context.add_cookies([{"name": "pinchrod", "value": secret, "url": self.address}])

    def _asked(self, request: Any) -> None:
        if not request.url.startswith((self.address, "data:", "blob:", "about:", "chrome")):
            self.outside.append(request.url)

    def _complained(self, message: Any) -> None:
        if message.type == "error" and "Failed to load resource" not in message.text:
            self.complaints.append(f"{message.text} ({message.location})")


@contextmanager
def served(floor: Floor, chromium: Browser, proxy: Proxy | None = None) -> Iterator[Served]:
    """The floor's pages on a free port, as `pinchrod serve` serves them, while the block lasts; behind a proxy, if one is there."""
    line = socket.socket()
    line.bind(("127.0.0.1", 0))
    port = line.getsockname()[1]
    host = f"127.0.0.1:{port}"
    doors = Doors(
        hosts=frozenset({host, f"{NAME}:{port}"}),
        covered=frozenset({f"{NAME}:{proxy.port}"} if proxy else ()),
    )
    server = uvicorn.Server(
        uvicorn.Config(
            app_of(Site(floor=floor, doors=doors)),
            log_level="error",
            lifespan="off",
            ws="none",
            timeout_graceful_shutdown=1,
        )
    )
    thread = threading.Thread(target=server.run, kwargs={"sockets": [line]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    if proxy:
        proxy.stand_before(port)
    workshop = Served(floor, f"https://{NAME}:{proxy.port}" if proxy else f"http://{host}", chromium)
    try:
        yield workshop
    finally:
        workshop.close()
        server.should_exit = True
        thread.join(timeout=10)
        line.close()
