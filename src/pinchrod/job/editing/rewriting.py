"""A file with some of its words put otherwise, and every other byte as it was."""

import codecs
import re
from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass, replace

from pinchrod.job.said import gathered
from pinchrod.job.source import Source
from pinchrod.job.words import words_of

LINE_END = re.compile("\r\n|\r|\n")


@dataclass(frozen=True, slots=True)
class Patch:
    """The words that come instead of a stretch of the text, counted with every line's end one letter."""

    start: int
    end: int
    words: str


def rewritten(source: Source, patches: Iterable[Patch]) -> Source:
    """The file with the patches in it, in the letters' code and with the line ends that it had.

    A list in Windows-1252 that has no letter for the new words goes over to UTF-8.
    """
    code, mark = _code(source.content)
    text = source.content[len(mark) :].decode(code)
    ends = LINE_END.findall(text)
    patched = _patched(text, sorted(patches, key=_place), ends[0] if ends else "\n")
    if patched == text:
        return source
    return replace(source, content=_encoded(source, patched, code, mark))


def line_starts(text: str) -> tuple[int, ...]:
    """Where each line of a text begins."""
    return (0, *(found.end() for found in re.finditer("\n", text)))


def _place(patch: Patch) -> tuple[int, int]:
    """Where a patch goes; of those at one place the one that was made first stands first."""
    return patch.start, patch.end


def _code(content: bytes) -> tuple[str, bytes]:
    """How the letters are written, and the mark that says so at the file's beginning."""
    for code, mark in (
        ("utf-16-le", codecs.BOM_UTF16_LE),
        ("utf-16-be", codecs.BOM_UTF16_BE),
        ("utf-8", codecs.BOM_UTF8),
    ):
        if content.startswith(mark):
            return code, mark
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252", b""
    return "utf-8", b""


def _patched(text: str, patches: Iterable[Patch], line_end: str) -> str:
    """The text with the patches, which are counted as if each line ended in one letter."""
    doubled = [found.start() for found in re.finditer("\r\n", text)]
    doubled = [place - before for before, place in enumerate(doubled)]
    pieces, done = [], 0
    for patch in patches:
        start, end = (at + bisect_left(doubled, at) for at in (patch.start, patch.end))
        pieces += [text[done:start], patch.words.replace("\n", line_end)]
        done = end
    return "".join((*pieces, text[done:]))


def _encoded(source: Source, text: str, code: str, mark: bytes) -> bytes:
    """The text's bytes; in UTF-8 where the old code has not all its letters or would be taken for another."""
    try:
        content = mark + text.encode(code)
    except UnicodeEncodeError:
        content = b""
    read, _ = gathered(words_of(replace(source, content=content), western=True))
    same = read == LINE_END.sub("\n", text)
    return content if same else codecs.BOM_UTF8 + text.encode("utf-8", "surrogatepass")
