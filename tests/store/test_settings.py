"""When a piece has gone through all its settings of one kind, the deed is done: no sooner, no later."""

from collections import defaultdict
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import Source
from pinchrod.plan import Plan, make_plan
from pinchrod.store import (
    By,
    Deed,
    Entry,
    Event,
    JobFiles,
    Roll,
    Said,
    Standing,
    after,
    comes_later,
    roll_of,
    said_through,
    turns_of,
)

BENCH = By(person="Bench", device="tablet 2")
JOINTS = ("dovetail key", "loose tenon", "dowel", "mortice and tenon", "pocket screw")
RACK = b"board,thickness,width,length\n" + b"".join(b"B%d,27,150,3000\n" % number for number in range(1, 7))


@cache
def a_plan(
    *, joint: str = "dovetail key", rack: bool = False, router_table: bool = False
) -> tuple[Plan, Roll]:
    """Two frames: one with a muntin, so that rails are notched, and doors, so that stiles have hinge seats."""
    words = (
        f'pinchrod = 1\n[job]\nname = "Pantry"\ntimber = "yellow-poplar"\nthickness = 22\njoint = "{joint}"\n'
        + ('rack = "rack.csv"\n' if rack else "")
        + 'workshop = "workshop.toml"\n'
        '[[frame]]\nid = "K1"\nwidth = 900\nheight = 720\nlayout = "(drawer beside drawer) 140 over pair"\n'
        '[[frame]]\nid = "K2"\nwidth = 500\nheight = 720\nlayout = "2 drawers"\nquantity = 2\n'
    )
    shop = f"pinchrod = 1\n[machines.notcher]\nrouter_table = {str(router_table).lower()}\n"
    joined = [Source(name="workshop.toml", content=shop.encode())]
    joined += [Source(name="rack.csv", content=RACK)] if rack else []
    files = JobFiles(main=Source(name="job.toml", content=words.encode()), joined=tuple(joined))
    plan = make_plan(*files.read(), goes_on=lambda: False)
    return plan, roll_of(plan.rods, "pantry", 1, "KY3D-10C8")


def entry_of(roll: Roll, piece: str) -> Entry:
    entry = roll.entry(piece)
    assert entry is not None
    return entry


def told(standing: Standing | None, said: Said, seq: int = 0) -> Standing:
    before = standing or Standing(job="pantry", piece=said.piece)
    seq = seq or len(before.events) + 1
    event = Event(
        seq=seq,
        key=f"tap-{seq}",
        part=0,
        deed=said.deed,
        job="pantry",
        revision=1,
        at="2026-11-26T08:00:00.000000Z",
        by=BENCH,
        piece=said.piece,
        spot=said.spot,
    )
    return after(before, event)


def test_every_step_of_every_kind_of_job_is_work_of_some_deed():
    for joint in JOINTS:
        plan, _ = a_plan(joint=joint)

        turns = turns_of(plan.machining)

        assert {turn.step for turn in turns} == {
            number for number, step in enumerate(plan.machining.steps, 1) if "Change" not in step.title
        }


def test_each_setting_is_called_by_words_of_its_own():
    plan, _ = a_plan()

    spots = [turn.spot for turn in turns_of(plan.machining)]

    assert len(set(spots)) == len(spots)
    assert "Cut to length: stop 720 mm" in spots


@pytest.mark.parametrize(("joint", "rack"), [*((joint, False) for joint in JOINTS), (JOINTS[0], True)])
def test_worked_through_in_order_each_piece_has_had_every_step_up_to_the_glue(joint, rack):
    plan, roll = a_plan(joint=joint, rack=rack)
    turns, standings = turns_of(plan.machining), dict[str, Standing]()

    for turn in turns:
        pieces = [piece for lot in turn.lots for piece in lot.pieces]
        for said in said_through(turn, pieces, turns, roll, standings):
            standings[said.piece] = told(standings.get(said.piece), said)

    for entry in roll.entries:
        wanted = entry.steps[: entry.steps.index(Deed.GLUED)]
        assert tuple(event.deed for event in standings[entry.mark].done) == wanted, entry.mark


def test_a_piece_notched_in_several_settings_is_notched_at_the_last_and_not_before():
    plan, roll = a_plan()
    turns = turns_of(plan.machining)
    mine = [
        turn for turn in turns if turn.deed is Deed.NOTCHED and any(lot.name == "K1-LS" for lot in turn.lots)
    ]
    standings: dict[str, Standing] = {}

    deeds = []
    for turn in mine:
        said = said_through(turn, ["K1-LS"], turns, roll, standings)
        deeds.append([each.deed for each in said])
        for each in said:
            standings["K1-LS"] = told(standings.get("K1-LS"), each)

    assert len(mine) >= 3
    assert deeds == [[Deed.THROUGH]] * (len(mine) - 1) + [[Deed.THROUGH, Deed.NOTCHED]]


