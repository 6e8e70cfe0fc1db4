"""The first three frames of the demo job with a few boards: planned in seconds."""

from pinchrod.job import Source
from pinchrod.store import JobFiles
from tests.web.serving import DEMO

FRAMES, BOARDS = 3, 14
SMALL = "range-wall"


def small_files(*, rack: bool = True) -> JobFiles:
    """The files of the small job."""
    words = (DEMO / "job.toml").read_text(encoding="utf-8")
    head, *frames = words.split("[[frame]]")
    said = "[[frame]]".join([head, *frames[:FRAMES]]).replace('frames = "boot-room.csv"\n', "")
    said = said.replace("Saltmarsh Row, plot 7", "Saltmarsh Row, range wall")
    boards = "".join((DEMO / "rack.csv").read_text(encoding="utf-8").splitlines(keepends=True)[: BOARDS + 1])
    joined = [Source(name="workshop.toml", content=(DEMO / "workshop.toml").read_bytes())]
    if rack:
        said = said.replace('# rack = "rack.csv"', 'rack = "rack.csv"')
        joined.append(Source(name="rack.csv", content=boards.encode()))
    return JobFiles(main=Source(name="job.toml", content=said.encode()), joined=tuple(joined))
