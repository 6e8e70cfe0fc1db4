"""pinchrod backup: a copy of the store, looked over before it bears its name."""

from pathlib import Path

import click

from pinchrod.cli.check import json_option
from pinchrod.cli.telling import as_json, clean, tell_problems
from pinchrod.store import Copy, Folder, back_up, open_store, place_of, thin
from pinchrod.store import this_moment as now

data_option = click.option(
    "--data",
    default="pinchrod-data",
    show_default=True,
    metavar="PLACE",
    help="The store: its folder, or the address of a PostgreSQL server.",
)


@click.command()
@data_option
@click.option("--to", type=click.Path(path_type=Path), help="The folder for copies; else backups beside it.")
@click.option(
    "--thin", "thinned", is_flag=True, help="Then take away old copies that newer ones make needless."
)
@json_option
def backup(data: str, to: Path | None, *, thinned: bool, machine: bool) -> None:
    """Copy the store as it stands, while others go on working with it.

    The copy is looked over, and gets its name only when it is sound. Keep copies on another disk.

    \b
    pinchrod backup --to /media/stick
    """
    place = place_of(data)
    folder = to or (place.backups if isinstance(place, Folder) else None)
    if folder is None:
        raise click.UsageError("a server's copies go into a folder that you name: --to DIR")
    with open_store(place, writing=False) as store:
        copy = back_up(store, folder)
        doubts = store.doubts
    gone = thin(folder, now()) if thinned else ()
    tell_problems(doubts)
    if machine:
        click.echo(as_json(None, doubts, copy=for_machines(copy), thinned=[path.name for path in gone]))
        return
    click.echo(clean(f"Copied, looked over and sound: {copy}"))
    if gone:
        click.echo(f"{len(gone)} old copies were taken away.")


def for_machines(copy: Copy) -> dict[str, object]:
    """A copy in figures."""
    return {
        "file": str(copy.path),
        "taken": copy.taken,
        "jobs": copy.jobs,
        "events": copy.seq,
        "digest": copy.digest,
    }
