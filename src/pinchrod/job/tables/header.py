"""What a list is of, and what a header means: perhaps a name with a unit that should not be there."""

import re
from dataclasses import dataclass

from pinchrod.ground import Problem, quoted
from pinchrod.job.found import UNITS
from pinchrod.job.limits import MOST_NAME
from pinchrod.job.names import plain
from pinchrod.job.said import Said

UNIT_BEHIND = re.compile(
    rf"""(?P<name>.*?)[\s_(\[/,]++(?:in\s+)?(?P<unit>{UNITS}|["″”'′])[.)\]\s]*+""", re.IGNORECASE
)
MARKS = {"mm": "mm", "mi": "mm", "in": "in", '"': "in", "″": "in", "”": "in"}  # by how they begin


@dataclass(frozen=True, slots=True, kw_only=True)
class Sort:
    """What a list is of, and the names its columns may have."""

    one: str  # "frame"
    keys: tuple[str, ...]
    needed: tuple[str, ...]
    words: tuple[str, ...]  # columns in which a number counts as it is shown
    lengths: tuple[str, ...]
    code: str  # of the problem that the list holds none
    filled: tuple[str, ...] = ()  # columns that, all filled, make a row one of these and no total

    def key(self, cell: Said | None) -> str | None:
        """The name a header means, if it is one that we read."""
        return self.named(str(cell.value)) if cell is not None else None

    def named(self, words: str) -> str | None:
        """The name that words mean, if it is one that we read."""
        return next((key for key in self.keys if plain(key) == plain(words)), None)


@dataclass(frozen=True, slots=True)
class WithUnit:
    """A size's name with a unit behind it: `width (mm)`."""

    key: str
    mark: str


def with_unit(cell: Said | None, sort: Sort) -> WithUnit | None:
    """The name and the unit of a header that has both."""
    words = str(cell.value) if cell is not None else ""
    found = UNIT_BEHIND.fullmatch(words) if len(words) <= MOST_NAME else None
    key = sort.named(found["name"]) if found else None
    if found is None or key is None or key not in sort.lengths:
        return None
    mark = found["unit"].lower()
    return WithUnit(key, MARKS.get(mark[:2], mark))


def told_of_unit(cell: Said, said: WithUnit) -> Problem:
    """What is said of a unit in a header, which says nothing of the cells below it."""
    what = f"the column named {quoted(str(cell.value))} has a unit in its name, where none is read"
    mend = f"name the column {said.key}: what has no unit is read as mm"
    if said.mark != "mm":
        unit = "the inch mark" if said.mark == "in" else "the unit"
        mend = f"write {unit} into every cell, as 24 {said.mark}, and then name the column {said.key}"
    return Problem(where=cell.at, code="header-unit", what=what, mend=mend)
