"""Gluing up: each part slides straight to its place past all that is there, and every joint closes once."""

import os
import random

import pytest

from pinchrod.bench import Direction, Gluing, order_bench_work
from pinchrod.ground import NotYetRight
from pinchrod.job import Joint, Shop
from pinchrod.setting_out import Rod, Rods, set_out
from tests.bench.hand_made import a_hand_made_rod, add_windmill, stiles_and_rails
from tests.bench.moving import TOUCHING, face, wood_in_the_way
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

FRAMES = 1000 if os.environ.get("PINCHROD_DEPTH") == "deep" else so_many(60)
JOINTS = tuple(Joint)


def rods_of(*frames, joint=Joint.DOVETAIL_KEY, bead=9):
    return set_out(a_job(*frames, joint=joint, bead=bead), Shop())


def glued(*frames, joint=Joint.DOVETAIL_KEY, bead=9):
    """The rod and the gluing of each frame, side by side."""
    rods = rods_of(*frames, joint=joint, bead=bead)
    bench = order_bench_work(a_job(*frames, joint=joint), Shop(), rods)
    assert bench.doubts == ()
    return tuple(zip(rods.rods, bench.gluings, strict=True))


def random_frames(number):
    """So many random frames that can be set out, with any joint and with beads or square."""
    dice = random.Random(817)
    found: list[tuple[Rod, Gluing]] = []
    while len(found) < number:
        said = {"joint": dice.choice(JOINTS), "bead": dice.choice([0, 6, 9, 12])}
        frame = a_random_frame(dice, len(found) + 1)
        try:
            found += glued(frame, **said)
        except NotYetRight:
            continue
    return found


@pytest.fixture(scope="module")
def all_glued():
    return random_frames(FRAMES)


def steps_told(gluing):
    return [f"{step.part.name} {step.way} onto {step.onto.name}" for step in gluing.steps]


def test_at_every_step_the_part_slides_in_past_all_wood_that_is_there(all_glued):
    for rod, gluing in all_glued:
        faces = {member.name: face(member) for member in rod.members}
        for step in gluing.steps:
            part, onto = ([faces[name] for name in lot.members] for lot in (step.part, step.onto))

            assert wood_in_the_way(part, onto, step.way) < TOUCHING, (rod.frame, step)


def test_every_member_is_brought_once_and_the_last_step_makes_the_frame(all_glued):
    for rod, gluing in all_glued:
        lying = {(member.name,) for member in rod.members}
        for step in gluing.steps:
            lying -= {step.part.members, step.onto.members}
            lying.add(step.makes.members)

            assert set(step.makes.members) == {*step.part.members, *step.onto.members}
        assert lying == {tuple(member.name for member in rod.members)}
        assert len(gluing.steps) == len(rod.members) - 1
        assert gluing.steps[-1].makes.name == rod.frame.id


def test_every_joint_is_closed_once_by_the_step_that_brings_its_two_members_together(all_glued):
    for rod, gluing in all_glued:
        wanted = sorted(
            (member.name, end.meets)
            for member in rod.members
            for end in (member.low_end, member.high_end)
            if end.meets
        )
        closed = [(joint, step) for step in gluing.steps for joint in step.joints]

        assert sorted((joint.arriving, joint.receiver) for joint, _ in closed) == wanted
        for joint, step in closed:
            assert (joint.arriving in step.part.members) != (joint.arriving in step.onto.members)
            assert (joint.receiver in step.part.members) != (joint.receiver in step.onto.members)
        assert all(step.joints for step in gluing.steps)


def test_what_stands_in_a_joint_is_met_straight_along_the_member_that_arrives(all_glued):
    for rod, gluing in all_glued:
        for step in gluing.steps:
            for joint in step.joints:
                assert step.way.level != rod.member(joint.arriving).upright


def test_a_sub_assembly_is_made_before_it_is_brought(all_glued):
    for rod, gluing in all_glued:
        made = {member.name: (member.name,) for member in rod.members}
        for step in gluing.steps:
            assert made[step.part.name] == step.part.members
            assert made[step.onto.name] == step.onto.members
            made[step.makes.name] = step.makes.members


