"""Python files as the house checks look at them: a path, its text and its tree."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

PACKAGE = "pinchrod"
EDGE = frozenset({"cli", "web", "store", "__main__"})  # the only rooms that read, write, print or wait


@dataclass(frozen=True, slots=True)
class Fault:
    """One broken rule, and where."""

    path: Path
    line: int
    what: str

    def __str__(self) -> str:
        """The fault as other linters print theirs."""
        return f"{self.path.as_posix()}:{self.line}: {self.what}"


@dataclass(frozen=True, slots=True)
class Source:
    """One Python file."""

    path: Path  # from the top of the checkout
    text: str
    tree: ast.Module

    @property
    def room(self) -> str:
        """The room the file stands in: `job` for src/pinchrod/job/phrases/phrase.py."""
        within = self.path.parts[self.path.parts.index(PACKAGE) + 1 :]
        return Path(within[0]).stem

    @property
    def module(self) -> str:
        """The file's name as imports say it: `pinchrod.job` for src/pinchrod/job/__init__.py."""
        within = self.path.with_suffix("").parts[self.path.parts.index(PACKAGE) :]
        return ".".join(part for part in within if part != "__init__")

    @property
    def inner(self) -> bool:
        """Whether the file stands in a room with no view of the world."""
        return self.room not in EDGE

    def fault(self, node: ast.AST | int, what: str) -> Fault:
        """A fault at a node or a line of this file."""
        line = node if isinstance(node, int) else getattr(node, "lineno", 1)
        return Fault(self.path, line, what)


def read_sources(top: Path, folder: str) -> tuple[Source, ...]:
    """Every Python file under a folder of the checkout, by path."""
    paths = sorted(path for path in (top / folder).rglob("*.py") if "__pycache__" not in path.parts)
    return tuple(source(path.relative_to(top), path.read_text(encoding="utf-8")) for path in paths)


def source(path: Path, text: str) -> Source:
    """A file, parsed."""
    return Source(path, text, ast.parse(text, filename=path.as_posix()))


def imports(tree: ast.AST) -> Iterator[tuple[ast.Import | ast.ImportFrom, str]]:
    """Each import under a node with the full name of every thing it brings in."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from ((node, f"{node.module}.{alias.name}") for alias in node.names)
