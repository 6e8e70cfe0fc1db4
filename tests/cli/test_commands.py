"""The commands as a joiner at a keyboard meets them: what they print, what they write, how they end."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from pinchrod.cli import main
from pinchrod.cli.telling import program

JOB = """
pinchrod = 1

[job]
name = "Pantry wall"
timber = "yellow-poplar"
thickness = 22
joint = "dovetail key"

[[frame]]
id = "K1"
width = 600
height = 720
layout = "drawer 140 over pair"
"""


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job file in it, where the joiner stands."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return tmp_path


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_check_sets_out_and_writes_nothing(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["check", "job.toml"])

    said = capsys.readouterr()
    assert status == 0
    assert "1 frame, 2 openings, 3 doors and drawer fronts, 5 pieces" in said.out
    assert "pinchrod plan job.toml" in said.out
    assert said.err == ""
    assert names(bench) == {"job.toml"}


def test_check_prints_every_fault_with_its_place_and_ends_with_2(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "job.toml").write_text(JOB.replace("drawer 140", "drawer 700").replace("720", "105"), "utf-8")

    status = main(["check", "job.toml"])

    said = capsys.readouterr()
    assert status == 2
    assert said.out == ""
    assert said.err == (
        "job.toml:11:6: K1: top rail 60 + bottom rail 45 come to 105, and the frame's height is 105:"
        " no opening is left; make the frame's height more than 105, or those members smaller"
        " [no-opening-left]\n1 thing to mend; nothing was written\n"
    )


def test_check_tells_faults_of_one_frame_and_doubts_of_another_together(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    second = '\n[[frame]]\nid = "K2"\nwidth = 600\nheight = 720\nlayout = "drawer"\nleft_stile = 20\n'
    (bench / "job.toml").write_text(JOB.replace("140", "700") + second, "utf-8")

    status = main(["check", "job.toml"])

    said = capsys.readouterr().err
    assert status == 2
    assert "job.toml:14:11: K1: sizes of 700" in said
    assert "to look at: K2, left stile K2-LS" in said
    assert said.endswith("1 thing to mend; nothing was written\n")


def test_a_job_in_another_folder_has_its_faults_named_from_here(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "jobs").mkdir()
    (bench / "jobs" / "wall.toml").write_text(JOB.replace("140", "700"), "utf-8")

    assert main(["check", "jobs/wall.toml"]) == 2

    assert capsys.readouterr().err.startswith(f"{Path('jobs/wall.toml')}:14:11: K1:")


def test_plan_writes_a_whole_pack_and_says_what_to_open(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(["plan", "job.toml"])

    said = capsys.readouterr().out
    assert status == 0
    assert names(bench / "pantry-wall-pack") == {
        "plan.json",
        "plan.schema.json",
        "pack.pdf",
        "cutting-list.csv",
        "cutting-list.xlsx",
        "drawings/K1.svg",
        "drawings/K1.dxf",
        "rods.pdf",
        "labels.pdf",
        "label-test.pdf",
    }
    assert f"Open {Path('pantry-wall-pack/pack.pdf')}" in said


def test_plan_writes_only_the_parts_asked_for(bench: Path) -> None:
    assert main(["plan", "job.toml", "--out", "out", "--only", "plan,cutting-list"]) == 0

    assert names(bench / "out") == {
        "plan.json",
        "plan.schema.json",
        "cutting-list.csv",
        "cutting-list.xlsx",
    }


def test_an_unknown_part_is_named_with_those_there_are(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", "job.toml", "--only", "lables"]) == 2

    said = capsys.readouterr().err
    assert "lables" in said
    assert "labels" in said
    assert names(bench) == {"job.toml"}


def test_a_faulty_job_writes_nothing(bench: Path) -> None:
    (bench / "job.toml").write_text(JOB.replace("140", "700"), "utf-8")

    assert main(["plan", "job.toml", "--out", "out"]) == 2

    assert names(bench) == {"job.toml"}


def test_a_dry_run_names_the_papers_and_writes_none(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "job.toml", "--dry-run", "--only", "plan"]) == 0

    assert "would write into pantry-wall-pack: plan.json" in capsys.readouterr().out
    assert names(bench) == {"job.toml"}


def test_a_pack_is_renewed_and_drawings_of_frames_gone_are_taken_away(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["plan", "job.toml", "--out", "out"])
    (bench / "job.toml").write_text(JOB.replace('"K1"', '"K9"'), "utf-8")

    assert main(["plan", "job.toml", "--out", "out"]) == 0

    assert {"drawings/K9.svg", "drawings/K9.dxf"} <= names(bench / "out")
    assert not {"drawings/K1.svg", "drawings/K1.dxf"} & names(bench / "out")
    assert "took away drawings/K1.svg" in capsys.readouterr().out


def test_files_of_somebody_else_s_are_not_written_over_unless_forced(bench: Path) -> None:
    (bench / "out").mkdir()
    (bench / "out" / "letter.txt").write_text("dear", "utf-8")
    (bench / "out" / "plan.json").write_text("mine", "utf-8")

    assert main(["plan", "job.toml", "--out", "out", "--only", "plan"]) == 2
    assert (bench / "out" / "plan.json").read_text("utf-8") == "mine"

    assert main(["plan", "job.toml", "--out", "out", "--only", "plan", "--force"]) == 0
    assert names(bench / "out") == {"letter.txt", "plan.json", "plan.schema.json"}


def test_a_pack_may_be_written_beside_the_job_itself(bench: Path) -> None:
    assert main(["plan", "job.toml", "--out", ".", "--only", "plan"]) == 0
    assert main(["plan", "job.toml", "--out", ".", "--only", "plan"]) == 0

    assert names(bench) == {"job.toml", "plan.json", "plan.schema.json"}


def test_a_file_where_the_folder_should_be_is_told(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "job.toml", "--out", "job.toml"]) == 2

    assert "a file of that name stands there" in capsys.readouterr().err


def test_a_bare_list_of_frames_is_a_job(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (bench / "boot room.csv").write_text("ID,Width,height,Layout\nB1,900,720,2 doors\n", "utf-8")

    assert main(["plan", "boot room.csv", "--only", "plan"]) == 0

    plan = json.loads((bench / "boot-room-pack" / "plan.json").read_text("utf-8"))
    assert plan["frames"][0]["id"] == "B1"
    assert "boot room, content mark" in capsys.readouterr().out


def test_a_fault_in_a_joined_list_is_placed_in_that_list(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "job.toml").write_text(JOB.replace("[job]", '[job]\nframes = "more.csv"'), "utf-8")
    (bench / "more.csv").write_text("id,width,height,layout\nK2,60x,720,door\n", "utf-8")

    assert main(["check", "job.toml"]) == 2

    assert capsys.readouterr().err.startswith("more.csv:2:4: K2:")


def test_a_list_that_is_not_there_is_told_with_the_job_s_own_faults(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = JOB.replace("[job]", '[job]\nframes = "mroe.csv"').replace("thickness = 22", "thickness = 220")
    (bench / "job.toml").write_text(job, "utf-8")
    (bench / "more.csv").write_text("id,width,height,layout\nK2,600,720,door\n", "utf-8")

    assert main(["check", "job.toml"]) == 2

    said = capsys.readouterr().err.splitlines()
    assert said[0] == (
        "job.toml:5:11: mroe.csv: there is no such file; did you mean more.csv? [file-missing]"
    )
    assert said[1].startswith("job.toml:8:13:")
    assert said[-1] == "2 things to mend; nothing was written"


@pytest.mark.parametrize(
    ("said", "code"), [("jbo.toml", "file-missing"), (".", "file-is-folder"), ("no/job.toml", "file-missing")]
)
def test_a_job_that_cannot_be_read_is_told_plainly(
    bench: Path, capsys: pytest.CaptureFixture[str], said: str, code: str
) -> None:
    assert main(["check", said]) == 2

    told = capsys.readouterr().err
    assert f"[{code}]" in told
    assert ("did you mean job.toml?" in told) == (said == "jbo.toml")


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="root may read everything")
def test_a_job_that_may_not_be_read_is_told(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (bench / "job.toml").chmod(0)

    assert main(["check", "job.toml"]) == 2

    assert "[file-locked]" in capsys.readouterr().err


def test_a_workshop_file_named_on_the_line_is_used(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (bench / "shop.toml").write_text("pinchrod = 1\n[machines.notcher]\nflat = 30\n", "utf-8")

    assert main(["check", "job.toml", "--workshop", "shop.toml"]) == 2

    assert "the knife's flat is 30" in capsys.readouterr().err


def test_json_holds_the_figures_and_the_problems(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (bench / "job.toml").write_text(JOB + "left_stile = 20\n", "utf-8")

    assert main(["check", "job.toml", "--json"]) == 0

    said = json.loads(capsys.readouterr().out)
    assert said["job"]["pieces"] == 5
    assert {problem["code"] for problem in said["problems"]} == {"thin-web"}
    assert said["problems"][0]["line"] == 11


def test_no_words_show_how_to_begin(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 0

    assert "pinchrod plan job.toml" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words",
    [["-h"], ["--help"], ["help"], ["help", "plan"], ["plan", "-h"], ["check", "--help"], ["demo", "-h"]],
)
def test_help_is_there_wherever_it_is_asked_for(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 0

    said = capsys.readouterr().out
    assert "pinchrod" in said
    assert max(len(line) for line in said.splitlines()) <= 80


@pytest.mark.parametrize(
    "words", [["pln", "job.toml"], ["plan"], ["plan", "job.toml", "--ot", "x"], ["help", "x"]]
)
def test_a_slip_of_the_keyboard_is_told_and_does_nothing(
    bench: Path, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2

    assert "Traceback" not in capsys.readouterr().err
    assert names(bench) == {"job.toml"}


def test_control_characters_in_a_file_cannot_drive_the_terminal(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "job.toml").write_text(JOB.replace("Pantry wall", "Pan\\u001b[2Jtry"), "utf-8")

    main(["check", "job.toml"])

    said = capsys.readouterr()
    assert "\x1b" not in said.out + said.err


def test_the_demo_writes_our_job_plans_it_and_says_what_to_open(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["demo"]) == 0

    written = names(bench / "saltmarsh-row")
    assert {"job.toml", "boot-room.csv", "workshop.toml"} <= written
    assert "saltmarsh-row-plot-7-pack/pack.pdf" in written
    said = capsys.readouterr()
    assert "33 frames" in said.out
    assert "pack.pdf" in said.out
    assert said.err == ""


def test_the_demo_does_not_write_over_a_job_that_was_changed(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "saltmarsh-row").mkdir()
    (bench / "saltmarsh-row" / "job.toml").write_text("mine", "utf-8")

    assert main(["demo"]) == 2

    assert (bench / "saltmarsh-row" / "job.toml").read_text("utf-8") == "mine"
    assert "[demo-changed]" in capsys.readouterr().err


def test_a_fault_of_ours_is_owned_without_a_traceback(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr("pinchrod.cli.planning.check", broken)
    monkeypatch.setattr("tempfile.tempdir", str(bench))

    assert main(["check", "job.toml"]) == 1

    said = capsys.readouterr().err
    assert "a fault of ours" in said
    assert "Traceback" not in said
    [log] = bench.glob("pinchrod-fault-*.txt")
    assert "planted" in log.read_text("utf-8")


def test_a_full_disk_leaves_the_old_paper_whole(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    main(["plan", "job.toml", "--out", "out", "--only", "plan"])
    before = (bench / "out" / "plan.json").read_bytes()
    (bench / "job.toml").write_text(JOB.replace("600", "700"), "utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)

    assert main(["plan", "job.toml", "--out", "out", "--only", "plan"]) == 1

    assert (bench / "out" / "plan.json").read_bytes() == before
    assert names(bench / "out") == {"plan.json", "plan.schema.json"}
    assert "No space left" in capsys.readouterr().err


def test_stopping_by_hand_ends_with_130(
    bench: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("pinchrod.cli.planning.check", stopped)

    assert main(["check", "job.toml"]) == 130

    assert "stopped" in capsys.readouterr().err


def run(folder: Path, *words: str, **env: str) -> subprocess.CompletedProcess[bytes]:
    """The program as a process of its own."""
    here = {key: value for key, value in os.environ.items() if key not in ("TZ", "LC_ALL", "PYTHONHASHSEED")}
    source = Path(__file__).resolve().parents[2] / "src"
    return subprocess.run(
        [sys.executable, "-m", "pinchrod", *words],
        cwd=folder,
        env={**here, "PYTHONPATH": str(source), **env},
        capture_output=True,
        check=False,
    )


def test_a_pack_has_the_same_bytes_in_another_zone_locale_folder_and_with_another_hash_seed(
    bench: Path,
) -> None:
    other = bench / "über Ordner"
    other.mkdir()
    (other / "job.toml").write_bytes((bench / "job.toml").read_bytes())

    here = run(bench, "plan", "job.toml", "--out", "out", TZ="UTC", LC_ALL="C", PYTHONHASHSEED="1")
    there = run(
        other, "plan", "job.toml", "--out", "aus", TZ="Asia/Tokyo", LC_ALL="C.UTF-8", PYTHONHASHSEED="2"
    )

    assert (here.returncode, there.returncode) == (0, 0)
    assert names(bench / "out") == names(other / "aus")
    for name in names(bench / "out"):
        assert (bench / "out" / name).read_bytes() == (other / "aus" / name).read_bytes(), name


def test_whoever_stops_reading_is_not_shouted_at(bench: Path) -> None:
    command = f'"{sys.executable}" -m pinchrod check job.toml --json | head -c 1 >/dev/null'

    done = subprocess.run(command, shell=True, cwd=bench, capture_output=True, check=False)

    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr


@pytest.mark.parametrize(
    ("called", "told"),
    [
        ("pinchrod/__main__.py", "python -m pinchrod"),
        (".venv/bin/pinchrod", str(Path(".venv/bin/pinchrod"))),
        ("../far/away/pinchrod", str(Path("../far/away/pinchrod"))),
        ("pytest", "pinchrod"),
    ],
)
def test_the_next_command_is_told_as_it_can_be_typed(
    monkeypatch: pytest.MonkeyPatch, called: str, told: str
) -> None:
    monkeypatch.setattr("sys.argv", [called])
    monkeypatch.setattr("shutil.which", lambda _: None)

    assert program() == told


def test_labels_that_cannot_be_printed_stop_the_whole_pack_before_it_is_begun(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (bench / "shop.toml").write_text("pinchrod = 1\n[labels]\nwidth = 40\nheight = 30\n", "utf-8")

    assert main(["plan", "job.toml", "--workshop", "shop.toml"]) == 2

    assert "[label-small]" in capsys.readouterr().err
    assert names(bench) == {"job.toml", "shop.toml"}


def test_a_slip_in_a_command_or_a_part_is_told_with_what_was_meant(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["paln", "job.toml"])
    assert "did you mean plan?" in capsys.readouterr().err

    main(["plan", "job.toml", "--only", "labls,foo"])
    said = capsys.readouterr().err
    assert "'labls' (did you mean labels?), 'foo'" in said


def test_parts_are_read_in_any_case(bench: Path) -> None:
    assert main(["plan", "job.toml", "--out", "out", "--only", "Plan,Cutting_List"]) == 0


def test_a_drawing_of_somebody_else_s_is_left_alone(bench: Path) -> None:
    main(["plan", "job.toml", "--out", "out", "--only", "plan,drawings"])
    (bench / "out" / "drawings" / "house.dxf").write_text("mine", "utf-8")
    (bench / "job.toml").write_text(JOB.replace('"K1"', '"K9"'), "utf-8")

    assert main(["plan", "job.toml", "--out", "out"]) == 0

    assert (bench / "out" / "drawings" / "house.dxf").read_text("utf-8") == "mine"
    assert not (bench / "out" / "drawings" / "K1.dxf").exists()


@pytest.mark.parametrize("said", ["{}", "[]", "not json", '{"pinchrod": 1, "frames": [], "job": {}}'])
def test_a_plan_json_that_is_not_ours_makes_no_pack(bench: Path, said: str) -> None:
    (bench / "out").mkdir()
    (bench / "out" / "plan.json").write_text(said, "utf-8")
    (bench / "out" / "thesis.doc").write_text("dear", "utf-8")

    assert main(["plan", "job.toml", "--out", "out", "--only", "plan"]) == 2
    assert (bench / "out" / "plan.json").read_text("utf-8") == said


def test_parts_may_be_added_to_a_folder_one_by_one(bench: Path) -> None:
    assert main(["plan", "job.toml", "--out", "out", "--only", "cutting-list"]) == 0
    assert main(["plan", "job.toml", "--out", "out", "--only", "cutting-list"]) == 0


def test_papers_of_another_job_beside_the_ones_written_are_named(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["plan", "job.toml", "--out", "out", "--only", "plan,cutting-list"])
    (bench / "job.toml").write_text(JOB.replace("600", "700"), "utf-8")
    capsys.readouterr()

    assert main(["plan", "job.toml", "--out", "out", "--only", "plan"]) == 0

    assert "of another content mark in out: cutting-list.csv, cutting-list.xlsx" in capsys.readouterr().err


def test_a_file_called_drawings_is_told_before_anything_is_written(bench: Path) -> None:
    (bench / "out").mkdir()
    (bench / "out" / "drawings").write_text("", "utf-8")

    assert main(["plan", "job.toml", "--out", "out", "--force"]) == 2
    assert names(bench / "out") == {"drawings"}


def test_faults_are_there_for_machines_too(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (bench / "job.toml").write_text(JOB.replace("140", "700"), "utf-8")

    assert main(["check", "job.toml", "--json"]) == 2

    [problem] = json.loads(capsys.readouterr().out)["problems"]
    assert (problem["code"], problem["line"], problem["stops"]) == ("does-not-add-up", 14, True)


@pytest.mark.parametrize("command", ["check", "plan", "demo"])
def test_help_keeps_its_examples_on_lines_of_their_own(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    main([command, "--help"])

    said = capsys.readouterr().out
    assert "\\b" not in said
    assert f"\n  pinchrod {command}" in said


def test_a_frame_that_cannot_be_read_hides_no_fault_of_the_others(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    second = '\n[[frame]]\nid = "K2"\nwidth = 600\nheight = 720\nlayout = "drawer 700 over door"\n'
    (bench / "job.toml").write_text(JOB.replace("width = 600", 'width = "6oo"') + second, "utf-8")

    assert main(["check", "job.toml"]) == 2

    said = capsys.readouterr().err
    assert "job.toml:12:9: K1:" in said
    assert "job.toml:20:11: K2: sizes of 700" in said
    assert said.endswith("2 things to mend; nothing was written\n")
