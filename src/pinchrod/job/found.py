"""What stands where a value should: its words if it has any, or why it has none."""

import re
from datetime import date, datetime, time

from pinchrod.ground import Problem, quoted
from pinchrod.job.limits import MOST_CELL_TEXT, MOST_DIGITS
from pinchrod.job.said import Amiss, Reading, Said, Table

UNITS = "ins?|inch|inches|ft|foot|feet|[cm]?m|(?:centi|milli)?met(?:re|er)s?"
DAY_WORDS = re.compile(
    rf"[0-9]{{1,2}}[-/ ](?!(?:{UNITS})\b)"
    r"[A-Za-z]{3,9}\.?([-/ ][0-9]{2,4})?|[A-Za-z]{3}-[0-9]{2}"
    r"|[0-9]{1,2}[/.-][0-9]{1,2}[/.-][0-9]{4}|[0-9]{4}-[0-9]{2}-[0-9]{2}.*",
)
ERROR_WORDS = re.compile(r"#(REF!|N/A|DIV/0!|VALUE!|NAME\?|NUM!|NULL!|SPILL!|CALC!)")
A_SIZE = "a length, as 600 or '23 5/8\"'"
WORDS = "words"


def problem_at(said: Said, code: str, what: str, mend: str) -> Problem:
    """A problem that stops the work, where the value stands."""
    return Problem(where=said.at, code=code, what=what, mend=mend)


def missing(place: Said, name: str, mend: str) -> Problem:
    """What is said when something without a usual value was left out."""
    return problem_at(place, "missing", f"{name} is not said", mend)


def found_there(said: Said) -> str:
    """What stands there, as the joiner would call it."""
    value = said.value
    if isinstance(value, Table):
        return "a table"
    if isinstance(value, tuple):
        return "a list"
    if isinstance(value, datetime):
        return f"the day and time {quoted(said.typed)}"
    if isinstance(value, date | time):
        return f"the {'date' if isinstance(value, date) else 'time'} {quoted(said.typed)}"
    return quoted(said.shown)


def words_in(said: Said, name: str, wanted: str, most: int = MOST_CELL_TEXT) -> Reading[str | None]:
    """The words that stand there, if words do, and not what a spreadsheet made of them."""
    value = said.value
    if isinstance(value, Amiss):
        yield problem_at(said, value.code, f"{name}: {value.what}", value.mend)
    elif isinstance(value, date | time):
        yield a_day(said, name, wanted)
    elif not isinstance(value, str):
        yield _wrong_kind(said, name, wanted)
    elif ERROR_WORDS.fullmatch(value.strip()):
        what = f"{name} shows {quoted(value.strip())}"
        yield problem_at(said, "error-cell", what, "put the value itself there")
    elif len(value) > most:
        what = f"{name} is {len(value)} characters long: {quoted(value)}"
        yield problem_at(said, "words-long", what, f"make it {most} or shorter")
    else:
        return value
    return None


def looks_like_a_day(words: str) -> bool:
    """Whether words that are no length may be what a spreadsheet made of one."""
    return DAY_WORDS.fullmatch(words.strip()) is not None


def a_day(said: Said, name: str, wanted: str) -> Problem:
    """What is said of a date where none belongs: a spreadsheet takes 5/8 for one."""
    found = f"the date {quoted(said.shown)}" if isinstance(said.value, str) else found_there(said)
    what = f"{name} is {found}, where {wanted} should stand"
    mend = "spreadsheets make dates of 5/8 and 5-8: format the cell as text and type it again"
    return problem_at(said, "date-for-size", what, mend)


def _wrong_kind(said: Said, name: str, wanted: str) -> Problem:
    mend = f"write {wanted}"
    if wanted == WORDS:
        mend = _in_quotes(said)
    return problem_at(said, "wrong-kind", f"{name} is {found_there(said)}, where {wanted} should stand", mend)


def _in_quotes(said: Said) -> str:
    """How words are written, with what stands there if that is one thing."""
    value = said.value
    if isinstance(value, tuple):
        one = value[0].value if len(value) == 1 else None
        alone = f": {quoted(one)}" if isinstance(one, str) else ""
        return f"write one, in quotes and without the brackets{alone}"
    if isinstance(value, Table):
        return "write words in quotes"
    return f'write it in quotes: "{said.typed[:MOST_DIGITS]}"'
