"""Small jobs said in a few lines, for the pages Jobs, Frames and Words."""

import re
from html import unescape

from httpx2 import Response
from starlette.testclient import TestClient

from pinchrod.job import Source
from pinchrod.store import JobFiles
from pinchrod.web import Floor
from tests.web.serving import keep

LARDER = "larder"
HEAD = 'pinchrod = 1\n\n[job]\nname = "Larder"\ncustomer = "Demonstration"\n'
FRAMES = """
[[frame]]
id = "L1"
width = 600
height = 720
layout = "drawer 140 over pair"  # the drawer for cutlery

[[frame]]
id = "L2"
width = "23 5/8 in"
height = 720
layout = "3 drawers"
quantity = 2
"""
KEY = re.compile(r'name="key" value="([^"]+)"')


def larder(head: str = HEAD, frames: str = FRAMES) -> JobFiles:
    """Two frames in one job file."""
    return JobFiles(main=Source(name="job.toml", content=f"{head}{frames}".encode()))


def with_list() -> JobFiles:
    """A job file that joins a list of frames."""
    said = HEAD + 'frames = "more.csv"\n' + FRAMES
    rows = b"id,width,height,layout\nM1,400,720,door left\n"
    joined = (Source(name="more.csv", content=rows),)
    return JobFiles(main=Source(name="job.toml", content=said.encode()), joined=joined)


def keep_larder(floor: Floor, files: JobFiles | None = None, *, after: int = 0) -> None:
    """Save it."""
    keep(floor, files or larder(), job=LARDER, after=after)


def frame_words(**words: str) -> dict[str, str]:
    """What the fields of L1 say, but for what is said otherwise."""
    return {
        "id": "L1",
        "width": "600",
        "height": "720",
        "layout": "drawer 140 over pair",
        "revision": "1",
        **words,
    }


def words_in(answer: Response) -> str:
    """The page as text, without its tags."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", answer.text)).split())


def told_in(answer: Response) -> str:
    """What the page says was done."""
    found = re.search(r'<div class="told".*?</div>', answer.text, re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", found[0])).split()) if found else ""


def undo(client: TestClient, answer: Response) -> Response:
    """Press the button that takes back what was just done."""
    found = re.search(r'<form method="post" action="([^"]*/back/[^"]*)"[^>]*>.*?value="([^"]+)"', answer.text)
    assert found, "nothing on the page takes it back"
    return client.post(unescape(found[1]), data={"key": found[2]})


def value_of(answer: Response, field: str) -> str:
    """What stands in a field of the page."""
    found = re.search(rf'<input id="{field}" name="{field}" value="([^"]*)"', answer.text)
    assert found, f"no field {field}"
    return unescape(found[1])
