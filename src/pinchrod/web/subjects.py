"""Every address there is, subject by subject."""

from pinchrod.web import entry, frames, help, jobs, looks, machines, tablets, timber, words  # noqa: A004 -- the trade's plain word
from pinchrod.web.routes import Route

ROUTES: tuple[Route, ...] = (
    *entry.ROUTES,
    *looks.ROUTES,
    *tablets.ROUTES,
    *jobs.ROUTES,
    *frames.ROUTES,
    *words.ROUTES,
    *timber.ROUTES,
    *machines.ROUTES,
    *help.ROUTES,
)
