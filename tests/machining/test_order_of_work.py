"""The order of work, as the machines of the workshop ask for it; and what stands on each step."""

import random
from dataclasses import replace

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.job import Joint, Machines, Moulder, Notcher, Planer, Practice, Shop
from pinchrod.machining import Machining, Step, arrange, flaws
from pinchrod.setting_out import Rods, set_out
from pinchrod.timber import Board, Breakout, break_out, question_of
from tests.builders import a_frame, a_job, a_random_frame, a_row, a_stack, an_opening, so_many

LAYOUT = a_stack(an_opening("drawer", 140), a_row(an_opening(), an_opening()))
FROM_THE_RIP = ("Rip strips", "Face and edge")
TO_SIZE = ("Plane to thickness", "Plane to width")
BEAD = "Stick the bead"
LENGTH, NOTCH, MITRE = (
    "Cut to length",
    "Notch the beaded edges",
    "Mitre the bead",
)
KEYS = ("Key slots in the edges, back up", "Key slots in the ends, back up")
SEATS = "Hinge seats"


def a_shop(**machines: object) -> Shop:
    return Shop(machines=Machines(**machines))  # type: ignore[arg-type] # each test names real machines


def arranged(shop: Shop, layout=LAYOUT, **said: object) -> Machining:
    job = a_job(a_frame(layout), **said)
    return arrange(job, shop, set_out(job, shop))


def titles(machining: Machining) -> tuple[str, ...]:
    return tuple(step.title for step in machining.steps)


def the_step(machining: Machining, machine: str) -> Step:
    return next(step for step in machining.steps if step.machine == machine)


def test_a_guillotine_shop_sticks_the_bead_before_it_notches():
    found = titles(arranged(Shop()))

    assert found == (*FROM_THE_RIP, *TO_SIZE, BEAD, LENGTH, NOTCH, MITRE, *KEYS, SEATS)


@pytest.mark.parametrize("notcher", [Notcher(router_table=True), Notcher(notches_before_bead=True)])
def test_a_router_table_shop_notches_before_the_bead_is_stuck(notcher):
    machining = arranged(a_shop(notcher=notcher))

    assert titles(machining) == (*FROM_THE_RIP, *TO_SIZE, LENGTH, NOTCH, BEAD, MITRE, *KEYS, SEATS)
    assert "second notching set-up" in the_step(machining, "moulder").why


def test_no_notcher_but_a_router_table_is_named_as_the_machine():
    machining = arranged(a_shop(notcher=Notcher(have=False, router_table=True)))

    assert {step.machine for step in machining.steps if step.title in {NOTCH, MITRE}} == {"router table"}


def test_one_machine_for_planing_and_thicknessing_is_changed_over_once():
    found = titles(arranged(a_shop(planer=Planer(combined=True))))

    assert found[1:5] == (FROM_THE_RIP[1], "Change the planer over to thicknessing", *TO_SIZE)
    assert found.count("Change the planer over to thicknessing") == 1


def test_square_frames_are_neither_beaded_nor_notched():
    found = titles(arranged(Shop(), bead=0))

    assert not {BEAD, NOTCH, MITRE} & {*found}
    assert arranged(Shop(), bead=0).moulding is None


def test_tenons_are_cut_where_the_joint_has_them():
    machining = arranged(Shop(), joint=Joint.MORTICE_AND_TENON)

    tenons = the_step(machining, "tenoner")
    assert [(setting.of, setting.to) for setting in tenons.settings] == [("shoulder", 40)]
    assert set(tenons.settings[0].through) == {"K1-TR", "K1-R1", "K1-BR", "K1-M1"}


def test_every_step_says_why_and_has_its_own_two_or_three_cautions():
    for shop in (Shop(), a_shop(notcher=Notcher(router_table=True), planer=Planer(combined=True))):
        for step in arranged(shop).steps:
            assert step.why
            assert 2 <= len(step.cautions) <= 3


def test_climb_cutting_is_forbidden_by_hand_and_bound_to_a_light_cut_with_a_power_feed():
    by_hand = the_step(arranged(a_shop(moulder=Moulder(power_feed=False))), "moulder")
    powered = the_step(arranged(Shop()), "moulder")

    assert "never climb cut by hand" in " ".join(by_hand.cautions)
    assert "MAN (EN 847-1)" in " ".join(by_hand.cautions)
    assert "Climb cut only with the power feed and a light cut, never by hand." in powered.cautions


def test_the_router_table_never_climb_cuts():
    step = the_step(arranged(a_shop(notcher=Notcher(router_table=True))), "router table")

    assert "never climb cut by hand" in " ".join(step.cautions)


def test_the_bead_is_stuck_at_one_setting_whatever_the_widths():
    machining = arranged(Shop())
    step = the_step(machining, "moulder")

    once = [(setting.of, setting.to) for setting in step.settings if not setting.through]
    assert once == [("bead", 9), ("speed", 6000), ("feed", 6)]
    widths = [setting.to for setting in step.settings if setting.through]
    assert widths == sorted(widths, reverse=True)
    assert machining.moulding is not None
    beaded = {piece.piece: piece.edges for run in machining.moulding.runs for piece in run.pieces}
    assert {len(edges) for name, edges in beaded.items() if name in {"K1-R1", "K1-M1"}} == {2}


def test_lengths_are_cut_long_before_short():
    stops = arranged(Shop()).lengths

    assert [(stop.length, stop.pieces) for stop in stops[:2]] == [
        (720, ("K1-LS", "K1-RS")),
        (528, ("K1-TR", "K1-BR", "K1-R1")),
    ]


