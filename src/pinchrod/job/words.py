"""A file's bytes as text, with every line's end the same, or what is wrong with its letters."""

import codecs
import re

from pinchrod.ground import Problem, Where, quoted
from pinchrod.job.said import Reading
from pinchrod.job.source import Source

UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
SEVERAL_BYTES = re.compile(rb"[\xc3-\xf4][\x80-\xbf]")  # a letter beyond ASCII as UTF-8 writes it


def words_of(source: Source, *, western: bool = False) -> Reading[str | None]:
    """The text of a file in UTF-8, or UTF-16 with its mark; `western` lists may be in Windows-1252, too."""
    if source.content.startswith(UTF_16):
        text = yield from _decoded(source, source.content, "utf-16")
    else:
        text = yield from _eight_bit(source, source.content.removeprefix(codecs.BOM_UTF8), western=western)
    return None if text is None else (yield from _plain(source, text))


def _eight_bit(source: Source, content: bytes, *, western: bool) -> Reading[str | None]:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as trouble:
        if not western or SEVERAL_BYTES.search(content):
            yield _not_utf_8(source, content, trouble.start)
            return None
    text = yield from _decoded(source, content, "cp1252")
    if text is not None:
        yield _guessed(source, text)
    return text


def _decoded(source: Source, content: bytes, encoding: str) -> Reading[str | None]:
    try:
        return content.decode(encoding)
    except UnicodeDecodeError as trouble:
        utf_16 = encoding == "utf-16"
        where = source.whole if utf_16 else _at_byte(source, content, trouble.start)
        what = f"the letters here follow neither UTF-8 nor {'UTF-16' if utf_16 else 'Windows-1252'}"
        yield Problem(where=where, code="letters", what=what, mend="save the file as UTF-8")
        return None


def _not_utf_8(source: Source, content: bytes, at: int) -> Problem:
    if SEVERAL_BYTES.search(content):
        code = "letters-mixed"
        what = f"byte {content[at]:#04x} is no letter in UTF-8, though other letters are: two codes are mixed"
    else:
        code, what = "letters", f"byte {content[at]:#04x} is no letter in UTF-8"
    mend = "save the whole file as UTF-8: text editors offer it under Save as, Encoding"
    return Problem(where=_at_byte(source, content, at), code=code, what=what, mend=mend)


def _plain(source: Source, text: str) -> Reading[str | None]:
    """The text with one kind of line end, refused if it holds a NUL."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    at = text.find("\0")
    if at < 0:
        return text
    what = "a byte of no value (NUL) stands here, as in a damaged file or one in UTF-16 without its mark"
    yield Problem(
        where=place_in(source, text, at), code="nul", what=what, mend="save the file again as UTF-8"
    )
    return None


def _guessed(source: Source, text: str) -> Problem:
    at = next(at for at, letter in enumerate(text) if letter >= "\x80")
    word = re.split(r"[\s,;]", text[:at])[-1] + re.split(r"[\s,;]", text[at:], maxsplit=1)[0]
    return Problem(
        where=place_in(source, text, at),
        code="letters-guessed",
        what=f"the file is not in UTF-8; read as Windows-1252 it says {quoted(word)} here",
        mend="look whether that word is right, or save the file as UTF-8",
        stops=False,
    )


def _at_byte(source: Source, content: bytes, at: int) -> Where:
    """The place of a byte, counting the letters before it in its line as UTF-8 where they are that."""
    before = content[:at].decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n")
    return place_in(source, before, len(before))


def place_in(source: Source, text: str, at: int) -> Where:
    """Line and column of a letter of the text."""
    return Where(file=source.name, line=text.count("\n", 0, at) + 1, column=at - text.rfind("\n", 0, at))
