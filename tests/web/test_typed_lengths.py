"""A frame's width as people type it: what its field says of it while they do."""

import re
from html import unescape

import pytest

from tests.web.serving import a_floor, browser
from tests.web.small_jobs import LARDER, frame_words, keep_larder

DRAW = f"/jobs/{LARDER}/frames/L1/draw"


@pytest.fixture(scope="module")
def office(tmp_path_factory):
    with a_floor(tmp_path_factory.mktemp("typed")) as floor:
        keep_larder(floor)
        yield browser(floor)


def said_of(office, typed: str) -> str:
    """What stands below the field."""
    part = office.post(DRAW, data=frame_words(width=typed), headers={"HX-Request": "true"})
    note = re.search(r'<div id="width-note".*?</div>', part.text, re.DOTALL)
    assert note is not None
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", note[0])).split())


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("600", '600 mm, about 23 5/8"'),
        ("600mm", '600 mm, about 23 5/8"'),
        ("  60 cm ", '600 mm, about 23 5/8"'),
        ("0.6 m", '600 mm, about 23 5/8"'),
        ("600\u00a0mm", '600 mm, about 23 5/8"'),  # the space that does not break a line
        ("600.5", '600.5 mm, about 23 41/64"'),
        ("600,5", '600.5 mm, about 23 41/64"'),
        ('23 5/8"', '600.075 mm, 23 5/8"'),
        ('23-5/8"', '600.075 mm, 23 5/8"'),
        ("23⅝”", '600.075 mm, 23 5/8"'),
        ("23.625 in", '600.075 mm, 23 5/8"'),
        ("2' 3 1/2\"", '698.5 mm, 27 1/2"'),
        ("2′ 3½″", '698.5 mm, 27 1/2"'),
    ],
)
def test_what_is_typed_is_said_again_in_millimetres_and_inches(office, typed: str, said: str):
    assert said_of(office, typed) == said


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("1,234", ["1234 if the comma parts the thousands", "1.234 if not"]),
        ("1.234,5", ["1234.5 if the point parts the thousands", "more than one number if not"]),
        ("1 234", ["1234 if the space parts the thousands", "more than one number if not"]),
        ("23 5/8", ["600.1 mm if inches are meant", "23.6 mm if not"]),
        ("23⅝", ["600.1 mm if inches are meant", "23.6 mm if not"]),
        ("235/8", ["29 3/8", "23 5/8"]),
    ],
)
def test_what_can_be_read_in_two_ways_is_asked_about_with_both(office, typed: str, readings: list[str]):
    said = said_of(office, typed)

    assert said.startswith("▲")
    assert [reading for reading in readings if reading not in said] == []


def test_a_bare_number_that_is_small_for_a_frame_is_doubted(office):
    assert "if inches are meant, write 23.625 in" in said_of(office, "23.625")


def test_what_is_said_in_inches_is_not_asked_for_in_inches(office):
    assert said_of(office, '5/8"').endswith("less than 20 mm; write 20 to 6000 mm")
