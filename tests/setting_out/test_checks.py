"""What would not hold, could not be cut or would not hang is refused or doubted, with what would mend it."""

from dataclasses import replace
from typing import Any

import pytest

from pinchrod.ground import Mm, NotYetRight, Problem
from pinchrod.job import Job, Joint, Layout, Machines, Notcher, Shop
from pinchrod.setting_out import set_out
from tests.builders import a_frame, a_job, a_row, a_stack, an_opening, five_pieces


def problems_of(job: Job, shop: Shop | None = None) -> tuple[Problem, ...]:
    try:
        return set_out(job, shop or Shop()).doubts
    except NotYetRight as trouble:
        return trouble.problems


def problems(layout: Layout | None = None, *, bead: object = 9, shop: Shop | None = None, **said: Any) -> Any:
    return problems_of(a_job(a_frame(layout, **said), bead=bead), shop)


def of_job(layout: Layout | None = None, **said: Any) -> Any:
    return problems_of(a_job(a_frame(layout), **said))


SHARP = Shop(machines=Machines(notcher=Notcher(flat=Mm(1))))  # a knife that cuts a floor of any width
CROSS = a_row(
    a_stack(an_opening("drawer"), an_opening("drawer")), a_stack(an_opening("drawer"), an_opening("drawer"))
)


def webs(found: Any) -> Any:
    return [problem for problem in found if problem.code.endswith("-web")]


def test_an_ordinary_frame_has_nothing_to_mend() -> None:
    assert problems() == ()
    assert problems(CROSS) == ()


def test_stiles_that_leave_no_opening_are_refused_with_the_sum() -> None:
    [problem] = problems(width=90)

    assert (problem.code, problem.stops) == ("no-opening-left", True)
    assert problem.what == (
        "left stile 45 + right stile 45 come to 90, and the frame's width is 90: no opening is left"
    )
    assert "more than 90" in problem.mend


def test_rails_and_foot_that_leave_no_opening_are_refused_with_the_sum() -> None:
    [problem] = problems(height=200, foot=100)

    assert problem.what.startswith("top rail 60 + bottom rail 45 + foot 100 come to 205")


def test_both_ways_at_once_are_both_told() -> None:
    assert [problem.code for problem in problems(width=80, height=80)] == ["no-opening-left"] * 2


@pytest.mark.parametrize(
    ("layout", "what", "mend"),
    [
        (
            a_stack(an_opening("drawer", 300), an_opening("drawer", 300)),
            "sizes of 600 and rails of 38 come to 638 in a sight height of 615: 23 too much",
            "make the sizes or rails more than 23 smaller in all, or the frame larger",
        ),
        (
            a_stack(an_opening("drawer", 200), an_opening("drawer", 300)),
            "sizes of 500 and rails of 38 come to 538 in a sight height of 615: 77 too little",
            "make the sizes 77 larger in all, or leave one out to take what is left",
        ),
        (
            a_row(an_opening("door", 472), an_opening("door")),
            (
                "sizes of 472 and muntins of 38 come to 510 in a sight width of 510:"
                " nothing is left for the parts without a size"
            ),
            "make the sizes or muntins smaller, or the frame larger",
        ),
        (
            a_row(an_opening("door", 480), an_opening("door")),
            "sizes of 480 and muntins of 38 come to 518 in a sight width of 510: 8 too much",
            "make the sizes or muntins more than 8 smaller in all, or the frame larger",
        ),
        (
            an_opening("door", 600),
            "a size of 600 stands in a sight height of 615: 15 too little",
            "make the sizes 15 larger in all, or leave one out to take what is left",
        ),
    ],
)
def test_sizes_that_do_not_add_up_are_refused_with_sum_and_difference(
    layout: Layout, what: str, mend: str
) -> None:
    [problem] = problems(layout)

    assert (problem.code, problem.what, problem.mend) == ("does-not-add-up", what, mend)


def test_sizes_that_add_up_exactly_are_taken() -> None:
    assert problems(a_stack(an_opening("drawer", 277), an_opening("drawer", 300))) == ()
    assert problems(an_opening("drawer", 615)) == ()


def test_a_fault_in_a_group_is_placed_at_its_words() -> None:
    inner = replace(a_row(an_opening("door", 300), an_opening("door", 300)), at=17)

    [problem] = problems(a_stack(an_opening("drawer", 140), inner))

    assert (problem.where.line, problem.where.column) == (6, 11 + 17)
    assert problem.where.name == "K1"


