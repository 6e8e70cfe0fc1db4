"""Tablets that come by HTTPS, through a proxy with a certificate; and what they show where the line to it is bad."""

import time

import pytest
from playwright.sync_api import expect

from pinchrod.store import Deed
from pinchrod.web import Role
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.browser.conftest import QUIET, where_chromium_is
from tests.web.browser.proxy import Fate, all_passed, certificate_for, proxy_of
from tests.web.browser.served import NAME, TALL, served
from tests.web.browser.test_alone import READY
from tests.web.browser.test_news import news, opened
from tests.web.browser.test_scanning import BROKEN_OUT, says, scan, told
from tests.web.serving import a_floor, keep

NOT_HEARD = "The server is not heard"


@pytest.fixture(scope="module")
def behind(tmp_path_factory: pytest.TempPathFactory, chromium):
    """A workshop's pages behind a proxy, a browser that believes its certificate, and the proxy."""
    folder = tmp_path_factory.mktemp("behind")
    certificate, mark = certificate_for(NAME, folder)
    believing = chromium.browser_type.launch(
        executable_path=where_chromium_is(),
        args=[*QUIET, f"--ignore-certificate-errors-spki-list={mark}"],
    )
    with (
        a_floor(folder) as floor,
        proxy_of(certificate) as proxy,
        served(floor, believing, proxy) as workshop,
    ):
        keep(floor, files_of(a_job()), job=PANTRY)
        yield workshop, proxy
    believing.close()


@pytest.fixture
def tablet(behind):
    """A tablet let in by its code, with a page kept for bad times."""
    workshop, proxy = behind
    proxy.fate = all_passed
    code = workshop.floor.letting_in.invite(Role.TABLET).code
    page = workshop.page(Role.NOBODY, TALL, service_workers="allow")
    page.goto(f"/enter?code={code}")
    page.get_by_label("Name").fill(f"Tablet {code}")
    page.get_by_role("button").click()
    page.goto("/bench")
    assert page.evaluate(READY)
    yield page
    proxy.fate = all_passed
    page.context.close()


def test_let_in_by_https_it_works_and_its_cookie_goes_by_https_alone(behind, tablet):
    workshop, _proxy = behind
    says(tablet, BROKEN_OUT)
    scan(tablet, "K1-LS")

    expect(tablet.locator("#band .good")).to_contain_text("In the ledger: K1-LS broken out")
    assert told(workshop, "K1-LS") == [Deed.BROKEN_OUT]
    assert tablet.evaluate("isSecureContext")
    assert {cookie["secure"] for cookie in tablet.context.cookies()} == {True}
    assert workshop.complaints == []


def test_news_of_others_comes_through_bit_by_bit(behind, tablet):
    workshop, _proxy = behind
    opened(tablet, f"/jobs/{PANTRY}/bench")

    news(tablet, workshop.floor)


def test_where_the_radio_is_dead_it_does_not_wait_for_minutes_and_takes_scans(behind, tablet):
    workshop, proxy = behind
    says(tablet, BROKEN_OUT)
    proxy.fate = lambda _path: Fate.SILENT
    begun = time.monotonic()
    tablet.goto("/bench/frames", wait_until="commit")

    expect(tablet.locator("h1")).to_have_text(NOT_HEARD)
    assert time.monotonic() - begun < 20
    scan(tablet, "K1-RS")
    expect(tablet.locator("#band")).to_contain_text("Kept on this tablet: K1-RS broken out")
    proxy.fate = all_passed

    expect(tablet.locator("#band .good")).to_contain_text("In the ledger: K1-RS broken out")
    assert told(workshop, "K1-RS") == [Deed.BROKEN_OUT]
    expect(tablet.locator("h1")).not_to_have_text(NOT_HEARD, timeout=20_000)


def test_what_a_scan_said_there_can_be_taken_back_before_it_goes_on_by_itself(behind, tablet):
    workshop, proxy = behind
    says(tablet, BROKEN_OUT)
    proxy.fate = lambda _path: Fate.NOT_THERE
    tablet.goto("/bench")
    expect(tablet.locator("h1")).to_have_text(NOT_HEARD)
    scan(tablet, "K1-TR")
    proxy.fate = all_passed
    expect(tablet.locator("#band .good")).to_contain_text("In the ledger: K1-TR broken out")

    tablet.wait_for_timeout(3_500)
    tablet.get_by_role("button", name="Undo: K1-TR broken out").click()

    expect(tablet.locator("#band .good")).to_contain_text("Taken back: K1-TR")
    assert told(workshop, "K1-TR") == [Deed.BROKEN_OUT, Deed.UNDONE]
    expect(tablet.locator("h1")).not_to_have_text(NOT_HEARD)


def test_a_page_that_takes_its_time_is_waited_for(behind, tablet):
    _workshop, proxy = behind

    def slow(path: str) -> Fate:
        if path == "/help":
            time.sleep(8)
        return Fate.PASSED

    proxy.fate = slow

    tablet.goto("/help")

    expect(tablet.locator("h1")).not_to_have_text(NOT_HEARD)


def test_a_page_that_takes_its_time_is_reached_from_the_kept_page_by_asking_once(behind, tablet):
    _workshop, proxy = behind
    asked: list[str] = []

    def slow(path: str) -> Fate:
        if path == "/help":
            asked.append(path)
            time.sleep(7)
        return Fate.PASSED

    proxy.fate = lambda _path: Fate.NOT_THERE
    tablet.goto("/help")
    expect(tablet.locator("h1")).to_have_text(NOT_HEARD)
    proxy.fate = slow

    expect(tablet.locator("h1")).not_to_have_text(NOT_HEARD)
    assert asked == ["/help"]


def test_a_page_too_slow_for_the_proxy_is_not_asked_for_again_and_again(behind, tablet):
    _workshop, proxy = behind
    asked: list[str] = []

    def too_slow(path: str) -> Fate:
        asked.append(path)
        return Fate.NOT_THERE if path == "/help" else Fate.PASSED

    proxy.fate = too_slow

    answer = tablet.goto("/help")
    tablet.wait_for_timeout(7_000)

    assert answer is not None
    assert answer.status == 504
    assert asked.count("/help") == 1
