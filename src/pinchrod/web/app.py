"""The pages as one web application: an address leads to a function, its answer becomes bytes."""

from collections.abc import AsyncIterator, Awaitable, Callable, Iterable, Sequence
from contextlib import aclosing
from dataclasses import dataclass, field

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Mount
from starlette.routing import Route as Address
from starlette.staticfiles import StaticFiles

from pinchrod.ground import NotYetRight
from pinchrod.web.answers import Answer
from pinchrod.web.floor import Floor
from pinchrod.web.guard import Doors, Guard, TooMuch
from pinchrod.web.own_faults import log_fault, log_refused
from pinchrod.web.pace import Pace
from pinchrod.web.replies import NOT_KEPT, reply
from pinchrod.web.roles import WORKSHOP, Role
from pinchrod.web.routes import Route
from pinchrod.web.subjects import ROUTES
from pinchrod.web.templates import STATIC
from pinchrod.web.trouble import fault_page, not_taken, not_yours, trouble_page
from pinchrod.web.visit import Visit, role_of
from pinchrod.web.visits import device_at, visit_of

STREAM = "text/event-stream"


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The floor, and under which names its pages are served."""

    floor: Floor
    doors: Doors
    pace: Pace = field(default_factory=Pace)


def app_of(site: Site, routes: Sequence[Route] = ROUTES) -> Starlette:
    """The application: every route, the live feed, what pages are made with, and the guard before it."""
    return Starlette(
        routes=[
            *_addresses(site, routes),
            Address("/live", _live(site)),
            Address("/health", _health),
            Mount("/static", StaticFiles(directory=STATIC)),
        ],
        middleware=[Middleware(Guard, doors=site.doors)],
        exception_handlers={HTTPException: _not_there(site)},
    )


def _addresses(site: Site, routes: Iterable[Route]) -> Iterable[Address]:
    for route in routes:
        yield Address(route.path, _endpoint(site, route), methods=[route.method])


def _endpoint(site: Site, route: Route) -> Callable[[Request], Awaitable[Response]]:
    async def answer(request: Request) -> Response:
        visit = await visit_of(request, site.floor, site.pace)
        if visit.role not in route.may:
            return _refused(route.path, visit)
        return await run_in_threadpool(_answered, route, visit)

    return answer


def _refused(place: str, visit: Visit) -> Response:
    """A stranger is only shown the door; that a device went where it may not is noted."""
    if visit.device is not None:
        log_refused(f"to {visit.device.id}, a {visit.role}", place, visit.asks_from)
    return reply(not_yours(visit), visit)


def _answered(route: Route, visit: Visit) -> Response:
    """What the route's function answers, as bytes; whatever goes wrong is told in words and never in code."""
    try:
        return reply(_done(route, visit), visit)
    except (TooMuch, TimeoutError):
        raise
    except Exception:  # noqa: BLE001 -- the edge: told plainly, kept in the log, nothing shown of it
        return reply(fault_page(visit, log_fault(route.path)), visit)


def _done(route: Route, visit: Visit) -> Answer:
    try:
        return route.does(visit)
    except NotYetRight as trouble:
        return trouble_page(visit, trouble.problems)


def _live(site: Site) -> Callable[[Request], Awaitable[Response]]:
    async def stream(request: Request) -> Response:
        visit = await visit_of(request, site.floor, site.pace)
        if visit.role not in WORKSHOP:
            return reply(not_yours(visit), visit)
        if request.method == "HEAD":
            return Response(media_type=STREAM, headers=NOT_KEPT)
        return StreamingResponse(_while_let_in(site, request), media_type=STREAM, headers=NOT_KEPT)

    return stream


async def _while_let_in(site: Site, request: Request) -> AsyncIterator[str]:
    """The news, until the device that hears them is sent away."""
    async with aclosing(site.floor.feed.changes()) as news:
        async for line in news:
            if role_of(await device_at(request, site.floor)) not in WORKSHOP:
                return
            yield line


async def _health(_request: Request) -> Response:
    return Response("well\n", media_type="text/plain", headers=NOT_KEPT)


def _not_there(site: Site) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, trouble: Exception) -> Response:
        status = trouble.status_code if isinstance(trouble, HTTPException) else 404
        visit = await visit_of(_without_body(request), site.floor, site.pace)
        return reply(not_taken(visit, status), visit)

    return answer


def _without_body(request: Request) -> Request:
    return Request({**request.scope, "method": "GET"})


__all__ = ["Role", "Site", "app_of"]
