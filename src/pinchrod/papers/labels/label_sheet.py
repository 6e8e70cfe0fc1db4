"""A sheet of labels by its numbers: whether they can be read, and where each lies.

That the labels lie on the page and not on each other is seen to where the workshop file is read.
"""

from collections.abc import Iterator

from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.job import LabelSheet
from pinchrod.papers.marks.boxes import Box

LEAST_WIDTH, LEAST_HEIGHT = Mm(60), Mm(33)
"""A smaller label has no room for a mark and a size beside a code. Our own measure."""


def label_faults(labels: LabelSheet) -> Iterator[Problem]:
    """What keeps labels of this size from being read."""
    if labels.width < LEAST_WIDTH or labels.height < LEAST_HEIGHT:
        yield Problem(
            where=Where(name="label sheet"),
            code="label-small",
            what=f"a label of {show(labels.width)} x {show(labels.height)} is too small to be read",
            mend=f"take labels of {show(LEAST_WIDTH)} x {show(LEAST_HEIGHT)} or larger",
        )


def label_places(labels: LabelSheet) -> tuple[Box, ...]:
    """Where the labels of a sheet lie, row by row from the top, each row from the left."""
    return tuple(
        _place(labels, row, column) for row in range(labels.rows) for column in range(labels.columns)
    )


def _place(labels: LabelSheet, row: int, column: int) -> Box:
    left = labels.left + column * labels.column_pitch
    top = labels.page_height - labels.top - row * labels.row_pitch
    return Box(float(left), float(top - labels.height), float(left + labels.width), float(top))
