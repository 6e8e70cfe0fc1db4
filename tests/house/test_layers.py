"""The layers contract holds every room to its place: a planted import and a new folder are both found."""

import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
ROOMS = (
    "cli",
    "web",
    "store",
    "papers",
    "bench",
    "machining",
    "timber",
    "fit",
    "setting_out",
    "job",
    "ground",
)


@pytest.fixture
def checkout(tmp_path):
    """A small checkout that keeps the contract: every room that must be there, and two that may."""
    shutil.copy(TOP / "pyproject.toml", tmp_path)
    package = tmp_path / "src" / "pinchrod"
    for room in ROOMS:
        (package / room).mkdir(parents=True)
        (package / room / "__init__.py").touch()
    (package / "__init__.py").touch()
    (package / "plan.py").touch()
    return tmp_path


def lint_imports(checkout, room="ground", planted=""):
    (checkout / "src" / "pinchrod" / room).mkdir(exist_ok=True)
    (checkout / "src" / "pinchrod" / room / "__init__.py").write_text(planted, encoding="utf-8")
    program = Path(sys.executable).with_name("lint-imports")
    return subprocess.run(
        [program, "--no-cache"],
        cwd=checkout,
        env={**os.environ, "PYTHONPATH": str(checkout / "src")},
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_house_in_order_passes(checkout):
    seen = lint_imports(checkout, "papers", "import pinchrod.setting_out\n")

    assert seen.returncode == 0, seen.stdout + seen.stderr


@pytest.mark.parametrize(
    ("room", "planted"),
    [
        ("ground", "import pinchrod.job\n"),
        ("setting_out", "import pinchrod.store\n"),
        ("web", "import pinchrod.cli\n"),
        ("cli", "import pinchrod.web\n"),
    ],
)
def test_a_room_that_looks_up_or_across_is_found(checkout, room, planted):
    seen = lint_imports(checkout, room, planted)

    assert seen.returncode == 1
    assert f"pinchrod.{room}" in seen.stdout


def test_a_folder_without_a_place_is_found(checkout):
    seen = lint_imports(checkout, "utils")

    assert seen.returncode == 1
    assert "utils" in seen.stdout


def test_every_room_of_the_house_has_its_layer():
    contract = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]

    layers, _ = contract["contracts"]

    assert layers["exhaustive"]
    assert layers["layers"][:2] == ["(__main__)", "cli | web"]
    assert layers["layers"][-1] == "ground"
