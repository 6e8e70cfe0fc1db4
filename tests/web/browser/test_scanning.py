"""Scans in a real browser: taken wherever one stands, kept while the server is away, green only when they are safe."""

import re
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import APIResponse, Dialog, Page, expect

from pinchrod.plan import make_plan
from pinchrod.store import Deed, events_of
from pinchrod.web import Role
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.browser.served import DESK, NAME, PHONE, TALL, Served
from tests.web.serving import keep

SAID = "**/bench/said"
BROKEN_OUT = "says it is broken out"
SENDING = "sending"


@pytest.fixture
def bench(workshop: Served) -> Page:
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL)
    page.goto("/bench")
    return page


def scan(page: Page, code: str, *, delay: float = 0) -> None:
    """What a hand scanner does: it types the code, and Enter."""
    page.keyboard.type(code, delay=delay)
    page.keyboard.press("Enter")


def says(page: Page, words: str = BROKEN_OUT) -> None:
    page.locator(".says summary").click()
    page.get_by_label(words, exact=True).check()


def told(workshop: Served, piece: str = "K1-LS") -> list[Deed]:
    return [event.deed for event in events_of(workshop.floor.store, PANTRY, piece)]


@pytest.mark.parametrize("delay", [0, 15, 120])
def test_a_scan_finds_its_piece_wherever_one_stands_and_however_slowly_it_comes(bench, delay):
    bench.locator("h2").first.click()

    scan(bench, "K1-LS", delay=delay)

    bench.wait_for_url("**/pieces/K1-LS")
    assert bench.locator("h1 .cut").inner_text() == "K1-LS"


def test_a_scan_on_a_page_without_a_field_is_taken_too_and_presses_no_button(workshop, bench):
    bench.goto("/help")
    bench.get_by_role("link", name="Jobs").focus()

    scan(bench, "K1-LS")

    bench.wait_for_url("**/pieces/K1-LS")


def test_a_scan_that_says_a_step_is_green_only_when_the_server_has_it(workshop, bench):
    says(bench)
    held = []
    bench.route(SAID, lambda route: held.append(route))  # noqa: PLW0108 -- the player marks what it calls

    scan(bench, "K1-LS")

    expect(bench.locator("#band")).to_contain_text("Sending: K1-LS broken out")
    expect(bench.locator("#band .good")).to_have_count(0)
    assert bench.locator("#unsent").inner_text() == "Unsent: 1"
    assert told(workshop) == []
    held[0].continue_()
    expect(bench.locator("#band .good")).to_contain_text("In the ledger: K1-LS broken out Next: passed")
    assert told(workshop) == [Deed.BROKEN_OUT]
    assert bench.locator("#unsent").inner_text() == "Unsent: 0"


def test_scans_wait_on_the_tablet_while_the_server_is_away_survive_a_reload_and_count_once(workshop, bench):
    says(bench)
    bench.route(SAID, lambda route: route.abort())
    scan(bench, "K1-LS")
    expect(bench.locator("#band")).to_contain_text("Kept on this tablet: K1-LS broken out")
    scan(bench, "K1-RS")
    expect(bench.locator("#unsent")).to_have_text("Unsent: 2")

    bench.reload()
    expect(bench.locator("#unsent")).to_have_text("Unsent: 2")
    bench.unroute(SAID)

    expect(bench.locator("#unsent")).to_have_text("Unsent: 0")
    assert told(workshop) == told(workshop, "K1-RS") == [Deed.BROKEN_OUT]


def test_an_answer_that_was_lost_is_asked_for_again_and_nothing_is_doubled(workshop, bench):
    says(bench)
    lost: list[APIResponse] = []

    def lose(route):
        if not lost:
            lost.append(route.fetch())
            route.abort()
        else:
            route.continue_()

    bench.route(SAID, lose)

    scan(bench, "K1-LS")

    expect(bench.locator("#unsent")).to_have_text("Unsent: 0")
    assert told(workshop) == [Deed.BROKEN_OUT]
    assert lost[0].status == 200