def test_in_a_spreadsheet_the_cell_is_the_place() -> None:
    frame = a_frame(a_stack(an_opening("drawer", 140), an_opening("drawer", 140)))
    cell = replace(frame.layout_where, line=0, column=0, cell="Frames!D2")

    [problem] = problems_of(a_job(replace(frame, layout_where=cell)))

    assert problem.where.cell == "Frames!D2"
    assert problem.where.column == 0


def test_a_thin_web_between_notches_opposite_each_other_is_doubted() -> None:
    [problem] = webs(problems(CROSS, muntin=32, shop=SHARP))

    assert (problem.code, problem.stops) == ("thin-web", False)
    assert problem.where.name == "K1, muntin K1-M1"
    assert problem.what == (
        "the notches for K1-R1 and K1-R2, opposite each other, leave 14 of wood of a width of 32"
    )
    assert problem.mend == "make the muntin 33 wide or more, or the bead narrower"


def test_a_web_just_thick_enough_is_let_pass() -> None:
    assert webs(problems(CROSS, muntin=33, shop=SHARP)) == []


def test_a_member_cut_through_is_refused() -> None:
    found = problems(CROSS, bead=15, mid_rail=60, left_stile=60, right_stile=60, muntin=30, shop=SHARP)

    assert [(problem.code, problem.stops) for problem in webs(found)] == [("no-web", True)]
    assert "leave no wood of a width of 30" in webs(found)[0].what
    assert webs(found)[0].mend == "make the muntin 45 wide or more, or the bead narrower"


def test_notches_that_meet_only_at_their_flanks_leave_more_than_half_a_web() -> None:
    # the rails' mouths overlap by 10, the last millimetre of it where each flank has come to its floor: the
    # notches are 9 + 1 deep there, and a muntin 24.5 wide keeps 14.5; moved apart by 1 more it keeps 15.5
    left = a_stack(an_opening("drawer", 260), an_opening("drawer"))

    def right(down: int) -> Layout:
        return a_stack(an_opening("drawer", 260 + down), an_opening("drawer"))

    assert [p.what for p in webs(problems(a_row(left, right(28)), muntin=24.5, shop=SHARP))] == [
        "the notches for K1-R1 and K1-R2, opposite each other, leave 14.5 of wood of a width of 24.5"
    ]
    assert webs(problems(a_row(left, right(29)), muntin=24.5, shop=SHARP)) == []
    assert webs(problems(a_row(left, right(40)), muntin=24.5, shop=SHARP)) == []


def test_a_stile_with_too_little_behind_its_notches_is_doubted_once_a_notch() -> None:
    found = webs(problems(left_stile=20))

    assert [problem.code for problem in found] == ["thin-web", "thin-web"]
    assert "make the left stile 24 wide or more" in found[0].mend


def test_a_floor_narrower_than_the_knife_s_flat_is_refused_with_the_width_that_works() -> None:
    [problem] = problems(a_stack(an_opening(), an_opening()), mid_rail=37)

    assert (problem.code, problem.stops) == ("narrow-floor", True)
    assert problem.where.name == "K1, rail K1-R1"
    assert problem.what == "the notch that takes it has a floor 19 wide, and the knife's flat is 20"
    assert problem.mend == "make the rail 38 wide or more, or the bead narrower"


def test_a_notch_that_runs_out_may_be_narrower_than_the_flat() -> None:
    assert [problem.code for problem in problems(bottom_rail=12)] == ["joint-crowded"]


def test_a_rail_no_wider_than_its_bead_is_refused() -> None:
    [problem] = [problem for problem in problems(bottom_rail=9) if problem.stops]

    assert problem.code == "narrow-floor"
    assert problem.mend == "make the bottom rail more than 9 wide, or the bead narrower"


def test_on_a_foot_the_bottom_rail_s_notch_needs_the_knife_s_flat() -> None:
    [problem] = problems(bottom_rail=37, foot=100)

    assert problem.code == "narrow-floor"


def test_square_members_need_neither_webs_nor_floors() -> None:
    assert problems(CROSS, bead=0, mid_rail=16, muntin=17, left_stile=12) == ()


def test_an_opening_too_small_for_its_gaps_is_refused() -> None:
    found = problems(a_stack(an_opening("drawer", 4), an_opening("open")))

    assert [problem.code for problem in found] == ["no-front-left"]
    assert found[0].what == "its gaps leave the drawer front a height of 0"


def test_a_pair_too_narrow_for_two_leaves_is_told_once() -> None:
    found = problems(a_row(an_opening("pair", 7), an_opening("open")))

    assert [problem.where.name for problem in found] == ["K1, pair K1.1"]


