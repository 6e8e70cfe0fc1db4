"""The cutting list as other programs read it: a CSV file and a workbook, read back with readers not ours."""

import csv
import io
import os
import random
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from pinchrod.ground import Mm, Problem, Where
from pinchrod.job import Issue, PaperChoices, Practice
from pinchrod.papers import cutting_csv, cutting_xlsx
from pinchrod.papers.lists.cutting_csv import HEAD, harmless
from pinchrod.setting_out import CutLine, cutting_list
from tests.builders import a_frame, a_row, a_stack, an_opening, five_pieces
from tests.papers.data_builders import SHOP, a_random_job, a_small_job, set_out_job

TOP = Path(__file__).parents[2]
A_DOUBT = Problem(
    where=Where(name="K1, left stile", file="job.toml", line=3),
    code="thin-web",
    what="11 is left behind it",
    mend="make it 24 wide",
    stops=False,
)


def a_table(job: Any, rods: Any, name: str, shop: Any = SHOP) -> list[tuple[Any, ...]]:
    return list(a_workbook(job, rods, shop)[name].iter_rows(values_only=True))


def a_workbook(job: Any, rods: Any, shop: Any = SHOP) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(cutting_xlsx(rods, job, shop)))


def lines_of(rods: Any) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(cutting_csv(rods, SHOP).decode("utf-8"), newline="")))


def test_a_csv_file_is_plain_utf_8_with_a_head_and_crlf():
    _, rods = set_out_job(a_frame(id="Küche"))

    text = cutting_csv(rods, SHOP)

    assert text.startswith(b"length,width,thickness,beads,quantity,members\r\n")
    assert text.count(b"\n") == text.count(b"\r\n") == 4
    assert "Küche-LS".encode() in text


def test_every_line_of_the_cutting_list_is_read_back_from_csv():
    dice = random.Random(2)
    for _ in range(20):
        _, rods = a_random_job(dice, frames=3)

        read = lines_of(rods)

        assert [as_numbers(line) for line in read] == [rounded_line(line) for line in cutting_list(rods)]


def as_numbers(line: dict[str, str]) -> tuple[Any, ...]:
    sizes = tuple(float(line[key]) for key in HEAD[:3])
    return *sizes, int(line["beads"]), int(line["quantity"]), tuple(line["members"].split("; "))


def rounded_line(line: CutLine) -> tuple[Any, ...]:
    sizes = tuple(
        float(int(size * 10 + Mm("1/2")) / 10) for size in (line.length, line.width, line.thickness)
    )
    return *sizes, line.beads, line.quantity, line.members


def test_every_length_has_one_decimal_as_columns_want():
    _, rods = set_out_job(a_frame(a_row(an_opening(), an_opening(), an_opening()), width="1000.25"))

    sizes = [line[key] for line in lines_of(rods) for key in HEAD[:3]]

    assert all(size.partition(".")[2].isdigit() and len(size.partition(".")[2]) == 1 for size in sizes)


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r"])
def test_text_a_spreadsheet_might_run_is_made_harmless(begin):
    assert harmless(f"{begin}1+1") == f"'{begin}1+1"
    assert harmless(f"K1{begin}1") == f"K1{begin}1"


def test_a_workbook_holds_each_table_by_name():
    job, rods = a_small_job()
    five = a_small_job(doors=five_pieces())

    assert a_workbook(job, rods).sheetnames == ["Cutting list", "Pieces", "Fronts", "About"]
    assert a_workbook(*five).sheetnames == ["Cutting list", "Pieces", "Fronts", "Door parts", "About"]


def test_every_line_of_the_cutting_list_is_read_back_from_the_workbook():
    dice = random.Random(9)
    for _ in range(10):
        job, rods = a_random_job(dice, frames=3)

        head, *rows = a_table(job, rods, "Cutting list")

        assert head == HEAD
        assert [(*row[:5], tuple(row[5].split("; "))) for row in rows] == [
            rounded_line(line) for line in cutting_list(rods)
        ]


def test_lengths_are_numbers_with_one_decimal_and_counts_are_whole():
    job, rods = a_small_job()

    row = list(a_workbook(job, rods)["Cutting list"].iter_rows())[1]

    assert [cell.data_type for cell in row] == ["n", "n", "n", "n", "n", "s"]
    assert [cell.number_format for cell in row[:4]] == ["0.0", "0.0", "0.0", "General"]


def test_a_finer_tape_shows_more_decimals():
    job, rods = set_out_job(a_frame(width="600.25"))
    fine = replace(SHOP, practice=Practice(resolution=Mm("0.01")))

    cell = a_workbook(job, rods, fine)["Cutting list"]["A2"]

    assert (cell.value, cell.number_format) == (528.25, "0.00")


def test_the_pieces_table_names_every_single_piece_with_its_pattern():
    job, rods = set_out_job(a_frame(quantity=2))

    head, *rows = a_table(job, rods, "Pieces")

    assert head == ("mark", "frame", "role", "pattern", "length", "width", "thickness", "beads")
    assert rows[0] == ("K1-TR/1", "K1", "top rail", "#1", 528, 60, 22, 1)
    assert [row[0] for row in rows] == [
        *("K1-TR/1", "K1-TR/2", "K1-LS/1", "K1-LS/2"),
        *("K1-RS/1", "K1-RS/2", "K1-BR/1", "K1-BR/2"),
    ]


