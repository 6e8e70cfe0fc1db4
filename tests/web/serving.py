"""A workshop's pages on trial: a store in a folder, our demo job in it, and browsers without a screen."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from secrets import token_hex

from starlette.testclient import TestClient

import pinchrod.cli
from pinchrod.job import Source
from pinchrod.store import By, Folder, JobFiles, Saving, enrol, open_store, save
from pinchrod.web import Doors, Floor, Role, Site, app_of
from pinchrod.web.letting_in import mark_of_secret

HOST = "127.0.0.1:8737"
HERE = f"http://{HOST}"
DEMO = Path(pinchrod.cli.__file__).parent / "saltmarsh_row"
JOB = "saltmarsh-row"


@contextmanager
def a_floor(folder: Path) -> Iterator[Floor]:
    """A floor with an empty store."""
    place = Folder(folder / "data")
    with open_store(place) as store:
        floor = Floor(store, place.backups)
        yield floor
        floor.planner.close()


def demo_files(*, rack: bool = False) -> JobFiles:
    """The demo job's files; with its rack if that is asked for."""
    words = (DEMO / "job.toml").read_text()
    main = words.replace('# rack = "rack.csv"', 'rack = "rack.csv"') if rack else words
    names = ("boot-room.csv", "workshop.toml", *(["rack.csv"] if rack else []))
    joined = tuple(Source(name=name, content=(DEMO / name).read_bytes()) for name in names)
    return JobFiles(main=Source(name="job.toml", content=main.encode()), joined=joined)


def keep(floor: Floor, files: JobFiles, *, job: str = JOB, after: int = 0) -> None:
    """Save a job."""
    by = By(person="Office", device="Office")
    save(floor.store, Saving(key=token_hex(8), by=by, job=job, after=after, files=files))


def browser(floor: Floor, role: Role = Role.OFFICE, name: str = "") -> TestClient:
    """A browser that was let in, and sends what browsers send."""
    client = TestClient(
        app_of(Site(floor=floor, doors=Doors(hosts=frozenset({HOST})))),
        base_url=HERE,
        headers={"Origin": HERE, "Sec-Fetch-Site": "same-origin"},
        follow_redirects=True,
    )
    if role is not Role.NOBODY:
        secret = token_hex(16)
        called = name or f"{role} {token_hex(6)}"
        enrol(
            floor.store,
            name=called,
            role=str(role),
            token_mark=mark_of_secret(secret),
            by=By(person=called, device=called),
            key=token_hex(8),
        )
        client.cookies.set("pinchrod", secret)
    return client
