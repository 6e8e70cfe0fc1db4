"""A job as it is handed on: what was said, what stands because nothing was said, and where it stands."""

from datetime import date

import pytest

from pinchrod.ground import Mm, NotYetRight, Where
from pinchrod.job import Bead, Doors, Gaps, Issue, Joint, Kind, Source, joined_files, read_job, read_workshop
from pinchrod.job.limits import DOORS, USUAL
from tests.job.bad_inputs import a_frame_saying
from tests.job.workbooks import ROW, a_workbook

CONTRACT = """pinchrod = 1
[job]
name = "Saltmarsh Row, plot 7"
customer = "Demonstration"
timber = "white-oak"
thickness = 22.5
joint = "mortice and tenon"
front_thickness = 19
owner = "Saltmarsh joinery"
number = "SR-7"
revision = "B"
date = 2026-05-31
drawn_by = "bench 1"
approved_by = "bench 2"

[bead]
width = 8
quirk = 1.5

[members]
stile = 46
top_rail = 61
mid_rail = 39
bottom_rail = 47
muntin = 37

[gaps]
edge = 1.5
meeting = 2.5

[[frame]]
id = "K1"
width = 600
height = '28 3/8"'
layout = "drawer 140 over pair"
quantity = 3
left_stile = 60
foot = 100

[[frame]]
id = "K2"
width = 450
height = 720
layout = 'door'
right_stile = 70
top_rail = 80
bottom_rail = 0
mid_rail = 50
muntin = 55
"""


def a_source(text, name="job.toml"):
    return Source(name=name, content=text.encode() if isinstance(text, str) else text)


def read(text, *joined, name="job.toml", workshop=None):
    return read_job(a_source(text, name), joined, workshop=workshop)[0]


def test_everything_a_job_says_is_handed_on_exactly():
    job = read(CONTRACT)

    assert (job.name, job.customer, job.timber.name) == (
        "Saltmarsh Row, plot 7",
        "Demonstration",
        "white-oak",
    )
    assert (job.thickness, job.front_thickness) == (Mm("22.5"), Mm(19))
    assert job.joint is Joint.MORTICE_AND_TENON
    assert job.bead == Bead(width=Mm(8), quirk=Mm("1.5"))
    assert job.gaps == Gaps(edge=Mm("1.5"), meeting=Mm("2.5"))
    assert job.issue == Issue(
        owner="Saltmarsh joinery",
        number="SR-7",
        revision="B",
        date=date(2026, 5, 31),
        drawn_by="bench 1",
        approved_by="bench 2",
    )


def test_a_date_may_be_written_in_words_too():
    assert read(a_frame_saying() + '[job]\ndate = "2026-05-31"\n').issue.date == date(2026, 5, 31)


def test_a_frame_takes_the_jobs_usual_sizes_where_it_says_nothing():
    first, second = read(CONTRACT).frames

    assert (first.id, first.width, first.height, first.quantity) == ("K1", 600, Mm("720.725"), 3)
    assert (first.left_stile, first.right_stile, first.foot) == (60, 46, 100)
    assert (first.top_rail, first.bottom_rail, first.mid_rail, first.muntin) == (61, 47, 39, 37)
    assert (second.left_stile, second.right_stile, second.quantity, second.foot) == (46, 70, 1, 0)
    assert (second.top_rail, second.bottom_rail, second.mid_rail, second.muntin) == (80, 0, 50, 55)


def test_a_frame_knows_where_it_and_the_first_letter_of_its_layout_stand():
    first, second = read(CONTRACT).frames

    assert first.where == Where(name="K1", file="job.toml", line=32, column=6)
    assert first.layout_where == Where(name="K1", file="job.toml", line=35, column=11)
    assert second.layout_where == Where(name="K2", file="job.toml", line=44, column=11)
    assert (first.phrase, second.layout.kind) == ("drawer 140 over pair", Kind.DOOR)


@pytest.mark.parametrize(
    ("written", "column"),
    [
        ('"pair"', 11),
        ("'pair'", 11),
        ('"  pair"', 11),
        (r'"pa\u0069r"', 0),
        ("'''pair'''", 13),
        ('"""pair"""', 13),
        ('"""\npair"""', 0),
    ],
)
def test_a_layout_begins_after_its_quote_where_letters_can_be_counted_from_there(written, column):
    frame = read(a_frame_saying(layout=written)).frames[0]

    assert frame.layout_where.column == column
    assert frame.phrase == "pair"


