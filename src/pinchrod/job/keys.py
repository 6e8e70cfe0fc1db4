"""Names that a table may hold: an unknown one is a fault, told with the name that was meant."""

from collections.abc import Iterator, Mapping, Sequence

from pinchrod.ground import Problem, quoted
from pinchrod.job.fields import table_in
from pinchrod.job.names import meant, nearest
from pinchrod.job.said import NOTHING, Reading, Said, Table

LATER = {
    "run": "runs along a wall are not read yet, so every frame needs its size",
}
REPEATED = ("frame", "timber", "run", "offer")  # tables of which there may be several
Known = Mapping[str, Sequence[str]]
"""The names that each table of a file may hold; the outermost level is the table named ""."""


def part(said: Table, name: str, known: Known) -> Reading[Table]:
    """The table of that name, its unknown names told; an empty one if it is not there."""
    found = said.get(name)
    table = NOTHING if found is None else (yield from table_in(found, name))
    if table is None:
        return NOTHING
    yield from unknown_names(table, name, known)
    return table


def unknown_names(table: Table, name: str, known: Known) -> Reading[None]:
    """Every name in a table that nobody reads, with the place where it belongs or the name meant."""
    for key, said in table.said.items():
        if key not in known[name]:
            yield _unknown(key, said, name, known)


def not_yet_used(table: Table, names: Sequence[str]) -> Iterator[Problem]:
    """What this release reads over, though the contract has it."""
    for name in names:
        said = table.get(name)
        if said is not None:
            mend = "leave it for a later release, or take it out"
            yield Problem(where=said.key_at, code="not-yet-used", what=LATER[name], mend=mend, stops=False)


def _unknown(key: str, said: Said, name: str, known: Known) -> Problem:
    inside = f"in {_home(name)}" if name else "on the outermost level"
    what = f"{quoted(key)} {inside} is not a name we read"
    mend = _table_meant(key, said, known[name]) or _meant(key, name, known)
    return Problem(where=said.key_at, code="unknown-name", what=what, mend=mend)


def _table_meant(key: str, said: Said, known: Sequence[str]) -> str:
    """What to write instead of a misspelt header in double brackets; nothing for any other name."""
    headers = isinstance(said.value, tuple) and any(isinstance(one.value, Table) for one in said.value)
    found = nearest(key, [name for name in REPEATED if name in known], most=1) if headers else ()
    return f"begin each with [[{found[0]}]], or take it out" if found else ""


def _meant(key: str, name: str, known: Known) -> str:
    """Where the name belongs, or the name that is meant, or every name there is."""
    homes = [_home(home) for home, keys in known.items() if home and home != name and key in keys]
    if homes:
        return f"write it in {' or '.join(homes)}"
    every = f"take the line out; known here: {', '.join(known[name])}"
    close = ", or take the line out" if nearest(key, known[name]) else ""
    return meant(key, known[name], every) + close


def _home(table: str) -> str:
    """A table as its header writes it; another file as we call it."""
    return table if " " in table else f"[{table}]"
