"""The door: nobody comes in by another name, changes anything from another page, or is told too much."""

import logging
import re

import pytest

from pinchrod.web import ROUTES, Floor, Role, Route
from pinchrod.web.answers import Answer
from pinchrod.web.own_faults import dated
from pinchrod.web.own_names import host_under
from pinchrod.web.roles import ANYBODY
from pinchrod.web.templates import address_of as static
from pinchrod.web.visit import Visit
from tests.web.knocking import (
    FORM,
    OUR_PAGE,
    Answered,
    address_of,
    app_on,
    digest_of,
    knock,
    let_in,
)
from tests.web.serving import HERE, HOST, JOB, a_floor, keep
from tests.web.small_job import small_files

BAD_HOSTS = {
    "another name": [("Host", "workshop.example")],
    "empty": [("Host", "")],
    "none": [],
    "twice": [("Host", HOST), ("Host", HOST)],
    "twice, the second foreign": [("Host", HOST), ("Host", "workshop.example")],
    "with a dot behind it": [("Host", "127.0.0.1.:8737")],
    "with a name before it": [("Host", f"somebody@{HOST}")],
    "another port": [("Host", "127.0.0.1:8738")],
    "no port": [("Host", "127.0.0.1")],
    "in the form of the longer addresses": [("Host", "[::ffff:127.0.0.1]:8737")],
    "ours only behind a stranger's": [("Host", "workshop.example"), ("X-Forwarded-Host", HOST)],
    "ours and another's in one": [("Host", f"{HOST}, workshop.example")],
    "as a number": [("Host", "2130706433:8737")],
}
BAD_ORIGINS = {
    "none said": [],
    "another's": [("Origin", "http://workshop.example")],
    "null": [("Origin", "null")],
    "ours by another scheme": [("Origin", f"https://{HOST}")],
    "ours at another port": [("Origin", "http://127.0.0.1:8000")],
    "ours as the beginning of a longer one": [("Origin", f"{HERE}.workshop.example")],
    "ours, but the browser says another site": [("Origin", HERE), ("Sec-Fetch-Site", "cross-site")],
    "ours, but the browser says a neighbour": [("Origin", HERE), ("Sec-Fetch-Site", "same-site")],
    "said twice": [("Origin", HERE), ("Origin", "http://workshop.example")],
    "ours, but said two ways": [
        ("Origin", HERE),
        ("Sec-Fetch-Site", "same-origin"),
        ("Sec-Fetch-Site", "cross-site"),
    ],
}
BAD_KINDS = ("text/plain", "", "application/x-www-form-urlencodedx", "text/html")
WRITES = tuple(route for route in ROUTES if route.method == "POST")
ELSEWHERE = (
    "/live",
    "/health",
    f"{static('style.css')}",
    "/static/nothing.css",
    "/no-such-page",
    "/jobs/no/such",
)
OURS = ("content-security-policy", "x-content-type-options", "referrer-policy", "cross-origin-opener-policy")


@pytest.fixture(scope="module")
def floor(tmp_path_factory):
    with a_floor(tmp_path_factory.mktemp("door")) as made:
        keep(made, small_files(rack=False))
        yield made


@pytest.fixture(scope="module")
def office(floor: Floor):
    return let_in(floor, Role.OFFICE)


def turned_away(answer: Answered) -> bool:
    """Whether nothing of ours came back: a refusal in a line of plain words."""
    return 400 <= answer.status < 500 and b"<" not in answer.body and len(answer.body) < 200


@pytest.mark.parametrize("host", BAD_HOSTS.values(), ids=BAD_HOSTS)
def test_under_another_name_no_address_answers(floor, office, host):
    app, before = app_on(floor), digest_of(floor)
    addresses = [("GET", each) for each in ELSEWHERE] + [
        (route.method, address_of(route)) for route in ROUTES
    ]

    answers = [knock(app, method, address, [*host, *OUR_PAGE[1:], *office]) for method, address in addresses]

    assert all(map(turned_away, answers))
    assert digest_of(floor) == before


def test_under_our_own_name_the_same_addresses_do_answer(floor, office):
    app = app_on(floor)

    answers = [knock(app, "GET", address, [("Host", HOST), *office]) for address in ("/", "/help", "/health")]

    assert [answer.status for answer in answers] == [200, 200, 200]


@pytest.mark.parametrize("origin", BAD_ORIGINS.values(), ids=BAD_ORIGINS)
def test_no_change_comes_from_another_page(floor, office, origin):
    app, before = app_on(floor), digest_of(floor)

    answers = [
        knock(app, "POST", address_of(route), [("Host", HOST), *origin, FORM, *office]) for route in WRITES
    ]

    assert {answer.status for answer in answers} == {403}
    assert all(map(turned_away, answers))
    assert digest_of(floor) == before


