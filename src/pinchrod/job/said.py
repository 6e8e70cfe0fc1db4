"""What a file says, value by value, each with the place that says it; not yet understood."""

import re
from collections.abc import Generator, Mapping
from dataclasses import dataclass, replace
from datetime import date, time
from typing import TypeAlias, TypeVar

from pinchrod.ground import Problem, Where

T = TypeVar("T")
Reading = Generator[Problem, None, T]
"""A piece of reading: it yields every problem it meets and hands back what it read."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number as it was written, digit for digit; whether we can use it is seen later."""

    text: str


@dataclass(frozen=True, slots=True)
class Amiss:
    """A spreadsheet's cell that shows no value: why, and what would mend it."""

    code: str
    what: str
    mend: str


Value: TypeAlias = "str | Number | Amiss | bool | date | time | tuple[Said, ...] | Table"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One value as said. `at` is where it stands, `key_at` its name, `words_at` its first letter."""

    value: Value
    at: Where
    key_at: Where
    words_at: Where
    typed: str = ""  # as it stands in the file
    decimal_comma: bool = False

    @property
    def shown(self) -> str:
        """The value as its writer would know it: words without their quotes, all else as typed."""
        return self.value if isinstance(self.value, str) else self.typed

    def called(self, name: str) -> "Said":
        """The same, said of the thing of that name."""
        return replace(
            self,
            at=self.at.called(name),
            key_at=self.key_at.called(name),
            words_at=self.words_at.called(name),
        )


@dataclass(frozen=True, slots=True)
class Table:
    """Values by their names, in the order in which they were said."""

    said: Mapping[str, Said]
    without: frozenset[str] = frozenset()  # names that its list has no column for, told at the header

    def get(self, name: str) -> Said | None:
        """What was said under that name, if anything was."""
        return self.said.get(name)

    def table(self, name: str) -> "Table":
        """The table of that name; an empty one if there is none, or if something else stands there."""
        found = self.said.get(name)
        return found.value if found is not None and isinstance(found.value, Table) else NOTHING

    def called(self, name: str) -> "Table":
        """The same values, said of the thing of that name."""
        return Table({key: said.called(name) for key, said in self.said.items()}, self.without)


NOTHING = Table({})


def cell_said(value: Value, at: Where, typed: str) -> Said:
    """A cell of a list, whose name and words stand where it stands."""
    return Said(value=value, at=at, key_at=at, words_at=at, typed=typed)


def gathered(reading: Reading[T]) -> tuple[T, tuple[Problem, ...]]:
    """What was read, and every problem met on the way."""
    problems: list[Problem] = []
    while True:
        try:
            problems.append(next(reading))
        except StopIteration as end:
            return end.value, tuple(problems)


def in_file_order(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """The problems file by file as the files were read, in each from its first line to its last."""
    files = list(dict.fromkeys(problem.where.file for problem in problems))
    return tuple(
        sorted(problems, key=lambda problem: (files.index(problem.where.file), _place(problem.where)))
    )


def _place(where: Where) -> tuple[int, int]:
    """Line and column of a place, or a cell's row and column."""
    cell = re.search(r"([A-Z]+)([0-9]+)$", where.cell)
    if cell is None:
        return where.line, where.column
    return int(cell[2]), column_number(cell[1])


def column_number(letters: str) -> int:
    """A spreadsheet's column counted from 1: A is 1, Z is 26, AA is 27."""
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def column_letters(number: int) -> str:
    """A column counted from 1 as a spreadsheet names it: 27 is AA."""
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
