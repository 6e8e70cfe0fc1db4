"""Which problem codes the program gives: found by following what is called `code`."""

import ast
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from house_sources import Source

Places = dict[str, int]


def codes(sources: Sequence[Source]) -> Iterator[tuple[Source, int, str]]:
    """Each code with its file and line: text given or set as `code`, or passed where a `code` is taken."""
    takers = {name: place for source in sources for name, place in code_takers(source)}
    for source in sources:
        for node in ast.walk(source.tree):
            for value in _values(node, takers):
                yield from ((source, line, text) for line, text in _texts(value))


def code_takers(source: Source) -> Iterator[tuple[str, int]]:
    """Functions and records that take a `code`, with its place among what they are given in order."""
    for node in ast.walk(source.tree):
        match node:
            case ast.FunctionDef(name=name, args=ast.arguments(args=args)):
                names = [arg.arg for arg in args if arg.arg not in ("self", "cls")]
            case ast.ClassDef(name=name, body=body):
                names = [ast.unparse(field.target) for field in body if isinstance(field, ast.AnnAssign)]
            case _:
                continue
        if "code" in names:
            yield name, names.index("code")


def _values(node: ast.AST, takers: Places) -> Iterator[ast.expr]:
    """What becomes a `code` at this node."""
    match node:
        case ast.keyword(arg="code", value=value):
            yield value
        case ast.Assign(targets=[target], value=value):
            yield from _assigned(target, value)
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name), args=args) if name in takers:
            yield from args[takers[name] : takers[name] + 1]


def _assigned(target: ast.expr, value: ast.expr) -> Iterator[ast.expr]:
    """What is set to `code`, also as one of several: `code, what = "thin-web", ...`."""
    targets = target.elts if isinstance(target, ast.Tuple) else [target]
    values = value.elts if isinstance(value, ast.Tuple) else [value]
    for each, given in zip_longest(targets, values):
        if isinstance(each, ast.Name) and each.id == "code" and given is not None:
            yield given


def _texts(value: ast.expr) -> Iterator[tuple[int, str]]:
    """The text a value may be: itself, or either way of a choice."""
    match value:
        case ast.Constant(value=str(text)):
            yield value.lineno, text
        case ast.IfExp(body=body, orelse=otherwise):
            yield from _texts(body)
            yield from _texts(otherwise)
