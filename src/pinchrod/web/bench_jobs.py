"""The jobs that a bench page is of."""

from collections.abc import Iterator, Mapping

from pinchrod.ground import NotYetRight
from pinchrod.store import Standing, jobs
from pinchrod.web.floor import Floor
from pinchrod.web.known import Known


def jobs_at_hand(floor: Floor, job: str = "") -> Iterator[tuple[Known, Mapping[str, Standing]]]:
    """One job or all, each with how its pieces stand; one that cannot be set out any more is passed over."""
    if job:
        yield floor.job(job), floor.standings.of(job)
        return
    for revision in jobs(floor.store):
        try:
            known = floor.job(revision.job)
        except NotYetRight:
            continue
        yield known, floor.standings.of(revision.job)
