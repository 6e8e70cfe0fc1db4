"""What a workshop's machines cannot do, as a joiner meets it in check and plan."""

import json
from pathlib import Path

import pytest

from pinchrod.cli import main

JOB = """\
pinchrod = 1
[job]
name = "Two tall doors"
timber = "yellow-poplar"
[[frame]]
id = "K9"
width = 600
height = 3300
layout = "door over door"
[[frame]]
id = "K10"
width = 600
height = 720
layout = "drawer 140 over pair"
"""


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job of a frame too tall for the notcher, and one that is not."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, "utf-8")
    return tmp_path


@pytest.mark.parametrize("command", ["check", "plan"])
def test_a_notch_out_of_reach_is_told_at_the_frame_and_nothing_is_written(bench, capsys, command):
    assert main([command, "job.toml"]) == 2

    said = capsys.readouterr().err
    assert said.count("[out-of-reach]") == 2
    assert "job.toml:6:6: K9" in said
    assert "K9, left stile K9-LS" in said
    assert "the piece is 3300 long" in said
    assert sorted(path.name for path in bench.iterdir()) == ["job.toml"]


def test_a_machine_that_is_missing_is_told_once_and_with_everything_else(bench, capsys):
    (bench / "workshop.toml").write_text("pinchrod = 1\n[machines.slotter]\nhave = false\n", "utf-8")

    assert main(["check", "job.toml", "--workshop", "workshop.toml"]) == 2

    said = capsys.readouterr().err
    assert said.count("[no-machine]") == 1
    assert said.count("[out-of-reach]") == 2


def test_with_a_longer_bed_the_plan_holds_every_set_up(bench, capsys):
    longer = "reach_left = 1800\nreach_right = 1800\n"
    tables = f"[machines.notcher]\n{longer}[machines.slotter]\n{longer}"
    (bench / "workshop.toml").write_text(f"pinchrod = 1\n{tables}", "utf-8")

    assert main(["plan", "job.toml", "--workshop", "workshop.toml", "--only", "plan", "--out", "pack"]) == 0

    machining = json.loads((bench / "pack" / "plan.json").read_text("utf-8"))["machining"]
    assert machining["notching"]["unreached"] == []
    assert machining["notching"]["fewest"] == len(machining["notching"]["settings"]) > 0
    assert [step["machine"] for step in machining["steps"]][:3] == ["rip saw", "planer", "thicknesser"]


def test_a_last_pass_that_takes_nothing_is_refused(bench, capsys):
    (bench / "workshop.toml").write_text(
        "pinchrod = 1\n[machines.thicknesser]\nfinal_pass = [0, 1]\n", "utf-8"
    )

    assert main(["check", "job.toml", "--workshop", "workshop.toml"]) == 2

    assert "workshop.toml:3" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["check", "plan"])
def test_passes_that_cannot_stand_together_are_refused_with_all_else_that_is_wrong(bench, capsys, command):
    """A deepest pass shallower than a last one may be: no heights would ever come of it."""
    tables = "[machines.thicknesser]\ndeepest_pass = 0.5\n[machines.slotter]\nhave = false\n"
    (bench / "workshop.toml").write_text("pinchrod = 1\n" + tables, "utf-8")

    assert main([command, "job.toml", "--workshop", "workshop.toml"]) == 2

    said = capsys.readouterr().err
    assert "workshop.toml:3:16" in said
    assert said.count("[contradiction]") == said.count("[no-machine]") == 1
    assert said.count("[out-of-reach]") == 2
