"""The workshop understood: what it has and how it works, each figure as said or as usual."""

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from itertools import pairwise
from typing import Any, TypeVar

from pinchrod.ground import Mm, Problem, Where
from pinchrod.job.fields import choice, table_in, yes_or_no
from pinchrod.job.keys import unknown_names
from pinchrod.job.limits import in_unit
from pinchrod.job.records import Joint
from pinchrod.job.said import Reading, Said, Table
from pinchrod.job.shop import HingeStep, LabelSheet, Shop
from pinchrod.job.shop_sizes import PAPER_SIZES, SAYINGS, SHOP_SIZES
from pinchrod.job.sizes import measure, whole
from pinchrod.job.tallies import read_tally
from pinchrod.job.version import read_version

Part = TypeVar("Part")

SHOP_TABLES = (
    *("practice", "machines", "fixings", "hinges", "moisture", "labels", "papers"),
    *("spoiled", "glue", "taping"),
)
JOB_TABLES = ("fixings", "hinges", "moisture", "labels", "papers")  # those a job file may hold, too
OUTERMOST = ("pinchrod", *SHOP_TABLES, "offer")


def shop_of(said: Table, whole_file: Where) -> Reading[Shop]:
    """The workshop that a workshop file describes, on top of the built-in one."""
    if not (yield from read_version(said, whole_file)):
        return Shop()
    known = {
        "": OUTERMOST,
        "the job file": ("job", "frame", "bead", "members", "gaps", "doors", "timber", "run"),
    }
    yield from unknown_names(said, "", known)
    return (yield from with_tables(Shop(), said, SHOP_TABLES))


def with_tables(shop: Shop, said: Table, tables: tuple[str, ...]) -> Reading[Shop]:
    """The workshop with what these tables of the file change in it.

    Figures that cannot stand together are left as they were, so that what comes after can be looked at.
    """
    before = shop
    for name in tables:
        found = said.get(name)
        if found is not None:
            part = yield from _part(getattr(shop, name), found, name)
            shop = replace(shop, **{name: part})
    for path in (yield from _contradictions(shop, said)):
        shop = _left_as_it_was(shop, before, path)
    return shop


def _left_as_it_was(now: Part, before: Part, path: str) -> Part:
    """A record with one part of it, however deep inside, as it was before."""
    first, _, inside = path.partition(".")
    part = getattr(before, first)
    kept = _left_as_it_was(getattr(now, first), part, inside) if inside else part
    return replace(now, **{first: kept})  # type: ignore[type-var] # every part is a record


def usual_figures(joint: Joint, said: tuple[Table, ...]) -> Iterator[str]:
    """What the papers rest on that none of the files says."""
    fixing = joint.value.replace(" ", "_")
    for path, saying in SAYINGS.items():
        other_fixing = path.startswith("fixings.") and not path.startswith(f"fixings.{fixing}.")
        if not other_fixing and not any(_says(table, path) for table in said):
            yield saying.format(_shown(path))


def _part(usual: Part, said: Said, path: str) -> Reading[Part]:
    """A record of the workshop with what the table says of it."""
    table = yield from table_in(said, path)
    if table is None:
        return usual
    names = tuple(field.name for field in fields(usual))  # type: ignore[arg-type] # every part is a record
    yield from unknown_names(table, path, {path: names})
    changed = {}
    for name in names:
        found = table.get(name)
        if found is not None:
            changed[name] = yield from _like(getattr(usual, name), found, f"{path}.{name}")
    return replace(usual, **changed)  # type: ignore[type-var] # every part is a record


def _like(usual: Any, said: Said, path: str) -> Reading[Any]:  # noqa: ANN401 - a figure of any kind
    """What was said, read as the usual value is; the usual one if it cannot be."""
    if is_dataclass(usual):
        return (yield from _part(usual, said, path))
    found = yield from _figure(usual, said, path)
    return usual if found is None else found


def _figure(usual: Any, said: Said, path: str) -> Reading[Any]:  # noqa: ANN401 - a figure of any kind
    if isinstance(usual, bool):
        return (yield from yes_or_no(said, path))
    if isinstance(usual, str):
        return (yield from choice(said, path, PAPER_SIZES))
    if isinstance(usual, tuple):
        return (yield from _tuple_of(usual)(said, path))
    between = SHOP_SIZES[path]
    if isinstance(usual, int):
        return (yield from whole(said, path, between))
    return (yield from measure(said, path, between))


def _tuple_of(usual: tuple[Any, ...]) -> Callable[[Said, str], Reading[Any]]:
    """The reader of what is usually these: only the tally of spoiled pieces begins empty."""
    if not usual:
        return read_tally
    return _steps if isinstance(usual[0], HingeStep) else _pair


def _pair(said: Said, path: str) -> Reading[tuple[Mm, Mm] | None]:
    """The shallowest and the deepest, in that order."""
    if not isinstance(said.value, tuple) or len(said.value) != 2:
        yield _problem(
            said, "not-a-pair", f"{path} is not two sizes", "write the least and the most: [0.75, 1.0]"
        )
        return None
    low = yield from measure(said.value[0], path, SHOP_SIZES[path])
    high = yield from measure(said.value[1], path, SHOP_SIZES[path])
    if low is None or high is None:
        return None
    if low > high:
        yield _problem(said, "contradiction", f"{path} says the more before the less", "write the less first")
        return None
    return low, high


