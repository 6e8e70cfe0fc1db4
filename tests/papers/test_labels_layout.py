"""Labels are laid out so that they can be read: nothing overlaps, and no number or mark is ever shortened."""

import random
from dataclasses import replace
from functools import cache

import pytest

from pinchrod.ground import Mm
from pinchrod.job import Issue, LabelSheet, Shop
from pinchrod.papers import Sheet, Squares, Words, label_sheets, label_test_sheet, overlaps, text_boxes
from pinchrod.papers.labels.label_code import LEAST_MODULE, NO_CODE, modules
from pinchrod.papers.labels.label_layout import Layout, Said, broken, lay_out
from pinchrod.papers.labels.label_marks import label_marks
from pinchrod.papers.labels.label_sheet import label_places
from pinchrod.setting_out import Member
from tests.builders import a_frame, a_row, a_stack, an_opening
from tests.papers.data_builders import SHOP, a_random_job, set_out_job

DOTS = modules(203)


def a_label(width: float = 99.1, height: float = 38.1, dots: int = 203, **said: object) -> Layout | None:
    return lay_out(replace(SAID, **said), width, height, modules(dots))  # type: ignore[arg-type]  # any of its fields


SAID = Said(
    mark="K1-LS",
    sizes=("720", "45", "22"),
    role="left stile",
    pattern="#1",
    job="Saltmarsh Row, plot 7",
    revision="rev. B",
    content_mark="KY3D-10C8",
    code="KY3D10C8/K1-LS",
)


def a_sheet_of(width: str, height: str, columns: int, rows: int) -> Shop:
    labels = LabelSheet(
        columns=columns,
        rows=rows,
        width=Mm(width),
        height=Mm(height),
        left=(210 - columns * Mm(width)) / 2,
        top=(297 - rows * Mm(height)) / 2,
        column_pitch=Mm(width),
        row_pitch=Mm(height),
    )
    return replace(SHOP, labels=labels)


SHEETS = (
    SHOP,
    a_sheet_of("99.1", "67.7", 2, 4),
    a_sheet_of("99.1", "33.9", 2, 8),
    a_sheet_of("63.5", "38.1", 3, 7),
    a_sheet_of("70", "37", 3, 8),
)


def test_words_never_overlap_on_any_sheet():
    dice = random.Random(6)
    for number in range(40):
        job, rods = a_random_job(dice, frames=2)

        for sheet in label_sheets(rods, job, SHEETS[number % len(SHEETS)]):
            assert overlaps(sheet) == ()


@cache
def worst_sheets(seed: int) -> tuple[Sheet, ...]:
    """A hundred labels with the longest names and numbers a job can have."""
    dice = random.Random(seed)
    letters = dice.choice(["W", "WiÉ", "K 1-", "Ångström ", "0123456789", "Łódź", "gjpqy", "Κουζίνα"])
    name = ((letters * 80)[:79]).strip() + "x"
    layout = a_stack(*(a_row(an_opening("pair"), an_opening("door")) for _ in range(3)))
    frame = a_frame(
        layout, id=name, width="5999.9", height="5999.9", quantity=5, left_stile="299.9", mid_rail="99.9"
    )
    job, rods = set_out_job(frame, name=(letters[::-1] * 80)[:80], issue=Issue(revision="WW"))
    return label_sheets(rods, job, SHOP)


@pytest.mark.parametrize("seed", range(6))
def test_the_worst_labels_have_no_overlaps_and_whole_marks_and_numbers(seed):
    sheets = worst_sheets(seed)

    printed = [words for sheet in sheets for words, _ in text_boxes(sheet)]
    assert [fault for sheet in sheets for fault in overlaps(sheet)] == []
    assert all(words.size >= 2.5 for words in printed)
    assert not [words for words in printed if words.bold and "…" in words.text]


def test_six_of_the_worst_jobs_are_500_labels():
    printed = [
        words.text for seed in range(6) for sheet in worst_sheets(seed) for words, _ in text_boxes(sheet)
    ]

    assert printed.count("KY3D-10C8") >= 500


def test_the_longest_numbers_stand_5_mm_high_and_whole():
    layout = a_label(sizes=("9999.9", "299.9", "99.9"))

    assert layout
    assert layout.lettering.size == 5.0
    assert layout.size == "9999.9 × 299.9 × 99.9"
    assert layout.below


