"""A fault found at the saw: said in its stick, planned around at once, taken back by name; nothing done moves."""

import re
from dataclasses import replace
from secrets import token_hex

import pytest

from pinchrod.ground import Mm
from pinchrod.store import By, Deed, Request, Said, events_of, faults_of, record
from pinchrod.timber import flaws
from pinchrod.web.in_force import plan_in_force
from pinchrod.web.roles import Role
from pinchrod.web.sticks import Sticks
from tests.web.serving import a_floor, browser
from tests.web.small_shop import SMALL, kept, plan_of, planned, small_files

HOME = f"/jobs/{SMALL}/timber"


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)
        yield floor


def say(floor, stick, low, high, key="k1", role=Role.TABLET):
    return browser(floor, role).post(f"{HOME}/stick/{stick}", data={"key": key, "from": low, "to": high})


def done(floor, *pieces, deed=Deed.BROKEN_OUT, spot=""):
    """Say of pieces, at the bench, that they went through something."""
    by = By(person="Bench", device="Bench 1")
    said = tuple(Said(deed=deed, piece=piece, spot=spot) for piece in pieces)
    codes = ("step-expected", "not-its-step")
    record(floor.store, Request(key=token_hex(8), by=by, said=said, despite=codes), floor.job(SMALL).roll)


def sticks(floor):
    stands = floor.sticks.of(floor.job(SMALL))
    return {stick.name: stick for stick in stands.breakout.sticks}


def taken_back(page):
    found = re.search(r'action="([^"]*/fault/[^"]*/undo)"', page)
    assert found is not None
    return found[1]


def test_a_stick_is_shown_with_its_members_in_their_places(floor):
    page = browser(floor, Role.TABLET).get(f"{HOME}/stick/S4").text

    assert "Stick S4" in page
    assert "B3" in page
    assert all(f'<th scope="row">{mark}</th>' in page for mark in ("P1-LS", "P1-RS"))
    assert "Plan around this fault" in page


def test_a_fault_is_planned_around_at_once_and_what_moves_is_shown(floor):
    page = say(floor, "S4", "300", "340").text

    assert "The fault in S4 is planned around." in page
    assert "S4, 300–340" in page
    [fault] = faults_of(floor.store, SMALL, 1)
    assert (fault.stick, fault.low, fault.high, fault.done) == ("S4", 300, 340, ())
    stands = floor.sticks.of(floor.job(SMALL))
    assert list(flaws(stands.question, stands.breakout)) == []
    assert stands.breakout.short == ()
    assert all("P1-LS" not in one.members or one.name != "S4" for one in stands.breakout.sticks)
    for stick in stands.breakout.sticks:
        if stick.board == "B3" and stick.offset == 58:
            assert stick.start + stick.length <= 300 or stick.start >= 340


def test_the_plan_in_force_is_what_machines_and_papers_get(floor):
    known = floor.job(SMALL)
    before = plan_in_force(floor, known)

    say(floor, "S4", "300", "340")

    after = plan_in_force(floor, known)
    assert before is not None
    assert after is not None
    assert after.breakout != before.breakout
    made = {name for rough in after.machining.roughs for name in (rough.name,)}
    assert made == set(sticks(floor))
    board = next(board for board in after.job.rack if board.name == "B3")
    assert any(fault.along.low == 300 and fault.along.high == 340 for fault in board.faults)


def test_what_is_begun_does_not_move(floor):
    before = sticks(floor)
    done(floor, "P1-R1")
    done(floor, "P1-TR", deed=Deed.THROUGH, spot="plane 1")

    say(floor, "S4", "300", "340")

    assert faults_of(floor.store, SMALL, 1)[0].done == ("S1", "S2")
    assert all(sticks(floor)[name] == before[name] for name in ("S1", "S2"))


def test_a_stick_of_which_anything_was_begun_is_not_cut_otherwise(floor):
    done(floor, "P1-LS")

    page = browser(floor, Role.TABLET).get(f"{HOME}/stick/S4").text
    answer = say(floor, "S4", "300", "340")

    assert "Plan around this fault" not in page
    assert answer.status_code == 422
    assert "S4 is sawn already" in answer.text
    assert faults_of(floor.store, SMALL, 1) == ()


def test_a_piece_that_is_taken_back_at_the_bench_frees_its_stick(floor):
    done(floor, "P1-LS")
    [event] = [each for each in events_of(floor.store, SMALL) if each.piece]
    by = By(person="Bench", device="Bench 1")
    undo = Said(deed=Deed.UNDONE, piece="P1-LS", undoes=event.seq)
    record(floor.store, Request(key="u", by=by, said=(undo,)), floor.job(SMALL).roll)

    assert say(floor, "S4", "300", "340").status_code == 200