def test_a_door_too_low_for_its_hinges_is_doubted() -> None:
    problem = problems(a_stack(an_opening("door", 129), an_opening("open")))[-1]

    assert (problem.code, problem.stops) == ("door-too-low", False)
    assert problem.what == "a door 125 high has no room for 2 hinges of 63"
    assert "126" in problem.mend


def test_a_door_with_just_room_for_its_hinges_is_let_pass() -> None:
    # 126 high: hinges at a quarter, 31.5, so that they reach from 0 to 63 and from 63 to 126, and 2 of gap
    found = problems(a_stack(an_opening("door", 130), an_opening("open")))

    assert [problem.code for problem in found] == ["hinge-near-notch", "hinge-near-notch"]


def test_hinges_well_clear_of_the_notches_are_let_pass() -> None:
    # a door 158 high: the hinge's end at 39.5 - 31.5 = 8, and 2 of gap: 10 clear
    assert problems(a_stack(an_opening("door", 162), an_opening("open"))) == ()
    assert problems(a_stack(an_opening("door", 161), an_opening("open"))) != ()


def test_a_door_taller_than_the_table_of_hinges_is_doubted() -> None:
    [problem] = problems(height=2300)

    assert (problem.code, problem.stops) == ("door-too-tall", False)
    assert "2191" in problem.what


MADE = five_pieces()


def test_a_five_piece_door_with_no_panel_left_is_refused() -> None:
    found = of_job(a_stack(an_opening("door", 140), an_opening("open")), doors=MADE)

    # 136 high, less rails of 140, and 20 in the grooves less 2 of room: 14
    assert [problem.code for problem in found if problem.stops] == ["no-panel-left"]
    [panel] = [problem for problem in found if problem.stops]
    assert "a height of 14" in panel.what


def test_a_key_slot_as_deep_as_the_frame_is_refused() -> None:
    found = of_job(thickness=Mm(10))

    assert {problem.code for problem in found} == {"recess-through-face"}
    assert all(problem.stops for problem in found)


def test_tenons_that_come_through_a_stile_are_doubted() -> None:
    found = of_job(joint=Joint.MORTICE_AND_TENON)

    assert {(problem.code, problem.stops) for problem in found} == {("recess-through-edge", False)}
    assert "goes 49 in from the edge of a width of 45" in found[0].what


def test_mortices_that_meet_in_a_muntin_are_doubted() -> None:
    found = of_job(CROSS, joint=Joint.LOOSE_TENON)

    meet = [problem for problem in found if problem.code == "recesses-meet"]
    assert [problem.where.name for problem in meet] == ["K1, muntin K1-M1"]
    assert "they meet" in meet[0].what


def test_a_loose_tenon_cut_down_to_its_joint_is_doubted() -> None:
    found = of_job(a_stack(an_opening(), an_opening()), joint=Joint.LOOSE_TENON)

    assert [(p.where.name, p.code) for p in found] == [
        ("K1, top rail K1-TR", "tenon-cut-down")
        if wide == 41
        else ("K1, bottom rail K1-BR", "tenon-cut-down")
        if wide == 26
        else ("K1, rail K1-R1", "tenon-cut-down")
        for wide in (41, 26, 10)
    ]
    assert "room for a loose tenon 10 wide, not 50" in found[2].what


def test_a_joint_with_no_room_for_a_loose_tenon_is_refused() -> None:
    found = problems_of(a_job(a_frame(bottom_rail=28), joint=Joint.LOOSE_TENON))

    assert [p.code for p in found if p.stops] == ["no-room-for-tenon"]


def test_every_frame_s_faults_are_told_in_one_go() -> None:
    wrong = a_frame(a_stack(an_opening("drawer", 700), an_opening()), id="K2")

    found = problems_of(a_job(a_frame(width=80), wrong, a_frame(id="K3", mid_rail=30)))

    assert [problem.where.name for problem in found] == ["K1", "K2"]


def test_a_frame_named_like_another_s_opening_may_not_share_a_mark_with_its_door() -> None:
    found = problems_of(a_job(a_frame(), a_frame(id="K1.1"), doors=MADE))

    assert {problem.code for problem in found} == {"mark-twice"}
    assert found[0].where.name == "K1.1"


def test_a_stop_carries_the_doubts_with_it() -> None:
    found = problems_of(a_job(a_frame(left_stile=22), a_frame(id="K2", width=80)))

    assert [problem.code for problem in found] == ["thin-web", "thin-web", "no-opening-left"]
