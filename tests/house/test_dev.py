"""One command sets up a checkout: the program it writes runs, and a second run has nothing to do."""

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

import dev

TOP = Path(dev.__file__).parent


@pytest.fixture
def checkout(tmp_path, monkeypatch):
    """A checkout in a folder with a space in its name, with a stand-in for its .venv and its program."""
    top = tmp_path / "plot 7"
    monkeypatch.setattr(dev, "ROOT", top)
    monkeypatch.setattr(dev, "VENV", top / ".venv")
    for lock in ("RUN", "DEV"):
        monkeypatch.setattr(dev, lock, top / f"{lock}.lock")
        (top / ".venv").mkdir(parents=True, exist_ok=True)
        (top / f"{lock}.lock").write_text("segno==1.6.6\n", encoding="utf-8")
    (top / "sums.py").write_text("one = 1\n", encoding="utf-8")
    monkeypatch.setattr(dev, "COMPILED", (top / "sums.py",))
    return top


@pytest.fixture
def work(checkout, monkeypatch):
    """What set_up did, in order, with nothing made, installed or compiled."""
    done = []

    def make_venv():
        done.append("make .venv")
        for stamp in (checkout / ".venv").glob(".*.stamp"):
            stamp.unlink()  # afresh: what stood there is gone

    monkeypatch.setattr(dev, "make_venv", make_venv)
    monkeypatch.setattr(dev, "put_in_place", lambda: done.append("program"))
    monkeypatch.setattr(dev, "install", lambda lock: done.append(lock.name))
    monkeypatch.setattr(dev, "compile_sums", lambda: done.append("compile"))
    return done


def test_the_second_run_has_nothing_to_do(work):
    dev.set_up(dev.RUN)
    dev.set_up(dev.RUN)

    assert work == ["make .venv", "program", "RUN.lock", "compile"]


def test_changed_sums_are_compiled_again_and_nothing_else_is_done(work):
    dev.set_up(dev.RUN)
    dev.COMPILED[0].write_text("one = 1.0\n", encoding="utf-8")
    dev.set_up(dev.RUN)

    assert work[4:] == ["compile"]


def test_the_tools_of_a_test_run_are_added_to_what_stands(work):
    dev.set_up(dev.RUN)
    dev.set_up(dev.RUN, dev.DEV)

    assert work == ["make .venv", "program", "RUN.lock", "compile", "DEV.lock"]


def test_a_changed_lock_is_installed_again_and_alone(work):
    dev.set_up(dev.RUN, dev.DEV)
    dev.DEV.write_text("segno==1.6.7\n", encoding="utf-8")
    dev.set_up(dev.RUN, dev.DEV)

    assert work[5:] == ["DEV.lock"]


def test_another_python_or_a_moved_checkout_makes_it_all_afresh(work, checkout, monkeypatch):
    dev.set_up(dev.RUN)
    monkeypatch.setattr(dev, "ROOT", checkout.parent / "plot 8")
    dev.set_up(dev.RUN)

    assert work == ["make .venv", "program", "RUN.lock", "compile"] * 2


def test_a_set_up_broken_off_is_done_again(work, monkeypatch):
    monkeypatch.setattr(dev, "install", lambda lock: sys.exit(f"{lock.name} could not be installed"))
    with pytest.raises(SystemExit):
        dev.set_up(dev.RUN)

    monkeypatch.setattr(dev, "install", lambda lock: work.append(lock.name))
    dev.set_up(dev.RUN)

    assert work == ["make .venv", "program", "RUN.lock", "compile"]


def test_another_program_script_is_put_in_place_and_nothing_else_is_done(work, monkeypatch):
    dev.set_up(dev.RUN)
    monkeypatch.setattr(dev, "POSIX_PROGRAM", "#!/bin/sh\n")
    dev.set_up(dev.RUN)

    assert work[4:] == ["program"]


def test_every_file_of_sums_of_the_break_out_is_compiled_at_set_up():
    sums = {path for path in dev.TIMBER.glob("*.py") if "@njit" in path.read_text(encoding="utf-8")}

    assert set(dev.COMPILED) == sums


def an_executable(path, text):
    path.write_text(text, encoding="utf-8")
    path.chmod(0o755)
    return path


@pytest.mark.skipif(os.name == "nt", reason="the program is a .bat file there")
def test_the_program_runs_from_a_path_with_spaces_and_hands_on_words_and_exit_status(checkout, monkeypatch):
    room = checkout / "stand in" / "pinchrod" / "cli"
    room.mkdir(parents=True)
    (room.parent / "__init__.py").touch()
    (room / "__init__.py").write_text("import sys\ndef main():\n    print(sys.argv[1:])\n    return 2\n")
    python = an_executable(checkout / "python", f'#!/bin/sh\nexec "{sys.executable}" "$@"\n')
    program = an_executable(checkout / "pinchrod", dev.POSIX_PROGRAM.format(python=python))
    monkeypatch.setenv("PYTHONPATH", str(room.parents[1]))

    seen = subprocess.run([program, "check", "plot 7.toml"], capture_output=True, text=True, check=False)

    assert seen.stdout == "['check', 'plot 7.toml']\n"
    assert seen.returncode == 2


def test_what_would_lead_pip_or_python_astray_is_left_behind(monkeypatch):
    monkeypatch.setenv("PIP_USER", "1")
    monkeypatch.setenv("PYTHONPATH", "elsewhere")
    monkeypatch.setenv("PIP_CERT", "ours.pem")

    seen = dev.environment()

    assert not {"PIP_USER", "PYTHONPATH"} & seen.keys()
    assert seen["PIP_CERT"] == "ours.pem"


def test_every_check_runs_though_the_first_fails(monkeypatch, capsys):
    monkeypatch.setattr(dev, "call", lambda _program, *words, **_: int(words[:1] == ("format",)))

    status = dev.check()

    assert status == 1
    assert capsys.readouterr().out.endswith("--- python tools/house.py\n--- failed: ruff format --check .\n")


def test_an_unknown_command_is_refused_and_the_commands_are_named(capsys):
    assert dev.main(["plane"]) == 2
    assert "dev.py demo" in capsys.readouterr().out


def pins(lock):
    return {line.split(" \\")[0] for line in (TOP / lock).read_text().splitlines() if line[:1].isalnum()}


def test_what_is_tested_is_what_runs():
    assert pins("requirements.lock") <= pins("requirements-dev.lock")


def test_every_dependency_is_locked():
    asked = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))

    for lock, names in (
        ("requirements.lock", asked["project"]["dependencies"]),
        ("requirements-dev.lock", asked["dependency-groups"]["dev"]),
    ):
        locked = {pin.split("==")[0] for pin in pins(lock)}
        assert {re.split(r"[>=\[]", name)[0].replace(".", "-") for name in names} <= locked


def test_every_pin_is_held_to_a_hash():
    for lock in ("requirements.lock", "requirements-dev.lock"):
        entries = (TOP / lock).read_text(encoding="utf-8").replace("\\\n", "").splitlines()
        assert all("--hash=sha256:" in entry for entry in entries if entry[:1].isalnum())
