"""How much is read: at each limit it still is, one beyond it is refused in one line with what was found."""

import time
from random import Random
from zipfile import ZIP_STORED

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.job import Source, limits, read_job
from pinchrod.job.frames import FRAME_KEYS
from pinchrod.job.said import gathered
from pinchrod.job.tables.csv_file import read_csv
from tests.job.bad_inputs import a_frame_saying
from tests.job.workbooks import HEADER, ROW, a_sheet, a_workbook, parts_of_a_workbook, zipped

MB = 1024 * 1024


def codes(content, name="job.toml"):
    """The codes of whatever stops the work, or none."""
    try:
        read_job(Source(name=name, content=content if isinstance(content, bytes) else content.encode()))
    except NotYetRight as trouble:
        return [problem.code for problem in trouble.problems if problem.stops]
    return []


def padded(text, size):
    return text.encode() + b"#" * (size - len(text))


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        ("20", "6000", "width"),
        ("20", "6000", "height"),
        ("1", "999", "quantity"),
        ("1", "300", "left_stile"),
        ("1", "300", "right_stile"),
        ("1", "300", "top_rail"),
        ("0", "300", "bottom_rail"),
        ("1", "300", "mid_rail"),
        ("1", "300", "muntin"),
        ("0", "6000", "foot"),
    ],
)
def test_a_figure_of_a_frame_may_reach_both_its_ends_and_no_further(low, high, said):
    beyond = ("0.99", "1") if said != "quantity" else ("1", "1")

    assert codes(a_frame_saying(**{said: low})) == codes(a_frame_saying(**{said: high})) == []
    less, more = (
        float(low) - float(beyond[0]) / (1 if said == "quantity" else 99),
        float(high) + float(beyond[1]),
    )
    assert codes(a_frame_saying(**{said: f"{less:.4g}"})) == ["too-small"]
    assert codes(a_frame_saying(**{said: f"{more:.8g}"})) == ["too-large"]


@pytest.mark.parametrize(
    "usual", [*limits.USUAL, *limits.DOORS], ids=lambda usual: f"{usual.table}.{usual.key}"
)
def test_a_usual_size_may_reach_both_its_ends_and_no_further(usual):
    def said(size):
        bead = "width = 100\nquirk = 0\n".replace(f"{usual.key} ", "# ") if usual.table == "bead" else ""
        if usual.key == "quirk" and size == usual.between.high:
            return []  # a quirk as wide as the widest bead is refused for another reason
        return codes(f"{a_frame_saying()}[{usual.table}]\n{bead}{usual.key} = {float(size):.10g}\n")

    assert said(usual.between.low) in ([], ["quirk-wide"])
    assert said(usual.between.high) == []
    assert "too-small" in said(usual.between.low - 1)
    assert "too-large" in said(usual.between.high + 1)


def test_a_job_file_of_2_mb_is_read_and_a_byte_more_is_not():
    assert codes(padded(a_frame_saying(), 2 * MB)) == []
    assert codes(padded(a_frame_saying(), 2 * MB + 1)) == ["file-too-large"]


def test_a_job_file_of_100_000_lines_is_read_and_one_more_is_not():
    text = a_frame_saying()
    blank = "\n" * (100_000 - 1 - text.count("\n"))

    assert codes(text + blank) == []
    assert codes(text + blank + "\n") == ["file-too-long"]


def test_a_list_of_10_mb_is_looked_at_and_a_byte_more_is_not():
    assert codes(b" " * 10 * MB, "frames.csv") == ["no-frames"]
    assert codes(b" " * (10 * MB + 1), "frames.csv") == ["file-too-large"]


def test_2000_frames_are_a_job_and_2001_are_not():
    rows = [f"K{number},600,720,pair\n" for number in range(2001)]
    header = "id,width,height,layout\n"

    assert codes(header + "".join(rows[:2000]), "frames.csv") == []
    assert codes(header + "".join(rows), "frames.csv") == ["frames-many"]


def test_40_000_members_are_planned_and_one_more_is_not():
    stack = '"33 drawers"'  # two stiles, two rails, 32 rails between: 36 members
    many = a_frame_saying(layout=stack, quantity="999") + a_frame_saying(
        id='"K2"', layout=stack, quantity="111"
    ).removeprefix("pinchrod = 1\n")
    more = a_frame_saying(id='"K3"', layout="'door over door'", quantity="8").removeprefix("pinchrod = 1\n")

    assert 36 * (999 + 111) + 5 * 8 == 40_000
    assert codes(many + more) == []
    assert codes(many + more.replace("= 8", "= 9")) == ["pieces-many"]


