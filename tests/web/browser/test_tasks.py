"""The workshop's main work on its pages, each from its beginning to its end: by keys alone, and by a finger alone.

A frame changed, the rack, a fault in a stick and two people at one job stand in test_typing.py and
test_timber_by_hand.py.
"""

from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page, expect

from pinchrod.cli import main
from pinchrod.papers import code_text
from pinchrod.store import By, Deed, Request, Said, events_of, issued, record
from pinchrod.web import Floor, Role
from tests.store.shop import a_job, files_of
from tests.web.browser.hands import Finger, Hands, Keys
from tests.web.browser.served import AT_MOST, DESK, TALL, Served, served
from tests.web.serving import a_floor
from tests.web.small_shop import SMALL, planned

HOME = f"/jobs/{SMALL}"
ROWS = "id\twidth\theight\tlayout\nN1\t600\t720\tpair\nN2\t23 5/8 in\t720\tdoor left\n"
JOB = files_of(a_job(name="Pantry"))
BENCH = By(person="Bench", device="Bench")

Standing = Callable[[str], Hands]


@pytest.fixture(params=["by keys", "by a finger"])
def at(request: pytest.FixtureRequest, workshop: Served) -> Standing:
    """Somebody at an address of the job: in the office with its keys, or at a tablet."""
    planned(workshop.floor, JOB)
    keys = request.param == "by keys"
    page = workshop.page(Role.OFFICE, DESK) if keys else workshop.page(Role.TABLET, TALL)

    def standing(address: str) -> Hands:
        page.goto(address)
        return Keys(page) if keys else Finger(page)

    return standing


def deeds(workshop: Served, piece: str) -> list[Deed]:
    return [event.deed for event in events_of(workshop.floor.store, SMALL, piece)]


def ledger_says(page: Page, words: str) -> None:
    expect(page.locator("#band .good")).to_contain_text(words)


def words_of(pdf: bytes) -> str:
    return " ".join(str(page.get_textpage().get_text_bounded()) for page in pypdfium2.PdfDocument(pdf))


def paper_at(page: Page, name: str) -> bytes:
    """The paper that the link leads to."""
    address = page.get_by_role("link", name=name).first.get_attribute("href")
    assert address is not None
    return page.request.get(address).body()


def test_rows_of_a_spreadsheet_become_a_pack_by_keys_alone(workshop: Served):
    page = workshop.page(permissions=["clipboard-read", "clipboard-write"])
    hands = Keys(page)
    page.goto("/")
    page.evaluate("(rows) => navigator.clipboard.writeText(rows)", ROWS)

    hands.press("New job")
    page.wait_for_url("**/new-job")
    _to_rows(hands)
    page.keyboard.press("Control+V")
    hands.press("Look at the rows")
    expect(page.locator("table.rows caption")).to_have_text("2 rows, as they were read")
    hands.press("Keep these 2 rows as a job")
    page.wait_for_url("**/jobs/north-wall/frames*")
    hands.press("Papers")
    page.wait_for_url("**/papers")
    hands.press("Make the papers")
    page.get_by_role("link", name="Look at pack.pdf").wait_for(timeout=AT_MOST * 1000)

    pack = words_of(paper_at(page, "Look at pack.pdf"))
    assert "North wall" in pack
    assert all(mark in pack for mark in ("N1-LS", "N2-BR", workshop.floor.job("north-wall").revision.mark))
    hands.press("Look it over before it goes out")
    expect(page.get_by_role("heading", name="Before revision 1 goes out")).to_be_visible()
    hands.press("Send revision 1 out to the workshop")
    expect(page.locator(".told")).to_contain_text("Revision 1 went out")
    assert "pack.pdf" in [paper.name for paper in issued(workshop.floor.store, "north-wall")]


def _to_rows(hands: Keys) -> None:
    hands.to("Keep these files as a job")
    hands.type("Name of the job", "North wall")
    hands.to("Rows")


def test_a_steps_settings_are_worked_through_to_its_end(workshop: Served, at: Standing):
    hands = at(f"{HOME}/machines")
    page = hands.page

    hands.press("Go on: step 1, Rip strips")
    page.wait_for_url("**/machines/1")
    hands.press("Begin with setting 1 of 3")
    for number in (1, 2, 3):
        page.wait_for_url(f"**/machines/1/{number}")
        expect(page.locator(".m-number .cut")).to_be_in_viewport()
        hands.press("All ") if page.locator(".m-tick").count() > 1 else hands.press("K1-")
    page.wait_for_url("**/machines/2")
    page.goto(f"{HOME}/machines")

    expect(page.locator(".m-steps li").first).to_contain_text("3 of 3 settings")
    told = [event for event in events_of(workshop.floor.store, SMALL) if event.deed is Deed.THROUGH]
    assert {event.piece for event in told} == {entry.mark for entry in workshop.floor.job(SMALL).roll.entries}
    last = [event.piece for event in told if event.key == told[-1].key]
    hands.press(f"Undo: {last[0] if len(last) == 1 else f'{len(last)} pieces'} through")
    expect(page.locator(".m-steps li").first).to_contain_text("2 of 3 settings")


