"""Diagonals: what they say of a frame, what they do not, and which way to pull."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.fit import Diagonals, Verdict, check_taped, lean_of, pull_of, squareness, table_for, taped_from
from pinchrod.ground import Mm
from pinchrod.job import Shop, Taping
from pinchrod.setting_out import set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening

TAPING = Taping()
CORNERS = ("lower left", "lower right", "upper right", "upper left")


def a_rod(layout=None, **said):
    [rod] = set_out(a_job(a_frame(layout, **said)), Shop()).rods
    return rod


def taped(rising, falling):
    return Diagonals(rising=Mm(str(rising)), falling=Mm(str(falling)))


def refused(rod, read):
    """The problem that two readings are refused with."""
    problem = check_taped(rod, read, TAPING)
    assert problem is not None
    return problem


def corners_leaning(width, height, lean):
    """The corners of a frame whose sides kept their lengths while its top went so far to the right."""
    up = (height**2 - lean**2) ** 0.5
    return (0.0, 0.0), (width, 0.0), (width + lean, up), (lean, up)


def diagonals_of(width, height, lean):
    """The diagonals of that frame, by its corners alone."""
    lower_left, lower_right, upper_right, upper_left = corners_leaning(width, height, lean)
    rising = hypot(upper_right[0] - lower_left[0], upper_right[1] - lower_left[1])
    falling = hypot(upper_left[0] - lower_right[0], upper_left[1] - lower_right[1])
    return Diagonals(rising=Mm(rising), falling=Mm(falling))


sides = st.integers(min_value=300, max_value=3000)
leans = st.floats(min_value=-30, max_value=30)


@given(sides, sides, leans)
def test_a_frame_that_was_made_to_lean_is_found_to_lean_by_just_so_much(width, height, lean):
    found = lean_of(diagonals_of(width, height, lean), Mm(width))

    assert float(found) == pytest.approx(lean, abs=1e-6)


@given(sides, sides, leans)
def test_the_squares_of_the_diagonals_of_any_leaning_frame_add_up_to_those_of_its_four_sides(
    width, height, lean
):
    each = diagonals_of(width, height, lean)

    assert float(each.rising**2 + each.falling**2) == pytest.approx(2 * (width**2 + height**2), rel=1e-12)


@pytest.mark.parametrize(
    ("width", "height", "degrees", "longer", "shorter", "difference"),
    [
        (700, 400, 89.5, "809.2508", "803.1894", "6.0614"),
        (2000, 600, 89.8, "2090.0664", "2086.0543", "4.0121"),
    ],
)
def test_the_worked_cases_come_out_as_they_were_worked(width, height, degrees, longer, shorter, difference):
    each = taped(longer, shorter)
    lean = height * cos(radians(degrees))

    assert float(lean_of(each, Mm(width))) == pytest.approx(lean, abs=2e-4)
    assert each.rising - each.falling == Mm(difference)
    assert float(each.rising**2 + each.falling**2) == pytest.approx(2 * (width**2 + height**2), abs=0.5)
    # the table's own way back: the sine of the angle off square is (d1² - d2²) / 4ab
    assert float(lean_of(each, Mm(width))) / height == pytest.approx(sin(radians(90 - degrees)), abs=1e-6)


def test_a_frame_of_three_to_four_has_a_diagonal_of_five():
    table = table_for(a_rod(width=3000, height=4000), TAPING)

    assert table.diagonal == 5000


def test_a_longer_diagonal_from_lower_left_is_a_top_too_far_right_and_is_clamped_across():
    rising, falling = taped(938, 936), taped(936, 938)

    assert lean_of(rising, Mm(600)) > 0 > lean_of(falling, Mm(600))
    assert pull_of(rising) == "clamp across from lower left to upper right"
    assert pull_of(falling) == "clamp across from upper left to lower right"
    assert pull_of(taped(937, 937)) == ""


def test_clamping_across_the_longer_diagonal_makes_it_shorter():
    """A clamp draws its two corners together: of the leaning frame's corners those it names are farther apart."""
    for lean in (-5, 5):
        each = diagonals_of(600, 720, lean)
        corners = dict(zip(CORNERS, corners_leaning(600, 720, lean), strict=True))
        one, other = pull_of(each).removeprefix("clamp across from ").split(" to ")
        drawn = hypot(
            *(a - b for a, b in zip(corners[one], corners[other], strict=True)),
        )

        assert drawn == pytest.approx(float(max(each.rising, each.falling)))


def test_two_readings_that_no_frame_of_this_size_has_are_refused_with_what_the_other_should_be():
    problem = refused(a_rod(), taped(938, 918))  # 600 x 720: 937.2 in both

    assert problem.code == "diagonals-misread"
    assert problem.stops
    assert "937.2 in both" in problem.what
    assert "if 938 is right, the other is about 936.5, not 918" in problem.mend


def test_two_readings_alike_but_far_from_the_frame_s_are_taken_for_another_frame_s():
    problem = refused(a_rod(), taped("812.5", 815))

    assert problem.code == "diagonals-misread"
    assert problem.mend == "tape both again, and look whether it is this frame, made to its size"


