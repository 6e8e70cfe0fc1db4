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


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"said": "600"}, '600 mm, about 23 5/8"'),
        ({"said": '23 5/8"'}, '600.075 mm, 23 5/8"'),
        ({"said": "12,5", "comma": "yes"}, '12.5 mm, about 31/64"'),
        ({"said": ""}, ""),
        ({"said": "six hundred"}, ""),
        ({"said": "1,234"}, ""),
        ({"said": "9" * 5_000}, ""),
        ({"said": "25.4-50.8", "of": "faults"}, '25.4 to 50.8 mm (1" to 2")'),
        (
            {"said": "nothing; 0-25.4@0-25.4", "of": "faults"},
            '0 to 25.4 mm (0" to 1"), across 0 to 25.4 mm (0" to 1")',
        ),
    ],
)
def test_a_length_is_said_again_in_both_units_or_not_at_all(office, asked, said):
    assert office.get("/lengths", params=asked).text == said


@pytest.mark.parametrize(
    ("address", "fields"),
    [
        ("/new-job", ("thickness", "width", "height")),
        (f"/jobs/{LARDER}/timber/add", ("length", "width", "thickness", "bow", "spring")),
    ],
)
def test_each_field_for_a_length_has_its_unit_in_its_name_behind_it_and_room_to_say_it_again(
    office, address, fields
):
    page = unescape(office.get(address).text)

    for field in fields:
        assert re.search(rf'<label for="{field}">[^<]*, mm</label>', page)
        behind = (
            rf'id="{field}" name="{field}"[^>]* {field}-echo"><span class="unit" aria-hidden="true">mm</span>'
        )
        assert re.search(behind, page)
        assert f'<p class="echo" id="{field}-echo">' in page


def test_a_new_job_that_comes_again_says_its_lengths_again(office):
    typed = {
        "key": "n",
        "name": "",
        "thickness": "3/4 in",
        "id": "K1",
        "width": "600",
        "height": "",
        "layout": "pair",
    }

    page = unescape(office.post("/new-job", data=typed).text)

    assert '<p class="echo" id="thickness-echo">19.05 mm, 3/4"</p>' in page
    assert '<p class="echo" id="width-echo">600 mm, about 23 5/8"</p>' in page
    assert '<p class="echo" id="height-echo"></p>' in page
