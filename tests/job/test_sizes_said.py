"""A size said in words is the same size in a job file, a text list and a workbook."""

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Source, read_job
from tests.job.bad_inputs import a_frame_saying
from tests.job.workbooks import ROW, a_workbook

SAID = {
    "24 inches": "609.6",
    "24 Inches": "609.6",
    "12 ins": "304.8",
    "30 inch": "762",
    "2 feet": "609.6",
    "6 foot": "1828.8",
    "1 metre": "1000",
    "2 metres": "2000",
    "60 centimetres": "600",
    "5-Aug": None,
    "8 Dec": None,
    "5/8/2026": None,
}


def said_each_way(size):
    """The same frame in a job file, a text list and a workbook."""
    return (
        Source(name="job.toml", content=a_frame_saying(width=f'"{size}"').encode()),
        Source(name="frames.csv", content=f"id,width,height,layout\nK1,{size},720,pair\n".encode()),
        Source(name="frames.xlsx", content=a_workbook((ROW[0], size, *ROW[2:]))),
    )


@pytest.mark.parametrize(("size", "width"), [(size, width) for size, width in SAID.items() if width])
def test_a_unit_may_be_written_out_wherever_a_size_stands(size, width):
    jobs = [read_job(source)[0] for source in said_each_way(size)]

    assert [job.frames[0].width for job in jobs] == [Mm(width)] * 3


def test_a_size_with_a_hyphen_before_its_unit_is_no_day():
    for source in said_each_way("24-inches"):
        with pytest.raises(NotYetRight) as trouble:
            read_job(source)

        assert [problem.code for problem in trouble.value.problems] == ["length-sign"]


@pytest.mark.parametrize("size", [size for size, width in SAID.items() if width is None])
def test_a_day_is_told_of_as_one_wherever_a_size_stands(size):
    for source in said_each_way(size):
        with pytest.raises(NotYetRight) as trouble:
            read_job(source)

        assert [problem.code for problem in trouble.value.problems] == ["date-for-size"]
