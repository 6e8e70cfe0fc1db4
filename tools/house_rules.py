"""Hard rules of the house that no ready-made linter knows. Each looks at one file and yields its faults."""

import ast
import io
import re
import tokenize
from collections.abc import Callable, Iterator, Sequence

from house_sources import PACKAGE, Fault, Source, imports

# Modules through which a room would see the clock, chance, the disk, the net or the machine.
WORLD = frozenset(
    {"asyncio", "getpass", "http", "locale", "logging", "multiprocessing", "os", "pathlib", "platform"}
    | {"random", "secrets", "shutil", "socket", "sqlite3", "subprocess", "sys", "tempfile", "threading"}
    | {"time", "urllib", "uuid"}
)
PATHS_AS_WORDS = "pathlib.Pure"  # takes a path apart, and looks at no disk
WORLD_CALLS = frozenset({"eval", "exec", "input", "open", "print"})
WORLD_METHODS = frozenset(
    {
        "mkdir",
        "now",
        "read_bytes",
        "read_text",
        "saveas",
        "today",
        "unlink",
        "utcnow",
        "write_bytes",
        "write_text",
    }
)
OWN_TABLES = frozenset({"read_bytes", "read_text"})  # allowed where importlib.resources is used
LATE = frozenset({"defusedxml", "ezdxf", "openpyxl", "reportlab", "segno", "xlsxwriter"})  # slow to load
EXACT_ROOMS = frozenset({"ground", "job", "setting_out"})
CHANGEABLE = frozenset({"bytearray", "dict", "list", "set", "Dict", "List", "Set", "MutableMapping"})
WAIVER = re.compile(r"#\s*(noqa|type:\s*ignore|pragma:\s*no\s*(cover|mutate))\b")
OWN_WAIVER = re.compile(r"# house: \w+ \w+")  # and the reason, in words
REASON = re.compile(r"\s(--?|#)\s+\S")


def sees_no_world(source: Source) -> Iterator[Fault]:
    """An inner room reads no file, prints nothing, and knows neither clock nor chance."""
    if not source.inner:
        return
    brought = [name for _, name in imports(source.tree)]
    for node, name in imports(source.tree):
        if name.split(".")[0] in WORLD and not name.startswith(PATHS_AS_WORDS):
            yield source.fault(node, f"an inner room imports {name}: take what it gives as an argument")
    own_tables = (
        OWN_TABLES if any(name.startswith("importlib.resources") for name in brought) else frozenset()
    )
    for call in ast.walk(source.tree):
        called = _called(call)
        if called in (WORLD_CALLS | {f".{method}" for method in WORLD_METHODS - own_tables}):
            yield source.fault(call, f"an inner room calls {called}(): leave that to cli, store or web")


def _called(node: ast.AST) -> str:
    """What a call calls: `print` for print(), `.read_text` for path.read_text(); empty for anything else."""
    match node:
        case ast.Call(func=ast.Name(id=name)):
            return name
        case ast.Call(func=ast.Attribute(attr=name)):
            return f".{name}"
    return ""


def imports_at_the_top(source: Source) -> Iterator[Fault]:
    """An import stands at the top of its file, but for libraries slow to load."""
    functions = (node for node in ast.walk(source.tree) if isinstance(node, ast.FunctionDef))
    for node, name in (found for function in functions for found in imports(function)):
        if name.split(".")[0] not in LATE:
            yield source.fault(node, f"{name} is imported late: move the import to the top of the file")


def records_are_frozen(source: Source) -> Iterator[Fault]:
    """Every dataclass is frozen, has slots, and holds nothing that can change."""
    for node in ast.walk(source.tree):
        if not isinstance(node, ast.ClassDef):
            continue
        for mark in node.decorator_list:
            if "dataclass" in ast.unparse(mark):
                yield from _loose_ends(source, node, ast.unparse(mark))


def _loose_ends(source: Source, record: ast.ClassDef, mark: str) -> Iterator[Fault]:
    for wanted in ("frozen=True", "slots=True"):
        if wanted not in mark:
            yield source.fault(record, f"{record.name} is a dataclass without {wanted}")
    for field in record.body:
        if isinstance(field, ast.AnnAssign):
            for name in sorted(CHANGEABLE & _names(field.annotation)):
                held = f"{record.name}.{ast.unparse(field.target)} holds a {name}"
                yield source.fault(field, f"{held}, which can change: use a tuple or a record")


def _names(annotation: ast.expr) -> set[str]:
    return set(re.findall(r"\w+", ast.unparse(annotation)))


def lengths_are_exact(source: Source) -> Iterator[Fault]:
    """Where lengths are read and set out, no float is written or made."""
    if source.room not in EXACT_ROOMS:
        return
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, float):
            yield source.fault(node, f"{node.value} is a float: lengths are exact here")
        elif _called(node) == "float":
            yield source.fault(node, "float() makes a float: lengths are exact here")


def waivers_have_reasons(source: Source) -> Iterator[Fault]:
    """Whatever a linter is told to overlook, the line says why (`# noqa: CODE -- why`)."""
    for token in tokenize.generate_tokens(io.StringIO(source.text).readline):
        if token.type == tokenize.COMMENT:
            waiver = WAIVER.search(token.string)
            if waiver and not REASON.search(token.string, waiver.end()):
                yield source.fault(token.start[0], f"{token.string!r} does not say why")


Rule = Callable[[Source], Iterator[Fault]]
PACKAGE_RULES: tuple[Rule, ...] = (
    sees_no_world,
    imports_at_the_top,
    records_are_frozen,
    lengths_are_exact,
    waivers_have_reasons,
)
RULES_ANYWHERE: tuple[Rule, ...] = (waivers_have_reasons,)  # tests and tools


def faults(sources: Sequence[Source], rules: Sequence[Rule]) -> Iterator[Fault]:
    """Every broken rule of these files, but on lines that say why it has to be broken there."""
    for source in sources:
        lines = source.text.splitlines()
        for rule in rules:
            yield from (fault for fault in rule(source) if not OWN_WAIVER.search(lines[fault.line - 1]))


def reach_inside(sources: Sequence[Source]) -> Iterator[Fault]:
    """A room is used through the names its `__init__.py` lists, never from inside."""
    private = {source.module for source in sources} - {name for source in sources for name in listed(source)}
    for source in sources:
        for node, name in imports(source.tree):
            room, *inside = name.removeprefix(f"{PACKAGE}.").split(".")
            elsewhere = name.startswith(f"{PACKAGE}.") and room != source.room
            if elsewhere and (len(inside) > 1 or (inside and name in private)):
                yield source.fault(node, f"{name} is inside another room: use what pinchrod.{room} lists")


def listed(source: Source) -> Iterator[str]:
    """The full names a room's `__init__.py` lists in `__all__`; none for other files."""
    for node in source.tree.body:
        match node:
            case ast.Assign(targets=[ast.Name(id="__all__")], value=ast.List(elts=names)):
                yield from (f"{source.module}.{ast.literal_eval(name)}" for name in names)
