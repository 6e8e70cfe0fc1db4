"""A PostgreSQL server of our own for the tests, from the distribution's packages, in a folder that goes away."""

import os
import shutil
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.store.shop import quick_folder

NAMED = "PINCHROD_POSTGRESQL"  # the address of a server to use instead; its schema `pinchrod` is dropped!
WHERE = ("/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/usr/local/opt/postgresql*/bin")


def programs() -> Path | None:
    """The folder of the newest server's programs on this computer, if there is one."""
    found = [path for pattern in WHERE for path in Path("/").glob(pattern[1:]) if (path / "initdb").exists()]
    on_path = shutil.which("initdb")
    return max(found, default=Path(on_path).parent if on_path else None)


@dataclass(frozen=True)
class Running:
    """A server that runs: its address, and the words that start and stop it."""

    url: str
    control: tuple[object, ...]
    start: tuple[object, ...]

    def crash(self) -> None:
        """Stop it at once, as a crash would, and start it again."""
        run(*self.control, "-m", "immediate", "stop")
        run(*self.start)


@contextmanager
def a_server() -> Iterator[Running]:
    """A server that runs until the end of the block, in a folder of its own that its user may enter."""
    with TemporaryDirectory(
        prefix="pinchrod-postgresql-", dir=quick_folder(), ignore_cleanup_errors=True
    ) as folder:
        yield from _running_in(Path(folder))


def _running_in(folder: Path) -> Iterator[Running]:
    bin_, port = programs(), _free_port()
    assert bin_ is not None
    data = folder / "data"
    as_owner = _as_owner(folder)
    run(
        *as_owner,
        bin_ / "initdb",
        "-N",
        "-D",
        data,
        "-A",
        "trust",
        "-U",
        "app",
        "--locale=C.UTF-8",
        "-E",
        "UTF8",
    )
    options = f"-p {port} -h 127.0.0.1 -k {folder}"
    control = (*as_owner, bin_ / "pg_ctl", "-D", data, "-w", "-t", "60")
    start = (*control, "-l", folder / "log", "-o", options, "start")
    run(*start)
    try:
        yield Running(f"postgresql://app@127.0.0.1:{port}/postgres", control, start)
    finally:
        run(*control, "-m", "fast", "stop")


def run(*words: object) -> None:
    """Run a program to its end; what it says is told only if it fails."""
    done = subprocess.run([str(word) for word in words], cwd="/", capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def _as_owner(folder: Path) -> tuple[str, ...]:
    """The server refuses to run as root: then it runs as the user that its package made."""
    if os.geteuid() != 0:
        return ()
    shutil.chown(folder, "postgres", "postgres")
    return ("setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups")


def _free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])
