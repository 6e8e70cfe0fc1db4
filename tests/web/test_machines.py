"""The pages at the machines: the order of work, one setting a screen, ticks that become deeds, and undo."""

import re
from dataclasses import replace
from functools import cache
from html import unescape

import pytest

from pinchrod.plan import Plan, make_plan
from pinchrod.store import Deed, events_of, last_seq, turns_of
from pinchrod.web import Floor, Role
from pinchrod.web.beside import Work
from pinchrod.web.planner import State
from tests.web import small_shop
from tests.web.pressing import form_of, press
from tests.web.serving import JOB, a_floor, browser, demo_files, keep

HOME = f"/jobs/{JOB}/machines"


@cache
def the_plan() -> Plan:
    return make_plan(*demo_files().read())


def plan_of(known):
    return the_plan()


def planned(floor: Floor) -> None:
    vars(floor.planner)["plan_of"] = plan_of


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        keep(made, demo_files())
        planned(made)
        yield made


@pytest.fixture
def tablet(floor):
    return browser(floor, Role.TABLET, "Notcher")


def notching():
    return [turn for turn in turns_of(the_plan().machining) if turn.deed is Deed.NOTCHED]


def test_the_order_of_work_says_each_step_its_machine_and_how_far_it_is(tablet):
    page = tablet.get(HOME)

    for step in the_plan().machining.steps:
        assert step.title in page.text
    assert "Go on: step 1, Rip strips" in page.text
    assert "0 of 4 settings" in page.text


def test_a_step_has_its_cautions_what_is_set_once_and_its_settings(tablet):
    page = tablet.get(f"{HOME}/7")

    assert "Isolate the machine before moving a stop." in page.text
    assert "depth" in page.text
    assert "Begin with setting 1 of 139" in page.text


def test_a_setting_shows_its_number_how_the_piece_lies_and_which_is_next(tablet):
    page = tablet.get(f"{HOME}/7/3")

    assert '<span class="cut m-set">26</span> mm' in page.text
    assert "datum end to the stop" in page.text
    assert "<svg" in page.text
    assert re.search(r"next</span>\s*<span class=\"m-piece\">B3-RS", page.text)


def test_a_tick_is_kept_and_can_be_taken_back_by_its_name(floor, tablet):
    page = press(tablet, tablet.get(f"{HOME}/7/3"), "B3-RS through")

    assert "All 14 through, next setting" in page.text
    [event] = events_of(floor.store, JOB, "B3-RS")
    assert (event.deed, event.spot) == (Deed.THROUGH, "Notch the beaded edges: left stop 26 mm")
    back = press(tablet, page, "Undo: B3-RS through")
    assert "All 15 through, next setting" in back.text
    assert "Taken back: B3-RS" in back.text
    assert floor.standings.of(JOB)["B3-RS"].through == ()


def test_all_through_leads_to_the_next_setting_and_says_so_of_each_piece(floor, tablet):
    page = press(tablet, tablet.get(f"{HOME}/7/3"), "All 15 through, next setting")

    assert page.url.path == f"{HOME}/7/4"
    assert len(floor.standings.of(JOB)) == 15
    assert "Undo: 15 pieces through" in page.text


def test_a_piece_worked_through_all_its_settings_is_notched_in_the_request_of_the_last(floor, tablet):
    mine = [turn for turn in notching() if any(lot.name == "K2-LS" for lot in turn.lots)]
    for turn in mine:
        press(tablet, tablet.get(f"{HOME}/{turn.step}/{turn.number}"), "K2-LS through")

    events = events_of(floor.store, JOB, "K2-LS")

    assert len(mine) > 2
    assert [event.deed for event in events] == [Deed.THROUGH] * len(mine) + [Deed.NOTCHED]
    assert events[-1].key == events[-2].key


def test_the_same_touch_sent_again_counts_once(floor, tablet):
    address, fields = form_of(tablet.get(f"{HOME}/7/3"), "All 15 through, next setting")
    first = tablet.post(address, data=fields)
    stands = last_seq(floor.store)

    again = tablet.post(address, data=fields)

    assert last_seq(floor.store) == stands
    assert again.url == first.url


def test_undo_takes_back_everything_of_the_last_touch_then_the_one_before(floor, tablet):
    page = press(tablet, tablet.get(f"{HOME}/7/3"), "B3-RS through")
    page = press(tablet, page, "All 14 through, next setting")

    page = press(tablet, page, "Undo: 14 pieces through")
    page = press(tablet, page, "Undo: B3-RS through")

    assert all(not standing.events for standing in floor.standings.of(JOB).values())
    assert "Undo" not in page.text


def test_what_another_tablet_said_is_not_offered_for_undoing(floor, tablet):
    press(tablet, tablet.get(f"{HOME}/7/3"), "B3-RS through")

    assert "Undo" not in browser(floor, Role.TABLET, "Saw").get(f"{HOME}/7/3").text


