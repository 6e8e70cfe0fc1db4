"""Full-size rods: lines at exact places, words that lie on nothing, long rods in parts that match."""

from itertools import pairwise

import pytest

from pinchrod.ground import show
from pinchrod.job import Joint
from pinchrod.papers import LONGEST_SHEET, MARGINS, Line, RunningDimension, Words, overlaps
from pinchrod.papers.frames.rod_band import rod_band, running_figures
from pinchrod.papers.frames.rod_page import rod_sheets
from pinchrod.papers.frames.rod_section import bead_profile, section
from pinchrod.papers.frames.rod_strip import LONGEST, Strip, end_to_end, parts_of
from pinchrod.papers.frames.sections import height_cuts, width_cuts
from pinchrod.setting_out import Rods
from tests.builders import a_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import SHOP, set_out_job
from tests.papers.frame_builders import (
    DOOR_BESIDE_DRAWERS,
    DRAWER_OVER_PAIR,
    TENTH,
    a_rod,
    letters_in,
    lines_in,
    on_layer,
    random_rods,
    read_back,
    written,
)
from tests.papers.page_builders import LONG_NAME


def sheets_of(rod, job):
    return rod_sheets(Rods(rods=(rod,), joint=job.joint), job, SHOP)


def strips(rod):
    return [Strip(rod=rod, cut=cut) for cut in (*width_cuts(rod), *height_cuts(rod))]


def flaws(sheets):
    return [flaw for sheet in sheets for flaw in overlaps(sheet, MARGINS)]


def running_on(sheet):
    return [mark for mark in sheet.marks if isinstance(mark, RunningDimension)]


@pytest.mark.parametrize("seed", range(4))
def test_nothing_lies_on_anything_on_the_rods_of_any_frame(seed):
    for rod, job in random_rods(seed + 200, 10):
        sheets = sheets_of(rod, job)

        assert flaws(sheets) == []
        assert max(max(sheet.width, sheet.height) for sheet in sheets) <= LONGEST_SHEET


EXTREMES = [
    {"width": 6000, "height": 6000},
    {"width": 150, "height": 150},
    {"width": 6000, "height": 300, "layout": a_row(*[an_opening()] * 12)},
    {"width": 1200, "height": 720, "layout": a_row(*[an_opening()] * 13)},
    {"width": 600, "height": 6000, "layout": a_stack(*[an_opening("drawer")] * 40)},
    {"width": 900, "height": 1400, "layout": DRAWER_OVER_PAIR, "id": LONG_NAME, "foot": 100},
    {"width": 900, "height": 1400, "layout": DRAWER_OVER_PAIR, "id": "Q" * 79 + "y", "bottom_rail": 0},
]


@pytest.mark.parametrize("frame", EXTREMES, ids=lambda frame: f"{frame['width']}x{frame['height']}")
def test_nothing_lies_on_anything_on_the_rods_of_extreme_frames(frame):
    layout = frame.get("layout")
    rest = {key: value for key, value in frame.items() if key != "layout"}

    for bead, joint in ((9, Joint.DOVETAIL_KEY), (0, Joint.MORTICE_AND_TENON)):
        rod, job = a_rod(layout, **rest, said={"bead": bead, "joint": joint, "name": LONG_NAME})
        assert flaws(sheets_of(rod, job)) == []


@pytest.mark.parametrize("side", [1000, 2500])
def test_a_metre_on_the_rod_is_a_metre_in_the_pdf(side):
    rod, job = a_rod(an_opening(), width=side + 90, height=1000)

    lines = lines_in(read_back(*sheets_of(rod, job))[0])

    levels = [x1 - x0 for x0, y0, x1, y1 in lines if abs(y1 - y0) < 1e-6]
    assert min(abs(length - side) for length in levels) < 0.01
    assert min(abs(length - 1000) for length in levels) < 0.01


def test_the_check_bar_is_100_mm_long_and_says_so():
    rod, job = a_rod()
    [page] = read_back(*sheets_of(rod, job))

    levels = [x1 - x0 for x0, y0, x1, y1 in lines_in(page) if abs(y1 - y0) < 1e-6]

    assert min(abs(length - 100) for length in levels) < 0.01
    assert "measure me: 100 mm" in letters_in(page)
    assert "print at 100 %, do not fit to page" in letters_in(page)