def test_among_random_frames_there_are_some_with_sub_assemblies_and_every_joint(all_glued):
    assert any(gluing.sub_assemblies for _, gluing in all_glued) or len(all_glued) < 20
    assert len({gluing.joint for _, gluing in all_glued}) >= min(len(all_glued) // 4, len(JOINTS))


def test_a_door_s_rails_go_to_the_left_stile_and_the_right_one_closes_both():
    [(_, gluing)] = glued(a_frame())

    assert steps_told(gluing) == [
        "K1-TR to the left onto K1-LS",
        "K1-BR to the left onto K1",
        "K1-RS to the left onto K1",
    ]
    assert gluing.sub_assemblies == ()


def test_a_muntin_s_ladder_is_made_before_the_stiles():
    """With both rails glued to a stile the muntin between them could no more go in."""
    [(rod, gluing)] = glued(a_frame(a_row(an_opening(), an_opening())))

    assert steps_told(gluing)[0] == "K1-M1 up onto K1-TR"
    assert [step.part.name for step in gluing.steps[-2:]] == ["K1-LS", "K1-RS"]
    faces = {member.name: face(member) for member in rod.members}
    rails = [faces["K1-TR"], faces["K1-BR"]]
    assert all(wood_in_the_way([faces["K1-M1"]], rails, way) > 1 for way in Direction)


def test_two_ladders_that_only_the_stiles_join_are_each_a_sub_assembly_or_grow_from_one():
    doors = a_row(an_opening(), an_opening())
    [(_, gluing)] = glued(a_frame(a_stack(doors, an_opening("drawer", 140), doors), height=1800))

    [ladder] = gluing.sub_assemblies
    assert ladder.name == "K1-A"
    assert len(ladder.members) == 3
    made = [step.makes.name for step in gluing.steps]
    assert made[:2] == ["K1-A", "K1-A"]


def test_a_single_opening_without_a_bottom_rail_still_goes_together():
    [(_, gluing)] = glued(a_frame(bottom_rail=0))

    assert [step.part.name for step in gluing.steps] == ["K1-TR", "K1-RS"]


def windmills(*turned, bead=9):
    """Windmills of four bars, one within the other, each one way round or the other; stiles and rails about."""
    bars, inside, walls = stiles_and_rails(1600, 1600)
    for each in turned:
        inside, walls = add_windmill(bars, inside, walls, turned=each)
    return a_hand_made_rod(bars, bead)


@pytest.mark.parametrize("joint", JOINTS)
@pytest.mark.parametrize("turned", [(False,), (True,), (False, True), (True, False)])
def test_a_windmill_goes_together_as_two_halves(joint, turned):
    """None of its four bars can come last by itself; two of them glued up as one can."""
    rod = windmills(*turned)
    bench = order_bench_work(a_job(joint=joint), Shop(), Rods(rods=(rod,), joint=joint))

    [gluing] = bench.gluings
    faces = {member.name: face(member) for member in rod.members}
    assert bench.doubts == ()
    assert gluing.sub_assemblies
    for step in gluing.steps:
        part, onto = ([faces[name] for name in lot.members] for lot in (step.part, step.onto))
        assert wood_in_the_way(part, onto, step.way) < TOUCHING


@pytest.mark.parametrize("joint", JOINTS)
@pytest.mark.parametrize("turned", [(False, False), (True, True)])
def test_two_windmills_that_turn_the_same_way_are_told_as_never_closing(joint, turned):
    """The halves of the outer one come apart one way only, and the inner one holds them that way."""
    rods = Rods(rods=(windmills(*turned),), joint=joint)

    bench = order_bench_work(a_job(joint=joint), Shop(), rods)

    [problem] = bench.doubts
    assert problem.code == "no-gluing-order"
    assert not problem.stops
    assert problem.where.name == "K1"
    assert "12 members" in problem.what
    assert bench.gluings[0].steps == ()


def test_the_same_frame_has_the_same_order_however_its_members_are_listed():
    [rod] = rods_of(a_frame(a_row(an_opening(), a_stack(an_opening(), an_opening())))).rods
    dice = random.Random(3)
    told = set()
    for _ in range(10):
        members = tuple(dice.sample(rod.members, len(rod.members)))
        shuffled = Rods(
            rods=(type(rod)(frame=rod.frame, members=members, openings=rod.openings),), joint=Joint.DOWEL
        )
        [gluing] = order_bench_work(a_job(), Shop(), shuffled).gluings
        told.add(tuple(steps_told(gluing)))

    assert len(told) == 1


def test_joints_count_their_keys_dowels_or_worked_tenons():
    numbers = {joint: glued(a_frame(), joint=joint)[0][1].fixings for joint in JOINTS}

    assert numbers == {
        Joint.DOVETAIL_KEY: 4,
        Joint.LOOSE_TENON: 4,
        Joint.DOWEL: 8,
        Joint.MORTICE_AND_TENON: 4,
        Joint.POCKET_SCREW: 8,
    }


def test_what_is_pressed_is_the_end_that_bears_without_its_mitres():
    [(_, gluing)] = glued(a_frame(a_stack(an_opening("drawer", 140), an_opening())))
    areas = {joint.arriving: joint.area for step in gluing.steps for joint in step.joints}

    assert areas == {"K1-TR": (60 - 9) * 22, "K1-R1": (38 - 18) * 22, "K1-BR": (45 - 9) * 22}
