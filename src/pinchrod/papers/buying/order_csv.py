"""The order as a list, for a letter or the office."""

import csv
import io

from pinchrod.ground import Mm, spell
from pinchrod.papers.buying.ordered import Ordered

HEAD = (
    "offer",
    "timber",
    "thickness",
    "least width",
    "most width",
    "least length",
    "most length",
    "quantity",
    "per",
    "boards",
    "cost",
)


def order_csv(ordered: Ordered) -> bytes:
    """The order as the bytes of a CSV file (RFC 4180); boards and cost are expected ones."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEAD)
    for offer, amount in ordered.lines:
        sizes = (offer.thickness, offer.width.low, offer.width.high, offer.length.low, offer.length.high)
        told = (_number(amount.quantity), offer.per.value, _number(amount.boards), _number(amount.cost))
        writer.writerow((offer.name, ordered.job.timber.name, *map(_number, sizes), *told))
    return text.getvalue().encode()


def _number(size: Mm) -> str:
    return spell(size).removesuffix(" mm")
