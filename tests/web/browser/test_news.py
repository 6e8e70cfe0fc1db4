"""News of others comes to an open page while somebody works on it: nothing typed is lost, and no place."""

import pytest
from playwright.sync_api import Page, Route, expect

from pinchrod.papers import Paper
from pinchrod.store import Deed, Request, Said, record
from pinchrod.web import Floor
from pinchrod.web.planner import Planner
from tests.web.browser.hands import Keys
from tests.web.browser.served import Served
from tests.web.browser.test_tasks import BENCH, HOME, JOB, worked
from tests.web.small_shop import SMALL, planned


@pytest.fixture
def page(workshop: Served) -> Page:
    planned(workshop.floor, JOB)
    return workshop.page()


def opened(page: Page, address: str) -> Keys:
    """A page that hears of what others do."""
    with page.expect_response("**/live"):
        page.goto(address)
    page.wait_for_timeout(300)  # its first line says nothing new
    return Keys(page)


def news(page: Page, floor: Floor, part: str = "#work") -> None:
    """Another device says something, and the part of the page is put anew."""
    page.locator(part).evaluate("(part) => { part.dataset.old = 'yes'; }")
    floor.feed.tell()
    expect(page.locator(f"{part}[data-old]")).to_have_count(0)


def has_focus(page: Page, words: str) -> None:
    expect(page.locator(":focus")).to_contain_text(words)


AT_ONCE = """() => document.addEventListener("htmx:before:settle", (event) => {
  const field = event.target.querySelector("#falling");
  if (field) setTimeout(() => { field.setRangeText("3", 1, 1); }, 0);
})"""


def half_typed(workshop: Served, page: Page) -> None:
    """A glued frame's two diagonals, news of others having come between their letters."""
    worked(workshop.floor)
    roll = workshop.floor.job(SMALL).roll
    glued = tuple(Said(deed=Deed.GLUED, piece=entry.mark) for entry in roll.entries)
    record(workshop.floor.store, Request(key="glued", by=BENCH, said=glued), roll)
    hands = opened(page, f"{HOME}/bench/frames/K1")

    hands.type("Lower left to upper right", "940")
    hands.type("Upper left to lower right", "95")
    page.keyboard.press("ArrowLeft")
    news(page, workshop.floor)
    page.keyboard.type("3")


def test_diagonals_half_typed_stay_and_so_does_the_cursor(workshop: Served, page: Page):
    half_typed(workshop, page)

    assert [page.input_value("#rising"), page.input_value("#falling")] == ["940", "935"]


def test_a_letter_that_comes_the_moment_a_part_is_put_anew_stays(workshop: Served, page: Page):
    half_typed(workshop, page)
    page.keyboard.press("Backspace")
    page.evaluate(AT_ONCE)

    news(page, workshop.floor)
    page.wait_for_timeout(50)

    assert page.input_value("#falling") == "935"


def test_a_verdict_to_be_acted_on_stays_until_somebody_here_goes_on(workshop: Served, page: Page):
    half_typed(workshop, page)
    with page.expect_response("**/live"):
        page.keyboard.press("Enter")
    expect(page.locator("div.band.doubt")).to_contain_text("Pull it square")

    workshop.floor.feed.tell()
    page.wait_for_timeout(700)

    expect(page.locator("div.band.doubt")).to_contain_text("Pull it square")
    expect(page.get_by_role("button", name="Let it stand as it is")).to_be_visible()


def test_a_tick_by_keys_leaves_one_at_the_next_piece(workshop: Served, page: Page):
    hands = opened(page, f"{HOME}/machines/7/1")
    first = page.locator(".m-next .m-piece").inner_text()

    hands.press(first)

    expect(page.locator(".m-next .m-piece")).not_to_have_text(first)
    has_focus(page, page.locator(".m-next .m-piece").inner_text())


def test_who_stands_at_a_button_stands_there_still(workshop: Served, page: Page):
    hands = opened(page, f"{HOME}/bench/pieces/K1-LS")
    hands.to("K1-LS is spoiled …")

    news(page, workshop.floor)

    has_focus(page, "K1-LS is spoiled …")


def test_after_a_step_tab_goes_on_within_what_was_put_anew(workshop: Served, page: Page):
    hands = opened(page, f"{HOME}/bench/pieces/K1-LS")

    hands.press("K1-LS is broken out")
    expect(page.get_by_role("button", name="K1-LS is passed")).to_be_visible()
    page.wait_for_timeout(300)
    page.keyboard.press("Tab")

    has_focus(page, "K1-LS is passed")


def test_a_note_and_ticks_of_papers_to_be_sent_stay(workshop: Served, page: Page, monkeypatch):
    monkeypatch.setattr(Planner, "pack_of", lambda *_: (Paper(name="pack.pdf", content=b"%PDF-1.4 pack"),))
    hands = opened(page, f"{HOME}/papers")
    hands.to("Send out pack.pdf")
    page.keyboard.press("Space")

    hands.type("Note", "Saw first")
    news(page, workshop.floor, "#pack")

    assert page.input_value("#note") == "Saw first"
    assert not page.is_checked("[name=paper]")
    assert page.evaluate("document.activeElement.id") == "note"


def test_what_happens_while_a_page_is_loading_is_shown_once_it_hears_of_it(workshop: Served, page: Page):
    def late(route: Route) -> None:
        workshop.floor.feed.tell()  # since the page was made, another device has said something
        route.continue_()

    page.route("**/live", late)

    with page.expect_request(lambda asked: asked.headers.get("hx-request") == "true"):
        page.goto(f"{HOME}/bench/frames/K1")


def test_a_page_that_is_up_to_date_asks_for_nothing(workshop: Served, page: Page):
    asked: list[str] = []
    page.on("request", lambda each: asked.append(each.headers.get("hx-request", "")))

    opened(page, f"{HOME}/bench/frames/K1")

    assert "true" not in asked
