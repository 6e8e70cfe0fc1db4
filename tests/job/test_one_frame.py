"""One frame read by itself says what it says in its job, and what is wrong with it at the name it is of."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.ground import Mm
from pinchrod.job import (
    FrameWords,
    Source,
    frames_as_said,
    one_frame,
    read_job,
    read_what_stands,
    usual_members,
)
from tests.web.serving import demo_files

DEMO = demo_files()
JOB, _ = read_job(DEMO.main, DEMO.joined)
FRAMES = frames_as_said(DEMO.main, DEMO.joined)
USUAL = usual_members(DEMO.main)
SAID = {"id": "K1", "width": "600", "height": "720", "layout": "pair"}
HEAD = "pinchrod = 1\n[members]\nstile = 52\nmuntin = 31\n"

LENGTHS = ["600", "23 5/8 in", "60 cm", "1,234", "60o", "", " 720 ", "0", "9999", "5/8", "-5", "19"]
PHRASES = ["pair", "3 drawers", "drawer 140 over pair", "pare", "", "open over", "door beside door over pair"]


@pytest.mark.parametrize("said", FRAMES, ids=[frame.id for frame in FRAMES])
def test_every_frame_of_the_demo_job_is_read_alone_as_in_its_job(said: FrameWords):
    [whole] = [frame for frame in JOB.frames if frame.id == said.id]

    alone = one_frame(USUAL, said.words).frame

    assert alone is not None
    for name in type(whole).__slots__:
        if name not in ("where", "layout_where"):
            assert getattr(alone, name) == getattr(whole, name), name


@settings(deadline=None, max_examples=150)
@given(
    st.fixed_dictionaries(
        {
            "id": st.sampled_from(["K1", "K 2", "K/1", "", "CON"]),
            "width": st.sampled_from(LENGTHS),
            "height": st.sampled_from(LENGTHS),
            "layout": st.sampled_from(PHRASES),
        },
        optional={
            "quantity": st.sampled_from(["1", "2", "1.5", "0", "many"]),
            "foot": st.sampled_from(LENGTHS),
            "left_stile": st.sampled_from(LENGTHS),
            "bottom_rail": st.sampled_from(["0", "45", "301"]),
        },
    )
)
def test_alone_and_in_its_job_the_same_problems_are_found(said: dict[str, str]):
    lines = "".join(f"{key} = '{word}'\n" for key, word in said.items() if word.strip())
    source = Source(name="job.toml", content=f"{HEAD}[[frame]]\n{lines}".encode())
    _, _, in_job = read_what_stands(source)

    alone = one_frame(usual_members(source), tuple(said.items()))

    assert sorted(problem.code for problem in alone.problems) == sorted(problem.code for problem in in_job)
    assert (alone.frame is None) == any(problem.stops for problem in alone.problems)


@pytest.mark.parametrize(
    ("key", "word"),
    [("id", "K/1"), ("width", "60o"), ("height", ""), ("layout", "pare"), ("quantity", "1.5"), ("foot", "-3"), ("muntin", "0")],
)  # fmt: skip
def test_each_problem_stands_at_the_name_it_is_of(key: str, word: str):
    found = one_frame(USUAL, tuple({**SAID, key: word}.items()))

    assert {problem.where.cell for problem in found.problems} == {key}


def test_a_name_that_no_frame_has_is_told_of():
    [problem] = one_frame(USUAL, (*SAID.items(), ("depth", "300"))).problems

    assert problem.code == "unknown-name"


def test_what_is_left_blank_is_as_usual_in_the_job():
    usual = usual_members(Source(name="job.toml", content=HEAD.encode()))
    frame = one_frame(usual, (*SAID.items(), ("right_stile", " "))).frame

    assert frame is not None
    assert (frame.left_stile, frame.right_stile, frame.muntin, frame.top_rail) == (52, 52, 31, 60)
    assert frame.foot == Mm(0)