@pytest.mark.parametrize("kind", BAD_KINDS)
def test_a_change_is_a_form_or_it_is_none(floor, office, kind):
    app, before = app_on(floor), digest_of(floor)
    headers = [*OUR_PAGE[:3], ("Content-Type", kind), *office]

    answers = [knock(app, "POST", address_of(route), headers) for route in WRITES]

    assert {answer.status for answer in answers} == {415}
    assert digest_of(floor) == before


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "BREW"])
def test_pages_are_looked_at_and_forms_are_sent_and_no_more(floor, office, method):
    app = app_on(floor)

    answers = [knock(app, method, address_of(route), [*OUR_PAGE, *office]) for route in ROUTES]

    assert {answer.status for answer in answers} == {405}
    assert {answer.header("allow") for answer in answers} == {"GET, HEAD, POST"}


def test_every_answer_bears_our_headers_whatever_it_is(floor, office):
    app = app_on(floor, (*ROUTES, _that_fails("a secret")))
    told = [
        knock(app, "GET", "/", [("Host", HOST), *office]),
        knock(app, "GET", "/", [("Host", HOST)]),
        knock(app, "GET", "/no-such-page", [("Host", HOST)]),
        knock(app, "GET", "/fails", [("Host", HOST), *office]),
        knock(app, "POST", "/", [*OUR_PAGE, *office]),
        knock(app, "GET", "/", [("Host", "workshop.example")]),
        knock(app, "PUT", "/", [("Host", HOST)]),
        knock(app, "POST", "/look", [("Host", HOST)]),
        knock(app, "GET", static("style.css"), [("Host", HOST)]),
        knock(app, "GET", "/static/nothing.css", [("Host", HOST)]),
        knock(app, "GET", "/health", [("Host", HOST)]),
        knock(app, "POST", "/look", [*OUR_PAGE[:3], ("Content-Type", "multipart/form-data"), *office]),
    ]

    assert [each.status for each in told] == [200, 303, 404, 500, 405, 421, 405, 403, 200, 404, 200, 400]
    for answer in told:
        policy = answer.header("content-security-policy")
        assert "default-src 'self'" in policy
        assert "unsafe" not in policy
        assert all(
            each in policy for each in ("object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'")
        )
        assert answer.header("x-content-type-options") == "nosniff"
        assert all(answer.header(name) for name in OURS)
        assert not [name for name, _ in answer.headers if name.startswith("access-control")]


PROXY = "bench.example"


@pytest.mark.parametrize("host", [PROXY, PROXY.upper()])
def test_under_the_name_of_a_proxy_with_a_certificate_cookies_are_kept_for_https_alone(floor, office, host):
    app = app_on(floor, covered=PROXY)
    from_there = [("Host", host), ("Origin", f"https://{PROXY}"), FORM, *office]

    set_dark = knock(app, "POST", "/look", from_there, [b"theme=dark&back=/"])

    assert set_dark.status == 303
    assert set_dark.header("set-cookie").endswith("; Secure")


def test_under_our_own_name_a_proxy_changes_nothing(floor, office):
    app = app_on(floor, covered=PROXY)

    set_dark = knock(app, "POST", "/look", [*OUR_PAGE, *office], [b"theme=dark&back=/"])

    assert set_dark.status == 303
    assert "secure" not in set_dark.header("set-cookie").lower()


@pytest.mark.parametrize(
    "origin", [f"http://{PROXY}", f"https://{PROXY}:8443", f"https://{PROXY}.workshop.example"]
)
def test_no_change_comes_from_a_page_that_only_looks_like_the_proxys(floor, office, origin):
    app, before = app_on(floor, covered=PROXY), digest_of(floor)

    answers = [
        knock(app, "POST", address_of(route), [("Host", PROXY), ("Origin", origin), FORM, *office])
        for route in WRITES
    ]

    assert {answer.status for answer in answers} == {403}
    assert digest_of(floor) == before


@pytest.mark.parametrize(
    ("address", "host"),
    [
        ("https://bench.example", "bench.example"),
        ("https://Bench.Example/", "bench.example"),
        ("https://bench.example:443", "bench.example"),
        ("https://192.0.2.7:8443", "192.0.2.7:8443"),
        ("https://bench.example:0443", "bench.example"),
        ("https://bench.example:65535", "bench.example:65535"),
        ("https://bench.example:65536", None),
        ("https://bench.example:0", None),
        ("http://bench.example", None),
        ("https://bench.example/pages", None),
        ("https://", None),
        ("bench.example", None),
        ("https://somebody@bench.example", None),
        ("https://bench.example, other.example", None),
    ],
)
def test_the_address_of_a_proxy_is_https_and_a_name_and_no_more(address, host):
    assert host_under(address) == host


def test_what_is_not_listed_is_not_there(floor, office):
    app = app_on(floor)
    nowhere = (
        "/admin",
        "/jobs/",
        f"/jobs/{JOB}/nothing",
        "/static/",
        "/static/../app.py",
        "/.git/config",
        "/enter/x",
    )

    for address in nowhere:
        for headers in ([("Host", HOST), *office], [("Host", HOST)]):
            assert knock(app, "GET", address, headers).status in (404, 303, 307), address


