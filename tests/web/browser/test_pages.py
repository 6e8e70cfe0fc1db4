"""Every page there is, in a real browser: both themes, three sizes, every device that may look at it."""

import os

import pytest
from playwright.sync_api import Page

from pinchrod.store import Issuing, issue
from pinchrod.web import ROUTES, Role, Route
from pinchrod.web.timber_drawn import WIDTHS
from tests.web.browser.looking import amiss
from tests.web.browser.served import THEMES, Served, Theme
from tests.web.knocking import PLACES, address_of
from tests.web.small_job import SMALL

DEEP = os.environ.get("PINCHROD_DEPTH") == "deep"
WORKERS = (Role.OFFICE, Role.TABLET)
LOOKS = [(role, route) for route in ROUTES for role in WORKERS if route.method == "GET" and role in route.may]


@pytest.fixture(scope="module")
def pages(planned: Served) -> dict[Role, Page]:
    return {role: planned.page(role) for role in WORKERS}


@pytest.fixture(scope="module")
def there(planned: Served) -> dict[str, str]:
    """One of each thing that an address may name, in the job that is planned and whose papers went out."""
    known = planned.floor.job(SMALL)
    papers = planned.floor.planner.pack_of(known)
    issuing = Issuing(key="out", by=known.revision.by, job=SMALL, revision=1, papers=papers)
    went = {event.paper: event.seq for event in issue(planned.floor.store, issuing).events}
    plan = planned.floor.planner.plan_of(known)
    assert plan is not None
    assert plan.breakout is not None
    stick = plan.breakout.sticks[0]
    return {
        **PLACES,
        "job": SMALL,
        "mark": known.revision.mark,
        "seq": str(went["pack.pdf"]),
        "stick": stick.name,
        "board": stick.board,
        "width": str(WIDTHS[0][0]),
    }


def named(said: Role | Route) -> str:
    return said.path if isinstance(said, Route) else str(said)


@pytest.mark.parametrize(("role", "route"), LOOKS, ids=named)
def test_nobody_stumbles_over_anything_on_a_page(planned: Served, pages, there, role: Role, route: Route):
    page, address = pages[role], address_of(route, there)
    if not _is_page(page, address):
        return

    page.goto(address)

    assert amiss(page, themes_of(role, route), deep=DEEP) == {}
    assert (planned.outside, planned.complaints) == ([], [])


def themes_of(role: Role, route: Route) -> tuple[Theme, ...]:
    """Light in the office and dark on tablets, where both look at a page; both where only one does."""
    if len(route.may & set(WORKERS)) == 1:
        return THEMES
    return ("light",) if role is Role.OFFICE else ("dark",)


def _is_page(page: Page, address: str) -> bool:
    """Whether a page lies there: not a part of one, a paper, or a drawing."""
    answer = page.request.get(address, max_redirects=3)
    assert answer.ok, f"{address}: {answer.status}"
    return answer.body().lstrip().lower().startswith(b"<!doctype html")


def test_nobody_stumbles_over_a_job_that_is_looked_over_before_its_papers_go_out(planned: Served, pages):
    page = pages[Role.OFFICE]
    page.goto(f"/jobs/{SMALL}/papers")

    page.get_by_role("button", name="Look it over before it goes out").click()

    page.get_by_role("heading", name="Before revision 1 goes out").wait_for()
    assert amiss(page, deep=DEEP) == {}
    assert planned.complaints == []


def test_nobody_stumbles_over_the_door(workshop: Served):
    code = workshop.floor.letting_in.invite(Role.TABLET).code
    page = workshop.page(Role.NOBODY)

    for address in ("/", f"/enter?code={code}", "/enter?code=ABCD-EFGH"):
        page.goto(address)
        assert amiss(page, deep=DEEP) == {}

    assert (workshop.outside, workshop.complaints) == ([], [])


@pytest.mark.parametrize("address", ["/no-such-page", "/jobs/no-such-job"])
def test_nobody_stumbles_over_a_page_that_is_not_there(workshop: Served, address):
    page = workshop.page(Role.OFFICE)

    page.goto(address)

    assert amiss(page, deep=DEEP) == {}


@pytest.mark.parametrize("address", ["/", "/help", "/tablets", "/alone"])
def test_nobody_stumbles_over_an_empty_workshop(workshop: Served, address):
    page = workshop.page(Role.OFFICE)
    page.route("**/health", lambda route: route.abort())  # else /alone goes on

    page.goto(address)

    assert amiss(page, deep=DEEP) == {}
    assert page.url.endswith(address)
