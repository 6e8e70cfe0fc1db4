"""pinchrod restore: a store put back from a copy."""

from pathlib import Path

import click

from pinchrod.cli.backup import data_option, for_machines
from pinchrod.cli.check import json_option
from pinchrod.cli.telling import as_json, clean
from pinchrod.store import place_of
from pinchrod.store import restore as put_back


@click.command()
@click.argument("copy", type=click.Path(path_type=Path))
@data_option
@click.option("--over", is_flag=True, help="Set aside the store that stands there.")
@json_option
def restore(copy: Path, data: str, *, over: bool, machine: bool) -> None:
    """Put the store back as it was when COPY was taken.

    The copy is looked over first. A store that stands there is set aside only with --over, and never lost.
    Whoever writes there must be stopped before.

    \b
    pinchrod restore pinchrod-data/backups/pinchrod-20261125T081500Z.db --over
    """
    place = place_of(data)
    restored = put_back(copy, place, over=over)
    if machine:
        click.echo(as_json(None, (), restored=for_machines(restored.copy), aside=restored.aside))
        return
    click.echo(clean(f"Put back into {place} from {restored.copy}"))
    if restored.aside:
        click.echo(clean(f"The store that stood there lies in {restored.aside}"))