def test_a_scan_refused_later_stays_on_the_tablet_with_its_reason_until_it_is_noted(workshop, bench):
    says(bench)
    scan(bench, "K9-LX")
    expect(bench.locator("#band .stop")).to_contain_text('has no piece "K9-LX"')

    bench.reload()

    expect(bench.locator("#scans .refused")).to_contain_text("K9-LX broken out: refused")
    bench.get_by_role("button", name="Noted").click()
    expect(bench.locator("#scans li")).to_have_count(0)


def test_a_doubtful_scan_goes_on_all_the_same_by_one_touch(workshop, bench):
    says(bench, "says it is passed")
    scan(bench, "K1-LS")

    expect(bench.locator("#band .doubt")).to_contain_text("the next step expected is broken out, not passed")
    bench.get_by_role("button", name="Go on all the same").first.click()

    expect(bench.locator("#band .good")).to_contain_text("K1-LS passed")
    assert told(workshop) == [Deed.PASSED]


def test_the_same_code_twice_within_two_seconds_is_sent_once(workshop, bench):
    says(bench)
    bench.clock.set_fixed_time("2026-11-25T08:00:00Z")  # however busy the computer is
    scan(bench, "K1-LS")
    expect(bench.locator("#band .good")).to_contain_text("In the ledger")
    scan(bench, "K1-LS")

    expect(bench.locator("#band")).to_contain_text("came twice within two seconds")
    expect(bench.locator("#unsent")).to_have_text("Unsent: 0")
    assert told(workshop) == [Deed.BROKEN_OUT]


def test_a_scan_is_taken_back_with_one_touch(workshop, bench):
    says(bench)
    scan(bench, "K1-LS")

    bench.locator("#band").get_by_role("button", name="Undo: K1-LS broken out").click()

    expect(bench.locator("#band .good")).to_contain_text("Taken back: K1-LS")
    assert told(workshop) == [Deed.BROKEN_OUT, Deed.UNDONE]


def test_what_a_scan_says_stays_chosen_on_the_tablet(bench):
    says(bench)

    bench.reload()

    expect(bench.locator(".says summary")).to_contain_text(BROKEN_OUT)


def test_the_next_step_on_a_pieces_page_is_one_touch_and_the_page_follows(workshop, bench):
    scan(bench, "K1-LS")
    bench.wait_for_url("**/pieces/K1-LS")

    bench.get_by_role("button", name="K1-LS is broken out").tap()

    expect(bench.locator("#band .good")).to_contain_text("K1-LS broken out")
    expect(bench.get_by_role("button", name="K1-LS is passed")).to_be_visible()
    assert told(workshop) == [Deed.BROKEN_OUT]


def test_leaving_with_scans_unsent_is_warned_of(bench):
    says(bench)
    bench.route(SAID, lambda route: route.abort())
    scan(bench, "K1-LS")
    expect(bench.locator("#band")).to_contain_text("Kept on this tablet")
    asked: list[str] = []

    def stay(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    bench.on("dialog", stay)

    bench.close(run_before_unload=True)
    bench.wait_for_timeout(500)

    assert asked == ["beforeunload"]


@pytest.fixture
def notching(workshop: Served) -> Page:
    """The first setting of the notcher, as planned."""
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    plan = make_plan(*files_of(a_job()).read())
    vars(workshop.floor.planner)["plan_of"] = lambda _known: plan
    [step] = [number for number, step in enumerate(plan.machining.steps, 1) if "Notch" in step.title]
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"/jobs/{PANTRY}/machines/{step}/1")
    return page


def test_a_tick_goes_on_to_the_next_piece_without_loading_the_page_anew(workshop, notching):
    first = notching.locator(".m-next .m-piece").inner_text()

    notching.locator(".m-next").tap()

    expect(notching.locator("#band .good")).to_contain_text(f"In the ledger: {first} through")
    expect(notching.locator(".m-next .m-piece")).not_to_have_text(first)
    assert told(workshop, first) == [Deed.THROUGH]


def test_ticks_wait_on_the_tablet_too(workshop, notching):
    first = notching.locator(".m-next .m-piece").inner_text()
    notching.route("**/machines/**", lambda route: route.abort())

    notching.locator(".m-next").tap()

    expect(notching.locator("#band")).to_contain_text(f"Kept on this tablet: {first} through")
    notching.unroute("**/machines/**")
    expect(notching.locator("#band .good")).to_contain_text(f"{first} through")
    assert told(workshop, first) == [Deed.THROUGH]


