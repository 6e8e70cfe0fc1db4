"""A finger on the glass, and the focus of the keys: nothing happens too early, nothing is pressed unseen."""

import pytest
from playwright.sync_api import Page, expect

from pinchrod.web import Role
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.browser.served import DESK, PHONE, TALL, Served
from tests.web.serving import keep
from tests.web.small_job import SMALL

HIDDEN = """() => {
  const el = document.activeElement;
  if (!el || el === document.body || el.closest(".skip")) return "";
  const box = el.getBoundingClientRect();
  const spots = [[.5, .5], [.1, .5], [.9, .5], [.5, .1], [.5, .9]];
  const seen = spots.some(([x, y]) => {
    const there = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
    return there && (el.contains(there) || there.contains(el) || there.closest("label")?.contains(el));
  });
  return seen ? "" : `${el.tagName} ${el.id || el.textContent.trim().slice(0, 40)} at ${Math.round(box.top)}`;
}"""
SAYS = """() => {
  const line = document.createElement("p");
  line.className = "band stop";
  line.innerHTML = '<span class="verdict">✕ Refused: K9-LX broken out</span> <span class="why">It is a piece of another job.</span>';
  document.getElementById("band").replaceChildren(line);
}"""
RINGS = """() => {
  const el = document.activeElement, style = getComputedStyle(el);
  if (!el || el === document.body || el.id === "main" || !el.matches(":focus-visible")) return "";
  return parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== "none" ? "" : el.outerHTML.slice(0, 80);
}"""
PLACES = ("frames", "frames/{frame}", "timber/rack", "papers", "words", "machines/1/1", "bench")


def told_on_the_way(page: Page, key: str, *looks: str) -> list[str]:
    """What is amiss with whatever has the focus, over sixty strokes of a key."""
    found = []
    for _ in range(60):
        page.keyboard.press(key)
        found += [page.evaluate(look) for look in looks]
    return [told for told in found if told]


@pytest.mark.parametrize("key", ["Tab", "Shift+Tab"])
@pytest.mark.parametrize("size", [DESK, TALL, PHONE], ids=str)
@pytest.mark.parametrize("place", PLACES)
def test_what_has_the_focus_is_seen_and_ringed_wherever_tab_goes(planned: Served, place: str, size, key):
    page = planned.page(Role.OFFICE, size)
    frame = planned.floor.job(SMALL).job.frames[0].id
    page.goto(f"/jobs/{SMALL}/{place.format(frame=frame)}")

    assert told_on_the_way(page, key, HIDDEN, RINGS) == []
    page.context.close()


@pytest.mark.parametrize("key", ["Tab", "Shift+Tab"])
@pytest.mark.parametrize("size", [DESK, TALL, PHONE], ids=str)
@pytest.mark.parametrize("place", ["bench", "machines/7/1"])
def test_what_has_the_focus_is_seen_beside_what_a_band_says(planned: Served, place: str, size, key):
    page = planned.page(Role.TABLET, size)
    page.goto(f"/jobs/{SMALL}/{place}")
    page.evaluate("for (const more of document.querySelectorAll('details')) more.open = true;")
    page.evaluate(SAYS)
    page.wait_for_timeout(200)

    assert told_on_the_way(page, key, HIDDEN) == []
    page.context.close()


def test_a_finger_that_slides_off_does_nothing(workshop: Served):
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"/jobs/{PANTRY}/bench/pieces/K1-LS")
    button = page.get_by_role("button", name="K1-LS is broken out")

    _down_on(page, button)
    page.mouse.move(5, 5)
    page.mouse.up()

    page.wait_for_timeout(300)
    expect(button).to_be_visible()
    expect(page.locator("#band .band")).to_have_count(0)


def test_nothing_happens_before_the_finger_is_lifted(workshop: Served):
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"/jobs/{PANTRY}/bench/pieces/K1-LS")

    _down_on(page, page.get_by_role("button", name="K1-LS is broken out"))
    page.wait_for_timeout(300)
    expect(page.locator("#band .band")).to_have_count(0)
    page.mouse.up()

    expect(page.locator("#band .good")).to_contain_text("K1-LS broken out")


def test_a_press_shows_something_within_a_tenth_of_a_second(workshop: Served):
    keep(workshop.floor, files_of(a_job()), job=PANTRY)
    page = workshop.page(Role.TABLET, TALL)
    page.goto(f"/jobs/{PANTRY}/bench/pieces/K1-LS")
    page.route("**/bench/said", lambda _route: None)  # the server says nothing at all

    shown = page.evaluate(
        """() => {
          const begun = performance.now();
          document.querySelector("button.act").click();
          return [performance.now() - begun, document.querySelector("#band").innerText];
        }"""
    )

    assert "Sending: K1-LS" in shown[1]
    assert shown[0] < 100  # ms


def _down_on(page: Page, button) -> None:
    box = button.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()


LONGER = """(box) => {
  const body = box.querySelector("tbody");
  body.append(...Array.from({ length: 60 }, () => body.rows[0].cloneNode(true)));
  for (const cell of box.querySelectorAll("tr > :last-child")) cell.style.minWidth = "1600px";
  box.scrollTo(300, 900);
}"""
STAYED = """(box) => {
  const edge = box.getBoundingClientRect(), first = box.querySelector("tbody th:first-child");
  const near = (place, other) => Math.abs(place - other) < 4;
  const head = box.querySelector("thead th").getBoundingClientRect();
  return [box.scrollLeft > 100, box.scrollTop > 300, near(head.top, edge.top),
    !first || (near(first.getBoundingClientRect().left, edge.left) && near(head.left, edge.left))];
}"""


@pytest.mark.parametrize("place", ["frames", "timber", "timber/rack", "timber/stick/{stick}", "words"])
@pytest.mark.parametrize("size", [TALL, PHONE], ids=str)
def test_where_a_table_scrolls_its_heads_stay(planned: Served, place: str, size):
    known = planned.floor.job(SMALL)
    plan = planned.floor.planner.plan_of(known)
    assert plan is not None
    assert plan.breakout is not None
    page = planned.page(Role.OFFICE, size)

    page.goto(f"/jobs/{SMALL}/{place.format(stick=plan.breakout.sticks[0].name)}")

    boxes = page.locator(".wide").all()
    assert boxes
    for box in boxes:
        box.evaluate(LONGER)
        assert box.evaluate(STAYED) == [True] * 4
