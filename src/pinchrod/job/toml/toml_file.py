"""A TOML file as said: every value with its place, numbers digit for digit."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from datetime import date, time
from typing import Any

from pinchrod.ground import Problem, Where
from pinchrod.job.limits import MOST_DIGITS, MOST_LINES, MOST_NESTING
from pinchrod.job.said import Number, Reading, Said, Table, Value
from pinchrod.job.source import Source
from pinchrod.job.toml.positions import Path, Spot, Spots, spots_of
from pinchrod.job.toml.toml_faults import fault_of
from pinchrod.job.words import place_in, words_of

BEGINNING = Spot((1, 1), (1, 1), (1, 1))
MOST_WRITTEN_OUT = 400  # digits; Python itself stops at 4300
PART = r"""(?:[A-Za-z0-9_-]++|"[^"\n]*+"|'[^'\n]*+')"""
LONG_KEY = re.compile(rf"(?<![A-Za-z0-9_.-]){PART}(?:[ \t]*+\.[ \t]*+{PART}){{{MOST_NESTING},}}")
LONG_NUMBER = re.compile(r"[0-9_]{4300,}")


def read_toml(source: Source) -> Reading[Table | None]:
    """All that the file says, or None if it cannot be read."""
    text = yield from words_of(source)
    if text is None:
        return None
    problem = _unreadable(source, text)
    if problem is not None:
        yield problem
        return None
    try:
        said = tomllib.loads(text, parse_float=Number)
    except tomllib.TOMLDecodeError as trouble:
        yield fault_of(source, text, str(trouble))
        return None
    except (RecursionError, ValueError) as trouble:
        yield _beyond(source, text, trouble)
        return None
    if _depth(said) > MOST_NESTING:
        yield _too_deep(source.whole)
        return None
    return _table(said, (), spots_of(text), source.name)


def _unreadable(source: Source, text: str) -> Problem | None:
    """What stands against reading the text at all."""
    if not text.strip():
        what = "the file holds nothing but blank lines"
        return Problem(
            where=source.whole, code="empty-file", what=what, mend="save it again, or choose another"
        )
    lines = text.count("\n") + 1
    if lines > MOST_LINES:
        what = f"the file has {lines} lines; at most {MOST_LINES} are read"
        return Problem(where=source.whole, code="file-too-long", what=what, mend="split the job")
    found = LONG_KEY.search(text)
    return _too_deep(place_in(source, text, found.start())) if found else None


def _beyond(source: Source, text: str, trouble: Exception) -> Problem:
    """What is said of a text that overwhelms the reader: nested without end, or an endless number."""
    found = LONG_NUMBER.search(text)
    if isinstance(trouble, RecursionError) or found is None:
        return _too_deep(source.whole)
    what = f"the number here has {len(found[0])} digits; at most {MOST_DIGITS} are read"
    where = place_in(source, text, found.start())
    return Problem(where=where, code="number-long", what=what, mend="write a size, such as 600")


def _too_deep(where: Where) -> Problem:
    what = f"lists or names stand inside each other more than {MOST_NESTING} deep"
    return Problem(where=where, code="nested-deep", what=what, mend="write it flat, as the examples do")


def _depth(said: object) -> int:
    """How deep values stand inside each other, found without standing inside each other."""
    deepest, left = 0, [(said, 1)]
    while left and deepest <= MOST_NESTING:
        value, depth = left.pop()
        deepest = max(deepest, depth)
        left += [(inside, depth + 1) for inside in _inside(value)]
    return deepest


def _inside(value: object) -> Iterator[object]:
    if isinstance(value, dict):
        return iter(value.values())
    return iter(value) if isinstance(value, list) else iter(())


def _table(said: Mapping[str, Any], path: Path, spots: Spots, file: str) -> Table:
    return Table({key: _said(value, (*path, key), spots, file) for key, value in said.items()})


def _said(value: object, path: Path, spots: Spots, file: str) -> Said:
    spot = _spot(path, spots)
    key, at, words = (Where(file=file, line=line, column=column) for line, column in _three(spot))
    return Said(value=_value(value, path, spots, file), at=at, key_at=key, words_at=words, typed=spot.typed)


def _three(spot: Spot) -> tuple[tuple[int, int], ...]:
    return spot.key, spot.value, spot.words


def _spot(path: Path, spots: Spots) -> Spot:
    """The spot of a value, or of the nearest thing around it whose place is known."""
    around = (path[:upto] for upto in range(len(path), 0, -1))
    return next((spots[part] for part in around if part in spots), BEGINNING)


def _value(value: object, path: Path, spots: Spots, file: str) -> Value:
    if isinstance(value, dict):
        return _table(value, path, spots, file)
    if isinstance(value, list):
        return tuple(_said(one, (*path, at), spots, file) for at, one in enumerate(value))
    if isinstance(value, int) and not isinstance(value, bool):
        return Number(_digits(value))
    assert isinstance(value, (str, bool, Number, date, time))  # noqa: S101 - all that TOML knows
    return value


def _digits(number: int) -> str:
    """A whole number's digits; one written in hexadecimal can be too long for Python to write out."""
    return str(number) if abs(number) < 10**MOST_WRITTEN_OUT else hex(number)