def test_a_row_of_a_text_list_is_a_frame_with_its_line_and_column():
    job = read('layout;ID;Height;width\n" drawer over pair";K1;720;600,5\n', name="jobs/pantry.csv")

    [frame] = job.frames
    assert (frame.id, frame.width, frame.phrase) == ("K1", Mm("600.5"), "drawer over pair")
    assert frame.where == Where(name="K1", file="jobs/pantry.csv", line=2, column=21)
    assert (frame.layout_where.line, frame.layout_where.column) == (2, 3)
    assert job.name == "pantry"


def test_a_row_of_a_workbook_is_a_frame_with_its_cell():
    [frame] = read(a_workbook(ROW), name="frames.xlsx").frames

    assert frame.where == Where(name="K1", file="frames.xlsx", cell="Frames!A2")
    assert frame.layout_where == Where(name="K1", file="frames.xlsx", cell="Frames!D2")


def test_a_job_and_its_list_are_one_job():
    joined = a_source("id,width,height,layout\nK9,600,720,pair\n", "jobs/more.csv")

    job = read(a_frame_saying() + '[job]\nframes = "more.csv"\n', joined)

    assert [frame.id for frame in job.frames] == ["K1", "K9"]


def test_an_id_in_a_list_that_the_job_file_has_already_is_told_with_both_places():
    joined = a_source("id,width,height,layout\nK1,600,720,pair\n", "more.csv")

    with pytest.raises(NotYetRight) as trouble:
        read(a_frame_saying() + '[job]\nframes = "more.csv"\n', joined)

    [problem] = trouble.value.problems
    assert str(problem).startswith('more.csv:2:1: K1: the id "K1" stands already at job.toml:4:6')


def test_a_job_file_tells_which_files_it_joins():
    said = '[job]\nframes = "frames.XLSX"\nworkshop = "shop.toml"\n'

    assert joined_files(a_source(said)) == ("frames.XLSX", "shop.toml")
    assert joined_files(a_source('[job]\nframes = "../../secret"\nworkshop = 7\n')) == ()
    assert joined_files(a_source("[[[")) == ()
    assert joined_files(a_source("id\n", "frames.csv")) == ()


def test_a_workshop_given_by_hand_counts_before_the_one_the_job_names():
    said = a_frame_saying() + '[job]\nworkshop = "one.toml"\n'
    one, two = (a_source(f"pinchrod = 1\n[practice]\nskim = {n}\n", f"{n}.toml") for n in (1, 2))
    named = Source(name="one.toml", content=one.content)

    assert read_job(a_source(said), (named,))[1].practice.skim == 1
    assert read_job(a_source(said), (named,), workshop=two)[1].practice.skim == 2


def test_a_job_may_change_the_workshop_for_itself():
    shop = a_source(
        'pinchrod = 1\n[moisture]\nmade = 10\nwettest = 14\n[papers]\nsize = "Letter"\n', "shop.toml"
    )

    _, changed = read_job(a_source(a_frame_saying() + "[moisture]\nmade = 12\n"), workshop=shop)

    assert (changed.moisture.made, changed.moisture.wettest, changed.papers.size) == (12, 14, "Letter")


def test_a_workshop_is_read_alone_too():
    shop, doubts = read_workshop(a_source("[practice]\nskim = 1\n", "shop.toml"))

    assert shop.practice.skim == 1
    assert [doubt.code for doubt in doubts] == ["version-missing"]


def test_doors_are_five_pieces_once_the_job_says_so():
    assert read(a_frame_saying()).doors is None

    doors = read(a_frame_saying() + "[doors]\nstile = 55\n").doors

    sizes = {"top_rail": 60, "bottom_rail": 80, "groove": 10, "panel": 6, "side_room": 3, "end_room": 1}
    assert doors == Doors(stile=Mm(55), **{key: Mm(size) for key, size in sizes.items()})


def test_fronts_are_as_thick_as_the_frame_unless_said_otherwise():
    assert read(a_frame_saying() + "[job]\nthickness = 25\n").front_thickness == 25


def test_a_timber_of_the_joiners_own_stands_before_ours():
    said = '[job]\ntimber = "plum"\n[[timber]]\nname = "plum"\ndensity = 720\nradial = 0.002\nsource = "bench notes"\n'

    timber = read(a_frame_saying() + said).timber

    assert (timber.name, timber.density, timber.radial, timber.tangential) == ("plum", 720, Mm("0.002"), None)
    assert timber.source == "bench notes"


def test_a_timber_is_known_however_its_name_is_joined():
    assert read(a_frame_saying() + '[job]\ntimber = "Yellow poplar"\n').timber.name == "yellow-poplar"


