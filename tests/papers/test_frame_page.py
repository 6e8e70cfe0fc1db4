"""A frame's page: true to its scale, nothing on anything else, and every number the rod's."""

import random
import re
from dataclasses import replace
from itertools import chain

import pytest

from pinchrod.ground import Mm, Problem, show
from pinchrod.job import Joint
from pinchrod.papers import WIDE, Path, about, bind
from pinchrod.papers.frames.elevation_words import length_between
from pinchrod.papers.frames.frame_page import doubts_by_frame, frame_page, frame_pages
from pinchrod.setting_out import patterns
from tests.builders import a_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import SHOP, set_out_job
from tests.papers.frame_builders import (
    DOOR_BESIDE_DRAWERS,
    DRAWER_OVER_PAIR,
    TENTH,
    a_rod,
    a_shop_on,
    letters_in,
    lines_in,
    random_frames,
    random_rods,
    read_back,
    written,
)
from tests.papers.page_builders import LONG_NAME, awkward_jobs, flaws


def pages_of(rod, job, shop=SHOP, doubts=()):
    return frame_page(rod, job, shop, {}, doubts)


def all_pages(job, rods, shop=SHOP):
    return frame_pages(rods, job, shop, patterns(rods))


def words_on(pages):
    return [text for page in pages for text in written(page.marks)]


def scale_of(page):
    return int(page.scale.removeprefix("1:"))


def expected_numbers(rod):
    """Every number that a frame's tables have to give."""
    for opening in rod.openings:
        yield f"{length_between(opening.x, TENTH)} × {length_between(opening.y, TENTH)}"
        yield from (f"{show(front.width, TENTH)} × {show(front.height, TENTH)}" for front in opening.fronts)
    for member in rod.members:
        yield f"{show(member.length, TENTH)} × {show(member.width, TENTH)}"


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("seed", range(3))
def test_nothing_lies_on_anything_on_the_pages_of_any_frame(seed, size):
    shop = a_shop_on(size)

    for rod, job in random_rods(seed + 100 * len(size), 12):
        assert flaws(pages_of(rod, job, shop), job, shop) == []


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_nothing_lies_on_anything_on_the_pages_of_awkward_frames(size):
    shop = a_shop_on(size)

    for job, rods in awkward_jobs():
        few = replace(rods, rods=rods.rods[:3])
        assert flaws(all_pages(job, few, shop), job, shop) == []


EXTREMES = [
    {"width": 6000, "height": 200},
    {"width": 200, "height": 6000},
    {"width": 6000, "height": 6000},
    {"width": 200, "height": 200},
    {"width": 6000, "height": 300, "layout": a_row(*[an_opening()] * 6)},
    {"width": 300, "height": 2600, "layout": a_stack(an_opening(), an_opening("open"), an_opening())},
    {"width": 1200, "height": 720, "layout": a_row(*[an_opening()] * 13)},
    {"width": 600, "height": 2400, "layout": a_stack(*[an_opening("drawer")] * 30)},
    {"width": 900, "height": 1400, "layout": DRAWER_OVER_PAIR, "id": LONG_NAME, "foot": 100},
    {"width": 900, "height": 1400, "layout": DRAWER_OVER_PAIR, "id": "Q" * 79 + "y", "bottom_rail": 0},
]


@pytest.mark.parametrize("frame", EXTREMES, ids=lambda frame: f"{frame['width']}x{frame['height']}")
def test_nothing_lies_on_anything_on_the_pages_of_extreme_frames(frame):
    layout = frame.get("layout")
    rest = {key: value for key, value in frame.items() if key != "layout"}

    for bead, joint in ((9, Joint.DOVETAIL_KEY), (0, Joint.MORTICE_AND_TENON)):
        rod, job = a_rod(layout, **rest, said={"bead": bead, "joint": joint, "name": LONG_NAME})
        assert flaws(pages_of(rod, job), job, SHOP) == []


@pytest.mark.parametrize("seed", range(2))
def test_the_tables_give_every_sight_size_every_front_and_every_member(seed):
    for rod, job in random_rods(seed + 70, 15):
        texts = set(words_on(pages_of(rod, job)))

        assert set(expected_numbers(rod)) <= texts


def test_another_reader_finds_the_numbers_of_the_rod_in_the_pdf():
    found = list(random_frames(random.Random(80), 5))

    for frame, said in found:
        job, rods = set_out_job(frame, **said)
        pages = all_pages(job, rods)
        letters = "".join(letters_in(page) for page in read_back(*bind(pages, about(job, SHOP))))
        assert all(number in letters for number in expected_numbers(rods.rods[0]))
        assert f"1:{scale_of(pages[0])}" in letters
        assert show(frame.width, TENTH) in letters


@pytest.mark.parametrize(("width", "height"), [(600, 720), (1800, 900), (900, 2200), (6000, 300)])
def test_the_drawing_is_true_to_the_scale_it_names(width, height):
    rod, job = a_rod(DRAWER_OVER_PAIR if height > 300 else None, width=width, height=height)

    [page, *_] = pages_of(rod, job)

    stile = next(m for m in page.marks if isinstance(m, Path) and m.layer == "outline" and m.pen == WIDE)
    high = max(spot.y for spot in stile.points) - min(spot.y for spot in stile.points)
    assert abs(high * scale_of(page) - height) < 1e-6


def test_the_bar_of_a_printed_page_is_100_mm_long():
    rod, job = a_rod()
    sheets = bind(pages_of(rod, job), about(job, SHOP))

    lengths = [x1 - x0 for x0, y0, x1, y1 in lines_in(read_back(*sheets)[0]) if y0 == y1]

    assert any(abs(length - 100) < 0.01 for length in lengths)


