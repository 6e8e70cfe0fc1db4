"""pinchrod demo: our own job, written and planned."""

from pathlib import Path

import click

from pinchrod.cli.plan import Wish, carry_out
from pinchrod.cli.telling import program
from pinchrod.cli.writing import check_demo_folder, put

HERE = Path(__file__).resolve().parent / "saltmarsh_row"


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), default=Path("saltmarsh-row"), metavar="[DIR]")
@click.option("--force", is_flag=True, help="Write over a demo job that you have changed.")
def demo(folder: Path, *, force: bool) -> None:
    """Write our demo job, Saltmarsh Row, into DIR [saltmarsh-row], plan it, and say what to open.

    \b
    pinchrod demo
    """
    files = {each.name: each.read_bytes() for each in sorted(HERE.iterdir()) if each.is_file()}
    check_demo_folder(folder, files, force=force)
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        put(folder / name, content)
    click.echo(f"wrote {', '.join(files)} into {folder}: read them, change them, plan them again")
    carry_out(Wish(job=folder / "job.toml", beside_job=True))
    click.echo(f"Then change {folder / 'job.toml'} and say: {program()} plan {folder / 'job.toml'}")
