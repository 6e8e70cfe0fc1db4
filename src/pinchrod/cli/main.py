"""The commands. Exit status: 0 done, 2 something to mend, 1 a fault of ours, 130 stopped by hand."""

import gc
import importlib
import sys
import tempfile
import traceback
from collections.abc import Sequence
from types import MappingProxyType

import click

from pinchrod import VERSION
from pinchrod.cli.telling import as_json, did_you_mean, tell_problems
from pinchrod.ground import NotYetRight

DONE, OUR_FAULT, TO_MEND, STOPPED = 0, 1, 2, 130

HELP = """Sets out beaded face frames, from a job file or a list of frames.

\b
pinchrod demo                our demo job and its shop pack
pinchrod check job.toml      say what is wrong or doubtful, write nothing
pinchrod plan job.toml       write the shop pack
pinchrod buy job.toml        what to order, and how sure that is
pinchrod recut PACK ...      plan around a fault found in a stick
pinchrod square K7 ...       what two diagonals say of a frame
pinchrod backup              copy the store, while others work with it
pinchrod restore COPY        put the store back from a copy
pinchrod verify              say whether the store is sound
pinchrod serve               the workshop's pages on this computer
"""


class ByName(click.Group):
    """Commands, each in a module of its name and loaded only when it is said: `check` needs no papers."""

    NAMES = ("backup", "buy", "check", "demo", "plan", "recut", "restore", "serve", "square", "verify")
    ELSEWHERE = MappingProxyType({"serve": "pinchrod.web.command"})  # the pages' own room

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command's name."""
        return sorted({*self.NAMES, *super().list_commands(ctx)})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, if there is one."""
        if cmd_name not in self.NAMES:
            return super().get_command(ctx, cmd_name)
        place = self.ELSEWHERE.get(cmd_name, f"pinchrod.cli.{cmd_name}")
        found = getattr(importlib.import_module(place), cmd_name)
        return found if isinstance(found, click.Command) else None

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command said first; a slip of the keyboard is told with what was meant, and not carried out."""
        if args and self.get_command(ctx, args[0]) is None and not args[0].startswith("-"):
            names = self.list_commands(ctx)
            guess = did_you_mean(args[0], names)
            ctx.fail(f"there is no command {args[0]!r}{guess}; the commands are {', '.join(names)}")
        return super().resolve_command(ctx, args)


@click.group(
    cls=ByName,
    help=HELP,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    invoke_without_command=True,
)
@click.version_option(VERSION, "-V", "--version", prog_name="pinchrod")
@click.pass_context
def commands(context: click.Context) -> None:
    """Short help, where no command is said."""
    if context.invoked_subcommand is None:
        click.echo(context.get_help())


@click.command("help")
@click.argument("command", required=False)
@click.pass_context
def help_on(context: click.Context, command: str | None) -> None:
    """Say how a COMMAND is used."""
    group = context.parent
    wanted = commands.get_command(context, command) if command else None
    if command and wanted is None:
        raise click.UsageError(f"there is no command {command!r}", context)
    if wanted is None or command is None:
        click.echo(group.get_help() if group else "")
    else:
        click.echo(wanted.get_help(click.Context(wanted, info_name=command, parent=group)))


commands.add_command(help_on)


def main(words: Sequence[str] | None = None) -> int:
    """The exit status of the command said; nothing but a full stop of the machine gets past it."""
    gc.disable()  # a run is short and keeps what it makes: looking for rubbish took a quarter of it
    try:
        commands.main(args=list(words) if words is not None else None, standalone_mode=False)
    except (NotYetRight, click.ClickException) as slip:
        return _to_mend(slip, sys.argv[1:] if words is None else words)
    except click.exceptions.Exit as leaving:
        return leaving.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("stopped; the papers written so far are whole", err=True)
        return STOPPED
    except Exception as trouble:  # noqa: BLE001  # the edge: say so plainly, keep what happened, lose nothing
        return _not_of_the_job(trouble)
    return DONE


def _to_mend(slip: NotYetRight | click.ClickException, words: Sequence[str]) -> int:
    if isinstance(slip, NotYetRight):
        tell_problems(slip.problems)
        if "--json" in words:
            click.echo(as_json(None, slip.problems))
    else:
        slip.show()
    return TO_MEND


def _not_of_the_job(trouble: Exception) -> int:
    """What is said when the machine or the program is at fault, not the joiner."""
    if isinstance(trouble, BrokenPipeError):
        sys.stdout = None  # whoever read us has gone: say no more
        return DONE
    told = _of_the_machine(trouble) if isinstance(trouble, OSError) else _own_fault(traceback.format_exc())
    click.echo(told, err=True)
    return OUR_FAULT


def _of_the_machine(trouble: OSError) -> str:
    where = f" {trouble.filename}" if trouble.filename else ""
    return (
        f"the computer would not let{where} be written: {trouble.strerror}; papers written so far are whole"
    )


def _own_fault(told: str) -> str:
    with tempfile.NamedTemporaryFile(
        "w", prefix="pinchrod-fault-", suffix=".txt", delete=False, encoding="utf-8"
    ) as file:
        file.write(f"pinchrod {VERSION}, Python {sys.version}\n{told}")
    return (
        "a fault of ours, not of your job; nothing you said is lost."
        f" What happened is written in {file.name}: send it to us with the job file"
    )
