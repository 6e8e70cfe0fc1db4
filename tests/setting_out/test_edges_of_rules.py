"""Each rule at the very figure where it turns: just allowed, just not."""

from dataclasses import replace
from typing import Any

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Hinges, HingeStep, Job, Joint, Shop, Side
from pinchrod.setting_out import Edge, Recess, Rod, cutting_list, set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening, five_pieces

MADE = five_pieces()
OPEN = an_opening("open")


def the_rod(job: Job) -> Rod:
    [rod] = set_out(job, Shop()).rods
    return rod


def codes(job: Job, shop: Shop | None = None) -> list[str]:
    try:
        return [problem.code for problem in set_out(job, shop or Shop()).doubts]
    except NotYetRight as trouble:
        return [problem.code for problem in trouble.problems]


def stile_recesses(joint: Joint, **said: Any) -> list[tuple[Mm, Mm]]:
    """Centre and length of each recess that takes the top rail."""
    rod = the_rod(a_job(a_frame(OPEN, **said), joint=joint))
    return [(f.at, f.long) for f in rod.member("K1-LS").fixings if f.to == "K1-TR"]


def test_a_rail_of_sixty_has_one_key_and_a_wider_one_two() -> None:
    assert len(stile_recesses(Joint.DOVETAIL_KEY, top_rail=60)) == 1
    assert len(stile_recesses(Joint.DOVETAIL_KEY, top_rail="60.1")) == 2


def test_a_rail_of_eighty_has_one_loose_tenon_and_a_wider_one_two_half_as_wide() -> None:
    assert [long for _, long in stile_recesses(Joint.LOOSE_TENON, top_rail=80)] == [50]
    # the floor from 644 to 720, 76 wide: halves of 38, less 5 of wood at each end; centres at the quarter points
    assert stile_recesses(Joint.LOOSE_TENON, top_rail=85) == [(663, 28), (701, 28)]


def test_each_recess_says_what_it_is_and_which_piece_it_draws() -> None:
    dowelled = the_rod(a_job(a_frame(OPEN), joint=Joint.DOWEL)).member("K1-TR").fixings
    screwed = the_rod(a_job(a_frame(OPEN), joint=Joint.POCKET_SCREW)).member("K1-TR").fixings

    assert {(f.recess, f.to) for f in dowelled} == {
        (Recess.DOWEL_HOLE, "K1-LS"),
        (Recess.DOWEL_HOLE, "K1-RS"),
    }
    assert {(f.recess, f.long, f.wide, f.deep) for f in screwed} == {(Recess.POCKET, Mm(10), Mm(38), Mm(11))}


def test_a_middle_rail_s_tenon_is_as_wide_as_its_floor() -> None:
    rod = the_rod(a_job(a_frame(a_stack(OPEN, OPEN), foot=100), joint=Joint.MORTICE_AND_TENON))
    widths = {f.to: f.long for f in rod.member("K1-LS").fixings}

    assert widths == {"K1-TR": 34, "K1-R1": 20, "K1-BR": 27}


def test_the_smallest_foot_and_the_smallest_bead_count() -> None:
    rod = the_rod(a_job(a_frame(OPEN, foot="0.5"), bead="0.5"))

    assert rod.member("K1-BR").beads == (Edge.LOWER, Edge.UPPER)


def test_marks_in_the_cutting_list_are_in_a_joiner_s_order() -> None:
    rods = set_out(a_job(a_frame(OPEN, id="K10"), a_frame(OPEN, id="K2")), Shop())

    assert cutting_list(rods)[0].members == ("K2-TR", "K10-TR")
    assert rods.joint is Joint.DOVETAIL_KEY


def test_muntins_one_over_another_are_numbered_from_the_top() -> None:
    rod = the_rod(a_job(a_frame(a_stack(a_row(OPEN, OPEN), a_row(OPEN, OPEN)))))

    assert rod.member("K1-M1").along.low > rod.member("K1-M2").along.high


