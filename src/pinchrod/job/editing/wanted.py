"""The words that a frame is to say, as they came from a page, made fit for a file or refused."""

import unicodedata
from collections.abc import Iterator, Mapping

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.job.editing.as_said import Words
from pinchrod.job.fields import UNSEEN
from pinchrod.job.frames import FRAME_KEYS
from pinchrod.job.limits import MOST_CELL_TEXT
from pinchrod.job.names import meant

NO_LETTERS = (*UNSEEN, "Cs")  # halves of letters, too, which no file can hold
LET_BE = "\n\t"


def wanted_words(words: Words, said: Words, where: Where) -> Words:
    """The words without those left blank; the id stays unless another is given.

    What a frame said already stays to the letter. NotYetRight is raised for what no frame can say.
    """
    old = dict(said)
    new = {key: _trimmed(value, old.get(key)) for key, value in words}
    problems = tuple(problem for key in new for problem in _faults(key, new[key], old, where))
    if problems:
        raise NotYetRight(problems)
    kept = {"id": old["id"]} if old.get("id") and not new.get("id") else {}
    return tuple((key, value) for key, value in {**new, **kept}.items() if value or old.get(key) == "")


def _trimmed(value: str, old: str | None) -> str:
    return value if value == old else value.replace("\r\n", "\n").replace("\r", "\n").strip()


def _faults(key: str, value: str, old: Mapping[str, str], where: Where) -> Iterator[Problem]:
    """What keeps words that are new from being said of a frame at all."""
    hidden = next((letter for letter in value if _is_hidden(letter)), "")
    if value == old.get(key, ""):
        return
    if key not in old and key not in FRAME_KEYS:
        what = f"{quoted(key)} is not a name that a frame has"
        mend = meant(key, FRAME_KEYS, f"known here: {', '.join(FRAME_KEYS)}")
        yield Problem(where=where, code="unknown-name", what=what, mend=mend)
    elif hidden:
        what = f"{key} {quoted(value)} holds a character that cannot be seen, {quoted(hidden)}"
        yield Problem(where=where, code="hidden-letter", what=what, mend="type it again without it")
    elif len(value) > MOST_CELL_TEXT:
        what = f"{key} is {len(value)} characters long: {quoted(value)}"
        mend = f"make it {MOST_CELL_TEXT} or shorter"
        yield Problem(where=where, code="words-long", what=what, mend=mend)


def _is_hidden(letter: str) -> bool:
    return letter not in LET_BE and unicodedata.category(letter) in NO_LETTERS
