"""How many requests one device may send: a machine that runs wild is told to wait, and work never meets it."""

import re

import pytest

from pinchrod.web import Doors, Role, Site, app_of
from pinchrod.web.feed import PAUSE
from pinchrod.web.pace import AT_ONCE, MOST_KNOWN, PER_SECOND, Pace, TooOften
from tests.web.knocking import OUR_PAGE, digest_of, knock, let_in
from tests.web.serving import HOST, a_floor, browser, keep
from tests.web.small_job import SMALL, small_files

PAGES_OPEN = 3  # of one device, each on what is changed five times a second without end
SCANS_PER_SECOND = 5  # of a fast hand at a fast scanner
PARTS = re.compile(r"live from:body")


class Clock:
    """A clock that goes on when it is told to."""

    def __init__(self) -> None:
        self.now = 1_000.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        yield made


def taken(pace: Pace, who: str, tries: int) -> int:
    count = 0
    for _ in range(tries):
        try:
            pace.count(who)
            count += 1
        except TooOften:
            pass
    return count


def test_so_many_at_once_are_taken_and_then_so_many_a_second():
    clock = Clock()
    pace = Pace(clock)

    assert taken(pace, "D1", AT_ONCE + 50) == AT_ONCE
    clock.now += 1
    assert taken(pace, "D1", AT_ONCE) == PER_SECOND
    clock.now += 3_600
    assert taken(pace, "D1", AT_ONCE + 50) == AT_ONCE


def test_one_that_runs_wild_takes_nothing_from_another():
    pace = Pace(Clock())

    taken(pace, "D1", 10 * AT_ONCE)

    assert taken(pace, "D2", 10) == 10


def test_what_is_refused_is_to_be_noted_once_until_something_was_taken_again():
    clock = Clock()
    pace = Pace(clock)
    taken(pace, "D1", AT_ONCE)

    def noted():
        with pytest.raises(TooOften) as refused:
            pace.count("D1")
        return refused.value.noted

    assert [noted(), noted(), noted()] == [False, True, True]
    clock.now += 0.03
    pace.count("D1")
    assert noted() is False


def test_no_more_are_remembered_than_so_many_and_those_at_work_are_not_forgotten():
    pace = Pace(Clock())
    taken(pace, "at work", AT_ONCE)

    for number in range(10 * MOST_KNOWN):
        pace.count(f"from 10.0.{number // 256}.{number % 256}")
        if number % 100 == 0:
            taken(pace, "at work", 1)

    assert len(pace) == MOST_KNOWN
    assert taken(pace, "at work", 1) == 0


def test_work_never_meets_it(floor):
    """Every change is told to each open page five times a second at most; each asks for its own parts."""
    keep(floor, small_files(), job=SMALL)
    desk = browser(floor)
    pages = (
        "/",
        "/bench",
        *(f"/jobs/{SMALL}/{place}" for place in ("timber", "machines", "papers", "bench")),
    )
    busiest = max(len(PARTS.findall(desk.get(page).text)) for page in pages)

    a_second = PAGES_OPEN * busiest / PAUSE + SCANS_PER_SECOND

    assert busiest >= 2
    assert a_second <= PER_SECOND
    assert 2 * (a_second + SCANS_PER_SECOND) < AT_ONCE


def app_with(floor, clock):
    return app_of(Site(floor=floor, doors=Doors(hosts=frozenset({HOST})), pace=Pace(clock)))


def test_a_device_that_asks_too_often_is_told_to_wait_and_another_is_not(floor, caplog):
    clock = Clock()
    wild, calm = ([("Host", HOST), *let_in(floor, Role.TABLET)] for _ in range(2))
    app = app_with(floor, clock)

    statuses = [knock(app, "GET", "/look", wild).status for _ in range(AT_ONCE)]
    refused, again = (knock(app, "GET", "/help", wild) for _ in range(2))
    other = knock(app, "GET", "/help", calm)
    clock.now += 1
    later = knock(app, "GET", "/help", wild)

    assert 429 not in statuses
    assert [refused.status, again.status, other.status, later.status] == [429, 429, 200, 200]
    assert (
        refused.body == b"This device asks for more than the pages can bear. Wait a moment, then try again."
    )
    assert refused.header("retry-after") == "5"
    assert "default-src 'self'" in refused.header("content-security-policy")
    assert [each.getMessage() for each in caplog.records] == [
        "refused with 429 at /help, asked from 127.0.0.1"
    ]


def test_a_stranger_is_counted_by_the_address_whatever_cookie_is_shown(floor):
    app = app_with(floor, Clock())

    statuses = [
        knock(app, "GET", "/enter", [("Host", HOST), ("Cookie", f"pinchrod=guess{number}")]).status
        for number in range(AT_ONCE + 5)
    ]

    assert statuses == [200] * AT_ONCE + [429] * 5
    tablet = [("Host", HOST), *let_in(floor, Role.TABLET)]
    assert knock(app, "GET", "/help", tablet).status == 200


def test_what_is_refused_for_that_changes_nothing_and_its_form_is_not_read(floor):
    app, desk = app_with(floor, Clock()), let_in(floor, Role.OFFICE)
    for _ in range(AT_ONCE):
        knock(app, "GET", "/nowhere", [("Host", HOST), *desk])
    before = digest_of(floor)

    refused = knock(app, "POST", "/demo-job", [*OUR_PAGE, *desk], [b"x" * 1_000] * 50, pause=10)

    assert refused.status == 429
    assert digest_of(floor) == before
