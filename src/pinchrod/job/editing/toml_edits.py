"""Frames of a job file changed, added and taken out in its text."""

import re
from collections.abc import Iterable, Iterator, Sequence

from pinchrod.job.editing.as_said import Words
from pinchrod.job.editing.rewriting import Patch, rewritten
from pinchrod.job.editing.toml_frames import FrameAt, Framed, Pair, framed
from pinchrod.job.editing.toml_words import in_quotes, named, written
from pinchrod.job.said import gathered
from pinchrod.job.source import Source
from pinchrod.job.words import words_of

COMMA = re.compile(r"\s*,")


def toml_changed(source: Source, at: int, said: Words, words: Words) -> Source:
    """The file in which that frame, which said one thing, says the other."""
    text = _framed(source)
    frame = text.frames[at]
    change = _braces_changed if frame.braces else _lines_changed
    return rewritten(source, change(text.text, frame, dict(said), dict(words)))


def toml_put(source: Source, at: int, frames: Sequence[str]) -> Source:
    """The file with frames, each as it is written, before the one that now stands at that place."""
    text = _framed(source)
    if text.brackets is None:
        return rewritten(source, [_put_lines(text, at, frames)])
    return rewritten(source, [_put_braces(text, at, text.brackets.start + 1, frames)])


def toml_without(source: Source, at: int) -> Source:
    """The file without that frame."""
    text = _framed(source)
    return rewritten(source, [_cut_braces(text, at) if text.frames[at].braces else _cut_lines(text, at)])


def toml_frames(source: Source, rows: Iterable[Words]) -> tuple[str, ...]:
    """New frames as this file writes its frames."""
    form = _headed if _framed(source).brackets is None else _braces
    return tuple(form(named(key, written(key, value)) for key, value in words) for words in rows)


def toml_taken(source: Source, at: int) -> str:
    """A frame as it is written in the file."""
    text = _framed(source)
    return text.frames[at].whole.of(text.text)


def with_list_named(source: Source, name: str) -> Source:
    """The job file naming another list of frames."""
    named_list = (pair.value for pair in _framed(source).pairs if pair.names == ("frames",))
    return rewritten(source, (Patch(at.start, at.end, in_quotes(name)) for at in named_list))


def _framed(source: Source) -> Framed:
    text, _ = gathered(words_of(source))
    return framed(text or "")


def _lines_changed(text: str, frame: FrameAt, said: dict[str, str], words: dict[str, str]) -> Iterator[Patch]:
    """A value put in another's place; a line taken out; new lines below the last."""
    for pair in frame.pairs:
        key = pair.names[0]
        if key in words and words[key] != said[key]:
            yield Patch(pair.value.start, pair.value.end, written(key, words[key]))
        elif key not in words:
            yield Patch(pair.whole.start, pair.whole.end + 1, "")
    yield from _new_lines(text, frame, said, words)


def _new_lines(text: str, frame: FrameAt, said: dict[str, str], words: dict[str, str]) -> Iterator[Patch]:
    new = [named(key, written(key, value)) for key, value in words.items() if key not in said]
    if not new:
        return
    kept = [pair.whole for pair in frame.pairs if pair.names[0] in words]
    above = kept[-1] if kept else frame.head
    line = above.of(text)
    indent = line[: len(line) - len(line.lstrip(" \t"))]
    yield Patch(above.end, above.end, "".join(f"\n{indent}{pair}" for pair in new))


def _braces_changed(
    text: str, frame: FrameAt, said: dict[str, str], words: dict[str, str]
) -> Iterator[Patch]:
    """The whole table in braces written again, what is unchanged in it as it was typed."""
    old = [_kept(text, pair, said, words) for pair in frame.pairs if pair.names[0] in words]
    new = [named(key, written(key, value)) for key, value in words.items() if key not in said]
    yield Patch(frame.whole.start, frame.whole.end, _braces([*old, *new]))


def _kept(text: str, pair: Pair, said: dict[str, str], words: dict[str, str]) -> str:
    key = pair.names[0]
    return pair.whole.of(text) if words[key] == said[key] else named(key, written(key, words[key]))


def _braces(pairs: Iterable[str]) -> str:
    return f"{{ {', '.join(pairs)} }}"


def _headed(pairs: Iterable[str]) -> str:
    return "\n".join(("[[frame]]", *pairs))


def _put_lines(text: Framed, at: int, frames: Sequence[str]) -> Patch:
    """Frames under their headers, a blank line between."""
    block = "\n\n".join(frames)
    if at < len(text.frames) and not at:
        start = text.frames[0].whole.start
        return Patch(start, start, f"{block}\n\n")
    end = text.frames[at - 1].whole.end if text.frames else len(text.text.rstrip())
    return Patch(end, end, f"\n\n{block}")


def _cut_lines(text: Framed, at: int) -> Patch:
    """A frame's lines out, and the blank one before them."""
    whole = text.frames[at].whole
    start, end = whole.start, whole.end
    if text.text[:start].endswith("\n\n"):
        start -= 1
    if end < len(text.text):
        return Patch(start, end + 1, "")
    return Patch(max(start - 1, 0), end, "")


def _put_braces(text: Framed, at: int, inside: int, frames: Sequence[str]) -> Patch:
    """Tables in braces among the others, each on a line of its own if those are."""
    if not text.frames:
        return Patch(inside, inside, ", ".join(frames))
    first = text.frames[0].whole.start
    begun = text.text[text.text.rfind("\n", 0, first) + 1 : first]
    between = ", " if begun.strip() else f",\n{begun}"
    if not at:
        return Patch(first, first, "".join(f"{frame}{between}" for frame in frames))
    end = text.frames[at - 1].whole.end
    return Patch(end, end, "".join(f"{between}{frame}" for frame in frames))


def _cut_braces(text: Framed, at: int) -> Patch:
    """A table in braces out, with the comma that parts it from its neighbour."""
    whole = text.frames[at].whole
    if at + 1 < len(text.frames):
        return Patch(whole.start, text.frames[at + 1].whole.start, "")
    if at:
        return Patch(text.frames[at - 1].whole.end, whole.end, "")
    comma = COMMA.match(text.text, whole.end)
    return Patch(whole.start, comma.end() if comma else whole.end, "")