def test_an_ordinary_mark_is_7_mm_high_on_the_built_in_label():
    layout = a_label(mark="K12-LS/2", code="KY3D10C8/K12-LS/2")

    assert layout
    assert (layout.lettering.mark, layout.lettering.size) == (7.0, 5.0)
    assert layout.readable


def test_a_larger_label_has_larger_letters():
    small, large = a_label(), a_label(height=67.7)

    assert small
    assert large
    assert large.lettering.mark > small.lettering.mark
    assert large.lettering.size > small.lettering.size


@pytest.mark.parametrize("dots", [203, 300, 600])
def test_a_codes_squares_are_whole_printer_dots_and_half_a_millimetre_or_more(dots):
    for module in modules(dots):
        assert module * dots / 25.4 == pytest.approx(round(module * dots / 25.4))
        assert module >= LEAST_MODULE


def test_the_least_squares_are_4_dots_at_203_to_an_inch_and_6_at_300():
    assert round(modules(203)[-1] * 203 / 25.4) == 4
    assert round(modules(300)[-1] * 300 / 25.4) == 6


def test_only_a_mark_too_long_for_it_has_a_weaker_code_or_none():
    ordinary = a_label()
    long = a_label(mark="Ж" * 30 + "-LS", code="KY3D10C8/" + "Ж" * 30 + "-LS")
    longest = a_label(mark="Ж" * 80 + "-LS", code="KY3D10C8/" + "Ж" * 80 + "-LS")

    assert ordinary
    assert ordinary.code.sound
    assert long
    assert long.code.correction != "q" or long.lettering.mark < 5
    assert longest
    assert longest.code == NO_CODE
    assert not longest.readable


def test_a_code_keeps_its_quiet_zone_inside_the_label():
    job, rods = a_random_job(random.Random(2))

    for sheet in label_sheets(rods, job, SHOP):
        places = label_places(SHOP.labels)
        codes = [mark for mark in sheet.marks if isinstance(mark, Squares)]
        for code, place in zip(codes, places, strict=False):
            side, quiet = len(code.rows) * code.module, 4 * code.module
            assert place.left <= code.at.x - quiet
            assert code.at.x + side + quiet <= place.right
            assert place.bottom <= code.at.y - quiet
            assert code.at.y + side + quiet <= place.top


def test_a_long_mark_breaks_behind_a_gap_or_a_hyphen():
    assert list(broken("Kitchen north wall-LS", 5.0, 80.0)) == ["Kitchen north wall-", "LS"]
    assert list(broken("Kitchen north wall-LS", 5.0, 62.0)) == ["Kitchen north ", "wall-LS"]


def test_a_broken_mark_loses_no_letter():
    for mark in ("K1-LS", "W" * 84, "Kitchen north wall by the larder-LS/12", "a b-c.d/e" * 9):
        for width in (20.0, 45.5, 70.0):
            assert "".join(broken(mark, 3.5, width)) == mark


def test_a_mark_has_no_lines_where_no_letter_has_room():
    assert list(broken("W", 5.0, 1.0)) == []


def test_a_role_is_told_whole_before_the_word_pattern_is():
    layout = a_label(width=63.5, role="bottom rail", pattern="#12", mark="K12-BR/1")

    assert layout
    assert layout.pattern in ("pattern #12", "#12")


def test_a_long_job_name_is_shortened_in_its_middle():
    layout = a_label(job="Saltmarsh Row " * 5 + "plot 7")
    assert layout
    [rod] = set_out_job(a_frame())[1].rods

    marks = label_marks(
        replace(SAID, job="Saltmarsh Row " * 5 + "plot 7"),
        rod.members[0],
        layout,
        label_places(SHOP.labels)[0],
    )

    sheet = Sheet(width=210, height=297, marks=tuple(marks))
    [name] = [words.text for words, _ in text_boxes(sheet) if "…" in words.text]
    assert name.startswith("Saltmarsh")
    assert name.endswith("plot 7")
    assert isinstance(rod.members[0], Member)


@pytest.mark.parametrize("shop", SHEETS)
def test_a_test_print_has_no_overlaps(shop):
    sheet = label_test_sheet(shop)

    assert overlaps(sheet) == ()
    assert all(words.size >= 2.5 for words in sheet.marks if isinstance(words, Words))
