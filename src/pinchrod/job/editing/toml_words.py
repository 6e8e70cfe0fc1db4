"""Words as a job file writes them: plain numbers bare, all else in quotes."""

import re

from pinchrod.job.job_frames import FRAMES

NUMBER = re.compile(r"(0|[1-9][0-9]{0,8})(\.[0-9]{1,8})?")
BARE_NAME = re.compile(r"[A-Za-z0-9_-]+")
ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t"}
CONTROL = re.compile(r"[\x00-\x08\x0a-\x1f\x7f]")


def written(key: str, words: str) -> str:
    """The value of that name. An id is never a number, even if it is all figures."""
    bare = key not in FRAMES.words and NUMBER.fullmatch(words)
    return words if bare else in_quotes(words)


def in_quotes(words: str) -> str:
    """The words in double quotes; in single ones where an inch mark or backslash would need an escape."""
    if set(words) & {'"', "\\"} and "'" not in words and not CONTROL.search(words):
        return f"'{words}'"
    return f'"{"".join(_letter(letter) for letter in words)}"'


def named(key: str, value: str) -> str:
    """A name and its value as one line has them."""
    return f"{key if BARE_NAME.fullmatch(key) else in_quotes(key)} = {value}"


def _letter(letter: str) -> str:
    if letter in ESCAPES:
        return ESCAPES[letter]
    return f"\\u{ord(letter):04x}" if CONTROL.match(letter) else letter
