"""What a tablet shows by itself while the server is not heard: where browsers allow it, on a safe line."""

import json
from dataclasses import dataclass, field
from functools import cache
from hashlib import sha256

from pinchrod import VERSION
from pinchrod.web.answers import Answer, Page, Sent
from pinchrod.web.bench_pages import Box
from pinchrod.web.roles import ANYBODY
from pinchrod.web.routes import Route
from pinchrod.web.templates import TEMPLATES, address_of, environment
from pinchrod.web.visit import Visit

PAGE = "/alone"
FILES = ("style.css", "icon.svg", "scan.js", "alone.js")
MADE_OF = ("alone/alone.html", "alone/worker.js", "bench/box.html", "bench/band.html")
PAPER, INK = "#fbfaf6", "#1c2023"


@dataclass(frozen=True, slots=True, kw_only=True)
class AlonePage:
    """The field to scan into, and nothing of any job."""

    box: Box = field(default_factory=Box)


def look(_visit: Visit) -> Answer:
    """The page that a tablet keeps: the same for all."""
    return Page(template="alone/alone.html", page=AlonePage())


def worker(_visit: Visit) -> Answer:
    """The script that keeps that page and shows it: browsers ask for it anew with every page."""
    return Sent(content=_script(), media="text/javascript")


@cache
def _script() -> bytes:
    """The script, which changes when anything that it keeps does: none of that while the server runs."""
    template = environment().get_template("alone/worker.js")
    kept = [PAGE, *map(address_of, FILES)]
    made_of = [(TEMPLATES / name).read_text(encoding="utf-8") for name in MADE_OF]
    mark = sha256("\n".join([VERSION, *kept, *made_of]).encode()).hexdigest()[:12]
    return template.render(box=f"pinchrod-{mark}", kept=kept, page=PAGE).encode()


def manifest(_visit: Visit) -> Answer:
    """What a browser asks before it offers to keep the pages as a program (W3C Web Application Manifest)."""
    said = {
        "name": "pinchrod",
        "short_name": "pinchrod",
        "id": "/bench",
        "start_url": "/bench",
        "scope": "/",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": INK,
        "icons": [{"src": address_of("icon.svg"), "sizes": "any", "type": "image/svg+xml"}],
    }
    return Sent(content=json.dumps(said).encode(), media="application/manifest+json")


ROUTES = (
    Route(path=PAGE, does=look, may=ANYBODY),
    Route(path="/worker.js", does=worker, may=ANYBODY),
    Route(path="/pinchrod.webmanifest", does=manifest, may=ANYBODY),
)