CAPITAL, PIXEL = 0.7, 0.18  # of the size of type; mm on a tablet of ten inches
FROM_1500, FROM_1000 = 7.0, 4.7  # mm: 16 minutes of arc
LETTERS = "each => parseFloat(getComputedStyle(each).fontSize)"


def high(page: Page, where: str) -> float:
    """How high its capitals are on a tablet, in mm."""
    return float(page.locator(where).evaluate(LETTERS)) * CAPITAL * PIXEL


@pytest.mark.parametrize("size", [DESK, TALL])
@pytest.mark.parametrize("code", ["K1-LS", "K9-LX", f"https://example.org/{'8' * 200}"])
def test_what_came_of_a_scan_is_read_from_a_metre_and_a_half_and_leaves_room(bench, size, code):
    bench.set_viewport_size({"width": size[0], "height": size[1]})
    says(bench, "says it is passed")

    scan(bench, code)

    expect(bench.locator("#band .why")).to_be_visible()
    assert high(bench, "#band .verdict") >= FROM_1500
    assert high(bench, "#band .why") >= FROM_1000
    box = bench.locator("#band .band").bounding_box()
    assert box["width"] <= size[0]
    assert box["height"] <= size[1] / 2


def test_on_a_phone_what_came_of_a_scan_wraps(bench):
    bench.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    says(bench, "says it is passed")

    scan(bench, "K1-LS")

    expect(bench.locator("#band .why")).to_be_visible()
    assert bench.locator("#band .verdict").evaluate(LETTERS) >= 38
    assert bench.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert bench.locator("#band .band").bounding_box()["height"] <= PHONE[1] / 2


def test_the_band_at_a_setting_covers_neither_the_count_nor_the_foot_of_the_page(notching):
    notching.route("**/machines/**", lambda route: route.abort())
    notching.locator(".m-next").tap()
    expect(notching.locator("#band")).to_contain_text("Kept on this tablet")

    notching.wait_for_function("""() => {
      scrollTo(0, document.body.scrollHeight);
      const box = (part) => document.querySelector(part).getBoundingClientRect();
      return ["#unsent", ".foot p"].every((other) => box(other).bottom <= box("#band").top + 1);
    }""")
    assert high(notching, "#band .verdict") >= FROM_1500


def test_all_through_leads_to_the_next_setting(workshop, notching):
    notching.locator("button.act").tap()

    notching.wait_for_url("**/2")
    expect(notching.locator("h1 .aside")).to_contain_text("setting 2 of")


def test_the_last_tick_is_taken_back_by_its_name(workshop, notching):
    first = notching.locator(".m-next .m-piece").inner_text()
    notching.locator(".m-next").tap()

    notching.get_by_role("button", name=f"Undo: {first} through").tap()

    expect(notching.locator(".m-next .m-piece")).to_have_text(first)
    assert told(workshop, first) == [Deed.THROUGH, Deed.UNDONE]


def test_without_script_a_scan_is_sent_as_a_form(workshop):
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL, java_script_enabled=False)
    page.goto("/bench")

    page.get_by_label("Scan a label, or type its mark").fill("k1-ls")
    page.get_by_role("button", name="Look").click()

    assert urlsplit(page.url).path == f"/jobs/{PANTRY}/bench/pieces/K1-LS"
    page.get_by_role("button", name="K1-LS is broken out").click()
    assert re.search("K1-LS broken out", page.locator(".told").inner_text())


def test_a_server_that_asks_to_wait_gets_the_scan_later_and_nothing_is_lost(workshop, bench):
    says(bench)
    asked_to_wait: list[str] = []

    def wait(route):
        if asked_to_wait:
            route.continue_()
        else:
            asked_to_wait.append(route.request.url)
            route.fulfill(status=429, content_type="text/plain", body="Wait a moment, then try again.")

    bench.route(SAID, wait)

    scan(bench, "K1-LS")

    expect(bench.locator("#band")).to_contain_text("The server asks this device to wait")
    expect(bench.locator("#band .good")).to_contain_text("In the ledger: K1-LS broken out")
    assert told(workshop) == [Deed.BROKEN_OUT]


