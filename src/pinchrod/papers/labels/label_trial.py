"""A test print of a label sheet: the frame and number of every label."""

from collections.abc import Iterator

from pinchrod.ground import show
from pinchrod.job import LabelSheet, Shop
from pinchrod.papers.labels.label_layout import INSET
from pinchrod.papers.labels.label_sheet import label_places
from pinchrod.papers.marks.boxes import Box
from pinchrod.papers.marks.sheet import HIDDEN, NARROW, Mark, Path, Sheet, Spot, Words

TITLE = "Labels: test print"
NUMBER = 10.0  # height of the numbers
SMALL = 2.5


def label_test_sheet(shop: Shop) -> Sheet:
    """A sheet with every label's frame and number, to hold against the real one before labels are printed."""
    places = label_places(shop.labels)
    marks = (
        mark for number, place in enumerate(places, start=1) for mark in _label(shop.labels, place, number)
    )
    return Sheet(
        width=float(shop.labels.page_width),
        height=float(shop.labels.page_height),
        marks=tuple(marks),
        title=TITLE,
    )


def _label(labels: LabelSheet, place: Box, number: int) -> Iterator[Mark]:
    inner = place.grown(-INSET)
    middle = (place.left + place.right) / 2
    words = "print at true size; hold against the light" if number == 1 else ""
    yield _frame(place)
    yield _frame(inner, dashed=True)
    yield Words(
        Spot(middle, (place.bottom + place.top - NUMBER) / 2), str(number), size=NUMBER, anchor="middle"
    )
    yield Words(
        Spot(middle, inner.bottom + 2),
        f"{show(labels.width)} × {show(labels.height)}",
        size=SMALL,
        anchor="middle",
    )
    yield Words(
        Spot(middle, inner.top - 2 - SMALL),
        words,
        size=SMALL,
        anchor="middle",
        max_width=inner.right - inner.left - 2,
    )


def _frame(box: Box, *, dashed: bool = False) -> Path:
    corners = (Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(box.right, box.top))
    return Path((*corners, Spot(box.left, box.top)), pen=HIDDEN if dashed else NARROW)
