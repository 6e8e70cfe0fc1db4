"""The rack by keys alone, faults by touch alone: as at the office, and as at the saw with gloves."""

from playwright.sync_api import Page

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
