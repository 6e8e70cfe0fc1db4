"""What stands at the door: our own names as Host, our own pages as Origin, nothing too large or slow."""

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass

from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pinchrod.web.own_faults import log_fault, log_refused
from pinchrod.web.pace import TooOften

MOST_BODY = 11_000_000  # bytes: a list or a rack of 10 MB with what a form adds
SLOWEST = 30.0  # seconds that a body may take
SAFE = ("GET", "HEAD")
KINDS = ("application/x-www-form-urlencoded", "multipart/form-data", "application/json")

HEADERS = (
    (
        b"content-security-policy",
        b"default-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'",
    ),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """Our own names: `127.0.0.1:8737`; and `bench.example`, where a proxy with a certificate asks."""

    hosts: frozenset[str]
    covered: frozenset[str] = frozenset()

    @property
    def origins(self) -> frozenset[str]:
        """Where a change may come from: our own pages."""
        return frozenset(f"http://{host}" for host in self.hosts) | {
            f"https://{host}" for host in self.covered
        }

    def is_covered(self, host: str) -> bool:
        """Whether whoever asks under that name does so by HTTPS."""
        return host.lower() in self.covered - self.hosts


class TooMuch(Exception):
    """A request whose body is larger than any form of ours."""


class Guard:
    """Turns away what is not ours before anything is looked at, and puts our headers on every answer."""

    def __init__(self, app: ASGIApp, doors: Doors) -> None:
        """Stand before an app."""
        self.app = app
        self.doors = doors

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or answer it here."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        elif scope["type"] == "http":
            refused = why_refused(scope, self.doors)
            if refused:
                log_refused(f"with {refused[0]}", scope["path"], _asked_from(scope))
                await _answer(send, *refused)
            else:
                await self._let_in(scope, receive, send)
        elif scope["type"] == "websocket":  # there are none
            await receive()
            await send({"type": "websocket.close", "code": 1008})

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        begun = False
        covered = self.doors.is_covered(_the_one(scope, b"host"))

        async def ours(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                told = message.get("headers", [])
                message = {**message, "headers": [*(_covered(told) if covered else told), *HEADERS]}
            await send(message)

        try:
            await self.app(scope, _within_limits(receive), ours)
        except ClientDisconnect:
            return  # gone before all was sent: nobody is there to be answered, and it is no fault
        except Exception as trouble:  # the last resort: nothing is shown of what went wrong
            told = _told_of(trouble, scope["path"])
            if told[0] < 500 and not (isinstance(trouble, TooOften) and trouble.noted):
                log_refused(f"with {told[0]}", scope["path"], _asked_from(scope))
            if begun:
                raise
            await _answer(send, *told)


def _told_of(trouble: Exception, place: str) -> tuple[int, str]:
    """The status and the words for what no page has dealt with."""
    match trouble:
        case TooMuch():
            return 413, "The file or form is larger than 10 MB. Send a smaller one."
        case TooOften():
            return 429, "This device asks for more than the pages can bear. Wait a moment, then try again."
        case TimeoutError():
            return 408, "The form took longer than 30 seconds to arrive. Send it again."
    return 500, f"This did not work, and the fault is the program's: fault {log_fault(place)}."


def why_refused(scope: Scope, doors: Doors) -> tuple[int, str] | None:
    """Why a request is not let in: the status and the words; None if it may come in."""
    if _the_one(scope, b"host").lower() not in doors.hosts | doors.covered:
        return 421, "These pages are not served under that name. Use the address that pinchrod serve prints."
    if not scope["path"].isprintable():
        return 404, "Nothing is at this address."
    if scope["method"] not in (*SAFE, "POST"):
        return 405, "Pages are looked at and forms are sent; nothing else is done here."
    if scope["method"] == "POST":
        return _why_not_changed(scope, doors)
    return None


def _why_not_changed(scope: Scope, doors: Doors) -> tuple[int, str] | None:
    """A change comes from a page of ours: browsers say where from, and no other page can make them lie."""
    site = _all(scope, b"sec-fetch-site")
    from_ours = _the_one(scope, b"origin") in doors.origins
    if not from_ours or any(each not in (b"same-origin", b"none") for each in site):
        return (
            403,
            "A change can only come from one of these pages. Open the page again and send the form from it.",
        )
    kind = _the_one(scope, b"content-type").split(";")[0].strip().lower()
    if kind not in KINDS:
        return 415, "This is no form of these pages."
    return None


def _covered(headers: Iterable[tuple[bytes, bytes]]) -> list[tuple[bytes, bytes]]:
    """The same, each cookie kept for HTTPS alone."""
    return [(name, value + b"; Secure" if name == b"set-cookie" else value) for name, value in headers]


def _asked_from(scope: Scope) -> str:
    """The network's address of whoever asks: of the line itself, and not what a header says."""
    return str(scope["client"][0]) if scope.get("client") else "nowhere"


def _all(scope: Scope, name: bytes) -> list[bytes]:
    headers: Iterable[tuple[bytes, bytes]] = scope["headers"]
    return [value for key, value in headers if key.lower() == name]


def _the_one(scope: Scope, name: bytes) -> str:
    """A header that is there once; empty if it is not there, or more than once."""
    found = _all(scope, name)
    return found[0].decode("latin-1") if len(found) == 1 else ""


def _within_limits(receive: Receive) -> Receive:
    """The same, but a body that is too large or too slow is broken off."""
    come = 0
    whole = False
    until = asyncio.get_running_loop().time() + SLOWEST

    async def watched() -> Message:
        nonlocal come, whole
        if whole:
            return await receive()
        async with asyncio.timeout_at(until):
            message = await receive()
        come += len(message.get("body", b""))
        whole = not message.get("more_body", False)
        if come > MOST_BODY:
            raise TooMuch
        return message

    return watched


async def _answer(send: Send, status: int, words: str) -> None:
    headers = [(b"content-type", b"text/plain; charset=utf-8"), *HEADERS]
    if status == 405:
        headers.append((b"allow", b"GET, HEAD, POST"))
    if status == 429:
        headers.append((b"retry-after", b"5"))
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": words.encode()})
