"""What came from others is named with its licence, and is what it says."""

import hashlib
import re
from importlib.resources import files
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
NOTICE = (TOP / "THIRD_PARTY.md").read_text(encoding="utf-8")
FONTS = files("pinchrod.papers").joinpath("fonts")


def test_the_fonts_are_those_that_were_recorded():
    recorded = dict(re.findall(r"`([\w-]+\.ttf)` \| `([0-9a-f]{64})`", NOTICE))

    found = {font.name: hashlib.sha256(font.read_bytes()).hexdigest() for font in FONTS.iterdir()}

    assert recorded == {name: mark for name, mark in found.items() if name.endswith(".ttf")}
    assert len(recorded) == 2


def test_the_fonts_licence_goes_where_they_go():
    licence = FONTS.joinpath("LICENSE").read_text(encoding="utf-8")

    assert "Bitstream Vera Fonts Copyright" in licence
    assert "Arev Fonts Copyright" in licence


def test_every_package_that_runs_with_us_is_named_and_no_other():
    lock = (TOP / "requirements.lock").read_text(encoding="utf-8")

    table = NOTICE.split("| package |")[1]
    named = re.findall(r"^\| ([a-z][\w-]+) \|", table, re.MULTILINE)

    assert sorted(named) == sorted(set(re.findall(r"^([a-z][\w.-]+)==", lock, re.MULTILINE)))
