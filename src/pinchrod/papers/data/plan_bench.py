"""The part of `plan.json` about spares: how many more of each kind are made while the stop is set."""

from typing import Any

from pinchrod.bench import Bench

Json = dict[str, Any]


def spares_json(bench: Bench) -> list[Json]:
    """Every kind of piece, also those of which no spare is made: then that is known, and not forgotten."""
    return [
        {"like": list(spares.like), "needed": spares.needed, "spare": spares.spare} for spares in bench.spares
    ]
