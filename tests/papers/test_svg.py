"""Drawings read back from the SVG by an XML parser."""

import pytest
from defusedxml.ElementTree import fromstring
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.papers import (
    HIDDEN,
    Arc,
    Circle,
    Line,
    Path,
    Spot,
    Squares,
    Words,
    sheet_around,
    words_width,
    write_svg,
)
from tests.papers.drawing import a_frame, a_page, a_sheet

SVG = "{http://www.w3.org/2000/svg}"


def only(svg, kind):
    [found] = svg.iter(SVG + kind)
    return found


def test_a_millimetre_of_the_sheet_is_a_millimetre_of_the_picture():
    svg = fromstring(write_svg(a_sheet(width=210, height=297.5)))

    assert (svg.get("width"), svg.get("height"), svg.get("viewBox")) == ("210mm", "297.5mm", "0 0 210 297.5")


def test_a_drawing_says_what_it_is_to_those_who_cannot_see_it():
    svg = fromstring(write_svg(a_sheet(title='K1 <"tall"> & wide')))

    assert svg.get("role") == "img"
    assert svg.get("aria-label") == 'K1 <"tall"> & wide'
    assert svg[0].tag == SVG + "title"
    assert svg[0].text == 'K1 <"tall"> & wide'


def test_up_on_the_sheet_is_up_in_the_picture():
    svg = fromstring(write_svg(a_sheet(Line(Spot(10, 20), Spot(30.12346, 20)), height=100)))

    assert only(svg, "path").get("d") == "M10 80L30.1235 80"


def test_each_layer_is_a_group_named_after_the_drawing():
    svg = fromstring(write_svg(sheet_around(a_frame(), title="K1 wide")))

    groups = list(svg.iter(SVG + "g"))

    assert [group.get("class") for group in groups] == ["outline", "hidden", "centre", "words", "dimension"]
    assert [group.get("id") for group in groups][:2] == ["K1-wide-outline", "K1-wide-hidden"]


def test_words_stay_words_with_the_width_of_our_own_font():
    svg = fromstring(write_svg(a_sheet(Words(Spot(50, 20), "a < b", anchor="middle", bold=True), height=100)))

    text = only(svg, "text")

    assert (text.text, text.get("x"), text.get("y")) == ("a < b", "50", "80")
    assert (text.get("text-anchor"), text.get("font-weight")) == ("middle", "bold")
    width = words_width("a < b", 3.5, bold=True)
    assert float(text.get("textLength")) == pytest.approx(width, abs=1e-4)
    assert float(text.get("font-size")) * 1493 / 2048 == pytest.approx(3.5, abs=1e-4)


def test_turned_words_are_read_from_the_right():
    svg = fromstring(write_svg(a_sheet(Words(Spot(50, 20), "K1", turn=90), height=100)))

    assert only(svg, "text").get("transform") == "rotate(-90 50 80)"


def test_all_numbers_of_a_drawing_are_in_its_text():
    svg = fromstring(write_svg(a_page()))

    told = [text.text for text in svg.iter(SVG + "text")]

    for number in ("45", "391", "38", "381", "900", "435", "142", "60", "(720)", "50", "54", "474"):
        assert number in told


def test_shapes_come_with_their_pens_and_fills():
    sheet = a_sheet(
        Path((Spot(0, 0), Spot(10, 0), Spot(10, 10)), fill="white", pen=None),
        Circle(Spot(20, 20), 5, fill="tint", pen=HIDDEN),
        Arc(Spot(50, 50), 10, 0, 270),
        Path((Spot(0, 0), Spot(10, 0)), closed=False),
        height=100,
    )

    path, arc, line = fromstring(write_svg(sheet)).iter(SVG + "path")
    circle = only(fromstring(write_svg(sheet)), "circle")

    assert (path.get("d"), path.get("fill"), path.get("stroke")) == ("M0 100L10 100L10 90Z", "#fff", "none")
    assert (circle.get("fill"), circle.get("stroke-dasharray")) == ("#e6e6e6", "3 0.75")
    assert arc.get("d") == "M60 50A10 10 0 1 0 50 60"
    assert line.get("d") == "M0 100L10 100"


def test_the_squares_of_a_code_cover_what_they_should():
    svg = fromstring(write_svg(a_sheet(Squares(Spot(10, 10), 2, ("110", "001")), height=100)))

    assert only(svg, "path").get("d") == "M10 86h4v2h-4zM14 88h2v2h-2z"


@given(st.text(max_size=40), st.text(max_size=20))
def test_no_text_breaks_the_drawing(text, title):
    svg = fromstring(write_svg(a_sheet(Words(Spot(1, 1), text, layer="words"), title=title)))

    assert svg.get("viewBox") == "0 0 210 297"
