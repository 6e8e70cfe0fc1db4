"""Every single piece has a label, in the order in which the saw gives them."""

import random
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Issue, Job, LabelSheet, Shop
from pinchrod.papers import (
    Sheet,
    Squares,
    Words,
    code_text,
    label_doubts,
    label_faults,
    label_sheets,
    label_test_sheet,
    labels_again,
    text_boxes,
)
from pinchrod.setting_out import Rods, cutting_list
from tests.builders import a_frame, a_stack, an_opening, five_pieces
from tests.papers.data_builders import SHOP, a_random_job, a_small_job, set_out_job

ROLL = LabelSheet(
    page_width=Mm(70),
    page_height=Mm(37),
    columns=1,
    rows=1,
    width=Mm(70),
    height=Mm(37),
    left=Mm(0),
    top=Mm(0),
)


def texts(sheets: Iterable[Sheet], size: float | None = None) -> list[str]:
    found = [words for sheet in sheets for words, _ in text_boxes(sheet)]
    return [words.text for words in found if size is None or words.size == size]


def marks(job: Job, rods: Rods, shop: Shop = SHOP) -> list[str]:
    """The marks on the labels, in their order: on labels of these jobs they alone are 7 mm high."""
    return texts(label_sheets(rods, job, shop), size=7.0)


def labelled(**said: Any) -> Shop:
    return replace(SHOP, labels=replace(SHOP.labels, **said))


def test_each_piece_of_alike_frames_has_a_label_of_its_own():
    job, rods = set_out_job(a_frame(quantity=2))

    assert sorted(marks(job, rods)) == [
        *("K1-BR/1", "K1-BR/2", "K1-LS/1", "K1-LS/2", "K1-RS/1", "K1-RS/2"),
        *("K1-TR/1", "K1-TR/2", "K1.1/1", "K1.1/2"),
    ]


def test_members_come_in_the_order_of_the_cutting_list():
    job, rods = a_random_job(random.Random(4))

    wanted = [name for line in cutting_list(rods) for name in line.members]

    names = list(dict.fromkeys(mark.split("/")[0] for mark in marks(job, rods)))
    assert names[: len(wanted)] == wanted


def test_fronts_follow_the_members_and_door_parts_the_fronts():
    job, rods = a_small_job(doors=five_pieces())

    found = marks(job, rods)

    assert found.index("K1-R1") < found.index("K2.1/1") < found.index("K1.1") < found.index("K2.1-LS/1")
    assert found[-1] == "K1.2R-P"


def test_no_piece_is_forgotten_and_none_labelled_twice():
    dice = random.Random(12)
    for _ in range(10):
        job, rods = a_random_job(dice, frames=2)

        found = Counter(mark for sheet in label_sheets(rods, job, SHOP) for mark in codes(sheet))

        pieces = sum(
            rod.frame.quantity
            * (len(rod.members) + len(rod.fronts) + sum(len(front.parts) for front in rod.fronts))
            for rod in rods.rods
        )
        assert len(found) == found.total() == pieces


def codes(sheet: Sheet) -> list[tuple[str, ...]]:
    return [mark.rows for mark in sheet.marks if isinstance(mark, Squares)]


def test_a_label_says_all_that_a_bench_asks_of_it():
    job, rods = set_out_job(a_frame(width="600.5"), name="Saltmarsh Row, plot 7", issue=Issue(revision="B"))

    found = texts(label_sheets(rods, job, SHOP))

    for words in ("K1-TR", "528.5 × 60 × 22", "top rail", "pattern #1", "rev. B", "KY3D-10C8", "top", "face"):
        assert words in found
    assert found.count("Saltmarsh Row, plot 7") == 5


def test_a_job_without_a_revision_says_so():
    job, rods = a_small_job()

    assert "rev. –" in texts(label_sheets(rods, job, SHOP))


def test_a_doors_length_stands_and_a_drawer_fronts_lies():
    job, rods = a_small_job()

    found = texts(label_sheets(rods, job, SHOP))

    assert "506 × 136 × 22" in found
    assert "433 × 251.5 × 22" in found


def test_labels_start_where_a_used_sheet_is_free():
    job, rods = set_out_job(a_frame())

    [first, second] = label_sheets(rods, job, labelled(first=12))
    [fresh] = label_sheets(rods, job, SHOP)

    assert [len(codes(sheet)) for sheet in (first, second, fresh)] == [3, 2, 5]
    assert spots(first)[0] == pytest.approx((4.65 + 101.6 + 2, 297 - 15.15 - 5 * 38.1 - 2 - 7))
    assert spots(second)[0] == spots(fresh)[0] == pytest.approx((4.65 + 2, 297 - 15.15 - 2 - 7))