def test_64_columns_are_read_and_65_are_not():
    row = ",".join(["x"] * 60)

    assert set(codes(f"id,width,height,layout,{row}\n", "frames.csv")) == {"unknown-column", "no-frames"}
    assert codes(f"id,width,height,layout,{row},x\n", "frames.csv") == ["columns-many"]


def test_20_000_rows_are_read_and_one_more_is_not():
    rows = "K,600,720,pair\n" * 19_999
    grid, _ = gathered(
        read_csv(Source(name="f.csv", content=f"{','.join(HEADER)}\n{rows}".encode()), FRAME_KEYS)
    )

    assert grid is not None
    assert len(grid.rows) == 20_000
    assert codes(f"{','.join(HEADER)}\n{rows}K\n", "frames.csv") == ["rows-many"]
    assert codes(a_workbook(*[["K"]] * 20_000), "frames.xlsx") == ["rows-many"]


def test_240_000_cells_of_a_text_list_are_read_and_one_more_is_not():
    row = "," * 9_999 + "x\n"

    assert "cells-many" not in codes(row * 24, "frames.csv")
    assert codes(row * 24 + "x\n", "frames.csv") == ["cells-many"]


def test_60_000_cells_of_a_workbook_are_read_and_one_more_is_not():
    rows = [[1] * 20] * 2_999

    assert codes(zipped(parts_of_a_workbook(a_sheet([*HEADER, *"abcdefghijklmnop"], *rows))), "f.xlsx") != [
        "cells-many"
    ]
    assert codes(
        zipped(parts_of_a_workbook(a_sheet([*HEADER, *"abcdefghijklmnop"], *rows, [1]))), "f.xlsx"
    ) == ["cells-many"]


def test_1000_letters_in_a_cell_are_read_and_one_more_is_not():
    phrase = "pair".ljust(1000)

    assert codes(a_frame_saying(layout=f"'{phrase}'")) == []
    assert codes(a_frame_saying(layout=f"'{phrase} '")) == ["words-long"]


def test_80_letters_are_a_name_and_81_are_not():
    for said in ("name", "customer", "owner"):
        assert codes(a_frame_saying() + f'[job]\n{said} = "{"x" * 80}"\n') == []
        assert codes(a_frame_saying() + f'[job]\n{said} = "{"x" * 81}"\n') == ["words-long"]
    assert codes(a_frame_saying(id=f'"{"x" * 80}"')) == []
    assert codes(a_frame_saying(id=f'"{"x" * 81}"')) == ["id-long"]


def test_2000_letters_are_a_note_on_a_timber_and_one_more_is_not():
    timber = '[[timber]]\nname = "plum"\nsource = "{}"\n'

    assert codes(a_frame_saying() + timber.format("x" * 2000)) == []
    assert codes(a_frame_saying() + timber.format("x" * 2001)) == ["words-long"]


@pytest.mark.parametrize(
    ("said", "most"), [("number", 16), ("revision", 2), ("drawn_by", 20), ("approved_by", 20)]
)
def test_a_field_of_the_title_block_has_the_length_the_standard_gives_it(said, most):
    assert codes(a_frame_saying() + f'[job]\n{said} = "{"x" * most}"\n') == []
    assert codes(a_frame_saying() + f'[job]\n{said} = "{"x" * (most + 1)}"\n') == ["words-long"]


def test_20_digits_are_a_number_and_21_are_not():
    assert codes(a_frame_saying(width="600.00000000000000001")) == []
    assert codes(a_frame_saying(width="600.000000000000000001")) == ["number-long"]


def test_32_tables_inside_each_other_are_looked_at_and_33_are_not():
    assert "nested-deep" not in codes("a." * 30 + "a = 1")
    assert codes("a." * 31 + "a = [[1]]") == ["nested-deep"]
    assert codes("a = " + "[" * 40 + "]" * 40) == ["nested-deep"]


def test_200_parts_are_a_workbook_and_201_are_not():
    parts = parts_of_a_workbook(a_sheet(HEADER, ROW))
    more = {f"part{number}": "x" for number in range(200 - len(parts))}

    assert codes(zipped({**parts, **more}), "frames.xlsx") == []
    assert codes(zipped({**parts, **more, "one": "x"}), "frames.xlsx") == ["workbook-parts"]


