"""Knocking at the door as no browser would: any header, any piece of a body, at any pace."""

import asyncio
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from urllib.parse import unquote

from starlette.applications import Starlette
from starlette.types import Message, Scope

from pinchrod.store import By, enrol
from pinchrod.web import ROUTES, Doors, Floor, Role, Route, Site, app_of
from pinchrod.web.letting_in import mark_of_secret, new_secret
from tests.web.serving import HERE, HOST, JOB

Headers = Sequence[tuple[str, str]]
FORM = ("Content-Type", "application/x-www-form-urlencoded")
OUR_PAGE: Headers = (("Host", HOST), ("Origin", HERE), ("Sec-Fetch-Site", "same-origin"), FORM)

PLACES = {
    "job": JOB,
    "frame": "K1",
    "mark": "K1-LS",
    "piece": "K1-LS",
    "paper": "pack.pdf",
    "board": "B1",
    "width": "45",
}
"""What an address may name, and one there is of each in the demo job; all else is numbered from 1."""


@dataclass(frozen=True, slots=True)
class Answered:
    """What came back."""

    status: int
    headers: tuple[tuple[str, str], ...]
    body: bytes
    ended: bool = True  # of itself, and soon

    def header(self, name: str) -> str:
        """A header that was sent once; empty if it was not."""
        found = [value for key, value in self.headers if key == name]
        assert len(found) <= 1, f"{name} was sent {len(found)} times"
        return found[0] if found else ""


def app_on(floor: Floor, routes: Sequence[Route] = ROUTES, *, covered: str = "") -> Starlette:
    """The pages of a floor, and by a proxy with a certificate under a name of its own."""
    doors = Doors(hosts=frozenset({HOST}), covered=frozenset({covered} - {""}))
    return app_of(Site(floor=floor, doors=doors), routes)


def knock(
    app: Starlette,
    method: str = "GET",
    address: str = "/",
    headers: Headers = (("Host", HOST),),
    body: Sequence[bytes] = (b"",),
    *,
    pause: float = 0.0,
    at_most: int = 20,
) -> Answered:
    """The answer to exactly these headers and pieces of a body; of an endless one its first pieces."""
    return asyncio.run(_knocked(app, _scope(method, address, headers), body, pause, at_most))


async def _knocked(
    app: Starlette, scope: Scope, body: Sequence[bytes], pause: float, at_most: int
) -> Answered:
    pieces = list(body)
    come: list[Message] = []
    enough = asyncio.Event()

    async def receive() -> Message:
        if not pieces:
            await enough.wait()
            return {"type": "http.disconnect"}
        await asyncio.sleep(pause)
        piece = pieces.pop(0)
        return {"type": "http.request", "body": piece, "more_body": bool(pieces)}

    async def send(message: Message) -> None:
        come.append(message)
        if len(come) > at_most:
            enough.set()

    task = asyncio.create_task(_to_the_end(app, scope, receive, send))
    await asyncio.wait({task, asyncio.create_task(enough.wait())}, return_when="FIRST_COMPLETED", timeout=3)
    ended = task.done()
    enough.set()
    if not ended:
        task.cancel()
    await asyncio.wait({task}, timeout=5)
    return replace(_answered(come), ended=ended)


async def _to_the_end(app, scope, receive, send) -> None:
    await app(scope, receive, send)


def _answered(come: Sequence[Message]) -> Answered:
    assert come, "no answer came"
    start = come[0]
    headers = tuple(
        (name.decode("latin-1").lower(), value.decode("latin-1")) for name, value in start["headers"]
    )
    return Answered(start["status"], headers, b"".join(each.get("body", b"") for each in come[1:]))


def _scope(method: str, address: str, headers: Iterable[tuple[str, str]]) -> Scope:
    path, _, query = address.partition("?")
    return {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": unquote(path),
        "raw_path": path.encode(),
        "query_string": query.encode(),
        "root_path": "",
        "headers": [(name.lower().encode("latin-1"), value.encode("latin-1")) for name, value in headers],
        "client": ("127.0.0.1", 50_000),
        "server": ("127.0.0.1", 8737),
    }


def let_in(floor: Floor, role: Role) -> Headers:
    """The cookie of a device that was let in; none for a stranger."""
    if role is Role.NOBODY:
        return ()
    secret = new_secret()
    name = f"{role} {secret[:6]}"
    by = By(person=name, device=name)
    enrol(floor.store, name=name, role=str(role), token_mark=mark_of_secret(secret), by=by, key=secret[:20])
    return (("Cookie", f"pinchrod={secret}"),)


def address_of(route: Route, there: Mapping[str, str] = PLACES) -> str:
    """The route's address, with something there is of the demo job in it."""
    return re.sub(r"\{(\w+)(:\w+)?\}", lambda found: there.get(found[1], "1"), route.path)


def digest_of(floor: Floor) -> str:
    """The mark of everything that the store holds: it differs as soon as one value does."""
    with floor.store.reading() as base:
        tables = [
            str(name)
            for [name] in base.rows("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
        ]
        held = [(table, sorted(map(repr, base.rows(f"SELECT * FROM {table}")))) for table in tables]
    return sha256(repr(held).encode()).hexdigest()
