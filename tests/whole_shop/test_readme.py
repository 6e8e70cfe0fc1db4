"""What the first page promises is so."""

import re
import struct
from pathlib import Path

import pytest

from pinchrod.cli import main
from pinchrod.cli.main import ByName
from pinchrod.papers import PARTS

TOP = Path(__file__).resolve().parents[2]
README = (TOP / "README.md").read_text(encoding="utf-8")
COMMANDS = (TOP / "docs" / "commands.md").read_text(encoding="utf-8")


def test_the_job_on_the_first_page_has_nothing_to_mend(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    [job] = re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
    (tmp_path / "job.toml").write_text(job, encoding="utf-8")

    status = main(["check", str(tmp_path / "job.toml")])

    said = capsys.readouterr()
    assert (status, said.err) == (0, "")
    assert "3 frames" in said.out


def test_the_picture_on_the_first_page_is_there() -> None:
    [name] = re.findall(r"!\[.+?\]\((.+?)\)", README, re.DOTALL)
    picture = (TOP / name).read_bytes()

    width, height = struct.unpack(">II", picture[16:24])
    assert picture[:8] == b"\x89PNG\r\n\x1a\n"
    assert min(width, height) >= 300


def test_every_command_and_part_has_its_words() -> None:
    assert all(f"pinchrod {name}" in COMMANDS for name in ByName.NAMES)
    assert all(f"`{part}`" in COMMANDS for part in PARTS)


@pytest.mark.parametrize("command", ByName.NAMES)
def test_every_option_of_a_command_has_its_words(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    main([command, "--help"])

    options = set(re.findall(r"(--[a-z-]+)", capsys.readouterr().out)) - {"--help"}
    assert {option for option in options if f"`{option}" not in COMMANDS} == set()
