"""Slips of the pen that outsiders made: each is told once, with a mend that mends it."""

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.job import Joint, Source, read_job
from tests.job.bad_inputs import a_frame_saying

HEAD = "id,width,height,layout"


def read(text, name="job.toml"):
    content = text.encode() if isinstance(text, str) else text
    return read_job(Source(name=name, content=content))[0]


def problems_of(text, name="job.toml"):
    with pytest.raises(NotYetRight) as trouble:
        read(text, name)
    return trouble.value.problems


@pytest.mark.parametrize(
    ("said", "joint"),
    [
        ("Dovetail key", Joint.DOVETAIL_KEY),
        ("dovetail-keys", Joint.DOVETAIL_KEY),
        ("loose  tenons", Joint.LOOSE_TENON),
        ("Dowels", Joint.DOWEL),
        ("mortise and tenon", Joint.MORTICE_AND_TENON),
        ("Mortises-and-tenons", Joint.MORTICE_AND_TENON),
        ("pocket_screws", Joint.POCKET_SCREW),
    ],
)
def test_a_joint_is_known_however_its_name_is_written(said, joint):
    assert read(a_frame_saying() + f'[job]\njoint = "{said}"\n').joint is joint


def test_a_joint_that_is_none_is_told_with_the_one_that_is_meant():
    [problem] = problems_of(a_frame_saying() + '[job]\njoint = "Mortise und tenons"\n')

    assert problem.code == "not-a-choice"
    assert problem.mend == "write mortice and tenon"


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ('[[frames]]\nid = "K2"\n', "begin each with [[frame]], or take it out"),
        ('[[timbers]]\nname = "plum"\n', "begin each with [[timber]], or take it out"),
        ('[job]\nframes = ["a.csv"]\n', 'write one, in quotes and without the brackets: "a.csv"'),
        ('[job]\nframes = ["a.csv", "b.csv"]\n', "write one, in quotes and without the brackets"),
        ("[job]\nname = { plot = 7 }\n", "write words in quotes"),
        ("[job]\nname = 7\n", 'write it in quotes: "7"'),
    ],
)
def test_the_mend_of_a_wrong_form_is_one_that_would_be_read(text, mend):
    [problem] = problems_of(a_frame_saying() + text)

    assert problem.mend == mend


def test_a_timber_known_by_half_its_name_is_told_with_those_that_bear_it():
    [problem] = problems_of(a_frame_saying() + '[job]\ntimber = "Oak"\n')

    assert problem.mend.startswith("write red-oak, live-oak, ")
    assert "european-oak" in problem.mend
    assert "[[timber]]" in problem.mend


@pytest.mark.parametrize(("name", "mend"), [("width", "20 to 6000 mm"), ("left_stile", "1 to 300 mm")])
def test_a_size_below_nothing_is_told_alike_in_a_job_file_and_a_list(name, mend):
    row = {"id": "K1", "width": "600", "height": "720", "layout": "pair", name: "-5"}
    listed = f"{','.join(row)}\n{','.join(row.values())}\n"

    told = [
        *problems_of(a_frame_saying(**{name: "-5"})),
        *problems_of(a_frame_saying(**{name: '"-5 mm"'})),
        *problems_of(listed, "frames.csv"),
    ]

    assert [(problem.code, problem.mend) for problem in told] == [("too-small", f"write {mend}")] * 3


@pytest.mark.parametrize(
    "header", ["width (mm)", "Width mm", "width_mm", "width [mm]", "width in mm", "WIDTH/mm"]
)
def test_mm_in_a_header_is_one_fault_and_the_cells_are_read(header):
    problems = problems_of(f"id,{header},height,layout\nK1,600,720,pair\nK2,6OO,720,pair\n", "frames.csv")

    assert [problem.code for problem in problems] == ["header-unit", "length-letters"]
    assert problems[0].mend == "name the column width: what has no unit is read as mm"


@pytest.mark.parametrize("header", ["width in", "width (in)", "width (inches)", "Width_in", 'width (")'])
def test_inches_in_a_header_are_told_once_with_the_mark_that_the_cells_need(header):
    quoted = '"' + header.replace('"', '""') + '"'

    [problem] = problems_of(f"id,{quoted},height,layout\nK1,24,720,pair\nK2,23 5/8,720,pair\n", "frames.csv")

    assert problem.code == "header-unit"
    assert problem.mend == "write the inch mark into every cell, as 24 in, and then name the column width"


def test_other_units_in_a_header_are_not_read_as_mm_either():
    [problem] = problems_of("id,width cm,height,layout\nK1,60,720,pair\n", "frames.csv")

    assert problem.mend == "write the unit into every cell, as 24 cm, and then name the column width"


@pytest.mark.parametrize("column", ["price in", "layout in", "mm", "(mm)"])
def test_a_column_that_is_no_size_has_no_unit_to_tell_of(column):
    [problem] = problems_of(f"{HEAD},{column}\nK1,600,720,pair,\n", "frames.csv")

    assert problem.code == "unknown-column"


@pytest.mark.parametrize("quantity", ["1", "1.0", "1.00"])
def test_a_quantity_with_noughts_behind_its_point_is_whole(quantity):
    assert read(f"{HEAD},quantity\nK1,600,720,pair,{quantity}\n", "frames.csv").frames[0].quantity == 1


@pytest.mark.parametrize("quantity", ["1.5", "1.000", "1."])
def test_a_quantity_that_may_be_another_number_is_refused(quantity):
    [problem] = problems_of(f"{HEAD},quantity\nK1,600,720,pair,{quantity}\n", "frames.csv")

    assert problem.code == "not-whole"


def test_figures_that_contradict_each_other_are_shown_to_the_last_digit():
    text = b"pinchrod = 1\n[machines.thicknesser]\ndeepest_pass = 0.7\nfinal_pass = [0.75, 1.0]\n"
    shop = Source(name="shop.toml", content=text)

    with pytest.raises(NotYetRight) as trouble:
        read_job(Source(name="job.toml", content=a_frame_saying().encode()), workshop=shop)

    assert "final_pass comes to 0.75, more than deepest_pass, 0.7;" in str(trouble.value)


def test_a_row_of_noughts_is_no_total():
    problems = problems_of(f"{HEAD}\nK1,600,720,pair\n,0,,\n", "frames.csv")

    assert [problem.code for problem in problems] == ["missing", "too-small", "missing", "missing"]


@pytest.mark.parametrize("blank", [60, 61, 200])
def test_columns_without_a_name_beyond_the_last_are_not_counted(blank):
    text = f"{HEAD}{',' * blank}\nK1,600,720,pair{',' * blank}\n"

    assert [frame.id for frame in read(text, "frames.csv").frames] == ["K1"]