@pytest.mark.parametrize("seed", range(3))
def test_each_running_figure_stands_at_its_exact_place(seed):
    for rod, _ in random_rods(seed + 210, 10):
        for strip in strips(rod):
            for part in parts_of(strip):
                figures = running_figures(part, TENTH)
                places = {show(at, TENTH): float(at) for at in (*strip.lines, *part.matches)}
                for spot, text in zip(figures.points, figures.texts, strict=True):
                    assert abs(spot.x - places[text]) < 0.1
                    assert any(spot.x == float(at) for at in (*strip.lines, *part.matches))


def test_the_figures_are_those_of_every_edge_and_every_shoulder():
    rod, _ = a_rod(DRAWER_OVER_PAIR)
    [level, upright] = strips(rod)

    widths, heights = (running_figures(parts_of(strip)[0], TENTH) for strip in (level, upright))

    assert widths.texts == ("36", "45", "555", "564", "600")
    assert heights.texts == ("36", "45", "482", "491", "511", "520", "660", "669", "720")


def test_where_lines_stand_close_the_shoulders_go_without_figures():
    rod, _ = a_rod(a_row(*[an_opening("open")] * 13), width=390, muntin=22, said={"bead": 1})
    [level, _] = strips(rod)

    figures = running_figures(parts_of(level)[0], TENTH)

    assert len(figures.points) == len(level.cut.stops) - 1


def test_lines_are_drawn_at_exact_places_though_figures_are_rounded():
    rod, job = a_rod(a_stack(*[an_opening("drawer")] * 7), height=2000)
    [_, upright] = strips(rod)
    exact = {float(at) for at in upright.cut.stops}

    band = rod_band(parts_of(upright)[0], job.bead, TENTH, 2100)

    squared = {line.a.x for line in on_layer(band.marks, "rod", Line) if line.a.x == line.b.x}
    assert squared == exact
    assert any(at != round(at, 1) for at in exact)


def test_every_opening_member_and_end_is_named():
    rod, job = a_rod(DOOR_BESIDE_DRAWERS, width=1200, foot=100)

    texts = " ".join(written(sheets_of(rod, job)[0].marks))

    assert all(member.name in texts for member in rod.members)
    assert all(opening.name in texts for opening in rod.openings)
    for word in ("left", "right", "bottom", "top", "face edge", "foot", "width rod", "height rod"):
        assert word in texts


def test_sight_sizes_are_written_large():
    rod, job = a_rod(DRAWER_OVER_PAIR)

    large = [mark.text for mark in sheets_of(rod, job)[0].marks if isinstance(mark, Words) and mark.size >= 9]

    assert {"sight 510", "sight 437", "sight 140"} <= set(large)


def test_each_different_section_of_a_nested_frame_has_its_rod_named_by_its_openings():
    rod, job = a_rod(DOOR_BESIDE_DRAWERS, width=1200)

    texts = written(sheets_of(rod, job)[0].marks)

    headings = [text for text in texts if "rod, through" in text]
    assert headings == [
        "K1 width rod, through K1.1, K1.2, K1.3, K1.4",
        "K1 height rod, through K1.1",
        "K1 height rod, through K1.2, K1.3, K1.4",
    ]


def test_members_that_lie_along_a_rod_are_listed_with_their_lengths():
    rod, _ = a_rod(DRAWER_OVER_PAIR)
    [level, upright] = strips(rod)

    said = [[end_to_end(member, TENTH) for member in strip.lying] for strip in (level, upright)]

    assert said == [["K1-TR 528", "K1-BR 528", "K1-R1 528"], ["K1-LS 720", "K1-RS 720"]]


def test_tenons_are_counted_apart_and_their_ends_drawn():
    rod, job = a_rod(left_stile=60, right_stile=60, said={"joint": Joint.MORTICE_AND_TENON})
    [level, _] = strips(rod)

    band = rod_band(parts_of(level)[0], job.bead, TENTH, 700)

    assert end_to_end(level.lying[0], TENTH) == "K1-TR 498, 578 with tenons"
    assert {line.a.x for line in on_layer(band.marks, "tenon", Line)} == {11, 589}


