"""A whole file as its text, to be changed by hand; and the file again with another text in it."""

from pinchrod.job.editing.rewriting import Patch, rewritten
from pinchrod.job.said import gathered
from pinchrod.job.source import Form, Source
from pinchrod.job.words import words_of

TEXTS = (f".{Form.TOML}", f".{Form.CSV}")


def text_of(source: Source) -> str | None:
    """What stands in a file, each line's end one letter; None for a workbook and what is no text."""
    if source.ending not in TEXTS:
        return None
    text, _ = gathered(words_of(source, western=source.ending == f".{Form.CSV}"))
    return text


def retyped(source: Source, text: str) -> Source:
    """The file with that text in it, in the letters' code and with the line ends that it had."""
    before = text_of(source)
    if before is None:
        return source
    typed = text.replace("\r\n", "\n").replace("\r", "\n")
    return rewritten(source, [Patch(0, len(before), typed)])
