"""A list as a grid: the rows of one sheet that hold anything, cell by cell."""

from dataclasses import dataclass

from pinchrod.ground import Problem, Where
from pinchrod.job.limits import MOST_ROWS
from pinchrod.job.said import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row; None is a blank cell."""

    number: int
    cells: tuple[Said | None, ...]

    @property
    def first(self) -> Said:
        """The first cell that holds anything."""
        return next(cell for cell in self.cells if cell is not None)

    @property
    def width(self) -> int:
        """How many columns the row reaches over, up to its last cell that holds anything."""
        return max(at for at, cell in enumerate(self.cells) if cell is not None) + 1

    def cell(self, column: int) -> Said | None:
        """The cell in that column, counted from 0; None if the row ends before it."""
        return self.cells[column] if column < len(self.cells) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A sheet's rows, without those that are blank. `padded`: a row need not reach as far as the header."""

    rows: tuple[Row, ...]
    padded: bool = False


def too_many_rows(where: Where) -> Problem:
    """What is said of a list that is longer than any that is needed."""
    what = f"the list has more than {MOST_ROWS} rows that hold anything"
    return Problem(where=where, code="rows-many", what=what, mend="take out what does not belong to the list")


def too_many_cells(where: Where, most: int) -> Problem:
    """What is said of a list with more cells than any list needs."""
    what = f"the list has more than {most} cells"
    return Problem(
        where=where, code="cells-many", what=what, mend="take out what does not belong to the list"
    )