@pytest.mark.parametrize(
    ("low", "high", "field", "said"),
    [
        ("", "40", "from", "Where it begins"),
        ("10", "", "to", "Where it ends"),
        ("ten", "40", "from", "ten"),
        ("10", "2000", "from", "2000 is beyond it"),
        ("40", "10", "from", "runs from 40 to 10"),
        ("40", "40", "from", "runs from 40 to 40"),
        ("-5", "40", "from", "-5"),
    ],
)
def test_a_stretch_that_cannot_be_is_told_beside_its_field_and_kept(floor, low, high, field, said):
    answer = say(floor, "S4", low, high)

    assert answer.status_code == 422
    assert said in answer.text
    assert f'id="{field}-slip"' in answer.text
    assert f'name="from" value="{low}"' in answer.text
    assert faults_of(floor.store, SMALL, 1) == ()


def test_a_fault_may_be_said_in_inches(floor):
    say(floor, "S4", "10 in", "11 1/2 in")

    [fault] = faults_of(floor.store, SMALL, 1)
    assert (fault.low, fault.high) == (Mm(254), Mm("292.1"))


def test_sent_twice_it_is_found_once(floor):
    first, second = (say(floor, "S4", "300", "340", key="same") for _ in range(2))

    assert (first.status_code, second.status_code) == (200, 200)
    assert len(faults_of(floor.store, SMALL, 1)) == 1


def test_a_fault_is_taken_back_by_name_and_the_sticks_are_as_they_were(floor):
    before = sticks(floor)
    page = say(floor, "S4", "300", "340").text

    assert "Undo: fault in S4" in page
    after = browser(floor, Role.TABLET).post(taken_back(page), data={"key": "k2"})

    assert "taken back" in after.text
    assert sticks(floor) == before
    assert faults_of(floor.store, SMALL, 1) == ()


def test_only_the_newest_of_several_is_offered_to_be_taken_back(floor):
    say(floor, "S4", "300", "340", key="a")
    page = say(floor, "S3", "100", "140", key="b").text

    assert page.count("/fault/a/undo") == 0
    assert browser(floor).post(f"{HOME}/fault/a/undo", data={"key": "u"}).status_code == 409
    assert len(faults_of(floor.store, SMALL, 1)) == 2


def test_once_sawn_as_planned_around_it_is_not_taken_back(floor):
    page = say(floor, "S4", "300", "340").text
    moved = next(stick for stick in sticks(floor).values() if "P1-LS" in stick.members)
    done(floor, "P1-LS")

    answer = browser(floor).post(taken_back(page), data={"key": "k2"})

    assert answer.status_code == 409
    assert f"{moved.name} was sawn since" in answer.text
    assert len(faults_of(floor.store, SMALL, 1)) == 1


def test_after_the_server_stops_the_same_sticks_stand_again(floor):
    say(floor, "S4", "300", "340", key="a")
    say(floor, "S3", "100", "140", key="b")
    known = floor.job(SMALL)

    again = Sticks(floor.store, lambda known: plan_of(known.files)).of(known)

    assert again is not None
    assert again.breakout == floor.sticks.of(known).breakout


def test_a_fault_of_another_plan_is_told_and_not_planned_around(floor):
    known = floor.job(SMALL)
    say(floor, "S4", "300", "340")
    plan = plan_of(known.files)
    assert plan.breakout is not None
    other = replace(
        plan, breakout=replace(plan.breakout, sticks=plan.breakout.sticks[:3], short=("P1-LS", "P1-RS"))
    )

    stands = Sticks(floor.store, lambda _: other).of(known)

    assert stands is not None
    assert stands.found == ()
    assert [one.stick for one in stands.strays] == ["S4"]
    assert stands.breakout == other.breakout


TIGHT = """board,thickness,width,length,price
B1,27,75,880,5
B2,27,53,880,5
B3,27,60,880,5
B4,27,60,1660,5
"""


def test_members_without_wood_after_a_fault_are_named(tmp_path):
    with a_floor(tmp_path) as floor:
        known = planned(floor, small_files(rack=TIGHT))
        stands = plan_of(known.files).breakout
        assert stands is not None
        assert stands.short == ()
        stick = next(stick for stick in stands.sticks if "P1-LS" in stick.members)

        page = say(floor, stick.name, "800", "840").text

        assert re.search(r"No wood for [^<]*P1-[LR]S", page)


def test_before_there_is_a_plan_no_fault_can_be_said(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = browser(floor).get(f"{HOME}/faults").text

        assert "not planned yet" in page
        assert say(floor, "S1", "10", "20").status_code == 404
