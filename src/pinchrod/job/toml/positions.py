"""Where each value of a TOML text stands: line and column of its name, its value, its first letter.

The values come from the standard library's reader, which keeps no places; the places come from
tree-sitter's grammar. That one never refuses a text, so only texts already read go in here.
"""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass

import tree_sitter
import tree_sitter_toml
from tree_sitter import Node

from pinchrod.job.limits import MOST_FRAMES

Path = tuple[str | int, ...]
Spots = dict[Path, "Spot"]

KEYS = ("bare_key", "quoted_key", "dotted_key")
MOST_TYPED = 80  # characters of a value kept as typed


@dataclass(frozen=True, slots=True)
class Spot:
    """Line and column, from 1, of a name, of its value and of its words; and the value as typed, cut short.

    Words whose letters cannot be counted off along the line, because they run over several or hold
    escapes, have column 0.
    """

    key: tuple[int, int]
    value: tuple[int, int]
    words: tuple[int, int]
    typed: str = ""


def spots_of(text: str) -> Spots:
    """The spot of every table, name and value, by the path that leads there."""
    content = text.encode()
    tree = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language())).parse(content)
    return _Walk(content.split(b"\n")).whole(tree.root_node)


class _Walk:
    """One walk through a text, noting spots on the way."""

    def __init__(self, lines: list[bytes]) -> None:
        self.lines = lines
        self.spots: Spots = {}
        self.counts: dict[Path, int] = {}  # of the tables in an array so far

    def whole(self, root: Node) -> Spots:
        """Every spot of the text."""
        for node in root.named_children:
            if node.type == "pair":
                self.pair(node, ())
            elif node.type in ("table", "table_array_element"):
                self.table(node)
        return self.spots

    def table(self, node: Node) -> None:
        """A table under its header, `[name]` or `[[name]]`."""
        path: Path = ()
        for child in node.named_children:
            if child.type in KEYS:
                path = self.header(child, node)
            elif child.type == "pair":
                self.pair(child, path)

    def header(self, key: Node, table: Node) -> Path:
        """The path that a table's header opens."""
        names, place = tuple(names_of(key)), self.place(key)
        path = self.one_more(names, place) if table.type == "table_array_element" else self.latest(names)
        for upto in range(1, len(path) + 1):
            self.spots.setdefault(path[:upto], Spot(place, place, place))
        return path

    def one_more(self, names: tuple[str, ...], place: tuple[int, int]) -> Path:
        """The path of a further table in an array."""
        array = (*self.latest(names[:-1]), names[-1])
        self.counts[array] = self.counts.get(array, -1) + 1
        self.spots.setdefault(array, Spot(place, place, place))
        return (*array, self.counts[array])

    def latest(self, names: tuple[str, ...]) -> Path:
        """The path that a header means: a name of an array stands for its latest table."""
        path: Path = ()
        for name in names:
            path = (*path, name)
            if path in self.counts:
                path = (*path, self.counts[path])
        return path

    def pair(self, node: Node, base: Path) -> None:
        """A name with its value."""
        parts = [child for child in node.named_children if child.type != "comment"]
        if len(parts) != 2:
            return
        key, value = parts
        path, place = (*base, *names_of(key)), self.place(key)
        for upto in range(len(base) + 1, len(path)):
            self.spots.setdefault(path[:upto], Spot(place, place, place))
        self.value(value, path, place)

    def value(self, node: Node, path: Path, key: tuple[int, int]) -> None:
        """A value, and those inside it."""
        place, typed = self.place(node), _typed(node)
        self.spots[path] = Spot(key, place, _first_letter(place, typed), typed[:MOST_TYPED])
        if node.type == "inline_table":
            for child in (child for child in node.named_children if child.type == "pair"):
                self.pair(child, path)
        elif node.type == "array":
            inside = [child for child in node.named_children if child.type != "comment"]
            for at, child in enumerate(inside[:MOST_FRAMES]):
                self.value(child, (*path, at), self.place(child))

    def place(self, node: Node) -> tuple[int, int]:
        """Line and column of a node; tree-sitter counts columns in bytes, people in letters."""
        row, column = node.start_point
        return row + 1, len(self.lines[row][:column].decode("utf-8", "replace")) + 1


def names_of(node: Node) -> Iterator[str]:
    """The names of a key, one for each part between dots."""
    if node.type == "dotted_key":
        for child in node.named_children:
            yield from names_of(child)
    elif node.type == "quoted_key":
        yield next(iter(tomllib.loads(f"{_typed(node)}=0")))
    else:
        yield _typed(node)


def _first_letter(place: tuple[int, int], typed: str) -> tuple[int, int]:
    """Where the words inside the quotes begin."""
    line, column = place
    quote = typed[:1]
    if quote not in ("'", '"'):
        return place
    if "\n" in typed or (quote == '"' and "\\" in typed):
        return line, 0
    return line, column + (3 if typed.startswith(3 * quote) else 1)


def _typed(node: Node) -> str:
    """A node's text."""
    return (node.text or b"").decode("utf-8", "replace")
