"""The pages as one web application: an address leads to a function, its answer becomes bytes."""

import logging
import traceback
from collections.abc import Awaitable, Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from secrets import token_hex

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
from pinchrod.web.answers import Answer, Page
from pinchrod.web.floor import Floor
from pinchrod.web.guard import Doors, Guard, TooMuch
from pinchrod.web.replies import reply
from pinchrod.web.roles import WORKSHOP, Role
from pinchrod.web.routes import Route
from pinchrod.web.subjects import ROUTES
from pinchrod.web.templates import STATIC
from pinchrod.web.trouble import fault_page, missing_page, not_yours, trouble_page
from pinchrod.web.visit import Visit
from pinchrod.web.visits import visit_of

LOG = logging.getLogger("pinchrod.web")


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The floor, and under which names its pages are served."""

    floor: Floor
    doors: Doors


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
        visit = await visit_of(request, site.floor)
        if visit.role not in route.may:
            return reply(not_yours(visit), visit)
        return await run_in_threadpool(_answered, route, visit)

    return answer


def _answered(route: Route, visit: Visit) -> Response:
    """What the route's function answers, as bytes; whatever goes wrong is told in words and never in code."""
    try:
        return reply(_done(route, visit), visit)
    except (TooMuch, TimeoutError):
        raise
    except Exception:  # noqa: BLE001 -- the edge: told plainly, kept in the log, nothing shown of it
        number = token_hex(4)
        LOG.error("fault %s at %s\n%s", number, route.path, _on_one_line(traceback.format_exc()))
        return reply(fault_page(visit, number), visit)


def _done(route: Route, visit: Visit) -> Answer:
    try:
        return route.does(visit)
    except NotYetRight as trouble:
        return trouble_page(visit, trouble.problems)


def _on_one_line(told: str) -> str:
    """What is written in a log can forge no other line of it."""
    return "\n".join(f"    {line.encode('unicode_escape').decode()}" for line in told.splitlines())


def _live(site: Site) -> Callable[[Request], Awaitable[Response]]:
    async def stream(request: Request) -> Response:
        visit = await visit_of(request, site.floor)
        if visit.role not in WORKSHOP:
            return reply(not_yours(visit), visit)
        changes = site.floor.feed.changes()
        return StreamingResponse(
            changes, media_type="text/event-stream", headers={"Cache-Control": "no-store"}
        )

    return stream


async def _health(_request: Request) -> Response:
    return Response("well\n", media_type="text/plain", headers={"Cache-Control": "no-store"})


def _not_there(site: Site) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, trouble: Exception) -> Response:
        status = trouble.status_code if isinstance(trouble, HTTPException) else 404
        visit = await visit_of(replace_body(request), site.floor)
        page = missing_page(visit)
        return reply(replace(page, status=status) if isinstance(page, Page) else page, visit)

    return answer


def replace_body(request: Request) -> Request:
    """The request without its body, which nobody reads any more."""
    return Request({**request.scope, "method": "GET"})


__all__ = ["Role", "Site", "app_of"]