@given(st.randoms(use_true_random=False))
def test_in_whatever_order_settings_are_worked_a_deed_comes_once_with_the_last_of_its_settings(chance):
    plan, roll = a_plan()
    turns = list(turns_of(plan.machining))
    left: dict[Deed, set[str]] = defaultdict(set)
    entry = entry_of(roll, "K1-R1")
    mine = [turn for turn in turns if any("K1-R1" in lot.pieces for lot in turn.lots)]
    for turn in mine:
        owed = turn.deed if turn.deed in entry.steps else Deed.SLOTTED
        left[owed].add(turn.spot)
    chance.shuffle(mine)
    standings: dict[str, Standing] = {}

    for turn in mine:
        said = said_through(turn, ["K1-R1"], turns, roll, standings)
        owed = turn.deed if turn.deed in entry.steps else Deed.SLOTTED
        left[owed].discard(turn.spot)

        assert [each.deed for each in said] == [Deed.THROUGH, *([] if left[owed] else [owed])]
        for each in said:
            standings["K1-R1"] = told(standings.get("K1-R1"), each)


def test_a_rail_that_only_has_its_bead_mitred_is_not_slotted_without_the_mitre():
    plan, roll = a_plan()
    rail = entry_of(roll, "K2-R1/1")
    turns = turns_of(plan.machining)
    mine = [turn for turn in turns if any(rail.mark in lot.pieces for lot in turn.lots)]
    slots = [turn for turn in mine if turn.deed is Deed.SLOTTED]
    standings: dict[str, Standing] = {}

    for turn in slots:
        for each in said_through(turn, [rail.mark], turns, roll, standings):
            standings[rail.mark] = told(standings.get(rail.mark), each)

    assert Deed.NOTCHED not in rail.steps
    assert standings[rail.mark].when(Deed.SLOTTED) is None
    [mitre] = [turn for turn in mine if turn.deed is Deed.NOTCHED]
    last = said_through(mitre, [rail.mark], turns, roll, standings)
    assert [each.deed for each in last] == [Deed.THROUGH, Deed.SLOTTED]


def test_a_stick_gone_through_is_said_of_every_piece_that_will_be_cut_from_it():
    plan, roll = a_plan(rack=True)
    turns = turns_of(plan.machining)
    lot = next(lot for lot in turns[0].lots if len(lot.pieces) > 1)

    said = said_through(turns[0], lot.pieces, turns, roll, {})

    assert [each.piece for each in said if each.deed is Deed.THROUGH] == list(lot.pieces)


def test_what_was_said_done_as_a_whole_or_is_spoiled_is_not_said_again():
    plan, roll = a_plan()
    turns = turns_of(plan.machining)
    cut = next(turn for turn in turns if turn.deed is Deed.CUT and "K1-LS" in [lot.name for lot in turn.lots])
    done = told(None, Said(deed=Deed.CUT, piece="K1-LS"))
    spoiled = told(None, Said(deed=Deed.SPOILED, piece="K1-RS", reason="split"))

    assert said_through(cut, ["K1-LS"], turns, roll, {"K1-LS": done}) == ()
    assert said_through(cut, ["K1-RS"], turns, roll, {"K1-RS": spoiled}) == ()


def test_a_piece_made_again_goes_through_all_settings_again():
    plan, roll = a_plan()
    turns = turns_of(plan.machining)
    cut = next(turn for turn in turns if turn.deed is Deed.CUT and "K1-LS" in [lot.name for lot in turn.lots])
    standing: Standing | None = None
    for said in (
        *said_through(cut, ["K1-LS"], turns, roll, {}),
        Said(deed=Deed.SPOILED, piece="K1-LS", reason="split"),
        Said(deed=Deed.MADE_AGAIN, piece="K1-LS"),
    ):
        standing = told(standing, said)

    assert standing is not None
    again = said_through(cut, ["K1-LS"], turns, roll, {"K1-LS": standing})

    assert [each.deed for each in again] == [Deed.THROUGH, Deed.CUT]


def test_where_a_router_table_notches_first_the_bead_still_to_come_is_no_surprise():
    plain, first = (turns_of(a_plan(router_table=router)[0].machining) for router in (False, True))

    assert not any(comes_later(plain, turn) for turn in plain)
    bead = next(turn.step for turn in first if turn.deed is Deed.MOULDED)
    assert all(
        comes_later(first, turn)
        for turn in first
        if turn.deed in (Deed.CUT, Deed.NOTCHED) and turn.step < bead
    )
