"""A decoder that is not ours reads the code on every label, as a printer of 203 dots an inch prints it."""

import random
from dataclasses import replace
from itertools import chain

import pytest

from pinchrod.job import PaperChoices
from pinchrod.papers import label_sheets
from pinchrod.papers.labels.label_code import code_text
from pinchrod.papers.pieces.pieces import single_fronts, single_members, single_parts
from tests.builders import a_frame, a_row, a_stack, an_opening, five_pieces
from tests.papers.data_builders import SHOP, a_random_job, set_out_job
from tests.papers.scanning import dirtied, held, printed, scanned, torn_off

MARK = "KY3D-10C8"
DRESSER = a_row(
    a_stack(an_opening("drawer", 140), an_opening("pair")),
    a_stack(an_opening("drawer"), an_opening("drawer"), an_opening("drawer")),
)


def wanted(rods):
    pieces = chain(single_members(rods), single_fronts(rods), single_parts(rods))
    return [code_text(MARK, piece.mark) for piece in pieces]


def labels_of(job, rods, shop=SHOP):
    return [label for sheet in printed(label_sheets(rods, job, shop)) for label in torn_off(sheet, shop)]


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_every_label_of_a_job_is_read_off_the_printers_raster(seed):
    job, rods = a_random_job(random.Random(seed), frames=3)

    found = [scanned(label) for label in labels_of(job, rods)]

    codes = wanted(rods)
    assert found[: len(codes)] == [[code] for code in codes]
    assert not any(found[len(codes) :])


@pytest.mark.parametrize("name", ["pantry_3", "Küche", "Łazienka", "Κουζίνα", "boot room left"])
def test_codes_say_marks_in_any_letters(name):
    job, rods = set_out_job(a_frame(id=name))

    found = [scanned(label) for label in labels_of(job, rods)]

    assert found[:5] == [[code] for code in wanted(rods)]


@pytest.mark.parametrize("dots", [300, 600])
def test_finer_printers_are_read_too(dots):
    job, rods = set_out_job(a_frame())
    shop = replace(SHOP, papers=PaperChoices(printer_dots_per_inch=dots))

    sheets = list(printed(label_sheets(rods, job, shop), dots))

    assert [scanned(label) for label in torn_off(sheets[0], shop)][:5] == [[code] for code in wanted(rods)]


def test_of_200_labels_60_dusty_scratched_and_askew_all_but_one_are_read_at_first_and_none_wrongly():
    frames = [a_frame(DRESSER, id=f"K{n}", width=1200, quantity=2) for n in range(5)]
    job, rods = set_out_job(*frames, doors=five_pieces())
    dice = random.Random(30)
    codes = wanted(rods)[:200]
    dirty = set(dice.sample(range(200), 60))

    found = [
        scanned(held(dirtied(label, dice), dice) if number in dirty else label)
        for number, label in enumerate(labels_of(job, rods)[:200])
    ]

    assert len(codes) == 200
    assert sum(read == [code] for read, code in zip(found, codes, strict=True)) >= 199
    assert all(read in ([], [code]) for read, code in zip(found, codes, strict=True))
