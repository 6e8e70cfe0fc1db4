"""The papers of an order, each under the name it has in the order's folder."""

from collections.abc import Iterator

from pinchrod.job import content_mark
from pinchrod.papers.buying.order_csv import order_csv
from pinchrod.papers.buying.order_page import order_page
from pinchrod.papers.buying.ordered import Ordered
from pinchrod.papers.buying.sure_page import sure_page
from pinchrod.papers.data.buying_json import buying_json
from pinchrod.papers.marks.sheet import Papers
from pinchrod.papers.pack import Paper
from pinchrod.papers.pages.identity import about
from pinchrod.papers.pages.page import Content, bind
from pinchrod.papers.writers.pdf import write_pdf

ORDER_NAMES = ("order.pdf", "order.csv", "how-sure.pdf", "buying.json")


def order_papers(ordered: Ordered) -> Iterator[Paper]:
    """The sheet to send, the pages on how sure it is, the list, and all of it for machines.

    What the merchant gets is a file of its own: he need not know how sure we are, nor what else was weighed.
    """
    job = ordered.job
    if ordered.bought.amounts:
        yield Paper(name="order.pdf", content=_printed(ordered, "Order", order_page(ordered)))
        yield Paper(name="order.csv", content=order_csv(ordered))
    yield Paper(name="how-sure.pdf", content=_printed(ordered, "How sure the order is", sure_page(ordered)))
    content = buying_json(job.fingerprint, ordered.asked.confidence, ordered.bought)
    yield Paper(name="buying.json", content=content)


def _printed(ordered: Ordered, title: str, contents: tuple[Content, ...]) -> bytes:
    job = ordered.job
    papers = Papers(
        title=f"{title}: {job.name}",
        subject=f"Content mark {content_mark(job.fingerprint)}",
        author=job.issue.owner,
        date=job.issue.date,
        sheets=bind(contents, about(job, ordered.shop)),
    )
    return write_pdf(papers)
