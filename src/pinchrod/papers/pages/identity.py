"""What every paper says of itself, so that a stale one is noticed and each can be told from the rest."""

from dataclasses import dataclass

from pinchrod.job import Job, Shop, content_mark


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What stands in every title block of a job; empty where it is left to be written in by hand."""

    job: str
    customer: str
    owner: str
    number: str
    revision: str
    date: str
    drawn_by: str
    approved_by: str
    mark: str  # the content mark
    unit: str
    size: str  # of the paper: A4 | Letter


def about(job: Job, shop: Shop) -> About:
    """What the papers of a job say of themselves."""
    issue = job.issue
    return About(
        job=job.name,
        customer=job.customer,
        owner=issue.owner,
        number=issue.number,
        revision=issue.revision,
        date=issue.date.isoformat() if issue.date else "",
        drawn_by=issue.drawn_by,
        approved_by=issue.approved_by,
        mark=content_mark(job.fingerprint),
        unit="mm",
        size=shop.papers.size,
    )
