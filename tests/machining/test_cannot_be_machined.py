"""What no machine or stop of the workshop can do gets its message; nothing is planned around in silence."""

import random
from dataclasses import replace

import pytest

from pinchrod.ground import Mm, NotYetRight, Problem
from pinchrod.job import (
    Joint,
    Machines,
    Moulder,
    Notcher,
    Planer,
    Practice,
    Saw,
    Shop,
    Slotter,
    Tenoner,
    Thicknesser,
)
from pinchrod.machining import arrange, check_machining
from pinchrod.plan import make_plan
from pinchrod.setting_out import set_out
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

THREE_DRAWERS = a_stack(*(an_opening("drawer") for _ in range(3)))


def a_shop(**machines: object) -> Shop:
    return Shop(machines=Machines(**machines))  # type: ignore[arg-type] # each test names real machines


def told(shop: Shop, *frames, **said: object) -> list[Problem]:
    job = a_job(*frames, **said)
    return list(check_machining(set_out(job, shop), shop))


def test_an_ordinary_frame_has_nothing_to_mend():
    assert told(Shop()) == []


def test_a_notch_beyond_both_reaches_is_refused_with_the_piece_and_the_reach_needed():
    """A stile 3300 long with a rail in its middle: 1500 reaches neither from below nor from above."""
    shop = a_shop(notcher=Notcher(reach_left=Mm(1500), reach_right=Mm(1400)))
    frame = a_frame(a_stack(an_opening(), an_opening()), id="K9", height=3300)

    found = [problem for problem in told(shop, frame) if problem.code == "out-of-reach"]

    assert [problem.where.name for problem in found] == [
        "K9, left stile K9-LS",
        "K9, right stile K9-RS",
    ]
    assert all(problem.stops for problem in found)
    assert "they reach 1500 and 1400, and the piece is 3300 long" in found[0].what
    assert "the notch for K9-R1" in found[0].what
    assert "reach_left = 16" in found[0].mend


def test_the_reach_that_is_advised_is_enough():
    frame = a_frame(a_stack(an_opening(), an_opening()), height=3300)
    [left, _] = [p for p in told(Shop(), frame) if p.code == "out-of-reach"]
    advised = Mm(left.mend.split("reach_left = ")[1].split(" ")[0])

    longer = a_shop(notcher=Notcher(reach_left=advised, reach_right=advised))

    assert not [problem for problem in told(longer, frame) if problem.code == "out-of-reach"]


def test_a_long_piece_is_no_fault_if_no_notch_lies_in_its_middle():
    codes = {problem.code for problem in told(Shop(), a_frame(an_opening(), height=3400))}

    assert "out-of-reach" not in codes


def test_what_is_refused_is_exactly_what_the_arranged_stops_leave_over():
    dice, seen = random.Random("reach"), 0
    tried = 0
    while tried < so_many(60):
        shop = a_shop(
            notcher=Notcher(reach_left=Mm(dice.choice((300, 700))), reach_right=Mm(dice.choice((200, 900))))
        )
        job = a_job(a_random_frame(dice))
        try:
            rods = set_out(job, shop)
        except NotYetRight:
            continue
        tried += 1
        left_over = {stroke.piece for stroke in arrange(job, shop, rods).notching.unreached}
        refused = {
            problem.where.name.split()[-1]
            for problem in check_machining(rods, shop)
            if problem.code == "out-of-reach"
        }
        seen += bool(refused)

        assert refused == left_over
    assert seen >= 5 or so_many(60) < 60


NONE_OF: dict[str, dict[str, object]] = {
    "rip saw": {"rip_saw": Saw(kerf=Mm(4), have=False)},
    "crosscut saw": {"crosscut_saw": Saw(kerf=Mm(3), have=False)},
    "planer": {"planer": Planer(have=False)},
    "thicknesser": {"thicknesser": Thicknesser(have=False)},
    "moulder": {"moulder": Moulder(have=False)},
    "notcher": {"notcher": Notcher(have=False)},
    "slotter": {"slotter": Slotter(have=False)},
    "tenoner": {"tenoner": Tenoner(have=False)},
}


@pytest.mark.parametrize("machine", list(NONE_OF))
def test_a_step_without_its_machine_is_refused_once_for_the_job(machine):
    frames = a_frame(THREE_DRAWERS), a_frame(THREE_DRAWERS, id="K2")

    found = told(a_shop(**NONE_OF[machine]), *frames, joint=Joint.MORTICE_AND_TENON)

    [problem] = found
    assert (problem.code, problem.stops, problem.where.name) == ("no-machine", True, "K1")
    assert machine in problem.what


