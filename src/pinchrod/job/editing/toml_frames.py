"""The frames of a job file's text: where each begins and ends, and where each of its values stands.

Places are found by tree-sitter's grammar, as in reading, and counted in letters. Only a text that has
been read goes in here.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import tree_sitter
import tree_sitter_toml
from tree_sitter import Node

from pinchrod.job.editing.rewriting import line_starts
from pinchrod.job.toml.positions import names_of

TABLES = ("table", "table_array_element")


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the text, from its first letter to the one after its last."""

    start: int
    end: int

    def of(self, text: str) -> str:
        """The letters themselves."""
        return text[self.start : self.end]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A name with its value: the lines or letters of both, and those of the value."""

    names: tuple[str, ...]
    whole: Stretch
    value: Stretch


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameAt:
    """A frame in the text, `[[frame]]` with all below it, or a table in braces."""

    whole: Stretch
    head: Stretch  # the header's line; the first brace
    pairs: tuple[Pair, ...]
    braces: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """A job file's text with its frames, and the brackets round them if they stand in some."""

    text: str
    frames: tuple[FrameAt, ...]
    brackets: Stretch | None
    pairs: tuple[Pair, ...]  # of [job]


def framed(text: str) -> Framed:
    """The frames of a text, in the order in which they stand."""
    content = text.encode()
    tree = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language())).parse(content)
    return _Walk(text, content).whole(tree.root_node)


class _Walk:
    """One walk through a text; lines and the bytes in them become letters."""

    def __init__(self, text: str, content: bytes) -> None:
        self.text = text
        self.lines = content.split(b"\n")
        self.starts = line_starts(text)
        self.remarks: set[int] = set()  # rows that hold nothing else

    def whole(self, root: Node) -> Framed:
        """Every frame of the text."""
        frames: list[FrameAt] = []
        brackets, job = None, []
        self.remarks = {row for node in (root, *root.named_children) for row in self.remarks_in(node)}
        for node in root.named_children:
            names = _names(node)
            if node.type == "table_array_element" and names == ("frame",):
                frames.append(self.headed(node))
            elif node.type in TABLES and names[:1] == ("frame",) and frames:
                frames[-1] = self.longer(frames[-1], node)
            elif node.type == "pair" and names == ("frame",):
                brackets = self.stretch(_value(node))
                frames = list(self.in_braces(_value(node)))
            job += list(self.pairs(node)) if names == ("job",) and node.type == "table" else []
        return Framed(text=self.text, frames=tuple(frames), brackets=brackets, pairs=tuple(job))

    def remarks_in(self, node: Node) -> Iterator[int]:
        """The rows of remarks on lines of their own."""
        for row, column in (child.start_point for child in node.named_children if child.type == "comment"):
            if not self.lines[row][:column].strip():
                yield row

    def headed(self, node: Node) -> FrameAt:
        """A frame under its header, with the remarks right above it, to the end of its last line."""
        first = row = node.start_point[0]
        while first - 1 in self.remarks:
            first -= 1
        whole = Stretch(self.starts[first], self.line_end(_last_row(node)))
        head = Stretch(self.starts[row], self.line_end(row))
        return FrameAt(whole=whole, head=head, pairs=tuple(self.pairs(node)), braces=False)

    def longer(self, frame: FrameAt, node: Node) -> FrameAt:
        """The frame with a table of its own behind it."""
        return replace(frame, whole=Stretch(frame.whole.start, self.line_end(_last_row(node))))

    def in_braces(self, array: Node) -> Iterator[FrameAt]:
        """The frames of a list of tables in braces."""
        for node in array.named_children:
            if node.type == "inline_table":
                whole = self.stretch(node)
                head = Stretch(whole.start, whole.start + 1)
                yield FrameAt(whole=whole, head=head, pairs=tuple(self.pairs(node)), braces=True)

    def pairs(self, table: Node) -> Iterator[Pair]:
        """The names and values of a table; those under a header with their whole lines."""
        for node in (child for child in table.named_children if child.type == "pair"):
            whole = self.stretch(node)
            if table.type in TABLES:
                whole = Stretch(self.starts[node.start_point[0]], self.line_end(_value(node).end_point[0]))
            yield Pair(names=_names(node), whole=whole, value=self.stretch(_value(node)))

    def stretch(self, node: Node) -> Stretch:
        """The letters of a node."""
        return Stretch(self.letter(node.start_point), self.letter(node.end_point))

    def letter(self, point: Sequence[int]) -> int:
        """How many letters stand before a place, which tree-sitter counts in bytes of its line."""
        row, column = point
        return self.starts[row] + len(self.lines[row][:column].decode("utf-8", "replace"))

    def line_end(self, row: int) -> int:
        """Where a line ends, before its line end."""
        return self.starts[row] + len(self.lines[row].decode("utf-8", "replace"))


def _names(node: Node) -> tuple[str, ...]:
    """The names of a header or a pair, one for each part between dots."""
    key = next((child for child in node.named_children if child.type.endswith("_key")), None)
    return () if key is None else tuple(names_of(key))


def _value(pair: Node) -> Node:
    """The value of a pair, which a remark may follow."""
    return pair.named_children[1]


def _last_row(table: Node) -> int:
    """The row in which a table's last value ends, or its header stands."""
    pairs = [child for child in table.named_children if child.type == "pair"]
    return int(_value(pairs[-1]).end_point[0] if pairs else table.start_point[0])
