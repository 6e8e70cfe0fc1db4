"""A sheet of labels by its numbers: whether they fit together, and where each label lies."""

from collections.abc import Iterator

from pinchrod.ground import Mm, Problem, Where, show
from pinchrod.job import LabelSheet
from pinchrod.papers.boxes import Box

LEAST_WIDTH, LEAST_HEIGHT = Mm(60), Mm(33)
"""A smaller label has no room for a mark and a size 5 mm high beside a code. Our own measure."""
WHERE = Where(name="label sheet")


def label_faults(labels: LabelSheet) -> Iterator[Problem]:
    """What is wrong with the numbers of a label sheet: labels off the page, on each other, too small."""
    yield from _direction(
        ("rows", labels.rows),
        ("top", labels.top),
        ("row_pitch", labels.row_pitch),
        ("height", labels.height),
        ("page_height", labels.page_height),
    )
    yield from _direction(
        ("columns", labels.columns),
        ("left", labels.left),
        ("column_pitch", labels.column_pitch),
        ("width", labels.width),
        ("page_width", labels.page_width),
    )
    if labels.width < LEAST_WIDTH or labels.height < LEAST_HEIGHT:
        yield Problem(
            where=WHERE,
            code="label-small",
            what=f"a label of {show(labels.width)} x {show(labels.height)} is too small to be read",
            mend=f"take labels of {show(LEAST_WIDTH)} x {show(LEAST_HEIGHT)} or larger",
        )
    number = labels.columns * labels.rows
    if number > 0 and not 1 <= labels.first <= number:
        yield Problem(
            where=WHERE,
            code="label-first",
            what=f"first is {labels.first}, but a sheet has {number} labels",
            mend=f"give first a number from 1 to {number}",
        )


def _direction(
    count: tuple[str, int],
    start: tuple[str, Mm],
    pitch: tuple[str, Mm],
    size: tuple[str, Mm],
    page: tuple[str, Mm],
) -> Iterator[Problem]:
    """What is wrong across the sheet, or down it."""
    if count[1] < 1:
        what, mend = f"{count[0]} is {count[1]}", f"give {count[0]} the number of labels there are, 1 or more"
        yield Problem(where=WHERE, code="label-count", what=what, mend=mend)
        return
    if count[1] > 1 and pitch[1] < size[1]:
        yield Problem(
            where=WHERE,
            code="labels-overlap",
            what=f"{pitch[0]} is {show(pitch[1])}, less than {size[0]}, {show(size[1])}: they would overlap",
            mend=f"measure {pitch[0]} from one label's edge to the same edge of the next",
        )
    end = start[1] + (count[1] - 1) * pitch[1] + size[1]
    if start[1] < 0 or end > page[1]:
        yield Problem(
            where=WHERE,
            code="labels-off-page",
            what=f"the labels lie from {show(start[1])} to {show(end)}, but {page[0]} is {show(page[1])}",
            mend=f"mend {start[0]}, {pitch[0]}, {size[0]}, {count[0]} or {page[0]}",
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
