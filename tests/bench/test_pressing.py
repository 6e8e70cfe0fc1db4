"""Clamps: where they stand, how far they open, how hard they press, and who needs none."""

import random
from dataclasses import replace

import pytest
import shapely
from shapely.geometry import LineString

from pinchrod.bench import order_bench_work
from pinchrod.fit import table_for
from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Glue, Joint, Shop
from pinchrod.setting_out import set_out
from tests.bench.moving import face
from tests.builders import POPLAR, a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

OAK = replace(POPLAR, name="white-oak", density=Mm(760))
UNKNOWN = replace(POPLAR, name="applewood", density=None)


def gluing_of(frame, joint=Joint.DOWEL, timber=POPLAR, shop=None):
    job = a_job(frame, joint=joint, timber=timber)
    rods = set_out(job, shop or Shop())
    [gluing] = order_bench_work(job, shop or Shop(), rods).gluings
    return gluing


def lines(gluing):
    return [
        ("across" if clamp.level else "up", clamp.at, clamp.start, clamp.opens) for clamp in gluing.clamps
    ]


def test_a_frame_is_clamped_across_each_rail_and_upright_along_each_muntin():
    frame = a_frame(a_stack(an_opening("drawer", 140), a_row(an_opening(), an_opening())))

    assert lines(gluing_of(frame)) == [
        ("across", Mm("22.5"), 0, 600),
        ("across", 720 - 60 - 140 - 19, 0, 600),
        ("across", 690, 0, 600),
        ("up", 300, 0, 720 - 60 - 140),
    ]


def test_rails_in_one_line_on_both_sides_of_a_muntin_take_one_clamp_and_others_one_each():
    left, right = (a_stack(an_opening("drawer", size), an_opening()) for size in (140, 140))
    level = gluing_of(a_frame(a_row(left, right)))
    left, right = (a_stack(an_opening("drawer", size), an_opening()) for size in (140, 200))
    stepped = gluing_of(a_frame(a_row(left, right)))

    assert [line for line in lines(level) if line[1] == 501] == [("across", 501, 0, 600)]
    assert [line for line in lines(stepped) if line[1] in (441, 501)] == [
        ("across", 441, 281, 319),  # from the muntin's left edge
        ("across", 501, 0, 319),  # to its right edge
    ]


def test_a_muntin_whose_foot_stands_free_is_pressed_at_its_foot():
    gluing = gluing_of(a_frame(a_row(an_opening(), an_opening()), bottom_rail=0))

    assert ("up", 300, 0, 720) in lines(gluing)


@pytest.mark.parametrize(
    ("timber", "least", "most"), [(POPLAR, "0.7", "1.0"), (OAK, "1.2", "1.7"), (UNKNOWN, "0.7", "1.0")]
)
def test_a_clamp_presses_its_largest_joint_as_its_timber_asks(timber, least, most):
    [lower, upper] = gluing_of(a_frame(), timber=timber).clamps

    bears = (60 - 9) * 22  # the top rail's end without its mitre
    assert upper.newtons == (bears * Mm(least), bears * Mm(most))
    assert lower.newtons == ((45 - 9) * 22 * Mm(least), (45 - 9) * 22 * Mm(most))


@pytest.mark.parametrize(
    ("joint", "timber", "clamped"),
    [
        (Joint.POCKET_SCREW, POPLAR, False),
        (Joint.POCKET_SCREW, OAK, False),
        (Joint.DOVETAIL_KEY, POPLAR, True),
        (Joint.DOVETAIL_KEY, OAK, False),
        (Joint.DOVETAIL_KEY, UNKNOWN, True),
        (Joint.DOWEL, OAK, True),
        (Joint.LOOSE_TENON, OAK, True),
        (Joint.MORTICE_AND_TENON, OAK, True),
    ],
)
def test_screws_need_no_clamps_and_keys_only_in_soft_wood(joint, timber, clamped):
    assert bool(gluing_of(a_frame(), joint=joint, timber=timber).clamps) == clamped


def test_every_joint_of_a_random_frame_lies_between_the_jaws_of_a_clamp_on_its_line():
    dice = random.Random(90)
    looked_at = 0
    for number in range(so_many(40)):
        job = a_job(a_random_frame(dice, number), joint=Joint.DOWEL)
        try:
            rods = set_out(job, Shop())
        except NotYetRight:
            continue
        [gluing] = order_bench_work(job, Shop(), rods).gluings
        [rod] = rods.rods
        meetings = [
            shapely.intersection(face(member), face(rod.member(end.meets)), grid_size=1e-6)
            for member in rod.members
            for end in (member.low_end, member.high_end)
            if end.meets
        ]
        looked_at += len(meetings)
        clamped = [jaw_to_jaw(clamp) for clamp in gluing.clamps]
        assert all(any(line.distance(meeting) < 1e-3 for line in clamped) for meeting in meetings)
    assert looked_at >= 4


def jaw_to_jaw(clamp):
    at, low, high = (float(each) for each in (clamp.at, clamp.start, clamp.start + clamp.opens))
    return LineString([(low, at), (high, at)] if clamp.level else [(at, low), (at, high)])


def test_the_glue_s_own_times_and_the_frame_s_diagonals_are_told():
    shop = Shop(glue=Glue(open_minutes=Mm(8), clamped_minutes=Mm(45), cured_hours=Mm(12)))
    frame = a_frame(quantity=3)
    gluing = gluing_of(frame, shop=shop)

    cure = gluing.cure
    assert (cure.open_minutes, cure.clamped_minutes, cure.cured_hours) == (8, 45, 12)
    assert gluing.quantity == 3
    assert gluing.diagonals == table_for(set_out(a_job(frame), shop).rods[0], shop.taping)
    assert gluing.cautions
