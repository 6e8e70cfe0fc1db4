"""pinchrod square, as a joiner beside a clamped frame meets it."""

import json
from pathlib import Path

import pytest

from pinchrod.cli import main
from tests.cli.test_commands import JOB

GAP = (
    "The gap of K1.2L, 2, narrows by 1.2 over the front's height if it is set level,"
    " by 0.7 over its width if it hangs true to its stile."
)
WORKSHOP = "pinchrod = 1\n[taping]\ntaper = 5\n"


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job in it, and a workshop's file, which is no job."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, "utf-8")
    (tmp_path / "workshop.toml").write_text(WORKSHOP, "utf-8")
    return tmp_path


def test_it_says_how_far_a_frame_is_out_and_how_to_pull_it(bench, capsys):
    assert main(["square", "K1", "--diagonals", "938.5", "936"]) == 0

    said = capsys.readouterr()
    assert said.out.splitlines()[:3] == [
        "K1, 600 x 720: its top stands 2 too far right, give or take 0.8",
        GAP,
        "Pull it square: clamp across from lower left to upper right, the longer diagonal.",
    ]
    assert said.err == ""


def test_a_frame_that_is_square_enough_is_left(bench, capsys):
    assert main(["square", "k1", "--diagonals", "937", "937.5"]) == 0

    assert "Leave it: no gap narrows by more than the workshop lets pass." in capsys.readouterr().out


def test_a_workshop_s_own_taper_counts(bench, capsys):
    assert main(["square", "K1", "--diagonals", "938.5", "936", "--workshop", "workshop.toml"]) == 0

    assert "Leave it" in capsys.readouterr().out


def test_inches_are_read_and_machines_are_told_the_same(bench, capsys):
    assert main(["square", "K1", "--diagonals", "36 15/16 in", '36 7/8"', "--json"]) == 0

    said = json.loads(capsys.readouterr().out)
    assert said["problems"] == []
    assert said["square"]["frame"] == "K1"
    assert said["square"]["diagonals"] == [pytest.approx(938.2125, abs=0.001), 936.625]
    assert said["square"]["out_of_square"] == pytest.approx((938.2125**2 - 936.625**2) / 2400, abs=0.001)
    assert said["square"]["verdict"] == "pull it square"
    assert [gap["front"] for gap in said["square"]["gaps"]] == ["K1.1", "K1.2L", "K1.2R"]


def test_a_misread_tape_is_refused_where_the_frame_is_said(bench, capsys):
    assert main(["square", "K1", "--diagonals", "812.5", "815"]) == 2

    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith(
        "job.toml:11:6: K1: diagonals of 812.5 and 815 do not belong to a frame 600 x 720"
    )
    assert "[diagonals-misread]" in said.err


def test_a_misread_tape_is_told_to_machines_too(bench, capsys):
    assert main(["square", "K1", "--diagonals", "812.5", "815", "--json"]) == 2

    [problem] = json.loads(capsys.readouterr().out)["problems"]
    assert problem["code"] == "diagonals-misread"


def test_of_two_jobs_the_joiner_is_asked_which(bench, capsys):
    (bench / "annexe.toml").write_text(JOB, "utf-8")

    assert main(["square", "K1", "--diagonals", "937", "937"]) == 2
    assert "2 job files: annexe.toml, job.toml; say which: --job annexe.toml" in capsys.readouterr().err
    assert main(["square", "K1", "--job", "job.toml", "--diagonals", "937", "937"]) == 0


def test_without_a_job_the_joiner_is_told_where_to_stand(bench, capsys):
    (bench / "job.toml").unlink()

    assert main(["square", "K1", "--diagonals", "937", "937"]) == 2
    assert "[job-not-named]" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("frame", "guess"), [("K11", "did you mean K1?"), ("pantry", "it has K1"), ("", "it has K1")]
)
def test_a_frame_the_job_has_not_is_told_with_what_may_be_meant(bench, capsys, frame, guess):
    assert main(["square", frame, "--diagonals", "937", "937"]) == 2

    said = capsys.readouterr().err
    assert guess in said
    assert "[frame-not-there]" in said


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        (["937", "abc"], "abc"),
        (["937", "0"], "'0' is no length of a diagonal"),
        (["-937", "937"], "-937"),
        (["1,234", "x"], "1,234"),
        (["937"], "requires 2 arguments"),
        (["937", "9" * 30], "digits"),
    ],
)
def test_readings_that_are_none_are_refused_before_anything_is_read(bench, capsys, readings, told):
    assert main(["square", "K1", "--diagonals", *readings]) == 2
    assert told in capsys.readouterr().err


def test_both_readings_are_told_if_both_are_none(bench, capsys):
    main(["square", "K1", "--diagonals", "abc", "xyz"])

    said = capsys.readouterr().err
    assert "abc" in said
    assert "xyz" in said


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"[job", b"", b"[job]\nname = 3\n[[frame]]\nid = 4"])
def test_a_job_that_cannot_be_read_is_told_as_check_tells_it(bench, capsys, content):
    (bench / "job.toml").write_bytes(content)

    assert main(["square", "K1", "--job", "job.toml", "--diagonals", "937", "937"]) == 2
    told = capsys.readouterr().err
    main(["check", "job.toml"])
    assert told == capsys.readouterr().err