def test_a_scan_outlives_what_a_browser_writes_down_only_seconds_later(workshop, bench):
    """A flat battery takes the browser's quick store of the last seconds along; the slower one has the scan."""
    says(bench)
    bench.route(SAID, lambda route: route.abort())
    scan(bench, "K1-LS")
    expect(bench.locator("#band")).to_contain_text("Kept on this tablet: K1-LS broken out")

    bench.evaluate("localStorage.clear()")
    bench.reload()
    expect(bench.locator("#unsent")).to_have_text("Unsent: 1")
    bench.unroute(SAID)

    expect(bench.locator("#unsent")).to_have_text("Unsent: 0")
    bench.reload()
    expect(bench.locator("#unsent")).to_have_text("Unsent: 0")
    assert told(workshop) == [Deed.BROKEN_OUT]


THE_BOX = """(work) => new Promise((done) => {
  indexedDB.open("pinchrod", 1).onsuccess = (event) => {
    const shelf = event.target.result.transaction("said", "readwrite").objectStore("said");
    %s
  };
})"""
WAIT_FOR_IT = (
    THE_BOX
    % """
    window.busy = true;
    const hold = () => { if (window.busy) shelf.count().onsuccess = hold; };
    hold();
    done();"""
)
EMPTY_IT = THE_BOX % "shelf.clear().onsuccess = done;"
WHAT_IT_HAS = (
    THE_BOX % "shelf.getAll().onsuccess = (asked) => done(asked.target.result.map((item) => item.words));"
)


def test_kept_is_said_only_once_the_slower_store_has_the_scan_however_long_that_takes(bench):
    says(bench)
    bench.route(SAID, lambda route: route.abort())
    bench.evaluate(WAIT_FOR_IT)

    scan(bench, "K1-LS")
    scan(bench, "K1-RS")
    bench.wait_for_timeout(2500)
    expect(bench.locator("#band")).to_contain_text("Sending: K1-RS broken out")
    lines = bench.locator("#scans li").all_inner_texts()
    assert [line.split(":")[1].strip() for line in lines] == [SENDING, SENDING]
    bench.evaluate("window.busy = false")

    expect(bench.locator("#band")).to_contain_text("Kept on this tablet: K1-RS broken out")
    expect(bench.locator("#scans")).to_contain_text("K1-LS broken out: kept on this tablet")
    expect(bench.locator("#scans")).not_to_contain_text(SENDING)


def test_a_scan_of_a_page_closed_at_once_is_kept_in_the_slower_store_by_the_next(bench):
    says(bench)
    bench.route(SAID, lambda route: route.abort())
    scan(bench, "K1-LS")
    expect(bench.locator("#band")).to_contain_text("Kept on this tablet: K1-LS broken out")
    bench.evaluate(EMPTY_IT)

    bench.reload()
    expect(bench.locator("#band")).to_contain_text("Kept on this tablet: K1-LS broken out")

    assert bench.evaluate(WHAT_IT_HAS) == ["K1-LS broken out"]


def test_over_plain_http_the_page_says_that_it_must_stay_open_and_offers_neither_camera_nor_install(
    workshop, bench
):
    stays_open = bench.locator("#scans .stay-open")
    assert bench.evaluate("isSecureContext")  # this computer's own address
    expect(stays_open).to_have_count(0)
    by_name = workshop.address.replace("127.0.0.1", NAME)
    bench.context.add_cookies([{**bench.context.cookies()[0], "domain": NAME}])

    bench.goto(f"{by_name}/bench")

    assert not bench.evaluate("isSecureContext")
    expect(stays_open).to_contain_text("leave one open until nothing is unsent")
    words = bench.content().lower()
    assert "camera" not in words
    assert "install" not in words
    assert "manifest" not in words
    says(bench)
    scan(bench, "K1-LS")
    expect(bench.locator("#band .good")).to_contain_text("In the ledger: K1-LS broken out")