def test_a_square_edge_has_no_quirk():
    assert read(a_frame_saying() + "[bead]\nwidth = 0\n").bead == Bead(width=Mm(0), quirk=Mm(0))


@pytest.mark.parametrize(
    ("said", "quirk", "saying"),
    [
        ("width = 0", 0, None),
        ("width = 0\nquirk = 2", 0, None),
        ("width = 1", "0.5", "quirk 0.5 mm wide"),
        ("width = 2", 1, "quirk 1 mm wide"),
        ("width = 3", 2, "quirk 2 mm wide"),
        ("width = 3\nquirk = 2.5", "2.5", None),
    ],
)
def test_a_quirk_that_nobody_said_leaves_something_of_the_bead_and_is_owned_up_to(said, quirk, saying):
    job = read(a_frame_saying() + f"[bead]\n{said}\n")

    assert job.bead.quirk == Mm(quirk)
    assert [size for size in job.assumed if "quirk" in size] == ([saying] if saying else [])


def test_a_quirk_that_was_said_is_refused_if_it_leaves_nothing():
    with pytest.raises(NotYetRight) as trouble:
        read(a_frame_saying() + "[bead]\nwidth = 1.25\nquirk = 1.25\n")

    [problem] = trouble.value.problems
    assert problem.code == "quirk-wide"
    assert problem.what == "the quirk, 1.25 mm, leaves nothing of a bead 1.25 mm wide, which includes it"


@pytest.mark.parametrize("usual", [*USUAL, *DOORS], ids=lambda usual: f"{usual.table}.{usual.key}")
def test_a_usual_size_is_owned_up_to_until_the_job_says_it(usual):
    table = f"[{usual.table}]\n"
    saying = usual.saying.format(f"{usual.size} mm")

    silent = read(a_frame_saying() + table)
    told = read(a_frame_saying() + table + f"{usual.key} = {usual.size}\n")

    assert saying in silent.assumed
    assert saying not in told.assumed
    assert len(told.assumed) == len(silent.assumed) - 1


@pytest.mark.parametrize(
    ("line", "saying"),
    [
        ('timber = "white-oak"', "timber yellow-poplar"),
        ('joint = "dowel"', "joint: dovetail key"),
        ('name = "Saltmarsh Row"', "the job called job, after its file"),
        ("front_thickness = 19", "doors and drawer fronts as thick as the frame"),
    ],
)
def test_what_else_a_job_leaves_unsaid_is_owned_up_to(line, saying):
    assert saying in read(a_frame_saying()).assumed
    assert saying not in read(a_frame_saying() + f"[job]\n{line}\n").assumed


def test_the_fingerprint_changes_with_every_byte_that_is_read():
    listed, shop = (
        a_source("id,width,height,layout\nK9,600,720,pair\n", "f.csv"),
        a_source("pinchrod = 1\n", "s.toml"),
    )
    text = a_frame_saying() + '[job]\nframes = "f.csv"\n'
    other_list = a_source("id,width,height,layout\nK8,600,720,pair\n", "f.csv")
    other_shop = a_source("pinchrod = 1\n\n", "s.toml")

    seals = {
        read(text, listed, workshop=shop).fingerprint,
        read(text + "#", listed, workshop=shop).fingerprint,
        read(text, other_list, workshop=shop).fingerprint,
        read(text, listed, workshop=other_shop).fingerprint,
        read(text, listed).fingerprint,
    }

    assert len(seals) == 5
    assert all(len(seal) == 64 for seal in seals)


def test_the_fingerprint_does_not_change_with_the_files_place():
    text = "id,width,height,layout\nK9,600,720,pair\n"

    assert read(text, name="a/b.csv").fingerprint == read(text, name="c.csv").fingerprint


def test_problems_come_file_by_file_and_line_by_line():
    shop = a_source("pinchrod = 1\n[practise]\n", "a-shop.toml")
    listed = a_source("id,width,height,layout\nK9,6OO,720,pear\nK8,x,1,pair\n", "frames.csv")
    text = a_frame_saying(width='"x"', colour="1") + '[job]\nframes = "frames.csv"\nthicknes = 1\n'

    with pytest.raises(NotYetRight) as trouble:
        read(text, listed, workshop=shop)

    places = [str(problem.where) for problem in trouble.value.problems]
    in_the_job = ["job.toml:5:9", "job.toml:8:1", "job.toml:11:1"]
    in_the_list = ["frames.csv:2:4", "frames.csv:2:12", "frames.csv:3:4", "frames.csv:3:6"]
    assert places == [*in_the_job, *in_the_list, "a-shop.toml:2:2"]
