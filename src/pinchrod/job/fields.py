"""One value understood: words, yes or no, one of a few, a day, a table; or why it is none."""

import re
import unicodedata
from collections.abc import Callable, Sequence
from datetime import date

from pinchrod.ground import quoted
from pinchrod.job.found import WORDS, found_there, problem_at, words_in
from pinchrod.job.limits import MOST_CELL_TEXT
from pinchrod.job.names import meant
from pinchrod.job.said import Reading, Said, Table

UNSEEN = ("Cc", "Cf", "Zl", "Zp")  # Unicode's kinds of letters that leave no mark on paper


def words(said: Said, name: str, most: int = MOST_CELL_TEXT) -> Reading[str | None]:
    """Words of at most so many characters, in which nothing is hidden."""
    found = yield from words_in(said, name, WORDS, max(most, MOST_CELL_TEXT))
    if found is None:
        return None
    found = unicodedata.normalize("NFC", found.strip())
    hidden = next((letter for letter in found if unicodedata.category(letter) in UNSEEN), "")
    if hidden:
        what = f"{name} {quoted(found)} holds a character that cannot be seen, {quoted(hidden)}"
        yield problem_at(said, "hidden-letter", what, "type it again without it")
    elif len(found) > most:
        what = f"{name} is {len(found)} characters long: {quoted(found)}"
        yield problem_at(said, "words-long", what, f"make it {most} or shorter")
    elif not found:
        yield problem_at(said, "words-none", f"{name} is blank", "write it, or take the line out")
    else:
        return found
    return None


def choice(
    said: Said, name: str, options: Sequence[str], written: Callable[[str], str] = str
) -> Reading[str | None]:
    """One of the few words that may stand here; `written` brings another spelling into ours."""
    found = yield from words(said, name)
    if found is None or written(found) in options:
        return None if found is None else written(found)
    every = f"write {', '.join(options[:-1])} or {options[-1]}"
    what = f"{name} is {quoted(found)}, which is none of those we know"
    yield problem_at(said, "not-a-choice", what, meant(written(found), options, every))
    return None


def yes_or_no(said: Said, name: str) -> Reading[bool | None]:
    """True or false."""
    if isinstance(said.value, bool):
        return said.value
    what = f"{name} is {found_there(said)}, where true or false should stand"
    yield problem_at(said, "not-yes-or-no", what, "write true or false, without quotes")
    return None


def day(said: Said, name: str) -> Reading[date | None]:
    """A date, as TOML writes it or as ISO 8601 does in words."""
    if type(said.value) is date:
        return said.value
    found = _iso_day(said.value) if isinstance(said.value, str) else None
    if found is None:
        what = f"{name} is {found_there(said)}, where a day should stand"
        yield problem_at(said, "not-a-day", what, "write it as 2026-05-31")
    return found


def table_in(said: Said, name: str) -> Reading[Table | None]:
    """A table of names and values."""
    if isinstance(said.value, Table):
        return said.value
    what = f"{name} is {found_there(said)}, where a table of names and values should stand"
    yield problem_at(said, "not-a-table", what, f"write [{name}] on a line of its own, its values below")
    return None


def tables_in(said: Said, name: str) -> Reading[tuple[tuple[Said, Table], ...]]:
    """The tables of a list, each with its place; whatever else stands there is refused."""
    if not isinstance(said.value, tuple):
        what = f"{name} is {found_there(said)}, where a list of tables should stand"
        yield problem_at(said, "not-a-list", what, f"begin each with [[{name}]] in double brackets")
        return ()
    tables = []
    for one in said.value:
        table = yield from table_in(one, f"[{name}]")
        if table is not None:
            tables.append((one, table))
    return tuple(tables)


def _iso_day(text: str) -> date | None:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