def _steps(said: Said, path: str) -> Reading[tuple[HingeStep, ...] | None]:
    """How many hinges up to which measure: tables { up_to = 1016, number = 2 }, or pairs [1016, 2]."""
    if not isinstance(said.value, tuple) or not said.value:
        mend = "write [[1016, 2], [1524, 3]]: up to 1016, two; up to 1524, three"
        yield _problem(said, "not-steps", f"{path} is not a list of steps", mend)
        return None
    steps: list[HingeStep] = []
    for one in said.value:
        step = yield from _step(one, path)
        steps += [step] if step is not None else []
    if any(one.up_to >= two.up_to or one.number > two.number for one, two in pairwise(steps)):
        mend = "begin with the least, and let each step have more hinges than the one before"
        yield _problem(said, "contradiction", f"{path} does not rise from step to step", mend)
        return None
    return tuple(steps) if len(steps) == len(said.value) else None


def _step(said: Said, path: str) -> Reading[HingeStep | None]:
    pair: tuple[Said | None, ...] = said.value if isinstance(said.value, tuple) else ()
    if isinstance(said.value, Table):
        yield from unknown_names(said.value, path, {path: ("up_to", "number")})
        pair = (said.value.get("up_to"), said.value.get("number"))
    if len(pair) != 2 or pair[0] is None or pair[1] is None:
        yield _problem(
            said, "not-steps", f"a step of {path} is not a measure and a number", "write [1016, 2]"
        )
        return None
    up_to = yield from measure(pair[0], f"{path}.up_to", SHOP_SIZES[f"{path}.up_to"])
    number = yield from whole(pair[1], f"{path}.number", SHOP_SIZES[f"{path}.number"])
    return None if up_to is None or number is None else HingeStep(up_to=up_to, number=number)


def _contradictions(shop: Shop, said: Table) -> Reading[tuple[str, ...]]:
    """The tables with figures that cannot stand together."""
    found = []
    practice, moisture, passes = shop.practice, shop.moisture, shop.machines.thicknesser
    pairs = (
        ("practice", "shortest_stick", practice.shortest_stick, "longest_stick", practice.longest_stick),
        ("moisture", "driest", moisture.driest, "wettest", moisture.wettest),
        ("machines.thicknesser", "final_pass", passes.final_pass[0], "deepest_pass", passes.deepest_pass),
        *_label_pairs(shop.labels),
    )
    for table, less, low, more, high in pairs:
        place = _place(said, table, less, more)
        if low > high and place is not None:
            what = f"in [{table}], {less} comes to {in_unit(low, '')}, more than {more}, {in_unit(high, '')}"
            yield _problem(place, "contradiction", what, "change one of the two")
            found.append(table)
    return tuple(found)


def _label_pairs(labels: LabelSheet) -> tuple[tuple[str, str, Mm, str, Mm], ...]:
    """What must not be more than what on a sheet of labels."""
    across = labels.left + (labels.columns - 1) * labels.column_pitch + labels.width
    down = labels.top + (labels.rows - 1) * labels.row_pitch + labels.height
    beside = labels.column_pitch if labels.columns > 1 else labels.width
    below = labels.row_pitch if labels.rows > 1 else labels.height
    return (
        ("labels", "width", labels.width, "column_pitch", beside),
        ("labels", "height", labels.height, "row_pitch", below),
        ("labels", "the columns' width", across, "page_width", labels.page_width),
        ("labels", "the rows' height", down, "page_height", labels.page_height),
        ("labels", "first", Mm(labels.first), "the number of labels", Mm(labels.columns * labels.rows)),
    )


def _place(said: Table, table: str, *names: str) -> Said | None:
    """Where one of these figures was said, or their table; None if the file says nothing of them."""
    *inside, last = table.split(".")
    for name in inside:
        said = said.table(name)
    figures = (said.table(last).get(name) for name in names)
    return next((figure for figure in figures if figure is not None), said.get(last))


def _says(table: Table, path: str) -> bool:
    """Whether a file says anything under that path."""
    *inside, last = path.split(".")
    for name in inside:
        table = table.table(name)
    return table.get(last) is not None


def _shown(path: str) -> str:
    """A figure of the built-in workshop as a reader of papers wants it."""
    figure: Any = Shop()
    for name in path.split("."):
        figure = getattr(figure, name)
    if isinstance(figure, tuple):
        unit = SHOP_SIZES[f"{path}.up_to"].unit
        return ", ".join(f"{step.number} up to {in_unit(step.up_to, unit)}" for step in figure)
    if path.endswith("share"):
        return str(figure)
    return in_unit(Mm(figure), SHOP_SIZES[path].unit)


def _problem(said: Said, code: str, what: str, mend: str) -> Problem:
    return Problem(where=said.at, code=code, what=what, mend=mend)
