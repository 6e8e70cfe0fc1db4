"""The dimensions of a frame: each distance once, parts that add up, all where they can be read."""

from itertools import pairwise

import pytest

from pinchrod.ground import Mm, rounded, show
from pinchrod.job import Side
from pinchrod.papers import Chain, Dimension, RunningDimension
from pinchrod.papers.frames.frame_dimensions import dimension_frame
from pinchrod.papers.frames.hinge_centres import centres_in_words
from tests.builders import a_row, a_stack, an_opening
from tests.papers.frame_builders import DOOR_BESIDE_DRAWERS, DRAWER_OVER_PAIR, TENTH, a_rod, random_rods


def dimensions_of(rod, per=10, step=TENTH):
    return dimension_frame(rod, step, per)


def marks_of(found, kind, axis):
    marks = (mark for row in found.rows for mark in row.dimensions)
    return [mark for mark in marks if isinstance(mark, kind) and mark.axis == axis]


def number(text):
    return Mm(text.strip("()"))


def test_a_plain_frame_is_dimensioned_by_its_members_its_sights_and_its_whole():
    rod, _ = a_rod(DRAWER_OVER_PAIR)

    found = dimensions_of(rod)

    assert [chain.texts for chain in marks_of(found, Chain, "x")] == [("45", "510", "45")]
    assert [chain.texts for chain in marks_of(found, Chain, "y")] == [("45", "437", "38", "140", "60")]
    assert [mark.text for mark in marks_of(found, Dimension, "x")] == ["600"]
    assert [mark.text for mark in marks_of(found, Dimension, "y")] == ["720"]


def test_a_foot_is_part_of_the_chain():
    rod, _ = a_rod(foot=100)

    [chain] = marks_of(dimensions_of(rod), Chain, "y")

    assert chain.texts == ("100", "45", "515", "60")


def test_what_a_second_chain_repeats_stands_in_brackets():
    rod, _ = a_rod(a_row(a_stack(*[an_opening("drawer")] * 2), DRAWER_OVER_PAIR), width=1500, height=900)

    left, right = marks_of(dimensions_of(rod), Chain, "y")

    assert left.texts == ("45", "378.5", "38", "378.5", "60")
    assert right.texts == ("(45)", "617", "38", "140", "(60)")


def test_a_size_that_a_chain_gives_stands_in_brackets_in_its_opening():
    rod, _ = a_rod(DOOR_BESIDE_DRAWERS, width=1200)
    found = dimensions_of(rod)

    said = [found.size_of(opening) for opening in rod.openings]

    assert said == ["(536) × 615", "(536 × 179.7)", "(536 × 179.6)", "(536 × 179.7)"]


@pytest.mark.parametrize("step", ["0.1", "0.5", "1"])
@pytest.mark.parametrize("seed", range(3))
def test_the_parts_of_every_chain_add_up_to_the_whole_as_printed(seed, step):
    step = Mm(step)
    for rod, _ in random_rods(seed + 40, 12):
        found = dimensions_of(rod, per=20, step=step)

        for axis, whole in (("x", rod.frame.width), ("y", rod.frame.height)):
            [overall] = marks_of(found, Dimension, axis)
            assert Mm(overall.text) == rounded(whole, step)
            for chain in marks_of(found, Chain, axis):
                assert sum(map(number, chain.texts)) == Mm(overall.text)


@pytest.mark.parametrize("seed", range(3))
def test_every_number_of_a_chain_is_the_distance_of_its_points(seed):
    for rod, _ in random_rods(seed + 50, 12):
        for axis in ("x", "y"):
            for chain in marks_of(dimensions_of(rod, per=20), Chain, axis):
                along = [getattr(spot, axis) for spot in chain.points]
                gaps = [b - a for a, b in pairwise(along)]
                assert all(
                    abs(gap - float(number(text))) <= 0.1 + 1e-9
                    for gap, text in zip(gaps, chain.texts, strict=True)
                )


def test_no_distance_is_given_twice_without_brackets():
    for rod, _ in random_rods(60, 25):
        for axis in ("x", "y"):
            given = [
                (gap, text)
                for chain in marks_of(dimensions_of(rod, per=20), Chain, axis)
                for gap, text in zip(
                    pairwise(getattr(spot, axis) for spot in chain.points), chain.texts, strict=True
                )
            ]
            plain = [gap for gap, text in given if not text.startswith("(")]
            assert len(plain) == len(set(plain))
            assert {gap for gap, text in given if text.startswith("(")} <= set(plain)


def test_hinges_of_a_pair_are_given_once_from_the_bottom_of_the_frame():
    rod, _ = a_rod(DRAWER_OVER_PAIR)

    found = dimensions_of(rod)

    [hinges] = marks_of(found, RunningDimension, "y")
    assert hinges.texts == ("141.5", "385.5")  # 45 + 2 + 1 1/2 x 63, and as far below the rail
    assert {spot.x for spot in hinges.points} == {600}
    assert found.hinges_said == {"K1.2L", "K1.2R"}


def test_where_only_the_left_stile_carries_hinges_they_stand_on_the_left_and_the_heights_on_the_right():
    rod, _ = a_rod(an_opening("door", hung=Side.LEFT))

    found = dimensions_of(rod)

    [hinges], [chain] = marks_of(found, RunningDimension, "y"), marks_of(found, Chain, "y")
    assert {spot.x for spot in hinges.points} == {0}
    assert {spot.x for spot in chain.points} == {600}


def test_hinges_on_a_muntin_are_said_in_words():
    rod, _ = a_rod(a_row(*[an_opening()] * 3), width=1500)
    found = dimensions_of(rod)

    [words] = centres_in_words(rod, found.hinges_said, TENTH)

    centres = ", ".join(show(at, TENTH) for at in rod.openings[1].fronts[0].hinges)
    assert found.hinges_said == {"K1.1", "K1.3"}
    assert words == f"Hinge centres, up from the foot of K1.2: {centres}."


def test_sections_too_close_to_dimension_are_owned_up_to():
    drawers = a_stack(*[an_opening("drawer")] * 30)
    rod, _ = a_rod(drawers, height=2400)

    far_off, near_by = dimensions_of(rod, per=50), dimensions_of(rod, per=2)

    assert far_off.left_out == ("heights",)
    assert [mark.text for mark in marks_of(far_off, Dimension, "y")] == ["2400"]
    assert near_by.left_out == ()


def test_a_close_set_section_runs_from_the_bottom_up_instead():
    rod, _ = a_rod(a_row(*[an_opening("drawer")] * 8), width=2400)

    [running] = marks_of(dimensions_of(rod, per=20), RunningDimension, "x")

    assert running.datum.x == 0
    assert [Mm(text) for text in running.texts][-1] == 2400
    assert all(
        abs(float(Mm(text)) - spot.x) <= 0.05 + 1e-9
        for text, spot in zip(running.texts, running.points, strict=True)
    )
