"""Drawings read back from the DXF and audited."""

from io import StringIO
from typing import Any

import pytest
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.filemanagement import read as read_dxf
from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.papers import (
    HIDDEN,
    NARROW,
    Arc,
    Circle,
    Line,
    Path,
    Rows,
    RunningDimension,
    Sheet,
    Spot,
    Squares,
    Words,
    write_dxf,
)
from tests.papers.drawing import HEIGHT, WIDTH, a_frame, a_level_chain, a_page, a_sheet


def read(sheet: Sheet, *, lettering: float = 1) -> Drawing:
    return read_dxf(StringIO(write_dxf(sheet, lettering=lettering).decode("utf-8")))


def all_of(document: Drawing, kind: str) -> list[Any]:
    return list(document.modelspace().query(kind))


def only(document: Drawing, kind: str) -> Any:
    [found] = all_of(document, kind)
    return found


@pytest.mark.parametrize("sheet", [a_sheet(*a_frame()), a_page(), a_sheet()], ids=["frame", "page", "empty"])
def test_a_drawing_is_audited_clean(sheet):
    audit = read(sheet, lettering=10).audit()

    assert (audit.errors, audit.fixes) == ([], [])


def test_a_drawing_is_in_millimetres_and_knows_its_extent():
    document = read(a_sheet(Line(Spot(0, 0), Spot(WIDTH, HEIGHT))))

    assert document.dxfversion == "AC1024"  # R2010
    assert document.units == units.MM
    assert document.header["$INSUNITS"] == 4
    assert document.header["$EXTMAX"] == (WIDTH, HEIGHT, 0)


def test_an_outline_is_closed_and_at_true_size():
    document = read(a_sheet(a_frame()[0]))

    outline = only(document, "LWPOLYLINE")

    assert outline.closed
    assert list(outline.get_points("xy")) == [(0, 0), (WIDTH, 0), (WIDTH, HEIGHT), (0, HEIGHT)]


def test_layers_are_named_and_have_the_pens_of_what_is_drawn_on_them():
    document = read(a_sheet(*a_frame()))

    looks = {each.dxf.name: (each.dxf.linetype, each.dxf.lineweight) for each in document.layers}

    assert looks["OUTLINE"] == ("Continuous", 50)
    assert looks["HIDDEN"] == ("DASHED-3000-750", 25)
    assert looks["CENTRE"] == ("CHAIN-6000-750-125-750", 25)
    assert looks["DIMENSION"] == looks["WORDS"] == ("Continuous", 25)
    assert {mark.dxf.layer for mark in document.modelspace()} <= looks.keys()


def test_a_mark_with_another_pen_than_its_layer_keeps_it():
    document = read(a_sheet(Line(Spot(0, 0), Spot(9, 0)), Circle(Spot(0, 0), 5, pen=HIDDEN)))

    assert only(document, "LINE").dxf.linetype == "BYLAYER"
    assert only(document, "CIRCLE").dxf.linetype == "DASHED-3000-750"


def test_dashes_and_words_are_larger_where_the_drawing_is_to_be_plotted_small():
    document = read(a_sheet(Words(Spot(5, 5), "K1", size=3.5)), lettering=10)

    assert only(document, "TEXT").dxf.height == 35
    assert document.header["$LTSCALE"] == 10


@pytest.mark.parametrize(("anchor", "kind"), [("left", "LEFT"), ("middle", "CENTER"), ("right", "RIGHT")])
def test_words_stand_at_their_point(anchor, kind):
    text = only(read(a_sheet(Words(Spot(50, 5), "K1", anchor=anchor, turn=90))), "TEXT")

    align, spot, _ = text.get_placement()
    assert (align.name, spot) == (kind, (50, 5, 0))
    assert text.dxf.rotation == 90


def test_dimensions_are_real_and_measure_what_they_say():
    document = read(a_sheet(Rows((a_level_chain(0, 45, 436, 600),))))

    dimensions = all_of(document, "DIMENSION")

    assert [(each.dxf.text, each.get_measurement()) for each in dimensions] == [
        ("45", 45),
        ("391", 391),
        ("164", 164),
    ]


def test_an_upright_dimension_measures_upwards():
    document = read(a_sheet(a_frame()[5]))

    measured = [round(each.get_measurement(), 6) for each in all_of(document, "DIMENSION")]

    assert measured == [45, 435, 38, 142, 60, 720]


def test_a_dimension_carries_the_same_picture_as_on_paper():
    document = read(a_sheet(Rows((a_level_chain(0, 60),))))

    picture = only(document, "DIMENSION").get_geometry_block()

    assert [mark.dxftype() for mark in picture] == ["LINE"] * 5 + ["TEXT"]
    assert picture[-1].dxf.text == "60"


@pytest.mark.parametrize(("axis", "index"), [("x", 0), ("y", 1)])
def test_running_dimensions_are_ordinates_from_their_datum(axis, index):
    spots = (Spot(45, 45), Spot(50, 50))
    mark = RunningDimension(Spot(5, 5), spots, ("40", "45"), axis=axis)

    dimensions = all_of(read(a_sheet(mark)), "DIMENSION")

    told = [(each.dxf.text, each.get_measurement()[index]) for each in dimensions]
    assert told == [("0", 0), ("40", 40), ("45", 45)]
    assert {each.dimtype for each in dimensions} == {6}


def test_arcs_and_codes_are_drawn():
    document = read(a_sheet(Arc(Spot(1, 2), 3, 10, 170), Squares(Spot(0, 0), 2, ("110", "001"))))

    arc = only(document, "ARC").dxf
    bars = [[tuple(corner)[:2] for corner in bar.vertices()] for bar in all_of(document, "SOLID")]
    assert (arc.center, arc.radius, arc.start_angle, arc.end_angle) == ((1, 2, 0), 3, 10, 170)
    assert bars[0] == [(0, 2), (4, 2), (4, 4), (0, 4)]


@settings(max_examples=30)
@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cf")), max_size=40))
def test_no_text_breaks_the_drawing(text):
    document = read(a_sheet(Words(Spot(0, 0), text), Path((Spot(0, 0), Spot(1, 1)), pen=NARROW)))

    assert document.audit().errors == []


@pytest.mark.parametrize("text", ["50 %%c", "^J", "a^b", "100 %", "\\P {K1}", "Ø 40 ⅝"])
def test_words_that_look_like_codes_come_back_as_words(text):
    assert only(read(a_sheet(Words(Spot(0, 0), text))), "TEXT").plain_text() == text