@given(sides, sides, st.floats(min_value=-20, max_value=20), st.data())
def test_no_frame_that_leans_is_refused_for_what_the_tape_cannot_tell(width, height, lean, data):
    rod = a_rod(width=width, height=height)
    off = st.floats(min_value=-0.5, max_value=0.5)
    each = diagonals_of(width + data.draw(off), height + data.draw(off), lean)
    read = taped(float(each.rising) + data.draw(off), float(each.falling) + data.draw(off))

    assert check_taped(rod, read, TAPING) is None


@given(sides, sides, leans, st.sampled_from([-10, 10, 100]))
def test_a_slip_of_a_centimetre_in_one_reading_is_always_caught(width, height, lean, slip):
    """Beyond what the tape leaves open in all that is taped: at most 0.5 x (d1 + d2 + 2a + 2b) / d."""
    rod = a_rod(width=width, height=height)
    each = diagonals_of(width, height, lean)

    read = Diagonals(rising=each.rising + slip, falling=each.falling)

    assert refused(rod, read).code == "diagonals-misread"


def test_a_frame_far_from_its_size_is_refused_even_if_its_diagonals_are_alike():
    assert check_taped(a_rod(), taped(950, 950), TAPING) is not None
    assert check_taped(a_rod(), taped(937, 937.5), TAPING) is None


def test_a_door_s_gap_narrows_by_as_much_as_its_share_of_the_frame():
    rod = a_rod(a_stack(an_opening("drawer", 140), an_opening("door")))

    found = squareness(rod, diagonals_of(600, 720, 7.2), TAPING)

    drawer, door = found.tapers
    assert float(found.lean) == pytest.approx(7.2)
    assert float(drawer.over_height) == pytest.approx(1.36)  # 136 of 720
    assert float(door.over_height) == pytest.approx(4.33)  # 720 - 60 - 140 - 38 - 45 - 4 = 433
    assert float(door.over_width) == pytest.approx(5.06)  # 600 - 90 - 4 = 506
    assert (drawer.most, door.most) == (drawer.over_height, door.over_width)
    assert (drawer.binds, door.binds) == (False, True)
    assert found.worst == door
    assert found.verdict is Verdict.PULL


@given(sides, sides, leans)
def test_a_gap_narrows_as_the_opening_s_own_corners_say(width, height, lean):
    """The opening leans with its frame: a level front beside its edge, or a true one below its top."""
    rod = a_rod(width=width, height=height)
    [opening], [front] = rod.openings, rod.fronts
    [taper] = squareness(rod, diagonals_of(width, height, lean), TAPING).tapers

    up = (height**2 - lean**2) ** 0.5
    along_stile = (lean / height, up / height)
    beside = abs(along_stile[0]) * float(front.height)

    assert float(taper.over_height) == pytest.approx(beside, abs=1e-6)
    assert float(taper.over_width) == pytest.approx(abs(along_stile[0]) * float(front.width), abs=1e-6)
    assert taper.gap == front.corner.x - opening.x.low == 2


@pytest.mark.parametrize(
    ("lean", "verdict"),
    [(0, Verdict.LEAVE), (0.7, Verdict.LEAVE), (0.78, Verdict.CANNOT_TELL), (2, Verdict.PULL)],
)
def test_a_frame_is_pulled_only_if_a_gap_shows_it_and_the_tape_can_tell(lean, verdict):
    rod = a_rod()  # its door is 611 high: 0.7 of 720 shows 0.59

    found = squareness(rod, diagonals_of(600, 720, lean), Taping(taper=Mm("0.6")))

    assert float(found.give_or_take) == pytest.approx(0.78, abs=0.005)
    assert found.verdict is verdict


def test_a_frame_without_doors_is_judged_by_all_that_it_leans():
    rod = a_rod(an_opening("open"))

    found = squareness(rod, diagonals_of(600, 720, 3), TAPING)

    assert found.worst is None
    assert found.verdict is Verdict.PULL
    assert squareness(rod, diagonals_of(600, 720, 0.4), TAPING).verdict is Verdict.LEAVE


def test_feet_are_made_to_stand_apart_like_the_top_before_they_are_taped_from():
    feet = "first make the stiles' feet stand as far apart as the top"

    assert feet in taped_from(a_rod(foot=100))
    assert feet in taped_from(a_rod(bottom_rail=0))
    assert feet not in taped_from(a_rod())


@given(sides, sides)
def test_the_table_at_the_bench_says_what_taping_would_say(width, height):
    rod = a_rod(a_row(an_opening(), an_opening()), width=max(width, 400), height=height)
    frame = rod.frame

    for row in table_for(rod, TAPING).rows:
        each = diagonals_of(float(frame.width), float(frame.height), float(row.lean))
        found = squareness(rod, each, TAPING)

        assert float(each.rising - each.falling) == pytest.approx(float(row.difference), abs=1e-5)
        assert found.worst
        assert float(found.worst.most) == pytest.approx(float(row.taper), abs=1e-6)


@given(sides, sides)
def test_from_the_difference_the_table_names_on_a_gap_narrows_by_more_than_is_let_pass(width, height):
    rod = a_rod(width=width, height=height)
    table = table_for(rod, TAPING)
    slope = table.rows[0].taper / table.rows[0].difference

    assert float(table.pull_from * slope) == pytest.approx(0.5, rel=1e-3)
