"""pinchrod check: read and set out, write nothing."""

from pathlib import Path

import click

from pinchrod.cli.files import as_shown
from pinchrod.cli.planning import check_from
from pinchrod.cli.telling import as_json, program, summary_of, tell_problems, tell_summary

job_argument = click.argument("job", type=click.Path(path_type=Path))
workshop_option = click.option(
    "--workshop",
    type=click.Path(path_type=Path),
    help="The workshop file to use instead of the job's own.",
)
json_option = click.option("--json", "machine", is_flag=True, help="Print the summary as JSON.")


@click.command()
@job_argument
@workshop_option
@json_option
def check(job: Path, workshop: Path | None, *, machine: bool) -> None:
    """Read and set out JOB and say what is wrong or doubtful; nothing is written.

    JOB is a job file (.toml) or a bare list of frames (.csv or .xlsx).

    \b
    pinchrod check job.toml
    """
    checked = check_from(job, workshop)
    doubts = as_shown(checked.rods.doubts, checked.shown)
    summary = summary_of(checked.job, checked.rods)
    if machine:
        click.echo(as_json(summary, doubts))
        return
    tell_problems(doubts)
    tell_summary(summary)
    click.echo(f"Nothing to mend. Next: {program()} plan {job}")
