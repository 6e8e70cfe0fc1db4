"""pinchrod plan: a job's shop pack, written."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import click

from pinchrod.cli.check import job_argument, json_option, workshop_option
from pinchrod.cli.files import as_shown
from pinchrod.cli.planning import plan_from
from pinchrod.cli.telling import as_json, did_you_mean, summary_of, tell_problems, tell_summary
from pinchrod.cli.writing import Written, check_folder, write
from pinchrod.papers import PARTS, for_printing, pack
from pinchrod.timber import GoesOn, always


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What is to be planned, and how it is to be written and told."""

    job: Path
    workshop: Path | None = None
    out: Path | None = None
    parts: tuple[str, ...] = PARTS
    dry_run: bool = False
    force: bool = False
    machine: bool = False
    beside_job: bool = False
    seconds: int | None = None

    def folder(self, job_name: str) -> Path:
        """Where the pack goes: <job name>-pack, unless said otherwise."""
        usual = Path(f"{file_name(job_name)}-pack")
        return self.out or (self.job.parent / usual if self.beside_job else usual)


def file_name(words: str) -> str:
    """The words as a file's name: small letters and digits, everything else a hyphen."""
    letters = (letter.lower() if letter.isalnum() else " " for letter in words)
    return "-".join("".join(letters).split()) or "job"


def parts_of(_context: click.Context, _option: click.Parameter, said: str | None) -> tuple[str, ...]:
    """The parts of a pack that were named; click says so if one is not known."""
    if said is None:
        return PARTS
    wanted = tuple(part.strip().lower().replace("_", "-") for part in said.split(",") if part.strip())
    unknown = [part for part in wanted if part not in PARTS]
    if not wanted:
        raise click.BadParameter(f"no part is named; the parts are {', '.join(PARTS)}")
    if unknown:
        guess = ", ".join(f"{part!r}{did_you_mean(part, PARTS)}" for part in unknown)
        raise click.BadParameter(f"no part of a pack: {guess}; the parts are {', '.join(PARTS)}")
    return wanted


@click.command()
@job_argument
@workshop_option
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the pack [<job name>-pack].")
@click.option("--only", "parts", callback=parts_of, metavar="PART,...", help=f"Of {', '.join(PARTS)}.")
@click.option("--dry-run", is_flag=True, help="Say what would be written, write nothing.")
@click.option("--force", is_flag=True, help="Write over files that may be somebody else's.")
@click.option("--seconds", type=click.IntRange(1), metavar="N", help="Seek cheaper boards no longer.")
@json_option
def plan(**said: object) -> None:
    """Plan JOB and write its shop pack: drawings, lists, rods and labels.

    JOB is a job file (.toml) or a bare list of frames (.csv or .xlsx). A pack that stands in the folder
    is renewed.

    \b
    pinchrod plan job.toml
    pinchrod plan frames.csv --out pack --only labels,rods
    """
    carry_out(Wish(**said))  # type: ignore[arg-type]  # click gives each option its kind


def carry_out(wish: Wish) -> Written | None:
    """Plan, write and tell; nothing is written on a dry run, or if anything must be mended first."""
    planned = plan_from(wish.job, wish.workshop, _until(wish.seconds))
    plan_made = planned.plan
    rods = for_printing(plan_made.job, plan_made.shop, plan_made.rods)
    folder = wish.folder(plan_made.job.name)
    check_folder(folder, force=wish.force)
    doubts = as_shown(rods.doubts, planned.shown)
    papers = pack(
        plan_made.job,
        plan_made.shop,
        rods,
        wish.parts,
        breakout=plan_made.breakout,
        machining=plan_made.machining,
        bench=plan_made.bench,
    )
    if wish.dry_run:
        written, names = None, tuple(paper.name for paper in papers)
    else:
        written = write(papers, folder, plan_made.job.fingerprint, whole=set(wish.parts) == set(PARTS))
        names = written.names
    summary = summary_of(plan_made.job, plan_made.rods, plan_made.breakout)
    if wish.machine:
        click.echo(as_json(summary, doubts, out=str(folder), written=[] if wish.dry_run else list(names)))
        return written
    tell_problems(doubts)
    tell_summary(summary)
    _tell_files(folder, names, written)
    return written


def _until(seconds: int | None) -> GoesOn:
    """Whether there is time left, if only so many seconds were given."""
    if seconds is None:
        return always
    end = time.monotonic() + seconds
    return lambda: time.monotonic() < end


def _tell_files(folder: Path, names: Sequence[str], written: Written | None) -> None:
    drawings = [name for name in names if name.startswith("drawings/")]
    rest = [name for name in names if name not in drawings]
    named = [*rest, *([f"{len(drawings)} drawings under drawings/"] if drawings else [])]
    click.echo(f"{'wrote' if written else 'would write'} into {folder}: {', '.join(named)}")
    for name in written.cleared if written else ():
        click.echo(f"took away {name}, which this job no longer has")
    if written and "pack.pdf" in names:
        click.echo(f"Open {folder / 'pack.pdf'}")
    if written and written.stale:
        stale = ", ".join(written.stale[:5]) + (" ..." if len(written.stale) > 5 else "")
        click.echo(f"Take care: of another content mark in {folder}: {stale}; plan without --only", err=True)
