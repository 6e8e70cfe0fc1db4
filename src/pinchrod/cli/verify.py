"""pinchrod verify: whether a store, or a copy of one, is sound."""

from pathlib import Path

import click

from pinchrod.cli.backup import data_option, for_machines
from pinchrod.cli.check import json_option
from pinchrod.cli.telling import as_json, clean, tell_problems
from pinchrod.store import look_over, open_store, place_of
from pinchrod.store import verify as verified


@click.command()
@click.argument("copy", type=click.Path(path_type=Path), required=False)
@data_option
@json_option
def verify(copy: Path | None, data: str, *, machine: bool) -> None:
    """Say whether the store is sound, or COPY if one is named; nothing is written.

    Every line of the ledger is gone through, every file and paper held against what the ledger says of it.

    \b
    pinchrod verify
    pinchrod verify pinchrod-data/backups/pinchrod-20261125T081500Z.db
    """
    if copy is not None:
        _tell_copy(copy, machine=machine)
        return
    with open_store(place_of(data), writing=False) as store:
        found = verified(store)
        doubts = store.doubts
    tell_problems(doubts)
    if machine:
        figures = {"jobs": found.jobs, "events": found.seq, "seal": found.seal, "digest": found.digest}
        click.echo(as_json(None, doubts, store=figures))
        return
    click.echo(clean(f"Sound: {found}"))
    click.echo(f"The last event's seal is {found.seal}")


def _tell_copy(path: Path, *, machine: bool) -> None:
    copy = look_over(path)
    click.echo(as_json(None, (), copy=for_machines(copy)) if machine else clean(f"Sound: {copy}"))
