"""Every address there is, subject by subject."""

from pinchrod.web import (
    alone,
    bench,
    copies,
    entry,
    frames,
    help,  # noqa: A004 -- the trade's plain word
    jobs,
    lengths,
    looks,
    machines,
    papers,
    scans,
    tablets,
    timber,
    words,
)
from pinchrod.web.routes import Route

ROUTES: tuple[Route, ...] = (
    *entry.ROUTES,
    *looks.ROUTES,
    *lengths.ROUTES,
    *tablets.ROUTES,
    *jobs.ROUTES,
    *copies.ROUTES,
    *frames.ROUTES,
    *words.ROUTES,
    *timber.ROUTES,
    *machines.ROUTES,
    *bench.ROUTES,
    *scans.ROUTES,
    *papers.ROUTES,
    *help.ROUTES,
    *alone.ROUTES,
)
