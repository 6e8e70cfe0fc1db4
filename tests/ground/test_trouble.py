"""A problem is said with its place, what is wrong and what would mend it."""

import pytest

from pinchrod.ground import NotYetRight, Problem, Where, doubts_of, must_be_right

K1 = Where(name="K1", file="job.toml", line=12, column=9)


def a_problem(*, where=K1, stops=True):
    return Problem(
        where=where, code="thin-web", what="the web is 9 mm", mend="make the stile wider", stops=stops
    )


@pytest.mark.parametrize(
    ("where", "said"),
    [
        (K1, "job.toml:12:9"),
        (Where(file="job.toml", line=12), "job.toml:12"),
        (Where(file="job.toml"), "job.toml"),
        (Where(file="frames.xlsx", cell="Frames!B3"), "frames.xlsx:Frames!B3"),
        (Where(file="frames.xlsx", cell="Frames!B3", line=3), "frames.xlsx:Frames!B3"),
        (Where(name="K1"), ""),
        (Where(line=3), "3"),
        (Where(), ""),
    ],
)
def test_a_place_is_said_as_file_line_and_column_or_as_a_cell(where, said):
    assert str(where) == said


def test_a_place_can_be_called_by_another_name():
    assert K1.called("K1, left stile") == Where(name="K1, left stile", file="job.toml", line=12, column=9)


@pytest.mark.parametrize(
    ("where", "said"),
    [
        (K1, "job.toml:12:9: K1: the web is 9 mm; make the stile wider"),
        (Where(name="K1"), "K1: the web is 9 mm; make the stile wider"),
        (Where(file="job.toml"), "job.toml: the web is 9 mm; make the stile wider"),
        (Where(), "the web is 9 mm; make the stile wider"),
    ],
)
def test_a_problem_is_said_with_its_place_its_fault_and_its_mend(where, said):
    assert str(a_problem(where=where)) == said


def test_a_problem_stops_the_work_unless_it_says_it_does_not():
    assert Problem(where=K1, code="c", what="w", mend="m").stops


def test_doubts_go_on_with_the_answer():
    doubts = [a_problem(stops=False), a_problem(stops=False)]

    assert doubts_of(iter(doubts)) == tuple(doubts)
    assert doubts_of([]) == ()


def test_one_problem_that_stops_the_work_brings_all_of_them_up():
    found = [a_problem(stops=False), a_problem(), a_problem(stops=False)]

    with pytest.raises(NotYetRight) as caught:
        doubts_of(iter(found))

    assert caught.value.problems == tuple(found)
    assert str(caught.value) == "\n".join(str(problem) for problem in found)


def test_what_a_judge_finds_in_our_own_work_is_a_fault_of_ours_with_every_flaw_named():
    must_be_right("the sticks are", ())

    with pytest.raises(RuntimeError, match=r"^the sticks are not right: S1: too long; S2: no such board$"):
        must_be_right("the sticks are", ("S1: too long", "S2: no such board"))