@pytest.mark.parametrize(
    "address",
    [
        "/jobs/%00",
        "/%0d%0aSet-Cookie:x",
        "/jobs/%1b[31m",
        "/jobs/" + "x" * 8_000,
        "/jobs/%f0%28%8c%28",
        "/static/%00",
        "/jobs/..%2f..%2fetc",
        "/jobs/%ff",
    ],
)
def test_an_odd_address_leads_nowhere_and_nothing_fails(floor, office, address):
    answer = knock(app_on(floor), "GET", address, [("Host", HOST), *office])

    assert answer.status in (303, 400, 404)
    assert not answer.header("set-cookie")


def test_a_page_can_be_asked_for_without_its_body(floor, office):
    app = app_on(floor)

    answers = [
        knock(app, "HEAD", address, [("Host", HOST), *office])
        for address in ("/", "/help", "/health", "/live", static("live.js"))
    ]

    assert [answer.status for answer in answers] == [200] * 5
    assert all(answer.ended for answer in answers)


def _that_fails(words: str) -> Route:
    def does(_visit: Visit) -> Answer:
        raise RuntimeError(words)

    return Route(path="/fails", does=does, may=ANYBODY)


SECRETS = "SELECT token_mark FROM devices; /secret/place/pinchrod-data/pinchrod.db\nTraceback (most recent call last):"


def test_a_fault_of_ours_tells_what_to_do_and_nothing_of_itself(floor, office, caplog):
    caplog.set_level(logging.ERROR)

    answer = knock(app_on(floor, (*ROUTES, _that_fails(SECRETS))), "GET", "/fails", [("Host", HOST), *office])

    assert answer.status == 500
    shown = answer.body.decode()
    for told in ("Traceback", "SELECT", "token_mark", "/home", ".py", "RuntimeError", "line "):
        assert told not in shown
    [number] = re.findall(r"fault ([0-9a-f]{8})", shown)
    assert f"fault {number} at /fails" in caplog.text


def test_what_went_wrong_can_forge_no_line_of_the_log(floor, office, caplog):
    caplog.set_level(logging.ERROR)
    forged = "x\r\n2026-11-26 08:00:00,000 pinchrod.web: all is well\x1b[2K\x85\u2028forged"

    knock(app_on(floor, (*ROUTES, _that_fails(forged))), "GET", "/fails", [("Host", HOST), *office])

    [record] = caplog.records
    first, *rest = record.getMessage().split("\n")
    assert first.startswith("fault ")
    assert all(line.startswith("    ") and line.isprintable() for line in rest)


def test_a_fault_before_any_page_is_begun_is_told_in_the_same_way(floor, office, monkeypatch, caplog):
    def fails(*_said):
        raise OSError("/secret/place/pinchrod.db")

    monkeypatch.setattr("pinchrod.web.visits.device_of", fails)

    answer = knock(app_on(floor), "GET", "/", [("Host", HOST), *office])

    assert answer.status == 500
    assert b"/home" not in answer.body
    assert answer.header("content-security-policy")
    assert "fault" in caplog.text


@pytest.mark.parametrize(
    "cookie",
    [
        "5",
        "null",
        "%5B1%2C2%5D",
        "[" * 5_000,
        "%5B%22x%22%2C%22http%3A//workshop.example%22%2C%22Go%22%5D",
        "\x01",
    ],
)
def test_a_cookie_that_another_put_there_harms_nothing(floor, office, cookie):
    [(_, secret)] = office

    answer = knock(
        app_on(floor), "GET", "/help", [("Host", HOST), ("Cookie", f"{secret}; pinchrod-told={cookie}")]
    )

    assert answer.status == 200
    assert b"workshop.example" not in answer.body


def test_what_is_refused_at_the_door_is_noted_in_one_line_whatever_was_sent(floor, office, caplog):
    caplog.set_level(logging.WARNING)

    knock(app_on(floor), "GET", "/", [("Host", "workshop.example"), *office])
    knock(app_on(floor), "POST", "/leave", [("Host", HOST), FORM, *office])
    knock(app_on(floor), "GET", "/%0a2026-11-26 all is well%1b[2K" + "x" * 5_000, [("Host", HOST), *office])

    told = [record.getMessage() for record in caplog.records]
    assert told[:2] == [
        "refused with 421 at /, asked from 127.0.0.1",
        "refused with 403 at /leave, asked from 127.0.0.1",
    ]
    assert told[2].startswith("refused with 404 at /\\n2026")
    assert all(each.isprintable() and len(each) < 300 for each in told)


def test_a_tablet_where_it_may_not_go_is_noted_and_a_stranger_at_the_door_is_not(floor, caplog):
    caplog.set_level(logging.WARNING)

    knock(app_on(floor), "GET", "/tablets", [("Host", HOST)])
    knock(app_on(floor), "GET", "/tablets", [("Host", HOST), *let_in(floor, Role.TABLET)])

    [record] = caplog.records
    assert re.fullmatch(
        r"refused to D\d+, a tablet at /tablets, asked from 127\.0\.0\.1", record.getMessage()
    )


def test_a_line_of_the_log_bears_its_moment_in_utc():
    record = logging.LogRecord("pinchrod.web", logging.WARNING, "", 0, "refused", (), None)
    record.created = 0.0

    assert dated().format(record) == "1970-01-01T00:00:00Z pinchrod.web: refused"
