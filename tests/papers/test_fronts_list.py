"""The list of doors, drawer fronts, their parts and fixed panels."""

import random
from collections import Counter
from itertools import cycle

import pytest

from pinchrod.ground import show, show_fixed
from pinchrod.job import Kind
from pinchrod.papers.lists.fronts_list import fronts_list
from tests.builders import a_frame, a_row, an_opening, five_pieces
from tests.papers.data_builders import a_random_job, set_out_job
from tests.papers.page_builders import a_kitchen, a_shop, awkward_jobs, flaws, rows_of, texts_of

SHOP = a_shop()


def rows_in(contents):
    """Rows of the tables: they begin with a number of pieces; a hinge's centre alone is no row."""
    lines = [line for content in contents for line in rows_of(content)]
    return [line for line in lines if line[0].isdigit() and len(line) > 3]


@pytest.mark.parametrize("seed", range(6))
def test_every_front_part_and_panel_is_listed_once_with_its_sizes(seed):
    job, rods = a_random_job(random.Random(seed), frames=4)
    wanted: Counter[tuple[str, ...]] = Counter()
    for rod in rods.rods:
        for front in rod.fronts:
            wanted[show_fixed(front.width), show_fixed(front.height)] += rod.frame.quantity
            for part in front.parts:
                wanted[show_fixed(part.length), show_fixed(part.width), show_fixed(part.thickness)] += (
                    rod.frame.quantity
                )
        for opening in rod.openings:
            if opening.kind is Kind.PANEL:
                wanted[show_fixed(opening.x.length), show_fixed(opening.y.length)] += rod.frame.quantity

    contents = fronts_list(rods, job, SHOP)

    listed: Counter[tuple[str, ...]] = Counter()
    for pieces, *cells in rows_in(contents):
        is_part = cells[3:4] in (["stile"], ["rail"], ["panel"])
        listed[tuple(cells[: 3 if is_part else 2])] += int(pieces)
    assert listed == wanted


def test_a_door_says_how_it_is_hung_and_where_its_hinges_are():
    job, rods = set_out_job(a_frame(an_opening("door"), id="K1"))
    [front] = rods.rods[0].fronts

    said = texts_of(fronts_list(rods, job, SHOP))

    assert {"door, left", "2 hinges", "K1.1"} <= set(said)
    assert {show(centre) for centre in front.hinges} <= set(said)


def test_alike_fronts_share_a_row_and_unlike_ones_do_not():
    job, rods = a_kitchen()

    rows = rows_in(fronts_list(rods, job, SHOP))

    assert [row for row in rows if "406.0" in row] == [["9", "406.0", "175.7", "drawer", "K2.1 ×3,"]]
    assert {row[3] for row in rows if row[1:3] == ["351.5", "433.0"]} == {"leaf, left", "leaf, right"}


def test_five_piece_doors_list_their_parts_by_section():
    job, rods = a_kitchen(doors=five_pieces())

    contents = fronts_list(rods, job, SHOP)

    assert "Parts of five-piece doors: 40" in texts_of(contents)  # two pairs, two doors twice
    assert ["8", "433.0", "60.0", "22.0", "stile", "K1.2L-LS,"] in rows_in(contents)
    assert ["2", "389.0", "234.7", "6.0", "panel", "K3.1-P, K3.5-P"] in rows_in(contents)


def test_many_parts_with_long_marks_lie_on_pages_of_their_own():
    frames = [a_frame(a_row(*[an_opening("pair")] * 4), id=f"K{number}", width=2000) for number in range(9)]
    job, rods = set_out_job(*frames, doors=five_pieces())

    pages = fronts_list(rods, job, SHOP)

    lying = [page for page in pages if page.landscape]
    assert all(("-LS" in " ".join(texts_of([page]))) <= page.landscape for page in pages)
    assert lying
    assert [page.continued for page in pages] == [False] + [True] * (len(pages) - 1)
    assert flaws(pages, job, SHOP) == []


def test_a_fixed_panel_has_the_sight_size_of_its_opening():
    job, rods = a_kitchen()

    rows = rows_in(fronts_list(rods, job, SHOP))

    assert ["1", "810.0", "300.0", "T1.1"] in rows


def test_a_job_of_open_frames_has_no_list_of_fronts():
    job, rods = set_out_job(a_frame(an_opening("open")))

    assert fronts_list(rods, job, SHOP) == ()


def test_no_words_touch_on_any_list_of_fronts():
    jobs = [*awkward_jobs(), *(a_random_job(random.Random(seed), frames=4) for seed in range(4))]

    for size, (job, rods) in zip(cycle(["A4", "Letter"]), jobs, strict=False):
        shop = a_shop(size)
        assert flaws(fronts_list(rods, job, shop), job, shop) == []
