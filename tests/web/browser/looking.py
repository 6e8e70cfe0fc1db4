"""What a page is held to: nothing found by axe, targets large enough, letters large enough, one way to scroll."""

from collections.abc import Sequence
from itertools import combinations
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from tests.web.browser.served import SIZES, THEMES, Theme

HERE = Path(__file__).parent
AXE = (HERE / "axe.min.js").read_text(encoding="utf-8")
MEASURE = (HERE / "measuring.js").read_text(encoding="utf-8")
RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
LEAST = {"office": 44, "nobody": 44, "tablet": 56}  # CSS px
LEAST_ACT = 112
LEAST_EVER = 24
BETWEEN = 8
FROM_COSTLY = 24
HALF = 0.5  # a pixel is not halved on any screen, but reckonings are
SIZE_OF = {"light": 0, "dark": 2}  # at which size axe looks at which theme
STRONG = ".cut, .tag, .band, .giant"


def findings(page: Page) -> list[str]:
    """What axe finds wrong with a page: each rule, and where it is broken."""
    if page.evaluate("typeof axe") == "undefined":
        page.evaluate(f"() => {{ {AXE} }}")
    found = page.evaluate(
        "(rules) => axe.run(document, {runOnly: rules, resultTypes: ['violations']})", list(RULES)
    )
    found_strong = _strong(page)
    return [*_told(found), *found_strong]


def _strong(page: Page) -> list[str]:
    """The same of numbers to cut by, marks and states: 7 to 1."""
    if not page.locator(STRONG).count():
        return []
    script = "(where) => axe.run({include: [[where]]}, {runOnly: {type: 'rule', values: ['color-contrast-enhanced']}, resultTypes: ['violations']})"
    return [
        told
        for where in STRONG.split(", ")
        if page.locator(where).count()
        for told in _told(page.evaluate(script, where))
    ]


def _told(found: Any) -> list[str]:
    return [
        f"{each['id']}: {node['html'][:160]} – {node['any'][0]['message'] if node['any'] else each['help']}"
        for each in found["violations"]
        for node in each["nodes"]
    ]


def measured(page: Page) -> Any:
    """Every control and every line of letters of a page, with its size."""
    return page.evaluate(MEASURE)


def too_small(seen: Any) -> list[str]:
    """Controls smaller than a finger needs. A link amid a sentence is as high as its line, 24 px at least."""
    least = LEAST[seen["device"]]
    found = []
    for each in seen["controls"]:
        act = each["act"] and (seen["device"] == "tablet" or "machine" in seen["kind"])
        wanted = LEAST_ACT if act else LEAST_EVER if each["inText"] or each["drawn"] else least
        sides = (each["height"],) if act or each["inText"] else (each["width"], each["height"])
        if min(sides) < wanted - HALF:
            found.append(f"{each['name']} is {each['width']} x {each['height']}, not {wanted}")
    return found


def too_near(seen: Any) -> list[str]:
    """Pairs of controls with less than a finger's breadth of white between them; one within another is one.

    Between what is pressed every day and what costs something there are three breadths.

    The cells of a table abut, as frames and boards that are drawn side by side do; what stays in its place
    when a page is scrolled has no neighbours.
    """
    alone = [each for each in seen["controls"] if not (each["inText"] or each["drawn"] or each["boxed"])]
    pairs = combinations(alone, 2)
    return [
        f"{a['name']} and {b['name']}: {_gap(a, b)}"
        for a, b in pairs
        if -1 < _gap(a, b) < _apart(a, b) - HALF
    ]


def _apart(a: Any, b: Any) -> int:
    """How far two controls have to lie from each other."""
    return FROM_COSTLY if a["costly"] != b["costly"] else BETWEEN


def _gap(a: Any, b: Any) -> float:
    across = max(a["left"] - b["right"], b["left"] - a["right"])
    down = max(a["top"] - b["bottom"], b["top"] - a["bottom"])
    return round(float(max(across, down)), 1)


def too_fine(seen: Any) -> list[str]:
    """Letters smaller than can be read: 16 px anywhere, and what is worked by at a machine 24 px."""
    machine = "machine" in seen["kind"]
    return [
        f"“{each['words']}” at {each['size']} px"
        for each in seen["letters"]
        if each["size"] < 16 or (machine and each["main"] and not each["aside"] and each["size"] < 24)
    ]


def misshapen(page: Page) -> list[str]:
    """What is wrong with a page as it lies on the screen now."""
    seen = measured(page)
    found = [*too_small(seen), *too_near(seen), *too_fine(seen)]
    if seen["across"] > 0:
        found.append(f"{seen['across']} px must be scrolled across: {seen['wide']}")
    if seen["broken"] or seen["ran"]:
        found.append(f"ran {seen['ran']}, broke {seen['broken']}")
    if seen["lang"] != "en" or not seen["title"]:
        found.append("it has no language, or no title")
    return found


def amiss(page: Page, themes: Sequence[Theme] = THEMES, *, deep: bool = False) -> dict[str, list[str]]:
    """All of it, at every size and in both themes; axe looks at each theme at one size, deep at all."""
    found = {}
    for place, (width, height) in enumerate(SIZES):
        page.set_viewport_size({"width": width, "height": height})
        found[f"{width} x {height}"] = misshapen(page)
        for theme in THEMES:
            if deep or (theme in themes and SIZE_OF[theme] == place):
                page.emulate_media(color_scheme=theme)
                found[f"{width} x {height}, {theme}"] = findings(page)
    return {where: wrong for where, wrong in found.items() if wrong}
