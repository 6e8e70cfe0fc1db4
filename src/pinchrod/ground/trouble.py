"""What is not right, said so that the joiner can mend it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """A place in what the joiner said: his own name for the thing, and the file that names it.

    `line` and `column` count from 1; 0 means the whole file. `cell` is a spreadsheet's
    own name for a place ("Frames!B3") and stands instead of line and column.
    """

    name: str = ""
    file: str = ""
    line: int = 0
    column: int = 0
    cell: str = ""

    def called(self, name: str) -> "Where":
        """The same place under another name."""
        return replace(self, name=name)

    def __str__(self) -> str:
        """The place as printed before a problem: `job.toml:12:9` or `frames.xlsx:Frames!B3`."""
        if self.cell:
            return f"{self.file}:{self.cell}"
        parts = [self.file, *(str(n) for n in (self.line, self.column) if n)]
        return ":".join(part for part in parts if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong or doubtful: where, what, and what would put it right."""

    where: Where
    code: str
    what: str
    mend: str
    stops: bool = True

    def __str__(self) -> str:
        """`file:line:column: name: what; mend`, with what is not known left out."""
        parts = [str(self.where), self.where.name, f"{self.what}; {self.mend}"]
        return ": ".join(part for part in parts if part)


class NotYetRight(Exception):
    """The work cannot go on until what is listed here is mended."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Hold every problem found, doubts with them, in the order they were found."""
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def doubts_of(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems, if they only cast doubt; otherwise NotYetRight is raised with all of them."""
    found = tuple(problems)
    if any(problem.stops for problem in found):
        raise NotYetRight(found)
    return found


def must_be_right(what: str, flaws: Iterable[str]) -> None:
    """RuntimeError, a fault of ours, if a judge finds any flaw: nothing is made of what he has not passed.

    `what` goes on in `not right`: "the set-ups are".
    """
    found = "; ".join(flaws)
    if found:
        raise RuntimeError(f"{what} not right: {found}")
