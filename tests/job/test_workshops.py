"""The workshop: each of its figures can be set, lies in its range, and is owned up to when unsaid."""

from dataclasses import fields, is_dataclass, replace

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import HingeStep, Joint, Shop, Source, Tally, read_job, read_what_stands, read_workshop
from pinchrod.job.shop_sizes import SAYINGS, SHOP_SIZES
from tests.job.bad_inputs import a_frame_saying


def figures(record, path=""):
    """Every figure of the workshop by its name, as `practice.skim`."""
    for field in fields(record):
        value = getattr(record, field.name)
        if is_dataclass(value):
            yield from figures(value, f"{path}{field.name}.")
        else:
            yield f"{path}{field.name}", value


FIGURES = {path: value for path, value in figures(Shop()) if path != "offers"}
NUMBERS = {path: value for path, value in FIGURES.items() if not isinstance(value, bool | str | tuple)}


def shop_saying(path, written):
    table, _, name = path.rpartition(".")
    text = f"pinchrod = 1\n[{table}]\n{name} = {written}\n"
    return read_workshop(Source(name="workshop.toml", content=text.encode()))[0]


def figure_of(shop, path):
    for name in path.split("."):
        shop = getattr(shop, name)
    return shop


HELD_TOGETHER = ("labels.", "moisture.", "practice.shortest", "practice.longest", "machines.thicknesser")


def test_every_figure_of_the_workshop_has_a_range_and_lies_in_it():
    assert [path for path in NUMBERS if path not in SHOP_SIZES] == []
    assert [
        path for path, size in NUMBERS.items() if not SHOP_SIZES[path].low <= size <= SHOP_SIZES[path].high
    ] == []


@pytest.mark.parametrize("path", [path for path in NUMBERS if not path.startswith(HELD_TOGETHER)])
def test_a_figure_of_the_workshop_can_be_set_to_both_ends_of_its_range_and_no_further(path):
    between = SHOP_SIZES[path]

    for end in (between.low, between.high):
        assert figure_of(shop_saying(path, f"{float(end):.10g}"), path) == end
    for beyond in (between.low - Mm("0.001"), between.high + Mm("0.001")):
        with pytest.raises(NotYetRight):
            shop_saying(path, f"{float(beyond):.10g}")


def test_labels_can_be_of_any_size_that_fits_the_page():
    text = "pinchrod = 1\n[labels]\npage_width = 100\npage_height = 50\ncolumns = 1\nrows = 1\nwidth = 100\nheight = 50\n"
    text += "left = 0\ntop = 0\ncolumn_pitch = 1\nrow_pitch = 1\nfirst = 1\n"

    labels = read_workshop(Source(name="workshop.toml", content=text.encode()))[0].labels

    assert (labels.width, labels.height, labels.columns, labels.rows) == (100, 50, 1, 1)


@pytest.mark.parametrize(
    ("path", "written", "figure"),
    [
        ("machines.thicknesser.final_pass", "[0.5, 1.5]", (Mm("0.5"), Mm("1.5"))),
        ("machines.moulder.power_feed", "false", False),
        ("machines.notcher.flat", '"3/4 in"', Mm("19.05")),
        ("fixings.mortice_and_tenon.thickness_share", '"2/5"', Mm("0.4")),
        ("papers.size", '"Letter"', "Letter"),
        ("hinges.by_weight", "[[5, 2]]", (HingeStep(up_to=Mm(5), number=2),)),
        ("hinges.by_height", '[["40 in", 2], { up_to = 1524, number = 3 }]',
         (HingeStep(up_to=Mm(1016), number=2), HingeStep(up_to=Mm(1524), number=3))),
    ],
)  # fmt: skip
def test_figures_of_other_kinds_are_read_as_they_are_written(path, written, figure):
    assert figure_of(shop_saying(path, written), path) == figure


def test_a_file_that_says_nothing_is_the_built_in_workshop():
    assert read_workshop(Source(name="workshop.toml", content=b"pinchrod = 1\n")) == (Shop(), ())


def test_one_figure_leaves_all_others_as_they_are():
    shop = shop_saying("practice.skim", "2")

    assert shop == replace(Shop(), practice=replace(Shop().practice, skim=Mm(2)))