def test_recesses_are_measured_from_the_edge_of_a_square_member() -> None:
    # tenons 40 long in stiles 41 wide, no bead: 1 of wood is left
    square = a_job(a_frame(OPEN, left_stile=41, right_stile=41), bead=0, joint=Joint.MORTICE_AND_TENON)

    assert codes(square) == []


def test_recesses_that_only_touch_do_not_meet() -> None:
    cross = a_row(a_stack(OPEN, OPEN), a_stack(OPEN, OPEN))

    assert codes(a_job(a_frame(cross, muntin=58), joint=Joint.DOWEL)) == []
    assert codes(a_job(a_frame(cross, muntin="57.9"), joint=Joint.DOWEL)) == ["recesses-meet"]


def test_a_front_of_half_a_millimetre_is_a_front() -> None:
    assert codes(a_job(a_frame(a_stack(an_opening("drawer", 4.5), OPEN)))) == ["small-opening"]


def test_an_opening_of_forty_is_let_pass_and_a_smaller_one_doubted() -> None:
    assert codes(a_job(a_frame(a_stack(an_opening("drawer", 40), OPEN)))) == []
    assert codes(a_job(a_frame(a_stack(an_opening("drawer", "39.9"), OPEN)))) == ["small-opening"]
    assert codes(a_job(a_frame(a_row(an_opening("panel", 6), OPEN)))) == ["small-opening"]


def test_sizes_that_do_not_add_up_hide_no_other_fault_of_the_frame() -> None:
    low = a_stack(an_opening("drawer", 700), an_opening())
    high = a_stack(an_opening("drawer", 800), an_opening())
    frame = a_frame(a_row(low, high, an_opening("door", 900)), mid_rail=30, left_stile=14)

    found = codes(a_job(frame))

    assert found.count("does-not-add-up") == 3
    assert found.count("narrow-floor") == 2
    assert found.count("thin-web") == 3  # behind the three notches of the left stile


def test_what_lies_in_a_space_of_unknown_width_is_not_said_to_overfill_it() -> None:
    inner = a_stack(a_row(an_opening("door", 5000), an_opening("door", 5000)), an_opening())

    assert codes(a_job(a_frame(a_row(inner, an_opening("door", 900))))) == ["does-not-add-up"]


def test_a_narrow_leaf_and_a_low_leaf_are_told_apart() -> None:
    def first(layout: Any) -> str:
        with pytest.raises(NotYetRight) as trouble:
            set_out(a_job(a_frame(layout)), Shop())
        return next(p.what for p in trouble.value.problems if p.code == "no-front-left")

    assert "a width of 0" in first(a_row(an_opening("pair", 7), OPEN))
    assert "a height of 0" in first(a_stack(an_opening("pair", 4), OPEN))


def test_gaps_of_a_low_pair_ask_only_for_their_own_height() -> None:
    with pytest.raises(NotYetRight) as trouble:
        set_out(a_job(a_frame(a_stack(an_opening("pair", 3), OPEN))), Shop())

    mends = [p.mend for p in trouble.value.problems if p.code == "no-front-left"]
    assert mends == ["give the opening more than 1 more height, or make the gaps smaller"]


def test_a_panel_just_wider_than_its_grooves_is_let_pass() -> None:
    # a panel as wide as the door less 120, and 20 in the grooves, and 6 of room: a door 126 wide leaves 20
    def with_door(wide: object) -> list[str]:
        return codes(a_job(a_frame(a_row(an_opening("door", wide), OPEN)), doors=MADE))

    assert with_door(130) == ["no-panel-left"]
    assert with_door("130.5") == []


def test_drawers_of_a_job_with_five_piece_doors_are_plain() -> None:
    rod = the_rod(a_job(a_frame(an_opening("drawer")), doors=MADE))

    assert rod.fronts[0].parts == ()