def test_machines_that_nothing_needs_may_be_missing():
    shop = a_shop(**NONE_OF["moulder"], **NONE_OF["notcher"], **NONE_OF["tenoner"])

    assert told(shop, a_frame(THREE_DRAWERS), bead=0) == []


def test_a_router_table_stands_in_for_a_notcher():
    assert told(a_shop(notcher=Notcher(have=False, router_table=True)), a_frame(THREE_DRAWERS)) == []


def test_recesses_that_no_stop_reaches_are_doubted_and_marked_on_their_card():
    shop = a_shop(slotter=Slotter(reach_left=Mm(300), reach_right=Mm(300)))
    job = a_job(a_frame(a_stack(an_opening("drawer", 300), an_opening("panel")), height=720))
    rods = set_out(job, shop)

    found = list(check_machining(rods, shop))
    by_hand = [
        setting
        for step in arrange(job, shop, rods).steps
        for setting in step.settings
        if setting.of.startswith("by hand")
    ]

    assert {(problem.code, problem.stops) for problem in found} == {("recess-out-of-reach", False)}
    assert {problem.where.name for problem in found} == {"K1, left stile K1-LS", "K1, right stile K1-RS"}
    assert {mark for setting in by_hand for mark in setting.through} == {"K1-LS", "K1-RS"}


def test_a_member_longer_than_any_stick_is_doubted():
    shop = replace(Shop(), practice=Practice(longest_stick=Mm(700)))

    found = [problem for problem in told(shop) if problem.code == "stick-too-long"]

    assert {problem.where.name for problem in found} == {"K1, left stile K1-LS", "K1, right stile K1-RS"}
    assert "770 long, more than the 700" in found[0].what


def test_a_short_piece_alone_of_its_width_gives_no_stick_that_goes_through():
    """Two doors side by side under a drawer: one muntin 200 long is the only piece 38 wide."""
    layout = a_stack(a_row(an_opening(), an_opening(), size=182), an_opening("drawer"), rails=(50,))

    [problem] = told(Shop(), a_frame(layout))

    assert (problem.code, problem.stops) == ("stick-too-short", False)
    assert problem.where.name == "K1, muntin K1-M1"
    assert "give one stick 250 long" in problem.what


def test_short_pieces_that_can_share_a_stick_are_no_doubt():
    layout = a_stack(a_row(an_opening(), an_opening(), size=182), an_opening("drawer"), rails=(50,))

    assert told(Shop(), a_frame(layout, quantity=2)) == []


def test_short_pieces_at_the_moulder_are_doubted_only_where_they_are_cut_before_it():
    layout = a_stack(a_row(*(an_opening() for _ in range(3)), size=182), an_opening("drawer"))
    early = a_shop(notcher=Notcher(notches_before_bead=True))

    found = told(early, a_frame(layout))

    assert {(problem.code, problem.where.name) for problem in found} == {
        ("short-at-moulder", "K1, muntin K1-M1"),
        ("short-at-moulder", "K1, muntin K1-M2"),
    }
    assert told(Shop(), a_frame(layout)) == []


def test_a_floor_under_the_flat_is_refused_when_the_frame_is_set_out():
    with pytest.raises(NotYetRight) as trouble:
        set_out(a_job(a_frame(THREE_DRAWERS, mid_rail=30)), Shop())

    assert "narrow-floor" in {problem.code for problem in trouble.value.problems if problem.stops}


def test_a_plan_is_refused_with_every_fault_at_once():
    frame = a_frame(a_stack(an_opening(), an_opening()), height=3300)
    shop = a_shop(**NONE_OF["moulder"], **NONE_OF["slotter"])

    with pytest.raises(NotYetRight) as trouble:
        make_plan(a_job(frame), shop)

    codes = [problem.code for problem in trouble.value.problems if problem.stops]
    assert codes == ["no-machine", "no-machine", "out-of-reach", "out-of-reach"]


def test_what_is_only_doubtful_stands_on_the_plan():
    plan = make_plan(a_job(), replace(Shop(), practice=Practice(longest_stick=Mm(700))))

    assert "stick-too-long" in {doubt.code for doubt in plan.rods.doubts}
    assert plan.machining.notching.fewest == len(plan.machining.notching.settings) > 0