def test_the_notching_step_makes_every_stroke_of_its_settings():
    machining = arranged(Shop())
    step = the_step(machining, "notcher")

    stops = [setting.stop for setting in step.settings if setting.stop]
    assert tuple(stops) == machining.notching.settings
    assert step.why.startswith(f"{machining.notching.fewest} settings")


def broken_out() -> tuple[Rods, Breakout]:
    job = a_job(a_frame(LAYOUT), rack=(a_board("B1"), a_board("B2")))
    rods = set_out(job, Shop())
    return rods, break_out(question_of(job, Shop(), rods))


def a_board(name: str) -> Board:
    sizes = {"thickness": 27, "width": 200, "length": 2400, "bow": 0, "spring": 0, "price": 20}
    lengths = {key: Mm(size) for key, size in sizes.items()}
    return Board(name=name, faults=(), where=a_frame().where, **lengths)


def test_from_a_rack_it_is_sticks_that_are_ripped_crosscut_planed_and_beaded():
    rods, breakout = broken_out()
    machining = arrange(a_job(), Shop(), rods, breakout)

    sticks = {stick.name for stick in breakout.sticks}
    assert titles(machining)[1] == "Crosscut into sticks"
    for step in machining.steps[:6]:
        for setting in step.settings:
            assert set(setting.through) <= sticks
    assert machining.sawn is None
    assert machining.passes[0].heights == (Mm("24.5"), Mm("22.8"), 22)
    assert {mark for cuts in machining.stick_cuts for mark in cuts.pieces} == {
        member.name for rod in rods.rods for member in rod.members
    }
    assert list(flaws(machining, Shop(), rods)) == []


def test_without_a_rack_boards_are_taken_to_be_of_the_thinnest_usual_size():
    machining = arranged(Shop())

    assert machining.sawn == 25  # 22 and the skim of 1.5
    assert "No rack is named" in machining.steps[0].why


def test_no_stick_is_shorter_than_the_machines_must_have():
    machining = arranged(Shop(practice=Practice(shortest_stick=Mm(900))))

    assert {rough.length for rough in machining.roughs} == {900}


def random_shop(dice: random.Random) -> Shop:
    notcher = Notcher(
        router_table=dice.random() < 0.3, notches_before_bead=dice.random() < 0.3, reach_left=Mm(4000)
    )
    practice = Practice(settings_as_shown=dice.random() < 0.3, width_allowance=Mm(dice.choice((1, 3, 4, 6))))
    return Shop(practice=practice, machines=Machines(notcher=notcher))


def test_the_judge_finds_no_flaw_in_the_set_ups_of_random_jobs():
    dice, tried = random.Random("jobs"), 0
    while tried < so_many(40):
        shop = random_shop(dice)
        frames = [replace(a_random_frame(dice, n), quantity=dice.randint(1, 2)) for n in (1, 2)]
        job = a_job(*frames, joint=dice.choice(list(Joint)))
        try:
            rods = set_out(job, shop)
        except NotYetRight:
            continue
        tried += 1

        assert list(flaws(arrange(job, shop, rods), shop, rods)) == []


def test_the_same_job_with_its_frames_in_another_order_takes_the_same_settings():
    frames = [a_frame(LAYOUT, id=f"K{n}", width=500 + 70 * n, height=700 + 33 * n) for n in range(5)]

    def places(order) -> list[tuple[str, Mm]]:
        job = a_job(*order)
        settings = arrange(job, Shop(), set_out(job, Shop())).notching.settings
        return [(str(setting.hand), setting.distance) for setting in settings]

    assert places(frames) == places(frames[::-1])


def drop_a_copy(it: Machining) -> Machining:
    """One of two alike frames left unnotched."""
    settings = tuple(
        replace(each, strokes=tuple(s for s in each.strokes if not s.piece.endswith("/2")))
        for each in it.notching.settings
    )
    return replace(it, notching=replace(it.notching, settings=settings))


def drop_a_recess(it: Machining) -> Machining:
    return replace(it, recessing=it.recessing[1:])


def swap_recesses(it: Machining) -> Machining:
    first, second, *rest = it.recessing
    return replace(
        it, recessing=(replace(first, stops=second.stops), replace(second, stops=first.stops), *rest)
    )


def cut_short(it: Machining) -> Machining:
    first, *rest = it.lengths
    return replace(it, lengths=(replace(first, length=first.length - 1), *rest))


def lengths_back(it: Machining) -> Machining:
    return replace(it, lengths=it.lengths[::-1])


def thin(it: Machining) -> Machining:
    flat, on_edge = it.passes
    return replace(it, passes=(replace(flat, passes=flat.passes[:-1]), on_edge))


def notch_first(it: Machining) -> Machining:
    order = sorted(it.steps, key=lambda step: step.title != NOTCH)
    return replace(it, steps=tuple(order))


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (drop_a_copy, "wood is left"),
        (drop_a_recess, "no key slot"),
        (swap_recesses, "where none is wanted"),
        (cut_short, "not cut once to its length"),
        (lengths_back, "one way only"),
        (thin, "not brought to 22"),
        (notch_first, "out of order"),
    ],
)
def test_the_judge_sees_set_ups_that_are_spoiled(spoil, said):
    job = a_job(a_frame(LAYOUT, quantity=2))
    rods = set_out(job, Shop())
    good = arrange(job, Shop(), rods)

    assert list(flaws(good, Shop(), rods)) == []
    assert said in " ".join(flaws(spoil(good), Shop(), rods))