def spots(sheet: Sheet) -> list[tuple[float, float]]:
    return [mark.at for mark in sheet.marks if isinstance(mark, Words) and mark.size == 7.0]


def test_labels_run_from_left_to_right_and_from_the_top_down():
    job, rods = a_small_job()

    found = spots(label_sheets(rods, job, SHOP)[0])

    assert len(found) == 14
    assert found == sorted(found, key=lambda at: (-at[1], at[0]))


def test_a_roll_is_a_page_with_one_label():
    job, rods = set_out_job(a_frame())

    sheets = label_sheets(rods, job, replace(SHOP, labels=ROLL))

    assert [sheet.title for sheet in sheets] == [f"Labels, sheet {n} of 5" for n in range(1, 6)]
    assert (sheets[0].width, sheets[0].height) == (70, 37)


@pytest.mark.parametrize(
    ("mark", "said"),
    [
        ("K1-LS", "KY3D10C8/K1-LS"),
        ("k1-LS/2", "KY3D10C8/K1-LS/2"),
        ("pantry 3.1L", "KY3D10C8/PANTRY 3.1L"),
        ("pantry_3-TR", "KY3D10C8/pantry_3-TR"),
        ("Küche-TR", "KY3D10C8/Küche-TR"),
        ("Straße-TR", "KY3D10C8/Straße-TR"),
    ],
)
def test_a_code_is_in_capitals_only_where_that_makes_it_smaller(mark, said):
    assert code_text("KY3D-10C8", mark) == said


def test_labels_too_small_to_be_read_are_refused():
    small = LabelSheet(width=Mm("48.5"), height=Mm("25.4"), column_pitch=Mm("48.5"), row_pitch=Mm("25.4"))
    job, rods = a_small_job()

    with pytest.raises(NotYetRight, match="too small to be read"):
        label_sheets(rods, job, replace(SHOP, labels=small))


def test_the_built_in_labels_have_no_faults_and_a_small_one_has():
    assert not list(label_faults(SHOP.labels))
    assert not list(label_faults(replace(SHOP.labels, height=Mm(33))))
    [low] = label_faults(replace(SHOP.labels, height=Mm("32.9")))
    [narrow] = label_faults(replace(SHOP.labels, width=Mm("59.9")))
    assert low.code == narrow.code == "label-small"


def test_a_mark_too_long_for_letters_of_5_mm_is_doubted_once():
    job, rods = set_out_job(a_frame(id="Kitchen north wall by the larder door"), a_frame())

    [doubt] = label_doubts(rods, job, SHOP)

    assert doubt.code == "label-letters"
    assert not doubt.stops
    assert "and 4 more" in doubt.what
    assert doubt.where.name.startswith("Kitchen north wall")


def test_a_mark_with_no_room_at_all_is_refused():
    job, rods = set_out_job(a_frame(id="W" * 80))
    narrow = replace(SHOP, labels=replace(SHOP.labels, width=Mm(60), height=Mm(33)))

    [problem] = label_doubts(rods, job, narrow)

    assert problem.code == "label-no-room"
    assert problem.stops
    with pytest.raises(NotYetRight):
        label_sheets(rods, job, narrow)


def test_ordinary_marks_raise_no_doubt():
    job, rods = a_small_job(doors=five_pieces())

    assert label_doubts(rods, job, SHOP) == ()


def test_a_test_print_numbers_every_label_in_its_frame():
    sheet = label_test_sheet(SHOP)

    assert texts([sheet], size=10.0) == [str(number) for number in range(1, 15)]
    assert (sheet.width, sheet.height) == (210, 297)


def test_the_same_job_gives_the_same_labels():
    job, rods = set_out_job(a_frame(a_stack(an_opening("drawer"), an_opening("pair"))))

    assert label_sheets(rods, job, SHOP) == label_sheets(rods, job, SHOP)


def test_labels_printed_again_say_the_very_same_and_begin_where_the_sheet_is_free():
    job, rods = a_small_job()
    [whole, *_] = label_sheets(rods, job, SHOP)
    first, second = marks(job, rods)[:2]

    [sheet] = label_sheets(rods, job, labelled(first=5), frozenset({second, first}))
    [paper] = labels_again(job, SHOP, rods, [second, first], first=5)

    assert codes(sheet) == codes(whole)[:2]
    assert texts([sheet], size=7.0) == [first, second]
    assert paper.name == "labels-again.pdf"
    assert paper.content.startswith(b"%PDF")
