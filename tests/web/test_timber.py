"""The page Timber: what it says before there is a rack, before there is a plan, and after."""

import re

from pinchrod.web.roles import Role
from tests.web.serving import a_floor, browser
from tests.web.small_shop import SMALL, kept, planned, small_files

HOME = f"/jobs/{SMALL}/timber"


def found(pattern, page):
    match = re.search(pattern, page)
    assert match is not None, pattern
    return match[1]


def test_a_job_without_a_rack_says_what_will_be_here_and_how_to_begin(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor, small_files(rack=None))

        page = browser(floor).get(HOME).text

        assert "no rack yet" in page
        assert f'href="{HOME}/rack"' in page
        assert "Plan the sawing" not in page


def test_a_rack_that_is_not_planned_is_drawn_with_its_faults_and_can_be_planned(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)

        page = office.get(HOME).text

        assert "Plan the sawing" in page
        assert all(f"/picture/252/B{number}?seen=" in page for number in (1, 2, 3, 4))
        address = found(rf'src="({HOME}/picture/252/B1[^"]*)"', page).replace("&amp;", "&")
        picture = office.get(address)
        assert picture.headers["content-type"] == "image/svg+xml; charset=utf-8"
        assert "fault" in picture.text
        assert "immutable" in picture.headers["cache-control"]


def test_a_plan_is_shown_with_its_figures_its_proof_and_the_plan_by_eye_beside_it(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)

        page = browser(floor).get(HOME).text

        assert "22.50" in page  # two boards: 11.00 and 11.50
        assert "Proven: no plan for these members" in page
        assert "By eye" in page
        assert "Boards to saw: 2" in page
        assert all(f"{HOME}/stick/{stick}" in page for stick in ("S1", "S2", "S3", "S4"))
        assert "Left on the rack: 2" in page


def test_planning_goes_on_beside_the_page_and_the_page_says_how_far_it_is(tmp_path, monkeypatch):
    with a_floor(tmp_path) as floor:
        known = kept(floor)
        asked = []
        monkeypatch.setattr(floor.planner, "ask", lambda known, work: asked.append((known.name, str(work))))

        answer = browser(floor).post(f"{HOME}/plan", data={"key": "k"}, follow_redirects=False)

        assert (answer.status_code, answer.headers["location"]) == (303, HOME)
        assert asked == [(known.name, "plan")]


def test_a_part_of_the_page_that_is_as_it_was_is_not_sent_again(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)
        office = browser(floor)
        seen = found(rf'hx-get="{HOME}/boards\?seen=([^"]+)"', office.get(HOME).text)

        same, other = (office.get(f"{HOME}/boards", params={"seen": word}) for word in (seen, "1-old"))

        assert (same.status_code, same.text) == (204, "")
        assert "Boards to saw: 2" in other.text
        assert "<html" not in other.text


def test_members_without_wood_are_named_at_the_top(tmp_path):
    with a_floor(tmp_path) as floor:
        rack = "board,thickness,width,length\nB1,27,60,2600\nB2,27,60,2600\n"
        planned(floor, small_files(rack=rack))

        page = browser(floor).get(HOME).text

        assert re.search(r"No wood for \d members?: [^<]*P1-", page)


def test_a_board_is_shown_by_itself_with_every_cut(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)

        page = browser(floor).get(f"{HOME}/board/B3").text

        assert "How it is sawn" in page
        assert "P1-LS, P1-RS" in page
        assert "1653.2" in page  # the stick of both stiles


def test_a_board_or_stick_or_picture_that_is_not_there_is_told_so(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)
        office = browser(floor)

        for address in ("board/B9", "stick/S9", "picture/252/B9", "picture/7/B1"):
            answer = office.get(f"{HOME}/{address}")
            assert answer.status_code == 404
            assert "there is no" in answer.text


def test_a_tablet_sees_the_timber_and_a_stranger_does_not(tmp_path):
    with a_floor(tmp_path) as floor:
        planned(floor)

        assert "Boards to saw" in browser(floor, Role.TABLET).get(HOME).text
        stranger = browser(floor, Role.NOBODY).get(HOME, follow_redirects=False)
        assert stranger.headers["location"] == "/enter"