@pytest.mark.parametrize("joint", list(Joint))
def test_every_member_lies_along_a_rod_or_across_one(joint):
    for rod, _ in random_rods(220, 10):
        found = strips(rod)

        across = {mark for strip in found for standing in strip.sections for mark in standing.marks}

        assert across == {member.name for member in rod.members}


@pytest.mark.parametrize("length", [4800, 4801, 6000])
@pytest.mark.parametrize("openings", [1, 2, 6, 12])
def test_a_long_rod_is_parted_with_an_overlap_and_a_match_mark(length, openings):
    rod, _ = a_rod(a_row(*[an_opening("drawer")] * openings), width=length)
    level = strips(rod)[0]

    parts = parts_of(level)

    assert len(parts) == (1 if length <= LONGEST else 2)
    assert all(part.shown.length <= LONGEST for part in parts)
    for one, other in pairwise(parts):
        [match] = set(one.matches) & set(other.matches)
        assert other.shown.low < match < one.shown.high
        assert one.shown.high - match >= 100
        assert match - other.shown.low >= 100


@pytest.mark.parametrize("openings", [1, 6, 40])
def test_no_member_is_cut_through_where_a_rod_is_parted(openings):
    rod, _ = a_rod(a_stack(*[an_opening("drawer")] * openings), height=6000)

    for strip in strips(rod):
        for part in parts_of(strip):
            for member in strip.cut.members:
                inside = part.shown.low <= member.across.low and member.across.high <= part.shown.high
                assert inside or not member.across.meets(part.shown)


def test_both_parts_of_a_rod_carry_the_figure_of_their_match_mark():
    rod, job = a_rod(a_row(*[an_opening("drawer")] * 6), width=6000, height=300)

    first, second = sheets_of(rod, job)

    [match] = {text for text in written(first.marks) if text.startswith("match mark")}
    assert match in written(second.marks)
    assert running_on(second)[0].datum_text == match.removeprefix("match mark ")
    assert any(", part 2 of 2, through" in text for text in written(second.marks))


def test_sheets_are_numbered_through_the_job_and_carry_its_title_block():
    job, rods = set_out_job(a_frame(DRAWER_OVER_PAIR), a_frame(id="K2"))

    first, second = rod_sheets(rods, job, SHOP)

    assert (first.title, second.title) == ("Rod of frame K1", "Rod of frame K2")
    assert "1 of 2" in written(first.marks)
    assert {"2 of 2", "Full-size rod", "1:1", "Content mark", "Revision", "Date of issue"} <= set(
        written(second.marks)
    )


def test_very_many_rods_of_one_frame_go_onto_several_sheets():
    rows = [a_row(*[an_opening("drawer")] * many) for many in range(1, 9)]
    rod, job = a_rod(a_stack(*rows), width=3000, height=2600)

    sheets = sheets_of(rod, job)

    assert len(sheets) > 1
    assert [sheet.title for sheet in sheets[1:]] == [""] * (len(sheets) - 1)
    assert max(sheet.height for sheet in sheets) < 900


def test_a_section_shows_the_bead_and_its_quirk_on_the_face_edge():
    rod, job = a_rod()
    stile = rod.member("K1-LS")

    drawn = section(stile, job.bead)

    assert drawn.points[0] == (0, 22)
    assert drawn.points[-1] == (45, 22)
    assert (36, 0) in drawn.points
    assert min(spot.y for spot in drawn.points) == 0


def test_a_bead_is_a_half_round_flush_with_the_face_and_a_quirk_beside_it():
    profile = bead_profile(9.0, 2.0, 13.0)

    top = min(profile, key=lambda spot: (spot.y, spot.x))
    assert abs(top.x - 3.5) < 1e-9
    assert profile[0] == (0, 3.5)
    assert profile[-2:] == ((9, 3.5), (9, 0))


def test_a_bead_too_wide_for_the_thickness_is_drawn_flatter_and_a_square_edge_plain():
    assert max(spot.y for spot in bead_profile(40.0, 2.0, 13.0)) == 13
    rod, job = a_rod(said={"bead": 0})
    assert len(section(rod.member("K1-LS"), job.bead).points) == 4


def test_the_same_job_gives_the_same_rods():
    rod, job = a_rod(DOOR_BESIDE_DRAWERS, width=1200)

    assert sheets_of(rod, job) == sheets_of(rod, job)
