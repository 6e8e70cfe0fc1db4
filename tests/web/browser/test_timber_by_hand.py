"""The rack by keys alone, faults by touch alone: as at the office, and as at the saw with gloves."""

from playwright.sync_api import Page, expect

from pinchrod.store import faults_of
from pinchrod.web import Role
from tests.web.browser.served import TALL, Served
from tests.web.small_shop import SMALL, kept, planned

HOME = f"/jobs/{SMALL}/timber"
PASTE = """(text) => {
  const data = new DataTransfer();
  data.setData("text/plain", text);
  document.activeElement.dispatchEvent(
    new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true}));
}"""


def tapped(page: Page, x: float, y: float) -> None:
    """A finger on the drawing, at those shares of its width and height."""
    drawing = page.locator(".tapped:visible svg")
    box = drawing.bounding_box()
    assert box is not None
    drawing.tap(position={"x": box["width"] * x, "y": box["height"] * y})


def typed(page: Page, *fields: str) -> list[str]:
    return [page.input_value(f"#{field}") for field in fields]


def test_boards_are_typed_with_enter_alone_and_saved(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    page.focus("#b4-board")

    for words in ("B5", "2500", "140", "27", "12", "", "", "0-50"):
        page.keyboard.type(words)
        page.keyboard.press("Enter")

    assert page.evaluate("document.activeElement.id") == "b5-board"
    page.click("button.main")
    page.wait_for_url(f"**{HOME}")
    assert "B5 entered" in page.inner_text(".told")
    assert [board.name for board in workshop.floor.job(SMALL).job.rack] == ["B1", "B2", "B3", "B4", "B5"]


def test_a_block_of_cells_is_pasted_where_one_stands_and_makes_the_rows_it_needs(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    rows = int(page.input_value("[name=rows]"))
    page.focus(f"#b{rows - 1}-board")

    page.evaluate(PASTE, "B6\t3000\t150\t27\nB7\t3100\t160\t27\n")

    assert typed(page, f"b{rows - 1}-board", f"b{rows - 1}-width", f"b{rows}-length") == ["B6", "150", "3100"]
    assert page.input_value("[name=rows]") == str(rows + 1)


def test_escape_gives_back_what_stood_and_arrows_go_from_cell_to_cell(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    page.focus("#b1-length")

    page.keyboard.type("999")
    page.keyboard.press("Escape")
    page.keyboard.press("ArrowDown")

    assert page.input_value("#b1-length") == "2400"
    assert page.evaluate("document.activeElement.id") == "b2-length"


def at(page: Page) -> str:
    return str(page.evaluate("document.activeElement.id"))


def test_home_and_end_go_to_the_ends_of_the_row_and_with_control_to_those_of_the_rack(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    last = int(page.input_value("[name=rows]")) - 1
    page.focus("#b1-width")

    seen = []
    for key in ("End", "Home", "Control+End", "Control+Home"):
        page.keyboard.press(key)
        seen.append(at(page))

    assert seen == ["b1-faults", "b1-board", f"b{last}-faults", "b0-board"]


def test_f2_changes_what_stands_in_a_cell_and_then_the_keys_go_within_it(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    page.focus("#b0-board")
    page.keyboard.press("ArrowRight")  # chosen: what is typed would replace it
    page.keyboard.press("F2")

    page.keyboard.press("Home")
    page.keyboard.type("1")
    page.keyboard.press("End")
    page.keyboard.type("5")

    assert (at(page), page.input_value("#b0-length")) == ("b0-length", "126005")
    page.keyboard.press("Escape")
    page.keyboard.press("End")
    assert (at(page), page.input_value("#b0-length")) == ("b0-faults", "2600")


def test_the_rack_is_one_stop_of_tab_and_one_comes_back_to_the_cell_one_left(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    page.focus("#b0-board")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowRight")

    page.keyboard.press("Tab")

    assert page.evaluate("document.activeElement.textContent") == "Save the rack"
    page.keyboard.press("Shift+Tab")
    assert at(page) == "b1-length"
    assert page.locator(".grid [tabindex='0']").count() == 1


def test_without_script_each_cell_is_a_stop_of_tab(workshop: Served):
    kept(workshop.floor)
    page = workshop.page(java_script_enabled=False)
    page.goto(f"{HOME}/rack")

    assert page.locator(".grid [tabindex]").count() == 0


def test_a_finger_puts_the_cursor_into_a_cell_and_what_stands_there_stays(workshop: Served):
    kept(workshop.floor)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"{HOME}/rack")

    page.locator("#b0-length").tap()
    page.keyboard.press("End")
    page.keyboard.type("5")

    assert (at(page), page.input_value("#b0-length")) == ("b0-length", "26005")


def test_what_is_typed_in_a_cell_is_said_again_in_millimetres_and_inches_and_so_are_faults(workshop: Served):
    kept(workshop.floor)
    page = workshop.page()
    page.goto(f"{HOME}/rack")
    said = page.locator("[data-grid-echo]")

    page.focus("#b1-length")
    expect(said).to_have_text('Length of B2: 2400 mm, about 94 31/64"')
    page.keyboard.type("8' 6\"")
    expect(said).to_have_text('Length of B2: 2590.8 mm, 102"')
    expect(page.locator("#b1-length + .unit")).to_be_hidden()
    page.keyboard.press("Escape")
    expect(page.locator("#b1-length + .unit")).to_be_visible()
    page.fill("#b1-faults", "0-60; 840-905@30-60 back")

    expect(said).to_contain_text('0 to 60 mm (0" to 2 23/64"); 840 to 905 mm')
    expect(said).to_contain_text("back alone")
    page.focus("#b1-board")
    expect(said).to_have_text("")


def test_a_fault_that_is_tapped_or_typed_is_said_again(workshop: Served):
    kept(workshop.floor)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"{HOME}/board/B2")

    tapped(page, 0.3, 0.12)
    expect(page.locator("#from-echo")).to_contain_text(f"{page.input_value('#from')} mm, about")
    page.fill("#to", "40 in")

    expect(page.locator("#to-echo")).to_have_text('1016 mm, 40"')


def test_a_knot_is_tapped_on_the_board_from_corner_to_corner(workshop: Served):
    kept(workshop.floor)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"{HOME}/board/B2")

    tapped(page, 0.3, 0.12)
    tapped(page, 0.4, 0.2)

    low, high, near, far = map(int, typed(page, "from", "to", "near", "far"))
    assert 0 < low < high < 2400
    assert 0 <= near < far <= 130
    page.click("button.act")
    page.wait_for_selector(".told")
    [fault] = workshop.floor.job(SMALL).job.rack[1].faults
    assert (fault.along.low, fault.along.high) == (low, high)


def test_a_split_goes_over_the_whole_width_wherever_it_is_tapped(workshop: Served):
    kept(workshop.floor)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"{HOME}/board/B2")
    page.check("input[value=split]")

    tapped(page, 0.4, 0.2)
    tapped(page, 0.3, 0.12)

    low, high = map(int, typed(page, "from", "to"))
    assert low < high
    assert typed(page, "near", "far") == ["", ""]


def test_a_fault_is_tapped_in_a_stick_and_planned_around(workshop: Served):
    planned(workshop.floor)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"{HOME}/stick/S4")

    tapped(page, 0.25, 0.4)
    tapped(page, 0.3, 0.4)
    page.click("button.act")
    page.wait_for_url(f"**{HOME}/faults")

    [fault] = faults_of(workshop.floor.store, SMALL, 1)
    assert 300 < fault.low < fault.high < 600  # S4 is 1653 long, drawn over 178 of 190
    page.click("text=Undo: fault in S4")
    page.wait_for_selector("text=taken back")
    assert faults_of(workshop.floor.store, SMALL, 1) == ()


def test_what_another_device_does_is_seen_without_loading_the_page_again(workshop: Served):
    planned(workshop.floor)
    looking, saw = workshop.page(), workshop.page(Role.TABLET)
    looking.goto(HOME)
    looking.wait_for_timeout(500)

    saw.goto(f"{HOME}/stick/S4")
    saw.fill("#from", "300")
    saw.fill("#to", "340")
    saw.click("button.act")

    looking.wait_for_selector("text=1 fault found since is planned around")
