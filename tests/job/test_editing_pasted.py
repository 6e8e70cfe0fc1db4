"""Frames pasted from a spreadsheet, and a job that begins on a page."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.ground import Mm
from pinchrod.job import (
    Source,
    a_new_job,
    frames_in,
    pasted,
    read_job,
    read_what_stands,
    with_frames,
)
from pinchrod.job.limits import USUAL
from pinchrod.setting_out import set_out
from tests.job.edits import frames_of, sizes

ROWS = [["K1", "600", "720", "pair"], ["K2", '23 5/8"', "720", "drawer 140 over pair"]]
NAMED = [["Layout", "ID", "Height", "Width (mm)"], *([row[3], row[0], row[2], row[1]] for row in ROWS)]


def with_tabs(rows):
    return "\n".join("\t".join(row) for row in rows)


def said_in(text):
    return [dict(frame.words) for frame in frames_in(pasted(text).source)]


def told_of(text):
    found = pasted(text)
    _, _, problems = read_what_stands(found.source)
    return [(problem.code, problem.where.line) for problem in found.told(problems)]


WORDS = [dict(zip(("id", "width", "height", "layout"), row, strict=True)) for row in ROWS]


@pytest.mark.parametrize(
    "text",
    [
        with_tabs(ROWS),
        with_tabs(ROWS) + "\r\n",
        "\ufeff" + with_tabs(ROWS),
        "\n\n" + with_tabs(ROWS).replace("\n", "\n\n\t\t\t\n"),
        with_tabs(NAMED),
        'K1;600;720;pair\nK2;23 5/8";720;drawer 140 over pair',
        'K1, 600, 720, pair\nK2, 23 5/8", 720, drawer 140 over pair',
    ],
)
def test_rows_are_read_with_a_header_or_without_however_they_are_parted(text):
    assert said_in(text) == WORDS


def test_a_fifth_column_without_a_name_is_how_many():
    text = with_tabs([[*ROWS[0], "3"], ROWS[1]])

    assert said_in(text) == [{**WORDS[0], "quantity": "3"}, WORDS[1]]


def test_a_quoted_cell_over_two_lines_is_one_cell():
    assert said_in('K1\t600\t720\t"drawer 140\nover ""pair"""')[0]["layout"] == 'drawer 140\nover "pair"'


def test_faults_are_told_at_the_line_they_were_pasted_in():
    rows = [["K1", "6OO", "720", "pair"], ["K2", "600", "720", "pear"], ["K3", "600"]]

    without = told_of(with_tabs(rows))
    below = told_of(with_tabs([["id", "width", "height", "layout"], *rows]))

    assert without == [("length-letters", 1), ("unknown-word", 2), ("missing", 3), ("missing", 3)]
    assert below == [(code, line + 1) for code, line in without]


def test_lines_told_in_words_are_those_that_were_pasted():
    found = pasted(with_tabs([ROWS[0], ROWS[0]]))
    _, _, problems = read_what_stands(found.source)

    [twice] = found.told(problems)

    assert (twice.where.line, twice.what) == (2, 'the id "K1" stands already at pasted.csv:1:1')


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("", ["empty-file"]),
        ("\n\t\n", ["no-frames"]),
        ("id\twidth\theight\tlayout", ["no-frames"]),
        ("K1\t600\t\0\tpair", ["nul"]),
        ("K1\t600\t\ud800\tpair", ["letters-mixed"]),
        ("K1\t600\t720\tpair\t1\tmore", ["row-long"]),
        ('K1\t600\t720\t"pair', ["quote-open"]),
        ("\n" * 20_001 + "K1\n" * 20_001, ["rows-many"]),
    ],
)
def test_a_text_that_is_no_list_is_told_of(text, codes):
    assert [code for code, _ in told_of(text)] == codes


@given(text=st.text(alphabet='K16\t\n",;p ir', max_size=40))
def test_any_text_may_be_pasted(text):
    found = pasted(text)
    _, _, problems = read_what_stands(found.source)

    lines = max(text.count("\n"), 0) + 1
    assert all(problem.where.line <= lines for problem in found.told(problems))


@given(
    rows=st.lists(
        st.tuples(st.integers(20, 6000), st.sampled_from(["pair", "2 doors", "open"]), st.integers(1, 9)),
        min_size=1,
        max_size=6,
    )
)
def test_pasted_frames_read_in_a_job_file_as_they_do_in_a_list(rows):
    text = with_tabs(
        [[f"F{at}", str(width), "720", layout, str(count)] for at, (width, layout, count) in enumerate(rows)]
    )
    frames = [frame.words for frame in frames_in(pasted(text).source)]

    new = with_frames(a_new_job("A"), (), frames)

    assert frames_of(new.main) == frames_of(pasted(text).source)


def begun(*args, **said):
    """A new job with its first frame, read."""
    job, shop = read_job(with_frames(a_new_job(*args, **said), (), [tuple(WORDS[0].items())]).main)
    return job, shop


def test_a_new_job_says_what_was_given():
    job, _ = begun('Saltmarsh "Row"', customer="C:\\ 'x' \"y\"", timber="red oak", thickness="7/8 in")

    assert (job.name, job.customer, job.timber.name) == ('Saltmarsh "Row"', "C:\\ 'x' \"y\"", "red-oak")
    assert job.thickness == Mm("22.225")


def test_a_new_job_with_its_first_frame_is_set_out():
    job, shop = begun("Saltmarsh Row, plot 8")

    rods = set_out(job, shop)

    assert [rod.frame.id for rod in rods.rods] == ["K1"]
    assert job.doubts == ()


def test_a_new_job_has_every_usual_size_and_owns_up_to_none_of_them():
    bare, _ = read_job(Source(name="job.csv", content=b"id,width,height,layout\nK1,600,720,pair\n"))

    job, _ = begun("A")

    owned = set(bare.assumed) - set(job.assumed)
    assert len(owned) == len(USUAL) + 3  # and the name, the timber, the joint
    assert sizes(job.frames[0]) == sizes(bare.frames[0])
    assert (job.bead, job.gaps, job.thickness, job.joint) == (
        bare.bead,
        bare.gaps,
        bare.thickness,
        bare.joint,
    )


TYPED = st.text(max_size=90)


@given(name=TYPED, customer=TYPED, timber=TYPED, thickness=TYPED)
def test_whatever_is_typed_for_a_new_job_is_read_to_the_letter_or_told_of(name, customer, timber, thickness):
    source = a_new_job(name, customer=customer, timber=timber, thickness=thickness)

    said = tomllib.loads(source.content.decode())["job"]

    given_words = {"name": name, "customer": customer, "timber": timber, "thickness": thickness}
    kept = {key: words.strip() for key, words in given_words.items() if words.strip()}
    assert {key: str(said[key]) for key in kept} == kept
    assert set(said) == {*kept, "joint"}


def test_half_a_letter_in_a_new_jobs_name_is_told_of():
    _, _, problems = read_what_stands(a_new_job("\ud800"))

    assert [problem.code for problem in problems] == ["letters-mixed"]