@pytest.mark.parametrize("path", SAYINGS)
def test_a_figure_papers_rest_on_is_owned_up_to_until_it_is_said(path):
    fixing = path.split(".")[1].replace("_", " ") if path.startswith("fixings.") else "dowel"
    text = a_frame_saying() + f'[job]\njoint = "{fixing}"\n'
    value = FIGURES[path]
    written = (
        [[float(step.up_to), step.number] for step in value] if isinstance(value, tuple) else float(value)
    )
    written = int(value) if isinstance(value, int) else written
    table, _, name = path.rpartition(".")
    shop = Source(name="workshop.toml", content=f"pinchrod = 1\n[{table}]\n{name} = {written}\n".encode())

    silent = read_job(Source(name="job.toml", content=text.encode()))[0].assumed
    told = read_job(Source(name="job.toml", content=text.encode()), workshop=shop)[0].assumed

    assert len(told) == len(silent) - 1
    assert set(told) < set(silent)


@pytest.mark.parametrize(
    ("joint", "saying"),
    [
        (Joint.DOVETAIL_KEY, "key slots 10 mm deep"),
        (Joint.LOOSE_TENON, "loose tenons 10 mm thick"),
        (Joint.DOWEL, "2 dowels to a joint"),
        (Joint.MORTICE_AND_TENON, "tenons 1/3 of the frame's thickness"),
        (Joint.POCKET_SCREW, "2 pocket screws to a joint"),
    ],
)
def test_only_the_fixings_of_the_jobs_joint_are_owned_up_to(joint, saying):
    said = {
        other: read_job(
            Source(name="job.toml", content=f'{a_frame_saying()}[job]\njoint = "{other}"\n'.encode())
        )
        for other in Joint
    }

    owning_up = [other for other, (job, _) in said.items() if saying in job.assumed]

    assert owning_up == [joint]


def a_tally(rows):
    return shop_saying("spoiled.tally", rows).spoiled.tally


def test_a_tally_of_spoiled_pieces_is_read_by_length():
    rows = '[{ up_to = 600, made = 120, spoiled = 3 }, { up_to = "48 in", made = 20, spoiled = 0 }]'

    assert a_tally(rows) == (
        Tally(up_to=Mm(600), made=120, spoiled=3),
        Tally(up_to=Mm("1219.2"), made=20, spoiled=0),
    )
    assert a_tally("[]") == ()


@pytest.mark.parametrize(
    ("rows", "codes"),
    [
        ("3", ["not-a-tally"]),
        ("[600]", ["not-a-tally"]),
        ("[{ up_to = 600, made = 2 }]", ["missing"]),
        ("[{ up_to = 600, made = 2, spoild = 1 }]", ["missing", "unknown-name"]),
        ("[{ up_to = 600, made = 2, spoiled = 3 }]", ["contradiction"]),
        ("[{ up_to = 0, made = 0.5, spoiled = -1 }]", ["too-small", "not-whole", "too-small"]),
        (
            "[{ up_to = 600, made = 2, spoiled = 1 }, { up_to = 600, made = 2, spoiled = 1 }]",
            ["contradiction"],
        ),
    ],
)
def test_a_tally_that_cannot_be_is_refused_with_every_fault_of_it(rows, codes):
    with pytest.raises(NotYetRight) as refused:
        a_tally(rows)

    assert sorted(problem.code for problem in refused.value.problems) == sorted(codes)


def test_figures_that_cannot_stand_together_are_told_and_left_as_they_were():
    """Whoever looks at the rest of the file must not trip over them; all else that was said stands."""
    text = "pinchrod = 1\n[machines.thicknesser]\ndeepest_pass = 0.5\n[machines.notcher]\nflat = 18\n"
    job = Source(name="job.toml", content=a_frame_saying().encode())

    _, shop, problems = read_what_stands(job, workshop=Source(name="workshop.toml", content=text.encode()))

    assert [problem.code for problem in problems if problem.stops] == ["contradiction"]
    assert shop.machines == replace(Shop().machines, notcher=replace(Shop().machines.notcher, flat=Mm(18)))
