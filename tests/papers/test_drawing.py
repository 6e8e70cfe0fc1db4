"""A frame's drawing for drawing programs: true size, named layers, outlines that close."""

from io import StringIO
from xml.etree import ElementTree

import pytest
from ezdxf.filemanagement import read as read_dxf

from pinchrod.ground import area
from pinchrod.papers import Dimension, Line, Path, overlaps, plain_marks, write_dxf, write_svg
from pinchrod.papers.frames.drawing import frame_drawing, framed, lettering_scale
from pinchrod.papers.frames.elevation import LAYERS
from tests.builders import a_row, a_stack, an_opening
from tests.papers.data_builders import SHOP
from tests.papers.frame_builders import (
    DOOR_BESIDE_DRAWERS,
    DRAWER_OVER_PAIR,
    a_rod,
    on_layer,
    random_rods,
    written,
)
from tests.papers.page_builders import LONG_NAME


def drawing_of(*layout, **frame):
    rod, job = a_rod(*layout, **frame)
    return rod, frame_drawing(rod, job, SHOP)


def dxf_of(sheet):
    return read_dxf(StringIO(write_dxf(sheet).decode("utf-8")))


@pytest.mark.parametrize("seed", range(3))
def test_nothing_lies_on_anything_in_the_drawing_of_any_frame(seed):
    for rod, job in random_rods(seed + 300, 10):
        assert overlaps(framed(frame_drawing(rod, job, SHOP))) == ()


EXTREMES = [
    {"width": 6000, "height": 200},
    {"width": 200, "height": 6000},
    {"width": 150, "height": 150},
    {"width": 1200, "height": 720, "layout": a_row(*[an_opening()] * 13)},
    {"width": 600, "height": 2400, "layout": a_stack(*[an_opening("drawer")] * 30)},
    {"width": 900, "height": 1400, "layout": DRAWER_OVER_PAIR, "id": LONG_NAME},
]


@pytest.mark.parametrize("frame", EXTREMES, ids=lambda frame: f"{frame['width']}x{frame['height']}")
def test_nothing_lies_on_anything_in_the_drawing_of_extreme_frames(frame):
    _, sheet = drawing_of(frame.get("layout"), **{k: v for k, v in frame.items() if k != "layout"})

    assert overlaps(framed(sheet)) == ()


def test_members_in_the_dxf_are_closed_outlines_of_their_true_area():
    rod, sheet = drawing_of(DOOR_BESIDE_DRAWERS, width=1200, foot=100)

    outlines = list(dxf_of(sheet).modelspace().query('LWPOLYLINE[layer=="OUTLINE"]'))

    assert all(outline.closed for outline in outlines)
    found = sorted(_area([(x, y) for x, y, *_ in outline]) for outline in outlines)
    wanted = sorted(float(area(member.outline)) for member in rod.members)
    assert all(abs(a - b) < 1e-3 for a, b in zip(found, wanted, strict=True))


def _area(points):
    ends = [*points[1:], points[0]]
    return sum(x * v - u * y for (x, y), (u, v) in zip(points, ends, strict=True)) / 2


def test_the_fronts_of_a_dxf_are_closed_outlines_too():
    rod, sheet = drawing_of(DRAWER_OVER_PAIR)

    fronts = list(dxf_of(sheet).modelspace().query('LWPOLYLINE[layer=="FRONT"]'))

    assert len(fronts) == len(rod.fronts)
    assert all(front.closed for front in fronts)


def test_a_dxf_measures_what_its_dimensions_say():
    _, sheet = drawing_of(DRAWER_OVER_PAIR)

    measured = [
        (entity.get_measurement(), entity.dxf.text)
        for entity in dxf_of(sheet).modelspace().query("DIMENSION")
        if entity.dxf.text.isdigit()
    ]

    assert {text for _, text in measured} >= {"600", "720", "510", "437", "140", "38"}
    assert all(abs(value - float(text)) < 1e-6 for value, text in measured if isinstance(value, float))


def test_the_dxf_is_audited_clean_and_in_millimetres():
    _, sheet = drawing_of(DOOR_BESIDE_DRAWERS, width=1200)
    document = dxf_of(sheet)

    assert not document.audit().errors
    assert document.units == 4  # millimetres


def test_every_layer_has_its_line_in_the_legend():
    _, sheet = drawing_of(a_stack(DRAWER_OVER_PAIR, an_opening("open")), height=1400)
    texts = written(sheet.marks)

    for layer in LAYERS:
        assert f"{layer.name}: {layer.meaning}" in texts
    assert {mark.layer for mark in sheet.marks} == {layer.name for layer in LAYERS} | {"dimension", "legend"}


def test_outlines_hold_nothing_but_members():
    rod, sheet = drawing_of(DRAWER_OVER_PAIR)

    drawn = [mark for mark in plain_marks(sheet.marks) if mark.layer == "outline"]

    assert len(drawn) == len(rod.members)


def test_the_drawing_is_true_to_size_and_its_quirks_are_drawn():
    _, sheet = drawing_of(DRAWER_OVER_PAIR)

    stile = on_layer(sheet.marks, "outline", Path)[0]
    beads = on_layer(sheet.marks, "bead", Line)

    assert abs(max(s.y for s in stile.points) - min(s.y for s in stile.points) - 720) < 1e-9
    left = min(spot.x for spot in stile.points)
    assert {38, 36} <= {round(line.a.x - left, 6) for line in beads}


@pytest.mark.parametrize(("side", "scale"), [(150, 1), (600, 5), (2100, 10), (6000, 50)])
def test_letters_are_as_large_as_the_paper_it_may_be_printed_on_asks(side, scale):
    rod, sheet = drawing_of(width=side, height=side)

    assert lettering_scale(rod) == scale
    sizes = {mark.size for mark in sheet.marks if isinstance(mark, Dimension)}
    rows = [row for mark in sheet.marks for row in getattr(mark, "dimensions", ())]
    assert sizes | {row.size for row in rows} == {3.5 * scale}


def test_the_heading_says_what_the_drawing_is_and_its_unit():
    _, sheet = drawing_of(DRAWER_OVER_PAIR)

    text = " ".join(written(sheet.marks))

    for words in ("K1", "Saltmarsh Row", "content mark", "unit mm, true size", "seen from the face"):
        assert words in text


def test_the_svg_shows_a_millimetre_for_a_millimetre_with_its_layers_apart():
    _, sheet = drawing_of(DRAWER_OVER_PAIR)

    picture = ElementTree.fromstring(write_svg(framed(sheet)))

    _, _, wide, high = picture.get("viewBox", "").split()
    assert (picture.get("width"), picture.get("height")) == (f"{wide}mm", f"{high}mm")
    groups = {group.get("class") for group in picture}
    assert {layer.name for layer in LAYERS} <= groups


def test_pens_are_bolder_in_a_picture_and_as_usual_in_a_drawing():
    _, sheet = drawing_of(DRAWER_OVER_PAIR)

    usual = {mark.pen.width for mark in on_layer(sheet.marks, "outline", Path) if mark.pen}
    bold = {mark.pen.width for mark in on_layer(framed(sheet).marks, "outline", Path) if mark.pen}

    assert usual == {0.5}
    assert min(bold) > 0.5
