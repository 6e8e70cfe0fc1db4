"""A tablet on a safe line while the server is away: it shows a page by itself, takes scans, and goes on where it was."""

import json

import pytest
from playwright.sync_api import Page, expect

from pinchrod.store import Deed
from pinchrod.web import Role
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.browser.served import NAME, TALL, Served
from tests.web.browser.test_scanning import BROKEN_OUT, says, scan, told
from tests.web.serving import keep

PLACE = f"/jobs/{PANTRY}/bench"
READY = (
    "navigator.serviceWorker.ready.then(() => !!navigator.serviceWorker.controller || new Promise((done) => {\
  navigator.serviceWorker.oncontrollerchange = () => done(true);\
}))"
)
KEPT = (
    "caches.keys().then((names) => Promise.all(names.map((name) => caches.open(name).then((box) => box.keys()))))\
  .then((boxes) => boxes.flat().map((asked) => new URL(asked.url).pathname))"
)


@pytest.fixture
def tablet(workshop: Served) -> Page:
    """A tablet's browser that may keep a page, before the bench."""
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL, service_workers="allow")
    page.goto("/bench")
    assert page.evaluate(READY)
    return page


def test_loaded_anew_without_the_server_it_takes_scans_and_sends_them_once_it_is_heard(workshop, tablet):
    says(tablet, BROKEN_OUT)
    tablet.context.set_offline(True)
    tablet.goto(PLACE)
    expect(tablet.locator("h1")).to_have_text("The server is not heard")

    scan(tablet, "K1-LS")
    expect(tablet.locator("#band")).to_contain_text("Kept on this tablet: K1-LS broken out")
    tablet.reload()
    expect(tablet.locator("#unsent")).to_have_text("Unsent: 1")
    assert told(workshop) == []
    tablet.context.set_offline(False)

    expect(tablet.locator("h1")).not_to_have_text("The server is not heard")
    assert told(workshop) == [Deed.BROKEN_OUT]
    assert tablet.url.endswith(PLACE)


def test_a_piece_cannot_be_looked_up_without_the_server_and_it_says_so(tablet):
    tablet.context.set_offline(True)
    tablet.goto("/bench")

    scan(tablet, "K1-LS")

    expect(tablet.locator("#band")).to_contain_text("The server is not heard, so K1-LS cannot be looked up.")


def test_no_page_of_the_workshop_is_kept(tablet):
    tablet.goto("/bench/frames")
    tablet.goto("/help")

    assert set(tablet.evaluate(KEPT)) == {
        "/alone",
        "/static/style.css",
        "/static/icon.svg",
        "/static/scan.js",
        "/static/alone.js",
    }


def test_a_browser_that_is_not_let_in_keeps_nothing(workshop):
    page = workshop.page(Role.NOBODY, service_workers="allow")
    page.goto("/enter")
    page.wait_for_timeout(500)

    assert page.evaluate(KEPT) == []
    assert page.locator("link[rel=manifest]").count() == 0


def test_browsers_find_what_they_ask_before_they_offer_to_install_it(tablet):
    line = tablet.context.new_cdp_session(tablet)

    found = line.send("Page.getAppManifest")

    assert found["errors"] == []
    assert json.loads(found["data"])["start_url"] == "/bench"
    amiss = line.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [each["errorId"] for each in amiss] == ["in-incognito"]  # the browsers of all these trials are


def test_over_plain_http_there_is_nothing_of_it(workshop):
    page = workshop.page(Role.TABLET, TALL, service_workers="allow")
    page.context.add_cookies([{**page.context.cookies()[0], "domain": NAME}])

    page.goto(workshop.address.replace("127.0.0.1", NAME) + "/bench")

    assert not page.evaluate("isSecureContext")
    assert page.evaluate("document.documentElement.dataset.device") == "tablet"
    assert page.locator("link[rel=manifest]").count() == 0
