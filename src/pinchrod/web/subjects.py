"""Every address there is, subject by subject."""

from pinchrod.web import entry, help, jobs, looks, tablets  # noqa: A004 -- the trade's plain word
from pinchrod.web.routes import Route

ROUTES: tuple[Route, ...] = (
    *entry.ROUTES,
    *looks.ROUTES,
    *tablets.ROUTES,
    *jobs.ROUTES,
    *help.ROUTES,
)
