"""The cells of a text list, each with its line and column.

The standard library's reader tells no columns, so the cells are found here; a test holds the two
against each other on any text.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell as it lies in the text: where it begins, from 1, what it says, and how many letters it takes."""

    line: int
    column: int
    words: str
    quoted: bool
    closed: bool = True
    length: int = 0  # its quotation marks counted in


def cells_of(text: str, separator: str) -> Iterator[list[Cell]]:
    """The cells row by row; rows with nothing but separators are passed over."""
    form = re.compile(
        rf'"(?P<inside>(?:[^"]|"")*+)(?P<close>"?)(?P<after>[^{separator}\n]*+)|[^{separator}\n]*+'
    )
    blank = re.compile(rf"(?:[ {separator}]*+\n)++")
    walk = _Walk(text)
    while walk.at < len(text):
        walk.over(blank.match(text, walk.at))
        cells = [_cell(walk, form)]
        while text[walk.at : walk.at + 1] == separator:
            walk.at += 1
            cells.append(_cell(walk, form))
        walk.over(re.compile("\n?").match(text, walk.at))
        yield cells


class _Walk:
    """How far a text has been walked through, and the line that has been reached."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.line_start = 0

    def over(self, found: re.Match[str] | None) -> None:
        """Walk over what was found there, counting the lines that end in it."""
        if found is None:
            return
        breaks = found[0].count("\n")
        if breaks:
            self.line += breaks
            self.line_start = found.start() + found[0].rfind("\n") + 1
        self.at = found.end()


def _cell(walk: _Walk, form: re.Pattern[str]) -> Cell:
    """The cell that begins where the walk has come to; the walk goes on to its end."""
    line, column = walk.line, walk.at - walk.line_start + 1
    found = form.match(walk.text, walk.at)
    assert found is not None  # noqa: S101 - an empty cell fits, too
    walk.over(found)
    if found["inside"] is None:
        return Cell(line, column, found[0], quoted=False, length=len(found[0]))
    words = found["inside"].replace('""', '"') + found["after"]
    return Cell(line, column, words, quoted=True, closed=bool(found["close"]), length=len(found[0]))
