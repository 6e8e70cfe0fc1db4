"""What the header of one column means: a name that is read, perhaps with a unit that should not be there."""

import re
from dataclasses import dataclass

from pinchrod.ground import Problem, quoted
from pinchrod.job.found import UNITS
from pinchrod.job.frames import FRAME_KEYS
from pinchrod.job.limits import FRAME_SIZES, MOST_NAME
from pinchrod.job.names import plain
from pinchrod.job.said import Said

BY_PLAIN = {plain(key): key for key in FRAME_KEYS}
UNIT_BEHIND = re.compile(
    rf"""(?P<name>.*?)[\s_(\[/,]++(?:in\s+)?(?P<unit>{UNITS}|["″”'′])[.)\]\s]*+""", re.IGNORECASE
)
MARKS = {"mm": "mm", "mi": "mm", "in": "in", '"': "in", "″": "in", "”": "in"}  # by how they begin


@dataclass(frozen=True, slots=True)
class WithUnit:
    """A size's name with a unit behind it: `width (mm)`."""

    key: str
    mark: str


def key_of(cell: Said | None) -> str | None:
    """The name a header means, if it is one that we read."""
    return BY_PLAIN.get(plain(str(cell.value))) if cell is not None else None


def with_unit(cell: Said | None) -> WithUnit | None:
    """The name and the unit of a header that has both."""
    words = str(cell.value) if cell is not None else ""
    found = UNIT_BEHIND.fullmatch(words) if len(words) <= MOST_NAME else None
    key = BY_PLAIN.get(plain(found["name"])) if found else None
    if found is None or key is None or key not in FRAME_SIZES:
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