def test_the_fronts_table_names_every_front_with_its_hinges():
    job, rods = a_small_job()

    head, *rows = a_table(job, rods, "Fronts")

    assert head[3:] == ("width", "height", "thickness", "hinges from below")
    assert ("K1.1", "K1", "drawer front", 506, 136, 22, None) in [(*row[:6], row[6] or None) for row in rows]
    assert ("K1.2L", "K1", "leaf of a pair, hung left", 251.5, 433, 22, "94.5; 338.5") in rows


def test_a_five_piece_doors_parts_have_a_table():
    job, rods = a_small_job(doors=five_pieces())

    head, *rows = a_table(job, rods, "Door parts")

    assert head == ("mark", "frame", "role", "length", "width", "thickness")
    assert ("K1.2L-P", "K1", "panel", 311, 145.5, 6) in rows
    assert len(rows) == 4 * 5


def test_the_last_table_says_what_the_job_is_assumes_and_doubts():
    job, rods = a_small_job(issue=Issue(revision="C", date=date(2031, 3, 4)), assumed=("bead 9 mm wide",))
    rods = replace(rods, doubts=(A_DOUBT,))

    told = a_table(job, rods, "About")

    assert ("content mark", "KY3D-10C8") in told
    assert ("revision", "C") in told
    assert ("date of issue", "2031-03-04") in told
    assert ("assumed", "bead 9 mm wide") in told
    assert ("doubtful", "K1, left stile: 11 is left behind it; make it 24 wide") in told


def test_text_that_looks_like_a_formula_or_a_link_stays_text():
    job, rods = set_out_job(name="=1+1", customer="https://example.org", issue=Issue(owner="@SUM(A1)"))

    cells = {cell.value: cell for row in a_workbook(job, rods)["About"].iter_rows() for cell in row}

    assert cells["=1+1"].data_type == "s"
    assert cells["https://example.org"].hyperlink is None


def test_a_workbook_is_ready_to_print():
    job, rods = a_small_job(name="Doors & drawers", issue=Issue(revision="B"))

    for sheet in a_workbook(job, rods):
        foot, pages = sheet.oddFooter, sheet.sheet_properties.pageSetUpPr
        assert sheet.freeze_panes == "A2"
        assert sheet.print_title_rows == "$1:$1"
        assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
        assert pages
        assert pages.fitToPage
        assert foot
        assert foot.left.text == "Doors && drawers · rev. B · KY3D-10C8"


@pytest.mark.parametrize(("size", "number"), [("A4", 9), ("Letter", 1)])
def test_a_workbook_is_printed_on_the_shops_paper(size, number):
    job, rods = a_small_job()
    shop = replace(SHOP, papers=PaperChoices(size=size))

    assert a_workbook(job, rods, shop)["Pieces"].page_setup.paperSize == number


def test_columns_are_as_wide_as_what_they_hold_up_to_a_page():
    job, rods = set_out_job(*(a_frame(id=f"Kitchen north wall {n}") for n in range(9)))

    widths = a_workbook(job, rods)["Cutting list"].column_dimensions

    assert widths["A"].width < 15
    assert 60 <= widths["F"].width < 62


def test_a_workbooks_date_is_the_jobs_or_the_same_for_all():
    dated = a_workbook(*set_out_job(issue=Issue(date=date(2031, 3, 4)))).properties
    undated = a_workbook(*set_out_job()).properties

    assert dated.created.isoformat() == dated.modified.isoformat() == "2031-03-04T00:00:00"
    assert undated.created.isoformat() == "2000-01-01T00:00:00"


def test_marks_too_many_for_a_cell_are_counted():
    frames = [a_frame(id=f"{'K' * 70}{n}") for n in range(400)]
    job, rods = set_out_job(*frames)

    marks = max((row[5] for row in a_table(job, rods, "Cutting list")), key=len)

    named = marks.split("; ")
    assert len(marks) < 32_767
    assert named[-1] == f"and {800 - len(named) + 1} more: see Pieces"


WRITTEN = """
import hashlib, random
from pinchrod.papers import cutting_csv, cutting_xlsx, label_sheets, plan_json
from tests.papers.data_builders import SHOP, a_random_job
job, rods = a_random_job(random.Random(1))
made = (cutting_csv(rods, SHOP), cutting_xlsx(rods, job, SHOP), plan_json(job, rods))
print(hashlib.sha256(b"".join(made) + repr(label_sheets(rods, job, SHOP)).encode()).hexdigest())
"""


def test_bytes_are_the_same_under_another_time_zone_locale_and_hash_seed():
    worlds = (
        {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "1"},
        {"TZ": "Asia/Tokyo", "LC_ALL": "de_DE.UTF-8", "PYTHONHASHSEED": "2"},
    )

    digests = {digest_in(world) for world in worlds}

    assert len(digests) == 1


def digest_in(world: dict[str, str]) -> str:
    path = os.pathsep.join((str(TOP / "src"), str(TOP)))
    done = subprocess.run(
        [sys.executable, "-c", WRITTEN],
        env={**os.environ, **world, "PYTHONPATH": path},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


def test_an_order_of_frames_does_not_change_the_order_of_pieces():
    one, two = a_frame(a_stack(an_opening("drawer"), an_opening()), id="K2"), a_frame(id="K10", width=700)

    there = lines_of(set_out_job(one, two)[1])
    back = lines_of(set_out_job(two, one)[1])

    assert there == back
