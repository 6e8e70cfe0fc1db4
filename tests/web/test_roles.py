"""Who may do what: every address, tried by the office, by a tablet and by a stranger; and no look changes anything."""

import re
from threading import Timer

import pytest

from pinchrod.store import By, devices, revoke
from pinchrod.web import ROUTES, Floor, Role, Route, feed
from pinchrod.web.roles import ANYBODY, OFFICE_ONLY, WORKSHOP
from pinchrod.web.trouble import MISSING
from tests.web.knocking import OUR_PAGE, address_of, app_on, digest_of, knock, let_in
from tests.web.serving import HOST, a_floor, keep
from tests.web.small_job import small_files

CELLS = [(route, role) for route in ROUTES for role in Role]

THE_SAME_FOR_ALL = {("GET", "/alone"), ("GET", "/worker.js"), ("GET", "/pinchrod.webmanifest")}
OPEN_TO_ALL = {("GET", "/enter"), ("POST", "/enter"), ("POST", "/look"), *THE_SAME_FOR_ALL}
KEY = r'name="key" value="[^"]*"'
A_TABLETS = r"/(enter|leave|who|look|undo|bench/.+|jobs/\{job\}/(timber|machines|bench)/.+)"
"""What a tablet may change, said here once more by hand: work at machines and bench, boards and faults."""


@pytest.fixture(scope="module")
def floor(tmp_path_factory):
    with a_floor(tmp_path_factory.mktemp("roles")) as made:
        keep(made, small_files(rack=False))
        yield made


@pytest.fixture(scope="module")
def passes(floor: Floor):
    return {role: let_in(floor, role) for role in Role}


def named(cell: object) -> str:
    return f"{cell.method} {cell.path}" if isinstance(cell, Route) else str(cell)


@pytest.mark.parametrize(("route", "role"), CELLS, ids=named)
def test_each_may_go_where_it_is_said_and_nowhere_else(floor, passes, route: Route, role: Role):
    app, before = app_on(floor), digest_of(floor)

    answer = knock(app, route.method, address_of(route), [*OUR_PAGE, *passes[role]])

    to_the_door = answer.status == 303 and answer.header("location") == "/enter"
    if role in route.may:
        assert answer.status not in (403, 405, 500)
        assert MISSING.encode() not in answer.body
        assert not to_the_door or route.path == "/leave"
    else:
        assert answer.status == (303 if role is Role.NOBODY else 403)
        assert to_the_door or role is not Role.NOBODY
        assert digest_of(floor) == before
    if route.path == "/leave" and role in route.may:
        passes[role] = let_in(floor, role)  # for what is tried after it


def test_no_two_pages_lie_at_one_address():
    places = [(route.method, re.sub(r"\{\w+", "{", route.path)) for route in ROUTES]

    assert len(places) == len(set(places))


def test_a_stranger_gets_no_further_than_the_door():
    assert {(route.method, route.path) for route in ROUTES if route.may == ANYBODY} == OPEN_TO_ALL
    assert all(route.may in (ANYBODY, WORKSHOP, OFFICE_ONLY) for route in ROUTES)


@pytest.mark.parametrize("address", sorted(address for _, address in THE_SAME_FOR_ALL))
def test_what_a_stranger_may_look_at_is_the_same_for_all_and_tells_of_no_job(floor, address):
    strangers, offices = (
        knock(app_on(floor), "GET", address, [("Host", HOST), *who])
        for who in ((), let_in(floor, Role.OFFICE))
    )

    assert strangers.status == 200
    assert re.sub(KEY, "", strangers.body.decode()) == re.sub(KEY, "", offices.body.decode())


def test_a_tablet_changes_no_frame_sends_no_paper_out_lets_nobody_in_and_puts_nothing_back():
    writes = [route for route in ROUTES if route.method == "POST" and Role.TABLET in route.may]

    assert writes
    assert [named(route) for route in writes if not re.fullmatch(A_TABLETS, route.path)] == []


@pytest.mark.parametrize("role", [Role.OFFICE, Role.TABLET, Role.NOBODY])
def test_looking_at_a_page_changes_nothing(floor, passes, role: Role):
    app, before = app_on(floor), digest_of(floor)
    asked = ("", "?code=ABCD-EFGH", "?key=x&save=yes&undo=1&delete=1&number=1", "?revision=1&frame=K1")

    looked = [
        knock(app, method, address_of(route) + more, [("Host", HOST), *passes[role]]).status
        for route in ROUTES
        if route.method == "GET"
        for method in ("GET", "HEAD")
        for more in asked
    ]

    assert len(looked) >= 8 * len([route for route in ROUTES if route.method == "GET"])
    assert 500 not in looked
    assert digest_of(floor) == before


def test_the_live_line_is_only_for_who_was_let_in(floor, passes):
    app = app_on(floor)

    answers = {role: knock(app, "GET", "/live", [("Host", HOST), *passes[role]], at_most=2) for role in Role}

    assert {role: answer.status for role, answer in answers.items()} == {
        Role.OFFICE: 200,
        Role.TABLET: 200,
        Role.NOBODY: 303,
    }
    assert answers[Role.TABLET].body.startswith(b"event: change\n")


def test_who_is_sent_away_hears_no_more_on_a_line_that_is_open(floor, monkeypatch):
    monkeypatch.setattr(feed, "PAUSE", 0.01)
    monkeypatch.setattr(feed, "BEAT", 0.05)
    tablet = let_in(floor, Role.TABLET)
    number = devices(floor.store)[-1].id
    by = By(person="Office", device="Office")

    away = Timer(0.3, revoke, [floor.store, number, by, "away"])
    away.start()
    answer = knock(app_on(floor), "GET", "/live", [("Host", HOST), *tablet], at_most=1_000)
    away.join()

    assert answer.ended
    assert answer.body.startswith(b"event: change\n")
