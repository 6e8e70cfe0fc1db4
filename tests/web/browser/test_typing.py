"""A frame typed in a real browser: the drawing follows, the cursor stays, and nothing typed is lost."""

from playwright.sync_api import Page, expect

from pinchrod.web import Role
from tests.web.browser.served import Served
from tests.web.serving import keep
from tests.web.small_jobs import LARDER, keep_larder, larder

L1 = f"/jobs/{LARDER}/frames/L1"
FRAMES_HIGHER = """
[[frame]]
id = "L1"
width = 600
height = 730
layout = "drawer 140 over pair"
"""


def opened(workshop: Served, address: str = L1) -> Page:
    keep_larder(workshop.floor)
    page = workshop.page(Role.OFFICE)
    page.goto(address)
    return page


def cursor(page: Page) -> list[object]:
    said: list[object] = page.evaluate("[document.activeElement.id, document.activeElement.selectionStart]")
    return said


def test_the_drawing_follows_the_typing_and_the_cursor_stays_where_it_is(workshop: Served):
    page = opened(workshop)

    page.focus("#width")
    page.keyboard.press("Home")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Delete")
    page.keyboard.type("5", delay=30)

    expect(page.locator("#drawing text", has_text="650").first).to_be_attached()
    assert cursor(page) == ["width", 2]
    expect(page.locator("#width-note")).to_contain_text('650 mm, about 25 19/32"')
    assert workshop.complaints == []


def test_a_slip_is_told_beside_its_field_while_the_last_good_drawing_stays(workshop: Served):
    page = opened(workshop)

    page.fill("#layout", "drawer 140 over par")

    expect(page.locator("#layout-note")).to_contain_text("did you mean")
    expect(page.locator("#amiss")).to_contain_text("last right")
    expect(page.locator("#drawing svg")).to_have_count(1)
    page.fill("#layout", "drawer 140 over pair")
    expect(page.locator("#layout-note .slip")).to_have_count(0)


def test_what_was_typed_is_offered_again_after_the_page_was_closed(workshop: Served):
    page = opened(workshop)
    with page.expect_response(lambda answer: answer.url.endswith("/typed")):
        page.fill("#width", "655")

    page.goto("/help")
    page.goto(L1)
    page.get_by_role("link", name="Take it up").click()

    expect(page.locator("#width")).to_have_value("655")


def test_a_frame_is_changed_saved_and_taken_back_with_the_keyboard_alone(workshop: Served):
    page = opened(workshop, f"/jobs/{LARDER}/frames")

    _tab_to(page, "L1")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{L1}")
    _tab_to_field(page, "width")
    page.keyboard.type("655")
    page.keyboard.press("Enter")
    expect(page.locator(".told")).to_contain_text("L1 saved as revision 2")
    _tab_to(page, "Undo: back to revision 1")
    page.keyboard.press("Enter")

    expect(page.locator(".told")).to_contain_text("As it was in revision 1, saved as revision 3")
    expect(page.locator("#width")).to_have_value("600")


def _tab_to(page: Page, words: str) -> None:
    """Go on with Tab until what begins so has the focus."""
    for _ in range(60):
        page.keyboard.press("Tab")
        if str(page.evaluate("document.activeElement.textContent")).strip().startswith(words):
            return
    raise AssertionError(f"Tab never comes to {words}")


def _tab_to_field(page: Page, field: str) -> None:
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == field:
            return
    raise AssertionError(f"Tab never comes to the field {field}")


def test_two_at_one_job_are_told_of_each_other_and_lose_nothing(workshop: Served):
    page = opened(workshop)
    page.fill("#width", "655")
    keep(workshop.floor, larder(frames=FRAMES_HIGHER), job=LARDER, after=1)
    workshop.floor.feed.tell()

    expect(page.locator(".within .newer")).to_contain_text("Revision 2 was saved meanwhile")
    page.get_by_role("button", name="Save L1").click()
    expect(page.locator("#slips")).to_contain_text("Somebody saved meanwhile")
    expect(page.locator("#width")).to_have_value("655")
    page.fill("#height", "730")
    page.get_by_role("button", name="Save L1").click()
    expect(page.locator(".told")).to_contain_text("L1 saved as revision 3")

    frame = workshop.floor.job(LARDER).job.frames[0]
    assert (frame.width, frame.height) == (655, 730)


def test_a_job_comes_from_rows_of_a_spreadsheet_without_a_mouse(workshop: Served):
    page = workshop.page(Role.OFFICE)
    page.goto("/new-job")

    page.fill("#rows-name", "North wall")
    page.fill("#rows", "N1\t600\t720\tpair\nN2\t23 5/8 in\t720\t3 drawers\n")
    page.get_by_role("button", name="Look at the rows").press("Enter")
    page.get_by_role("button", name="Keep these 2 rows as a job").press("Enter")

    expect(page.locator(".standing li")).to_have_count(2)
    assert [frame.id for frame in workshop.floor.job("north-wall").job.frames] == ["N1", "N2"]


def test_without_script_a_frame_is_saved_all_the_same(workshop: Served):
    keep_larder(workshop.floor)
    page = workshop.page(Role.OFFICE, java_script_enabled=False)
    page.goto(L1)

    page.fill("#width", "65o")
    page.get_by_role("button", name="Save L1").click()
    expect(page.locator("#width-note")).to_contain_text("has the letter o")
    page.fill("#width", "650")
    page.get_by_role("button", name="Save L1").click()

    expect(page.locator(".told")).to_contain_text("L1 saved as revision 2")
    assert workshop.floor.job(LARDER).job.frames[0].width == 650


def _comes_back(page: Page, address: str, field: str, words: str) -> None:
    """Type into a field, be gone two seconds later, come back, and find it again."""
    page.goto(address)
    for fold in page.locator("details.more:not([open]) summary").all():
        fold.click()
    with page.expect_response(lambda answer: answer.url.endswith("/typed") and answer.status == 204):
        page.locator(field).press_sequentially(words[:2])
    with page.expect_response(lambda answer: answer.url.endswith("/typed") and answer.status == 204):
        page.locator(field).press_sequentially(words[2:])
    page.goto("/help")
    page.goto(address)
    page.get_by_role("link", name="Take it up").click()
    expect(page.locator(field)).to_have_value(words)


def test_a_rack_a_new_job_and_pasted_rows_come_back_too(workshop: Served):
    keep_larder(workshop.floor)
    page = workshop.page(Role.OFFICE)

    _comes_back(page, f"/jobs/{LARDER}/timber/rack", "#b0-board", "B17")
    _comes_back(page, f"/jobs/{LARDER}/timber/rack", "#pasted", "B18 2400")
    _comes_back(page, f"/jobs/{LARDER}/paste", "#rows", "L9 600 720 pair")
    _comes_back(page, "/new-job", "#width", "23 5/8 in")
    _comes_back(page, "/new-job", "#rows", "N1 600 720 pair")
    assert workshop.complaints == []


def test_the_head_of_the_frames_stays_while_one_scrolls(workshop: Served):
    keep_larder(workshop.floor)
    page = workshop.page(size=(1280, 500))
    page.goto(f"/jobs/{LARDER}/frames")
    page.evaluate(
        "document.querySelector('.frames tbody').append(...Array.from({length: 60}, () => document.querySelector('.frames tbody tr').cloneNode(true)))"
    )

    page.evaluate("scrollTo(0, 1200)")

    head = page.locator(".frames thead th").first.bounding_box()
    assert head is not None
    assert 0 <= head["y"] < 20
