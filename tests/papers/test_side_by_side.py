"""Frames as they will stand, beside one another: true to one scale, their feet on the floor."""

import pytest
from shapely import Polygon, union_all

from pinchrod.papers import Line, Path, Sheet, standing, write_svg
from pinchrod.papers.frames.side_by_side import EDGE, PER
from tests.builders import a_row, a_stack, an_opening
from tests.papers.frame_builders import a_rod, random_rods

DRAWERS = a_stack(*[an_opening("drawer")] * 3)


def wood(sheet: Sheet) -> Polygon:
    """All that is drawn of wood, as one outline in mm of wood."""
    paths = [mark for mark in sheet.marks if isinstance(mark, Path) and mark.fill == "tint"]
    joined = union_all([Polygon([((x - EDGE) * PER, y * PER) for x, y in mark.points]) for mark in paths])
    assert isinstance(joined, Polygon)
    return joined


def test_each_stands_true_with_its_feet_on_the_sheets_lower_edge():
    for rod, _job in random_rods(seed=5, count=12):
        sheet = standing(rod)
        left, low, right, high = wood(sheet).bounds

        assert (left, low) == pytest.approx((0, 0), abs=1e-6)
        assert (right, high) == pytest.approx((float(rod.frame.width), float(rod.frame.height)), abs=1e-6)
        assert sheet.width == pytest.approx(float(rod.frame.width) / PER + 2 * EDGE)
        assert sheet.height == pytest.approx(float(rod.frame.height) / PER + EDGE)


def test_the_wood_leaves_free_what_the_openings_show_and_what_is_between_the_feet():
    for rod, _job in random_rods(seed=6, count=12):
        shown = sum(float(opening.x.length * opening.y.length) for opening in rod.openings)
        frame = rod.frame
        between = float(frame.width - frame.left_stile - frame.right_stile)
        feet = float(frame.foot) * between if frame.bottom_rail else 0.0

        whole = float(frame.width * frame.height)
        assert wood(standing(rod)).area == pytest.approx(whole - shown - feet, rel=1e-6)


def test_a_drawer_has_its_pull_a_door_the_way_it_swings_an_open_part_its_cross():
    rods = {
        kind: a_rod(an_opening(kind), width=600, height=700)[0]
        for kind in ("drawer", "door", "open", "panel")
    }
    lines = {
        kind: [mark for mark in standing(rod).marks if isinstance(mark, Line)] for kind, rod in rods.items()
    }

    assert [len(found) for found in lines.values()] == [1, 2, 2, 0]
    assert all(line.pen.dashes for line in lines["door"])
    assert lines["drawer"][0].a.y == lines["drawer"][0].b.y


def test_a_pull_stays_within_a_narrow_drawer():
    rod, _job = a_rod(a_row(*[an_opening("drawer")] * 4), width=500, height=300)
    pulls = [mark for mark in standing(rod).marks if isinstance(mark, Line)]

    widths = [float(opening.x.length) for opening in rod.openings]
    assert [(line.b.x - line.a.x) * PER for line in pulls] == pytest.approx([width / 3 for width in widths])


def test_its_picture_is_small_and_bears_its_frames_id():
    rod, _job = a_rod(DRAWERS, id="K1", width=900, height=860)
    svg = write_svg(standing(rod))

    assert 'aria-label="Frame K1 as it stands"' in svg
    assert "<text" not in svg
    assert len(svg) < 4_000