def test_all_five_parts_of_a_door_are_marked() -> None:
    rod = the_rod(a_job(a_frame(), doors=MADE))

    assert [part.name for part in rod.fronts[0].parts] == [
        f"K1.1-{mark}" for mark in ("LS", "RS", "TR", "BR", "P")
    ]


def test_a_panel_has_its_room_at_both_ends_of_its_grain() -> None:
    made = replace(MADE, end_room=Mm(2))
    rod = the_rod(a_job(a_frame(), doors=made))

    assert rod.fronts[0].parts[4].length == 611 - 140 + 20 - 4


def test_a_door_as_tall_as_the_table_of_hinges_is_let_pass() -> None:
    own = Hinges(
        by_height=(HingeStep(up_to=Mm(611), number=3),), by_weight=(HingeStep(up_to=Mm(99), number=2),)
    )
    taller = a_job(a_frame(height=721))

    assert codes(a_job(a_frame()), Shop(hinges=own)) == []
    assert codes(taller, Shop(hinges=own)) == ["door-too-tall"]
    [rod] = set_out(taller, Shop(hinges=own)).rods
    assert len(rod.fronts[0].hinges) == 4


def test_past_the_last_step_a_door_has_one_hinge_more_than_the_last_says() -> None:
    steps = (HingeStep(up_to=Mm(100), number=2), HingeStep(up_to=Mm(200), number=5))
    own = Hinges(by_height=steps, by_weight=(HingeStep(up_to=Mm(99), number=2),))
    [rod] = set_out(a_job(a_frame(height=1400)), Shop(hinges=own)).rods

    assert len(rod.fronts[0].hinges) == 6


def test_hinges_that_reach_past_a_door_s_ends_are_doubted_though_they_stand_apart() -> None:
    # two hinges of 100 on a door 180 high: at 45 and 135, 90 apart, reaching from -5 to 185
    low = a_job(a_frame(a_stack(an_opening("door", 184), OPEN)))

    assert "door-too-low" in codes(low, Shop(hinges=Hinges(long=Mm(100))))


def test_many_hinges_on_a_low_door_are_doubted_with_the_height_they_need() -> None:
    own = Hinges(by_height=(HingeStep(up_to=Mm(9999), number=4),))
    with_four = set_out(a_job(a_frame(a_stack(an_opening("door", 304), OPEN))), Shop(hinges=own))
    [doubt] = [doubt for doubt in with_four.doubts if doubt.code == "door-too-low"]

    # four of 63 at a quarter of the height, 75, and 50 apart
    assert "so high that the door is 378 or more" in doubt.mend


def test_hinge_seats_of_a_muntin_with_doors_on_both_sides_come_left_edge_first() -> None:
    rod = the_rod(
        a_job(
            a_frame(a_row(OPEN, an_opening("door"), OPEN, an_opening("door")), width=1600, foot=100),
            joint=Joint.MORTICE_AND_TENON,
        )
    )
    muntin = rod.member("K1-M1")

    # the door's lower end at 147, the muntin's tenon ends at 145 - 9 - 40 = 96, its first hinge 94.5 up
    assert (muntin.hinge_seats[0].edge, muntin.hinge_seats[0].at) == (Edge.RIGHT, Mm("145.5"))


def test_a_pair_of_doors_hung_back_to_back_on_a_muntin() -> None:
    back_to_back = a_row(an_opening("door", hung=Side.RIGHT), an_opening("door", hung=Side.LEFT))
    muntin = the_rod(a_job(a_frame(back_to_back, width=1200))).member("K1-M1")

    assert [seat.edge for seat in muntin.hinge_seats] == [Edge.LEFT, Edge.LEFT, Edge.RIGHT, Edge.RIGHT]


