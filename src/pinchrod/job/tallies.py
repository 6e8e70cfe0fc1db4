"""The workshop's tally of pieces made and spoiled: rows by length, read and checked."""

from itertools import pairwise

from pinchrod.ground import Mm
from pinchrod.job.bench_habits import Tally
from pinchrod.job.found import missing, problem_at
from pinchrod.job.keys import unknown_names
from pinchrod.job.said import Reading, Said, Table
from pinchrod.job.shop_sizes import SHOP_SIZES
from pinchrod.job.sizes import length, whole

ROW = "{ up_to = 600, made = 120, spoiled = 3 }"
NAMES = ("up_to", "made", "spoiled")


def read_tally(said: Said, path: str) -> Reading[tuple[Tally, ...] | None]:
    """Rows of pieces up to which length were made and spoiled, from the shortest on; there may be none."""
    if not isinstance(said.value, tuple):
        yield problem_at(said, "not-a-tally", f"{path} is not a list of rows", f"write [{ROW}]")
        return None
    rows = []
    for one in said.value:
        row = yield from _row(one, path)
        rows += [row] if row is not None else []
    if any(one.up_to >= two.up_to for one, two in pairwise(rows)):
        mend = "begin with the shortest pieces, and give each length one row"
        yield problem_at(said, "contradiction", f"{path} does not rise from row to row", mend)
        return None
    return tuple(rows) if len(rows) == len(said.value) else None


def _row(said: Said, path: str) -> Reading[Tally | None]:
    if not isinstance(said.value, Table):
        what = f"a row of {path} is no table of names and values"
        yield problem_at(said, "not-a-tally", what, f"write {ROW}")
        return None
    yield from unknown_names(said.value, path, {path: NAMES})
    up_to = yield from _figure(said, said.value, path, "up_to")
    made = yield from _figure(said, said.value, path, "made")
    spoiled = yield from _figure(said, said.value, path, "spoiled")
    if up_to is None or made is None or spoiled is None:
        return None
    if spoiled > made:
        what = f"a row of {path} says {spoiled} spoiled of {made} made"
        yield problem_at(said, "contradiction", what, "count the spoiled among the made")
        return None
    return Tally(up_to=up_to, made=int(made), spoiled=int(spoiled))


def _figure(row: Said, table: Table, path: str, name: str) -> Reading[Mm | None]:
    """One figure of a row: a length, or how many pieces."""
    said, between = table.get(name), SHOP_SIZES[f"{path}.{name}"]
    if said is None:
        yield missing(row, f"{name} in a row of {path}", f"write {ROW}")
        return None
    if name == "up_to":
        return (yield from length(said, f"{path}.{name}", between))
    number = yield from whole(said, f"{path}.{name}", between)
    return None if number is None else Mm(number)
