"""The moulder's figures, held against worked cases and published rules for cutter marks."""

import math

import pytest

from pinchrod.ground import INCH, Mm
from pinchrod.job import Moulder
from pinchrod.machining import cutter_marks, feed_advice, feed_for

MPH = 0.44704  # m/s


def a_moulder(
    diameter: object, speed: int, knives: int = 2, feed: object = 6, *, jointed: bool = True
) -> Moulder:
    return Moulder(
        diameter=Mm(str(diameter)), speed=Mm(speed), knives=knives, feed=Mm(str(feed)), jointed=jointed
    )


@pytest.mark.parametrize(
    ("inches", "speed", "miles_an_hour"),
    [("0.5", 10000, 14.87), ("0.5", 25000, 37.19), ("3", 10000, 89.25), ("3", 25000, 223.12)],
)
def test_rim_speeds_are_those_a_published_article_prints(inches, speed, miles_an_hour):
    """An article on the speed of router bits: "almost 15", "37", "nearly 90" and "223" mph."""
    marks = cutter_marks(a_moulder(Mm(inches) * INCH, speed))

    assert float(marks.rim_speed) / MPH == pytest.approx(miles_an_hour, abs=0.01)


@pytest.mark.parametrize(
    ("moulder", "pitch", "microns", "to_the_inch", "rim"),
    [
        (a_moulder(125, 6000, 4, 24), 1.000, 2.00, 25.4, 39.27),
        (a_moulder(100, 7000, 2, 12), 0.857, 1.837, 29.6, 36.65),
        (a_moulder(100, 5000, 2, 8), 0.800, 1.60, 31.75, 26.18),
    ],
)
def test_worked_cases_of_cutter_marks(moulder, pitch, microns, to_the_inch, rim):
    marks = cutter_marks(moulder)

    assert float(marks.pitch) == pytest.approx(pitch, abs=0.0005)
    assert 1000 * float(marks.wave) == pytest.approx(microns, abs=0.005)
    assert float(marks.to_the_inch) == pytest.approx(to_the_inch, abs=0.05)
    assert float(marks.rim_speed) == pytest.approx(rim, abs=0.005)


def test_the_range_of_feeds_of_a_published_trial_gives_the_pitches_reckoned_from_it():
    """Plane milling of oak, two blades, 3000 to 5000 rev/min, 6 to 14 m/min: 0.60 to 2.33 mm."""
    finest, coarsest = a_moulder(125, 5000, 2, 6), a_moulder(125, 3000, 2, 14)

    assert float(cutter_marks(finest).pitch) == pytest.approx(0.60, abs=0.005)
    assert float(cutter_marks(coarsest).pitch) == pytest.approx(2.33, abs=0.005)


def test_the_wave_is_the_height_between_two_circles_of_the_cutter():
    """By Pythagoras, without the textbook's shortening: r - sqrt(r2 - (p/2)2)."""
    marks = cutter_marks(a_moulder(125, 6000, 2, 12))
    radius, half = 62.5, float(marks.pitch) / 2

    assert float(marks.wave) == pytest.approx(radius - math.sqrt(radius**2 - half**2), rel=1e-4)


def test_only_one_knife_makes_the_surface_unless_they_are_jointed():
    plain, jointed = (cutter_marks(a_moulder(125, 6000, 4, 6, jointed=said)) for said in (False, True))

    assert plain.pitch == 4 * jointed.pitch == 1


@pytest.mark.parametrize(
    ("pitch", "good_for"),
    [
        ("0.5", "fine detail in hardwood"),  # 50 marks to the inch: 0.508 mm
        ("0.52", "finished joinery"),
        ("1.27", "finished joinery"),  # 20 to the inch
        ("1.28", "simple shallow profiles in softwood"),
        ("1.58", "simple shallow profiles in softwood"),  # 16 to the inch: 1.5875
        ("1.6", "low grade"),
        ("2.11", "low grade"),  # 12 to the inch: 2.1167
    ],
)
def test_a_feed_is_good_for_the_finest_work_whose_marks_it_keeps_to(pitch, good_for):
    moulder = a_moulder(125, 6000, feed=Mm(pitch) * 6, jointed=False)

    finish = feed_advice(moulder).good_for

    assert finish is not None
    assert finish.name == good_for
    assert "FDMC" in finish.source or "maker" in finish.source


def test_a_feed_coarser_than_any_finish_is_good_for_nothing():
    assert feed_advice(a_moulder(125, 6000, feed=13, jointed=False)).good_for is None


def test_at_the_advised_feeds_marks_are_as_far_apart_as_the_advice_says():
    moulder = a_moulder(125, 6000, feed=9, jointed=False)
    advice = feed_advice(moulder)

    assert cutter_marks(a_moulder(125, 6000, feed=advice.fastest, jointed=False)).to_the_inch == 20
    assert cutter_marks(a_moulder(125, 6000, feed=advice.slowest, jointed=False)).to_the_inch == 50
    assert feed_for(moulder, cutter_marks(moulder).pitch) == 9
    assert "20 marks an inch at least: FDMC" in advice.source