def test_a_piece_is_scanned_spoiled_and_made_again(workshop: Served, at: Standing):
    hands = at("/bench")
    page = hands.page

    hands.scan(code_text(workshop.floor.job(SMALL).revision.mark, "K1-LS"))
    page.wait_for_url("**/pieces/K1-LS?label=*")
    hands.press("K1-LS is broken out")
    ledger_says(page, "K1-LS broken out")
    hands.press("K1-LS is spoiled …")
    page.wait_for_url("**/spoil/K1-LS")
    hands.type("Where on the piece, if that helps", "412 from the datum end")
    hands.press("Split")
    expect(page.locator("#work .stop")).to_contain_text("Spoiled: split, at 412 from the datum end")
    hands.press("K1-LS is made again")

    ledger_says(page, "K1-LS made again")
    expect(page.locator("#work")).to_contain_text("It was made 2 times")
    expect(page.get_by_role("button", name="K1-LS is broken out")).to_be_visible()
    assert deeds(workshop, "K1-LS") == [Deed.BROKEN_OUT, Deed.SPOILED, Deed.MADE_AGAIN]


def worked(floor: Floor) -> None:
    """Every piece of the job worked through, so that its frame can be glued."""
    roll = floor.job(SMALL).roll
    steps = [
        Said(deed=step, piece=entry.mark)
        for entry in roll.entries
        for step in entry.steps[: entry.steps.index(Deed.GLUED)]
    ]
    record(floor.store, Request(key="worked", by=BENCH, said=tuple(steps)), roll)


def test_a_frame_is_glued_taped_pulled_square_and_noted(workshop: Served, at: Standing):
    worked(workshop.floor)
    hands = at("/bench")
    page = hands.page

    hands.press("K1")
    page.wait_for_url("**/frames/K1")
    hands.press("Frame K1 is glued")
    expect(page.locator("form.tape")).to_be_visible()
    _tape(hands, "940", "935")
    expect(page.locator("div.band.doubt")).to_contain_text(
        "Pull it square: clamp across from lower left to upper right, the longer diagonal."
    )
    assert Deed.CHECKED not in deeds(workshop, "K1-LS")
    _tape(hands, "937", "937.5")

    expect(page.locator("div.band.good")).to_contain_text("Taped 937 and 937.5")
    expect(page.locator("div.band.good")).to_contain_text("Leave it: no gap narrows")
    for entry in workshop.floor.job(SMALL).roll.entries:
        last = events_of(workshop.floor.store, SMALL, entry.mark)[-1]
        assert (last.deed, last.diagonals) == (Deed.CHECKED, (937, 937.5))


def _tape(hands: Hands, rising: str, falling: str) -> None:
    hands.type("Lower left to upper right", rising)
    hands.type("Upper left to lower right", falling)
    hands.press("What do they say?")


def test_lost_labels_are_printed_again_by_keys_alone(workshop: Served):
    planned(workshop.floor, JOB)
    page = workshop.page()
    hands = Keys(page)
    page.goto(f"{HOME}/papers")

    hands.press("Labels again")
    page.wait_for_url("**/papers/labels")
    hands.type("Pieces", "k1-ls K1-XX")
    hands.press("Print them again")
    expect(page.locator("#slips")).to_contain_text('"K1-XX" is no piece of this job')
    assert page.evaluate("document.activeElement.id") == "slips"
    hands.type("Pieces", "k1-ls K1-TR")
    hands.type("Why", "oil on them")
    hands.press("Print them again")
    expect(page.locator(".told")).to_contain_text("2 labels are ready")

    expect(page.locator("details.went").first).to_contain_text("oil on them: K1-LS, K1-TR")
    labels = words_of(paper_at(page, "as it went out"))
    assert "K1-LS" in labels
    assert "K1-TR" in labels
    assert "K1-RS" not in labels


def test_a_store_put_back_from_a_copy_shows_its_pages_again(tmp_path: Path, chromium):
    data = tmp_path / "data"
    with a_floor(tmp_path) as floor, served(floor, chromium) as before:
        planned(floor, JOB)
        page, mark = before.page(), floor.job(SMALL).revision.mark
        page.goto(f"{HOME}/bench/pieces/K1-LS")
        Keys(page).press("K1-LS is broken out")
        ledger_says(page, "K1-LS broken out")
        assert main(["backup", "--data", str(data), "--to", str(tmp_path / "stick")]) == 0
        known_by = page.context.storage_state()
    (data / "pinchrod.db").write_bytes(b"the disk gave out")
    [copy] = (tmp_path / "stick").iterdir()

    assert main(["restore", str(copy), "--data", str(data), "--over"]) == 0

    with a_floor(tmp_path) as floor, served(floor, chromium) as after:
        page = after.page(Role.NOBODY, storage_state=known_by)
        page.goto("/")
        Keys(page).press("Pantry")
        expect(page.locator(".within .code")).to_have_text(mark)
        hands = Keys(page)
        hands.scan(code_text(mark, "K1-LS"))
        page.wait_for_url("**/pieces/K1-LS?label=*")
        expect(page.locator(".stands li").first).to_contain_text("✓ broken out")
        hands.press("K1-LS is passed")
        ledger_says(page, "K1-LS passed")
        assert deeds(after, "K1-LS") == [Deed.BROKEN_OUT, Deed.PASSED]
    assert main(["verify", "--data", str(data)]) == 0
