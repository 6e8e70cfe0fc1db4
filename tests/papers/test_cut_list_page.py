"""The cutting list as printed: all pieces, once, in the order in which they leave the saw."""

import random
from collections import Counter
from itertools import cycle, pairwise

import pytest

from pinchrod.ground import Mm, show_fixed
from pinchrod.papers import Words
from pinchrod.papers.lists.cut_list import cut_list
from pinchrod.setting_out import Rods
from tests.builders import a_frame
from tests.papers.data_builders import a_random_job, set_out_job
from tests.papers.page_builders import a_kitchen, a_shop, awkward_jobs, flaws, rows_of, texts, texts_of

SHOP = a_shop()


def rows_in(contents):
    """Rows of the list: pieces, length, width, thickness, beads, and the marks on their first line."""
    lines = [line for content in contents for line in rows_of(content)]
    return [line for line in lines if len(line) == 6 and line[0].isdigit()]


def pieces_in(rods: Rods) -> Counter[tuple[str, ...]]:
    found: Counter[tuple[str, ...]] = Counter()
    for rod in rods.rods:
        for member in rod.members:
            sizes = (show_fixed(size) for size in (member.length, member.width, member.thickness))
            found[(*sizes, str(len(member.beads)))] += rod.frame.quantity
    return found


@pytest.mark.parametrize("seed", range(8))
def test_every_piece_is_on_the_list_once_with_its_sizes(seed):
    job, rods = a_random_job(random.Random(seed), frames=4)

    contents = cut_list(rods, job, SHOP)

    listed: Counter[tuple[str, ...]] = Counter()
    for pieces, *sizes, _ in rows_in(contents):
        listed[tuple(sizes)] += int(pieces)
    marks = {member.name for rod in rods.rods for member in rod.members}
    assert listed == pieces_in(rods)
    assert marks == {word.rstrip(",") for text in texts_of(contents) for word in text.split()} & marks


def test_pieces_leave_the_saw_wide_before_narrow_and_long_before_short():
    job, rods = a_kitchen()

    rows = rows_in(cut_list(rods, job, SHOP))

    keys = [(Mm(thick), Mm(width), int(beads), Mm(length)) for _, length, width, thick, beads, _ in rows]
    assert len(keys) > 10
    assert all(one > two for one, two in pairwise(keys))


def test_a_section_is_summed_in_pieces_metres_and_cubic_metres():
    job, rods = set_out_job(a_frame(quantity=2))

    said = texts_of(cut_list(rods, job, SHOP))

    # two frames of two stiles 720 and a bottom rail 528, one bead each: 3.936 m of 45 × 22
    assert "Together: 6 pieces, 3.9 m, 0.0039 m³ finished" in said
    # and two top rails 528 of 60 × 22
    assert "All of it, yellow-poplar: 8 pieces, 5.0 m, 0.0053 m³ finished" in said


def test_alike_frames_multiply_a_mark():
    job, rods = set_out_job(a_frame(id="K1"), a_frame(id="K2", quantity=3))

    said = " ".join(texts_of(cut_list(rods, job, SHOP)))

    assert "K1-TR, K2-TR ×3" in said


def test_each_page_has_its_heads_and_each_row_its_box_to_tick():
    job, rods = a_random_job(random.Random(5), frames=8)

    contents = cut_list(rods, job, SHOP)

    assert len(contents) > 1
    for content in contents:
        first_row = next(place for place, line in enumerate(rows_of(content)) if line in rows_in([content]))
        heads = [line for line in rows_of(content)[:first_row] if "length" in line]
        ticks = [mark for mark in content.marks if getattr(mark, "closed", False)]
        assert heads
        assert len(ticks) == len(rows_in([content]))


def test_lengths_and_marks_are_large_and_rows_8_mm_or_more():
    job, rods = a_kitchen()

    [content, *_] = cut_list(rods, job, SHOP)

    marked = [mark for mark in content.marks if isinstance(mark, Words)]
    large = [mark for mark in marked if mark.text in {"1128.0", "720.0", "K3-TR"}]
    assert len(large) >= 3
    assert all(mark.size == 5 for mark in large)
    baselines = sorted({mark.at.y for mark in marked if mark.text.endswith(".0") and mark.size == 5})
    assert all(high - low >= 8 for low, high in pairwise(baselines))


def test_very_many_marks_make_more_rows_each_with_its_own_pieces():
    *_, (job, rods) = awkward_jobs()

    rows = [row for row in rows_in(cut_list(rods, job, SHOP)) if row[1] == "720.0"]

    assert len(rows) > 5
    assert sum(int(pieces) for pieces, *_ in rows) == 200


def test_no_words_touch_on_any_cutting_list():
    jobs = [*awkward_jobs(), *(a_random_job(random.Random(seed), frames=4) for seed in range(4))]

    for size, (job, rods) in zip(cycle(["A4", "Letter"]), jobs, strict=False):
        shop = a_shop(size)
        assert flaws(cut_list(rods, job, shop), job, shop) == []


def test_a_stop_in_sixty_fourths_of_an_inch_still_fits():
    job, rods = a_kitchen()
    shop = a_shop(step="0.396875")

    contents = cut_list(rods, job, shop)

    assert flaws(contents, job, shop) == []
    assert "2149.878125" not in texts(contents[0].marks)  # 2150 is nearer to 5417 steps than to 5416
    assert "2149.871875" in texts(contents[0].marks)
