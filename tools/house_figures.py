"""The figures of the house. A figure out of range starts a talk; it fails nothing."""

import ast
import io
import math
import tokenize
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from house_sources import Source

Function = ast.FunctionDef | ast.AsyncFunctionDef
BRANCHES = (ast.If, ast.IfExp, ast.For, ast.While, ast.ExceptHandler, ast.match_case)
NOT_CODE = frozenset(
    {
        tokenize.COMMENT,
        tokenize.NL,
        tokenize.NEWLINE,
        tokenize.INDENT,
        tokenize.DEDENT,
        tokenize.ENCODING,
        tokenize.ENDMARKER,
    }
)


@dataclass(frozen=True, slots=True)
class Figure:
    """One measure: what it is here, and what the house asks for."""

    name: str
    here: tuple[float, ...]
    asked: str
    in_range: bool

    def __str__(self) -> str:
        """The figure as a line of the table."""
        here = ", ".join(f"{value:.4g}" for value in self.here)
        return f"{self.name:<40}{here:<14}{self.asked:<22}{'' if self.in_range else '<- talk'}".rstrip()


def figures(code: Sequence[Source], tests: Sequence[Source]) -> tuple[Figure, ...]:
    """Every figure of house.md's list that can be counted."""
    built = [function for source in code for function in functions(source)]
    tried = [
        function for source in tests for function in functions(source) if function.name.startswith("test_")
    ]
    lengths = {id(f): size for source in (*code, *tests) for f, size in sizes(source)}
    code_lines = sum(len(lines_of_code(source)) for source in code)
    test_lines = sum(len(lines_of_code(source)) for source in tests)
    remarks = sum(comments(source) for source in code)
    return (
        _spread("lines a file: median, 95th", [len(s.text.splitlines()) for s in code], 150, 400),
        _spread("lines a function: median, 95th", [lengths[id(f)] for f in built], 6, 25),
        _spread("lines a test: median, 95th", [lengths[id(f)] for f in tried], 8, 20),
        _spread("branches a function: 95th", [branches(f) for f in built], None, 7),
        _between("functions typed, %", _share(built, typed), 100, 100),
        _between("public functions with a docstring, %", _share(public(code), ast.get_docstring), 95, 100),
        _between("comments in 100 lines of code", 100 * remarks / max(code_lines, 1), 3, 8),
        _between("tests to code", test_lines / max(code_lines, 1), 1.3, 2),
    )


def _spread(name: str, counts: Sequence[int], middle: int | None, most: int) -> Figure:
    """A figure by its median and 95th percentile, or by the latter alone."""
    if middle is None:
        here: tuple[float, ...] = (percentile(counts, 95),)
        return Figure(name, here, f"at most {most}", here[0] <= most)
    here = (percentile(counts, 50), percentile(counts, 95))
    return Figure(name, here, f"at most {middle}, {most}", here[0] <= middle and here[1] <= most)


def _between(name: str, here: float, least: float, most: float) -> Figure:
    """A figure that should lie between two bounds."""
    asked = f"{least:g} to {most:g}" if least != most else f"{least:g}"
    return Figure(name, (here,), asked, least <= here <= most)


def percentile(counts: Sequence[int], share: int) -> int:
    """The smallest count that at least this share (in %) of the counts do not exceed; 0 for none."""
    ranked = sorted(counts)
    return ranked[math.ceil(len(ranked) * share / 100) - 1] if ranked else 0


def functions(source: Source) -> Iterator[Function]:
    """Every function of a file, methods and inner ones included."""
    yield from (node for node in ast.walk(source.tree) if isinstance(node, Function))


def public(sources: Iterable[Source]) -> list[Function]:
    """Functions and methods that others may call: no underscore before their own or their class's name."""
    return [function for source in sources for function in _public_in(source.tree)]


def _public_in(owner: ast.Module | ast.ClassDef) -> Iterator[Function]:
    for node in owner.body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            if isinstance(node, ast.ClassDef):
                yield from _public_in(node)
            else:
                yield node


def typed(function: Function) -> bool:
    """Whether a function says what it takes and what it gives back."""
    asked = function.args
    everything = [*asked.posonlyargs, *asked.args, *asked.kwonlyargs, asked.vararg, asked.kwarg]
    wanting = [arg for arg in everything if arg and not arg.annotation and arg.arg not in ("self", "cls")]
    return not wanting and function.returns is not None


def branches(function: Function) -> int:
    """How often a function's way parts: if, for, while, except, case, and a comprehension's if."""
    ways = [1 for node in ast.walk(function) if isinstance(node, BRANCHES)]
    sieves = [len(node.ifs) for node in ast.walk(function) if isinstance(node, ast.comprehension)]
    return sum(ways) + sum(sieves)


def sizes(source: Source) -> Iterator[tuple[Function, int]]:
    """Each function with the lines of code in its body: no signature, docstring, comment or blank line."""
    code = lines_of_code(source)
    for function in functions(source):
        first, last = function.body[0].lineno, function.body[-1].end_lineno or 0
        yield function, len(code & set(range(first, last + 1)))


def lines_of_code(source: Source) -> set[int]:
    """Numbers of the lines that carry code: not blank, not only a comment, not a docstring."""
    code: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(source.text).readline):
        if token.type not in NOT_CODE:
            code.update(range(token.start[0], token.end[0] + 1))
    return code - _docstring_lines(source.tree)


def _docstring_lines(tree: ast.Module) -> set[int]:
    lines: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, Function | ast.ClassDef | ast.Module) and ast.get_docstring(node) is not None:
            lines.update(range(node.body[0].lineno, (node.body[0].end_lineno or 0) + 1))
    return lines


def comments(source: Source) -> int:
    """How many comments a file has."""
    tokens = tokenize.generate_tokens(io.StringIO(source.text).readline)
    return sum(token.type == tokenize.COMMENT for token in tokens)


def _share(built: Sequence[Function], test: Callable[[Function], object]) -> float:
    """The share, in %, of functions of which something is true; 100 of none."""
    return 100 * sum(bool(test(function)) for function in built) / len(built) if built else 100