def test_ordinary_frames_have_one_page_each_at_a_usual_scale():
    layouts = {"K1": DRAWER_OVER_PAIR, "K2": a_stack(*[an_opening("drawer")] * 3), "K3": None}
    job, rods = set_out_job(*[a_frame(layout, id=name) for name, layout in layouts.items()])

    pages = all_pages(job, rods)

    assert [page.title for page in pages] == ["Frame K1", "Frame K2", "Frame K3"]
    assert {page.scale for page in pages} <= {"1:5", "1:10"}
    assert all(page.true_scale for page in pages)


def test_a_low_wide_frame_lies_across_the_page_and_a_tall_one_stands_on_it():
    wide, job = a_rod(a_row(*[an_opening()] * 4), width=2400, height=400)
    tall, tall_job = a_rod(a_stack(an_opening(), an_opening()), width=500, height=2200)

    assert pages_of(wide, job)[0].landscape
    assert not pages_of(tall, tall_job)[0].landscape


@pytest.mark.parametrize("seed", range(2))
def test_most_frames_of_up_to_ten_openings_have_one_page(seed):
    few = [(rod, job) for rod, job in random_rods(seed + 50, 30) if len(rod.openings) <= 10]

    pages = [len(pages_of(rod, job)) for rod, job in few]

    assert len(few) > 10
    assert max(pages) <= 2
    assert pages.count(1) >= 0.75 * len(pages)


def test_one_page_loses_no_number_and_no_dimension():
    tall = a_stack(a_row(an_opening(), an_opening()), *[an_opening("drawer")] * 3)
    rod, job = a_rod(a_row(tall, tall), width=1960, height=2340, foot=80)

    [page] = pages_of(rod, job)

    assert set(expected_numbers(rod)) <= set(written(page.marks))
    assert "Too close to dimension" not in " ".join(written(page.marks))
    assert scale_of(page) > 20


def test_facts_that_run_on_keep_their_heads_and_are_not_to_scale():
    rod, job = a_rod(a_stack(*[an_opening("drawer")] * 30), height=2400)

    first, *more = pages_of(rod, job)

    assert more
    assert not first.continued
    for page in more:
        assert page.continued
        assert (page.scale, page.true_scale) == ("not to scale", False)
        assert "member" in written(page.marks)


def test_the_heading_says_how_many_of_what_and_which_side_is_seen():
    rod, job = a_rod(quantity=4, phrase="door")

    text = " ".join(words_on(pages_of(rod, job)))

    for words in ("K1", "4 off", "600 × 720", "22 thick", "yellow-poplar", "dovetail key", "bead 9"):
        assert words in text
    assert "seen from the face, top upwards" in text
    assert "Layout: door" in text


def test_each_member_is_given_the_pattern_it_is_made_to():
    job, rods = set_out_job(a_frame(DOOR_BESIDE_DRAWERS, width=1200))
    found = patterns(rods)

    [page] = frame_pages(rods, job, SHOP, found)

    assert {pattern.mark for pattern in found} <= set(written(page.marks))


def test_a_foot_and_the_hinges_of_a_muntin_are_said_in_words():
    rod, job = a_rod(a_row(*[an_opening()] * 3), width=1500, foot=100)

    text = " ".join(words_on(pages_of(rod, job)))

    assert "Foot: the stiles run on 100 below the bottom rail." in text
    assert re.search(r"Hinge centres, up from the foot of [^:]*K1\.2", text)


def test_doubts_of_a_frame_stand_on_its_page_and_on_no_other():
    job, rods = set_out_job(a_frame(), a_frame(id="K2"))
    stile = rods.rods[0].frame.where.called("K1, left stile K1-LS")
    doubt = Problem(
        where=stile, code="thin-web", what="little wood is left", mend="make it wider", stops=False
    )
    rods = replace(rods, doubts=(doubt,))

    first, second = (" ".join(written(page.marks)) for page in all_pages(job, rods))

    assert "K1, left stile K1-LS: little wood is left; make it wider." in first
    assert "little wood" not in second


def test_a_doubt_about_no_frame_is_left_to_other_papers():
    _, rods = set_out_job(a_frame())
    doubt = Problem(
        where=rods.rods[0].frame.where.called("a timber"), code="x", what="y", mend="z", stops=False
    )

    assert doubts_by_frame(replace(rods, doubts=(doubt,))) == {}


def test_the_same_frame_gives_the_same_page():
    rod, job = a_rod(DOOR_BESIDE_DRAWERS, width=1200)

    assert pages_of(rod, job) == pages_of(rod, job)


def test_numbers_follow_the_resolution_of_the_workshop():
    rod, job = a_rod(a_stack(*[an_opening("drawer")] * 7), width=601.3, height=2000)
    coarse = replace(SHOP, practice=replace(SHOP.practice, resolution=Mm("0.5")))

    numbers = chain.from_iterable(
        re.findall(r"(?<![\w.])\d+\.\d+", text) for text in words_on(pages_of(rod, job, coarse))
    )

    assert {number.partition(".")[2] for number in numbers} == {"5"}


def test_a_drawing_is_not_made_so_small_for_one_page_that_its_marks_go():
    """Two doors and six drawers: at 1:30 all would have room on one sheet, but for seven of the marks."""
    drawers = [an_opening("drawer", 150)] * 3
    left = a_stack(a_row(an_opening(), an_opening()), *drawers)
    layout = a_row(left, a_stack(an_opening("open"), *drawers))
    job, rods = set_out_job(a_frame(layout, width=1960, height=2340))

    first, *_ = frame_pages(rods, job, SHOP, patterns(rods))

    assert first.scale == "1:20"
