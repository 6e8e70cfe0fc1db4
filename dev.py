#!/usr/bin/env python3
"""Sets up this checkout and runs its commands; needs only Python 3.11 or newer.

python3 dev.py demo        write the demo job, plan it, say what to open
python3 dev.py run ...     run pinchrod with what follows, where you stand
python3 dev.py test ...    run the tests
python3 dev.py check       run every check of the house

Everything stands in .venv, from requirements.lock (and requirements-dev.lock for test and check):
exact versions, each held to its hash. Once it stands, no network is needed.
"""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
WINDOWS = os.name == "nt"
SCRIPTS = VENV / ("Scripts" if WINDOWS else "bin")
PYTHON = SCRIPTS / ("python.exe" if WINDOWS else "python")
PROGRAM = SCRIPTS / ("pinchrod.bat" if WINDOWS else "pinchrod")
RUN, DEV = ROOT / "requirements.lock", ROOT / "requirements-dev.lock"
TIMBER = ROOT / "src" / "pinchrod" / "timber"
COMPILED = tuple(
    TIMBER / f"{name}.py" for name in ("kernels", "lay_out", "once", "whole_strip", "taking", "exchange")
)

# What a user may have set for pip or Python that would send packages or imports elsewhere.
LED_ASTRAY = ("PYTHONPATH", "PYTHONHOME", "PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PIP_REQUIRE_VIRTUALENV")

# sh reads the second line as a command, Python as a string: so the path may hold spaces and be long.
POSIX_PROGRAM = """#!/bin/sh
'''exec' "{python}" "$0" "$@"
' '''
import sys

from pinchrod.cli import main

if __name__ == "__main__":  # long work begins processes of its own, which read this again
    sys.exit(main())
"""
WINDOWS_PROGRAM = '@"%~dp0python.exe" -c "import sys; from pinchrod.cli import main; sys.exit(main())" %*\n'

# All tests: on two cores at once where there are two, those of one file together.
ALL = ("-n", "auto", "--maxprocesses", "2", "--dist", "loadfile")

CHECKS = (
    ("ruff", "format", "--check", "."),
    ("ruff", "check", "."),
    ("mypy",),
    ("lint-imports", "--no-logo"),
    ("python", "tools/house.py"),
)


def main(words: list[str]) -> int:
    """The exit status of the command asked for, run in a .venv that is up to date."""
    command, *rest = words or ["help"]
    if command in ("demo", "run"):
        set_up(RUN)
        return call(PROGRAM, *(["demo"] if command == "demo" else []), *rest)
    if command in ("test", "check"):
        set_up(RUN, DEV)
        return check() if command == "check" else call(PYTHON, "-m", "pytest", "-q", *(rest or ALL), cwd=ROOT)
    print(__doc__)
    return 0 if command in ("help", "-h", "--help") else 2


def set_up(*locks: Path) -> None:
    """Bring .venv up to date with these locks; at once if it is."""
    if not stamped("python", this_python()):
        make_venv()
        stamp("python", this_python())
    if not stamped("program", POSIX_PROGRAM):
        put_in_place()
        stamp("program", POSIX_PROGRAM)
    for lock in locks:
        if not stamped(lock.stem, digest(lock)):
            install(lock)
            stamp(lock.stem, digest(lock))
    if not stamped("compiled", digest(*COMPILED)):
        compile_sums()
        stamp("compiled", digest(*COMPILED))


def make_venv() -> None:
    """Make .venv afresh, with src on its path and the program in its place."""
    print(f"Making {VENV}", file=sys.stderr)
    try:
        import ensurepip  # noqa: F401 -- some systems leave it out, and venv then fails less clearly
        import venv
    except ImportError:
        sys.exit("This Python cannot make a virtual environment (on Debian: apt-get install python3-venv)")
    venv.create(VENV, clear=True, with_pip=True)


def put_in_place() -> None:
    """Put src on .venv's path and write its program, as an installer would, but with nothing to build."""
    ask = "import sysconfig; print(sysconfig.get_path('purelib'))"
    packages = subprocess.check_output([PYTHON, "-c", ask], text=True, env=environment()).strip()
    Path(packages, "_src.pth").write_text(f"{ROOT / 'src'}\n", encoding="utf-8")
    PROGRAM.write_text(WINDOWS_PROGRAM if WINDOWS else POSIX_PROGRAM.format(python=PYTHON), encoding="utf-8")
    PROGRAM.chmod(0o755)


def install(lock: Path) -> None:
    """Install what a lock names, held to its hashes, and nothing besides."""
    print(f"Installing {lock.name}", file=sys.stderr)
    pip = ("-m", "pip", "install", "--disable-pip-version-check", "--no-input", "--quiet")
    held = ("--require-hashes", "--only-binary", ":all:", "--no-deps", "--requirement", str(lock))
    if call(PYTHON, *pip, *held):
        sys.exit(f"{lock.name} could not be installed; what pip says above tells why")


def compile_sums() -> None:
    """Compile the sums that lay out boards, so that nobody waits for it at the first plan.

    What was compiled before is taken away: a sum does not notice that one it calls has changed. If it cannot
    be done here, the first plan does it.
    """
    print("Compiling the sums that lay out boards, some half a minute", file=sys.stderr)
    for old in (TIMBER / "__pycache__").glob("*.nb[ci]"):
        if old.name.split(".")[0] in [one.stem for one in COMPILED]:
            old.unlink()
    call(PYTHON, "-c", "from pinchrod.timber import compile_sums; compile_sums()")


def check() -> int:
    """0 if every check of the house passes; they all run, so that all faults show at once."""
    failed = []
    for tool, *rest in CHECKS:
        print(f"--- {' '.join([tool, *rest])}", flush=True)
        if call(SCRIPTS / tool, *rest, cwd=ROOT):
            failed.append(" ".join([tool, *rest]))
    print(f"--- {'failed: ' + ', '.join(failed) if failed else 'every check passed'}", flush=True)
    return 1 if failed else 0


def call(program: Path, *words: str, cwd: Path | None = None) -> int:
    """The exit status of a program of .venv."""
    found = shutil.which(str(program)) or str(program)
    return subprocess.call([found, *words], cwd=cwd, env=environment())


def environment() -> dict[str, str]:
    """The surroundings programs run in: the user's own, less what would lead them astray."""
    return {name: value for name, value in os.environ.items() if name not in LED_ASTRAY}


def this_python() -> str:
    """What .venv was made with and where: if either changes, it has to be made afresh."""
    return f"{sys.version}\n{ROOT}"


def digest(*files: Path) -> str:
    """The fingerprint of a lock, or of several files."""
    return hashlib.sha256(b"".join(file.read_bytes() for file in files)).hexdigest()


def stamped(name: str, mark: str) -> bool:
    """Whether that part of .venv was finished and is as it should be."""
    path = VENV / f".{name}.stamp"
    return path.exists() and path.read_text(encoding="utf-8") == mark


def stamp(name: str, mark: str) -> None:
    """Note that a part of .venv is finished."""
    (VENV / f".{name}.stamp").write_text(mark, encoding="utf-8")


if __name__ == "__main__":
    if sys.version_info < (3, 11):  # noqa: UP036 -- whoever starts this may have an older one
        sys.exit("Python 3.11 or newer is needed")
    sys.exit(main(sys.argv[1:]))