def test_settings_planned_anew_meanwhile_are_not_ticked_by_an_old_page(floor, tablet):
    address, fields = form_of(tablet.get(f"{HOME}/7/3"), "B3-RS through")

    answer = tablet.post(address, data={**fields, "spot": "Notch the beaded edges: left stop 27 mm"})

    assert answer.status_code == 422
    assert "planned anew" in answer.text
    assert last_seq(floor.store) == 1


def test_pieces_not_cut_yet_are_named_before_they_are_notched(tablet):
    page = unescape(tablet.get(f"{HOME}/7/3").text)

    assert 'Not said to be broken out yet: <span class="once">B3-RS' in page, (
        "no mark is parted at a line's end"
    )


@pytest.mark.parametrize("place", ["0", "12", "x", "7/0", "7/140", "7/99999999999", "7/-1"])
def test_a_step_or_setting_that_is_not_there_is_said_so(tablet, place):
    answer = tablet.get(f"{HOME}/{place}")

    assert answer.status_code in (404, 422)
    assert "there is no" in answer.text


def test_without_a_plan_the_page_begins_one_and_says_how_far_it_is(floor, tablet):
    asked = []
    floor.planner.plan_of = lambda _known: None
    floor.planner.ask = lambda known: asked.append(known.name)
    before = last_seq(floor.store)

    page = tablet.get(HOME)

    assert asked == [JOB]
    assert "Work out the settings" in page.text
    assert last_seq(floor.store) == before


def test_a_plan_under_way_is_told_of_and_can_be_stopped(floor, tablet):
    stopped = []
    floor.planner.plan_of = lambda _known: None
    floor.planner.state = lambda _known, _work=Work.PLAN: replace(State(), running=True, seconds=4, tried=12)
    floor.planner.stop = lambda known: stopped.append(known.name)

    page = tablet.get(f"{HOME}/7/3")

    assert "4 s, 12 ways of sawing looked at" in page.text
    tablet.post(f"{HOME}/plan", data={"do": "stop"})
    assert stopped == [JOB]


def test_looking_at_every_page_of_a_step_changes_nothing(floor, tablet):
    before = last_seq(floor.store)

    for place in ("", "/1", "/2", "/2/1", "/5/1", "/8/1", "/11/1"):
        assert tablet.get(HOME + place).status_code == 200

    assert last_seq(floor.store) == before


def ticked(tablet, page, button, **said):
    """A tick as the page's script sends it."""
    address, fields = form_of(page, button)
    return tablet.post(address, json={**fields, **said})


def test_a_tick_sent_by_script_is_answered_when_it_is_safe_and_the_same_each_time(floor, tablet):
    page = tablet.get(f"{HOME}/7/3")

    first = ticked(tablet, page, "B3-RS through", key="tap-1")
    stands = last_seq(floor.store)
    again = ticked(tablet, page, "B3-RS through", key="tap-1")

    assert first.json()["state"] == "in the ledger"
    assert first.json()["words"] == "B3-RS through"
    assert again.content == first.content
    assert last_seq(floor.store) == stands
    assert floor.standings.of(JOB)["B3-RS"].when(Deed.THROUGH, "Notch the beaded edges: left stop 26 mm")


def test_a_stick_that_went_through_is_told_with_the_pieces_by_which_it_is_taken_back(tmp_path):
    with a_floor(tmp_path) as floor:
        small_shop.planned(floor)
        saw = browser(floor, Role.TABLET, "Saw")
        address = f"/jobs/{small_shop.SMALL}/machines/1/1"
        page = saw.get(address)
        [stick, *_] = re.findall(r'name="lot" value="(S\d+)"', page.text)

        told = ticked(saw, page, f"{stick} through", lot=stick, all="").json()["words"]

        [pieces] = re.findall(rf"^{stick} \((.+)\) through$", told)
        assert f"Undo: {pieces} through" in saw.get(address).text


def test_all_through_sent_by_script_says_which_setting_is_next(tablet):
    answer = ticked(tablet, tablet.get(f"{HOME}/7/3"), "All 15 through, next setting")

    assert answer.json()["page"] == f"{HOME}/7/4"


def test_a_tick_is_kept_by_the_tablet_while_the_settings_are_worked_out(floor, tablet):
    page = tablet.get(f"{HOME}/7/3")
    asked = []
    floor.planner.plan_of = lambda _known: None
    floor.planner.ask = lambda known: asked.append(known.name)

    answer = ticked(tablet, page, "B3-RS through")

    assert (answer.status_code, asked) == (503, [JOB])
    assert "json" not in answer.headers["content-type"]


def test_a_tick_by_script_for_settings_planned_anew_is_refused_in_words(tablet):
    answer = ticked(tablet, tablet.get(f"{HOME}/7/3"), "B3-RS through", spot="another")

    assert answer.status_code == 422
    assert "planned anew meanwhile" in answer.json()["words"]