def test_the_words_for_two_pieces_of_one_mark() -> None:
    with pytest.raises(NotYetRight) as trouble:
        set_out(a_job(a_frame(), a_frame(id="K1.1"), doors=MADE), Shop())

    problem = trouble.value.problems[0]
    assert problem.what == "a piece of it is marked K1.1-LS, and so is one of K1"
    assert problem.mend == "give one of the two frames another id"
    assert {problem.where.name for problem in trouble.value.problems} == {"K1.1"}


def test_two_dowels_in_a_rail_of_thirty_eight_keep_wood_between_and_beside_them() -> None:
    rod = the_rod(a_job(a_frame(a_stack(OPEN, OPEN)), joint=Joint.DOWEL))
    holes = sorted(f.across for f in rod.member("K1-R1").fixings if f.to == "K1-LS")

    # the floor is from 9 to 29, the holes 8 wide: from 10 to 18 and from 20 to 28
    assert holes == [14, 24]
    assert codes(a_job(a_frame(a_stack(OPEN, OPEN)), joint=Joint.DOWEL)) == []


def test_dowels_of_a_wide_rail_stand_at_the_thirds_of_its_width() -> None:
    rod = the_rod(a_job(a_frame(OPEN), joint=Joint.DOWEL))

    assert sorted(f.across for f in rod.member("K1-TR").fixings if f.to == "K1-LS") == [20, 40]


def test_recesses_that_crowd_their_joint_are_doubted() -> None:
    def of_rail(joint: Joint, wide: object) -> list[str]:
        return codes(a_job(a_frame(OPEN, bottom_rail=wide), joint=joint))

    assert of_rail(Joint.DOWEL, 29) == []  # floor 20: 2 between the holes
    assert of_rail(Joint.DOWEL, "28.9") == ["joint-crowded"]
    assert of_rail(Joint.DOVETAIL_KEY, 24) == []  # floor 15: a slot of 15
    assert of_rail(Joint.DOVETAIL_KEY, "23.9") == ["joint-crowded"]
    assert of_rail(Joint.POCKET_SCREW, 31) == []  # floor 22: pockets of 10, 2 between
    assert of_rail(Joint.POCKET_SCREW, "30.9") == ["joint-crowded"]


def test_a_crowded_joint_is_told_once_for_both_ends() -> None:
    doubts = set_out(a_job(a_frame(OPEN, bottom_rail=20), joint=Joint.DOWEL), Shop()).doubts

    assert [d.what for d in doubts] == ["its 2 dowel holes, 8 wide, leave no wood between them"]
    assert doubts[0].where.name == "K1, bottom rail K1-BR"


def test_in_a_row_that_begins_without_a_door_the_last_of_two_doors_hangs_right() -> None:
    rod = the_rod(a_job(a_frame(a_row(OPEN, an_opening("door"), an_opening("door")), width=1200)))

    assert [front.hung for front in rod.fronts] == [Side.LEFT, Side.RIGHT]


def test_faults_of_width_beside_sizes_that_do_not_add_up_name_their_member() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 700), an_opening()), bottom_rail=37, foot="0.5")

    with pytest.raises(NotYetRight) as trouble:
        set_out(a_job(frame), Shop())

    assert [(p.code, p.where.name) for p in trouble.value.problems] == [
        ("does-not-add-up", "K1"),
        ("narrow-floor", "K1, bottom rail K1-BR"),
    ]


def test_square_members_beside_sizes_that_do_not_add_up_have_no_floors_to_be_narrow() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 700), an_opening()), mid_rail=12)

    assert codes(a_job(frame, bead=0)) == ["does-not-add-up"]


def test_a_low_opening_and_a_narrow_one_are_told_apart() -> None:
    def words(layout: Any) -> str:
        return set_out(a_job(a_frame(layout)), Shop()).doubts[0].what

    assert words(a_stack(an_opening("panel", 30), OPEN)) == "the opening is only 30 mm high"
    assert words(a_row(an_opening("panel", 30), OPEN)) == "the opening is only 30 mm wide"
