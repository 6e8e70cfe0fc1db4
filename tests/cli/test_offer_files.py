"""What merchants sent before, found on the disk beside the file that names it."""

from pathlib import Path

import pytest

from pinchrod.cli import main

JOB = 'pinchrod = 1\n{}\n[[frame]]\nid = "K1"\nwidth = 600\nheight = 720\nlayout = "pair"\n'
OFFER = "[[offer]]\nthickness = 27\nwidth = 150\nlength = 3000\nprice = 4\nper = 'm'\nhistory = 'sent.csv'\n"
SENT = "board,thickness,width,length\nB1,27,150,{}\n"


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a job, and beside it the workshop's with an offer and what was sent before."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "shop").mkdir()
    (tmp_path / "job.toml").write_text(JOB.format(""), "utf-8")
    (tmp_path / "shop" / "workshop.toml").write_text(f"pinchrod = 1\n{OFFER}", "utf-8")
    (tmp_path / "shop" / "sent.csv").write_text(SENT.format(3000), "utf-8")
    return tmp_path


def test_a_workshops_history_is_found_in_the_workshops_folder(bench, capsys):
    assert main(["check", "job.toml", "--workshop", "shop/workshop.toml"]) == 0

    (bench / "shop" / "sent.csv").write_text(SENT.format(-1), "utf-8")

    assert main(["check", "job.toml", "--workshop", "shop/workshop.toml"]) == 2
    assert str(Path("shop", "sent.csv")) + ":2:" in capsys.readouterr().err


def test_so_is_that_of_the_workshop_that_a_job_names(bench, capsys):
    (bench / "job.toml").write_text(JOB.format('[job]\nworkshop = "shop/workshop.toml"'), "utf-8")
    (bench / "sent.csv").write_text("not of this offer\n", "utf-8")

    assert main(["check", "job.toml"]) == 0

    (bench / "shop" / "sent.csv").unlink()

    assert main(["check", "job.toml"]) == 2
    told = capsys.readouterr().err
    assert f"{Path('shop', 'workshop.toml')}:8:12" in told
    assert "file-missing" in told


def test_a_jobs_history_is_found_beside_the_job(bench, capsys):
    (bench / "job.toml").write_text(JOB.format("") + OFFER, "utf-8")

    assert main(["check", "job.toml"]) == 2
    assert "[file-missing]" in capsys.readouterr().err

    (bench / "sent.csv").write_text(SENT.format(3000), "utf-8")

    assert main(["check", "job.toml"]) == 0
