"""A rack is told of at its cell, whether it is saved as text or as a workbook; what only casts doubt goes on."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm, Span
from pinchrod.job import read_job, read_what_stands
from tests.job.bad_inputs import BOARDS, RACK, rack
from tests.job.test_bad_inputs import problems_of
from tests.job.workbooks import a_sheet, parts_of_a_workbook, zipped

TEXTS = [
    case
    for case in RACK
    if case.joined
    and case.joined[0].name == "rack.csv"
    and case.joined[0].content
    and ";thick" not in str(case)
]


def a_cell(words):
    """A cell as a spreadsheet takes what is typed: a number if it is one, nothing if it is blank."""
    try:
        return float(words) if words else None
    except ValueError:
        return words


def as_workbook(case):
    """The same rack, its text put cell by cell into a workbook."""
    rows = list(csv.reader(StringIO(case.joined[0].content.decode())))
    return rack(
        case.name,
        zipped(parts_of_a_workbook(a_sheet(*([a_cell(cell) for cell in row] for row in rows)))),
        file="rack.xlsx",
    )


def _placed(problem):
    """Whether a problem is told at a line or cell, or of the whole file."""
    return bool(problem.where.line or problem.where.cell)


@pytest.mark.parametrize("case", TEXTS, ids=lambda case: case.name)
def test_what_is_wrong_with_a_rack_is_told_alike_of_text_and_of_a_workbook(case):
    of_text, _ = problems_of(case)
    of_book, _ = problems_of(as_workbook(case))

    one, two = (
        sorted((problem.code, problem.stops, _placed(problem)) for problem in found)
        for found in (of_text, of_book)
    )
    assert one == two


def boards(text):
    job, _ = read_job(rack("", BOARDS + text).source, rack("", BOARDS + text).joined)
    return job.rack


def test_a_fault_that_runs_off_the_board_ends_with_it():
    [board] = boards("B1,27,160,3000,,,20,2900-3100; 10-40@150-170\n")

    assert [fault.along for fault in board.faults] == [Span(Mm(2900), Mm(3000)), Span(Mm(10), Mm(40))]
    assert board.faults[1].across == Span(Mm(150), Mm(160))


@pytest.mark.parametrize(
    ("row", "doubt"),
    [
        ("B1,27,160,3000,,,20,0-100;80-140", "faults-overlap"),
        ("B1,27,160,3000,,,20,2900-3001", "fault-off-board"),
        ("B1,27,160,3000,400,,20,", "board-bowed"),
        ("B1,27,160,3000,,109,20,", "board-sprung"),
        ("B1,23.4,160,3000,,,20,", "board-thin"),
        ("B1,27,51,3000,,,20,", "board-narrow"),
        ("B1,27,160,299,,,20,", "board-short"),
        ("B1,27,160,299,30,,20,", "board-short"),
        ("B1,27,160,3000,,,20,299-2701", "board-faulty"),
        ("B1,27,160,3000,,,,", "price-missing"),
    ],
)
def test_a_joiner_can_go_on_with_what_is_only_doubtful(row, doubt):
    text = f"{BOARDS}{row}\nB2,27,160,3000,,,20,\n"

    job, _ = read_job(rack("", text).source, rack("", text).joined)

    assert [problem.code for problem in job.doubts] == [doubt]
    assert (job.doubts[0].where.line, job.doubts[0].where.name) == (2, "B1")
    assert len(job.rack) == 2


@pytest.mark.parametrize(
    "row",
    [
        "B1,27,160,3000,,,20,0-100;100-140",
        "B1,27,160,3000,,,20,2900-3000",
        "B1,27,160,3000,,108,20,",
        "B1,23.5,160,3000,,,20,",
        "B1,27,52,3000,,,20,",
        "B1,27,160,300,,,20,",
        "B1,27,160,3000,,,20,300-3000",
        "B1,27,160,3000,,,20,0-3000@0-159",
        "B1,27,160,3000,,,20,0-3000 back",
    ],
)
def test_what_just_does_is_no_doubt(row):
    text = f"{BOARDS}{row}\n"

    assert read_job(rack("", text).source, rack("", text).joined)[0].doubts == ()


SIZES = st.one_of(
    st.integers(-10, 4000), st.sampled_from(["", "5/4", "6 in", "8' 6\"", "x", "0", "1e3", "2,5"])
)
FAULTS = st.one_of(
    st.just(""),
    st.builds("{}-{}".format, st.integers(0, 3500), st.integers(0, 3500)),
    st.builds("{}-{}@{}-{} back".format, *[st.integers(0, 400)] * 4),
    st.sampled_from(["knot", "0-", "@3", ";;"]),
)


@given(rows=st.lists(st.tuples(st.sampled_from(["B1", "B2", "b 1", ""]), *[SIZES] * 6, FAULTS), max_size=4))
def test_any_rack_is_read_or_told_of_and_never_brings_the_reader_down(rows):
    written = StringIO()
    csv.writer(written).writerows(rows)
    case = rack("", BOARDS + written.getvalue())

    job, _, problems = read_what_stands(case.source, case.joined)

    assert job is not None
    if not any(problem.stops for problem in problems):
        assert len(job.rack) == len([row for row in rows if any(str(cell) for cell in row)])
    for board in job.rack:
        assert all(fault.along.high <= board.length for fault in board.faults)