def test_50_mb_may_come_out_of_a_workbook_and_a_byte_more_may_not():
    parts = {**parts_of_a_workbook(a_sheet(HEADER, ROW)), "noise": Random(1).randbytes(700_000)}
    so_far = sum(len(part) for part in parts.values())

    assert codes(zipped({**parts, "big": bytes(50 * MB - so_far)}), "frames.xlsx") == []
    assert codes(zipped({**parts, "big": bytes(50 * MB - so_far + 1)}), "frames.xlsx") == ["workbook-swells"]


def test_a_workbook_may_hold_100_times_its_size_and_a_byte_more_it_may_not():
    parts = {**parts_of_a_workbook(a_sheet(HEADER, ROW)), "zeros": bytes(1_000_000)}
    size, so_far = len(zipped(parts)), sum(len(part) for part in parts.values())
    enough = -(-so_far // 100) - size
    assert enough > 100, "the zeros do not swell enough for this test"
    short = 100 * (size + enough) - so_far  # bytes that may still be added to the last part

    for more, said in ((0, []), (1, ["workbook-swells"])):
        stored = {**parts, "tail": b""}
        grown = zipped({**stored, "zeros": bytes(1_000_000 + short + more)}, comment=b"")
        comment = b"x" * (size + enough - len(grown))
        assert (
            codes(
                zipped({**stored, "zeros": bytes(1_000_000 + short + more)}, comment=comment), "frames.xlsx"
            )
            == said
        )


def test_a_million_blank_rows_are_passed_over_in_good_time():
    blank = "".join(
        f'<row r="{number}" ht="15"><c r="A{number}" s="1"/></row>' for number in range(3, 200_000)
    )
    bare = "".join(f'<row r="{number}"/>' for number in range(200_000, 1_048_577))
    sheet = a_sheet(HEADER, ROW).replace("</sheetData>", f"{blank}{bare}</sheetData>")
    content = zipped(parts_of_a_workbook(sheet))
    began = time.process_time()

    assert codes(content, "frames.xlsx") == []
    assert time.process_time() - began < 5


def test_a_list_of_nothing_but_blank_rows_is_passed_over_in_good_time():
    began = time.process_time()

    assert codes(f"{','.join(HEADER)}\n{','.join(map(str, ROW))}\n" + ",,,\n" * 2_000_000, "frames.csv") == []
    assert time.process_time() - began < 5


def test_a_sheet_may_be_packed_without_being_squeezed():
    assert codes(zipped(parts_of_a_workbook(a_sheet(HEADER, ROW)), pack=ZIP_STORED), "frames.xlsx") == []


@pytest.mark.parametrize(
    ("boards", "told"), [(limits.MOST_BOARDS, []), (limits.MOST_BOARDS + 1, ["boards-many"])]
)
def test_a_rack_holds_so_many_boards_and_no_more(boards, told):
    rows = "".join(f"B{n},27,160,3000\n" for n in range(boards))
    rack = Source(name="rack.csv", content=f"board,thickness,width,length\n{rows}".encode())
    job = Source(name="job.toml", content=f'[job]\nrack = "rack.csv"\n{a_frame_saying()[13:]}'.encode())

    try:
        found = [
            problem.code for problem in read_job(job, (rack,))[0].doubts if problem.code != "version-missing"
        ]
    except NotYetRight as trouble:
        found = [problem.code for problem in trouble.problems if problem.stops]

    assert found == told


@pytest.mark.parametrize("key", limits.RACK_SIZES)
def test_a_size_of_a_board_may_reach_both_its_ends_and_no_further(key):
    between = limits.RACK_SIZES[key]
    board = {"thickness": "27", "width": "160", "length": "3000", "bow": "0", "spring": "0", "price": "1"}

    for size, told in ((between.low, set()), (between.high, set()), (between.high + 1, {"too-large"})):
        cells = {**board, key: str(size)}
        text = f"board,{','.join(cells)}\nB1,{','.join(cells.values())}\nB2,27,160,3000,0,0,1\n"
        rack = Source(name="rack.csv", content=text.encode())
        job = Source(
            name="job.toml",
            content=a_frame_saying().replace("\n", '\n[job]\nrack = "rack.csv"\n', 1).encode(),
        )
        try:
            problems = read_job(job, (rack,))[0].doubts
        except NotYetRight as trouble:
            problems = trouble.problems

        assert {problem.code for problem in problems if problem.stops} == told
