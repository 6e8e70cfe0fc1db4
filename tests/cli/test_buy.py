"""pinchrod buy: the order written, and what is said where nothing can be ordered."""

import csv
import io
import json
from pathlib import Path

import pytest

from pinchrod.cli import main

JOB = 'pinchrod = 1\n[[frame]]\nid = "K1"\nwidth = 600\nheight = 720\nlayout = "pair"\n'
OFFER = "[[offer]]\nname = '{}'\nthickness = {}\nwidth = {}\nlength = {}\nprice = {}\nper = '{}'\n"
SAWN = OFFER.format("sawn", 27, "[150, 250]", "[2400, 3600]", 800, "m3")
NAMES = {"order.pdf", "order.csv", "how-sure.pdf", "buying.json"}


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_an_order_is_written_with_its_promise(bench, capsys):
    (bench / "job.toml").write_text(JOB + SAWN, "utf-8")

    assert main(["buy", "job.toml", "--out", "order"]) == 0

    assert {path.name for path in (bench / "order").iterdir()} == NAMES
    [row] = csv.DictReader(io.StringIO((bench / "order" / "order.csv").read_text("utf-8")))
    told = json.loads((bench / "order" / "buying.json").read_text("utf-8"))
    assert row["offer"] == "sawn"
    assert float(row["quantity"]) == told["amounts"][0]["quantity"] > 0
    assert told["promise"]["enough"] >= 0.95 * told["promise"]["deliveries"]
    assert "order 0.0" in capsys.readouterr().out


def test_the_same_job_gives_the_same_bytes(bench):
    (bench / "job.toml").write_text(JOB + SAWN, "utf-8")

    assert main(["buy", "job.toml", "--out", "one"]) == 0
    assert main(["buy", "job.toml", "--out", "two"]) == 0

    assert all((bench / "one" / name).read_bytes() == (bench / "two" / name).read_bytes() for name in NAMES)


def test_a_rack_that_is_enough_leaves_no_order_to_send(bench, capsys):
    (bench / "rack.csv").write_text("board,thickness,width,length\nB1,27,250,3600\nB2,27,250,3600\n", "utf-8")
    (bench / "job.toml").write_text(
        JOB.replace("[[frame]]", '[job]\nrack = "rack.csv"\n[[frame]]', 1) + SAWN, "utf-8"
    )

    assert main(["buy", "job.toml", "--out", "order"]) == 0

    assert "nothing has to be bought" in capsys.readouterr().out
    assert not (bench / "order" / "order.pdf").exists()


@pytest.mark.parametrize(
    ("offers", "code", "status"),
    [
        ("", "nothing-offered", 2),
        (
            OFFER.format("short", 27, 150, 500, 3, "board") + OFFER.format("planed", 22, 45, 3000, 2, "m"),
            "nobody-offers",
            0,
        ),
    ],
)
def test_what_cannot_be_bought_is_told_by_its_code(bench, capsys, offers, code, status):
    (bench / "job.toml").write_text(JOB + offers, "utf-8")

    assert main(["buy", "job.toml", "--out", "order"]) == status

    assert f"[{code}]" in capsys.readouterr().err


def test_a_confidence_that_cannot_be_promised_is_refused(bench, capsys):
    (bench / "job.toml").write_text(JOB + SAWN, "utf-8")

    assert main(["buy", "job.toml", "--confidence", "95"]) == 2
    assert "0.95" in capsys.readouterr().err


def test_planed_lengths_of_the_jobs_section_are_no_unfit_offer(bench, capsys):
    (bench / "job.toml").write_text(JOB + SAWN + OFFER.format("planed", 22, 45, 3000, 2, "m"), "utf-8")

    assert main(["check", "job.toml"]) == 0
    assert "offer-unfit" not in capsys.readouterr().err
