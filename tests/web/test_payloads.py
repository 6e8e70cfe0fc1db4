"""Whatever is typed stays words: no script hidden in it gets into a page, a paper, a list, or the log."""

import os
from collections.abc import Iterator
from itertools import cycle
from urllib.parse import quote

import pytest
from starlette.testclient import TestClient

from pinchrod.job import Source
from pinchrod.papers import Paper, for_printing, pack
from pinchrod.plan import check
from pinchrod.store import By, Issuing, JobFiles, Saving, issue, save
from pinchrod.web import ROUTES, Floor, Role
from tests.web.knocking import PLACES, address_of
from tests.web.payloads import RUN, payloads
from tests.web.reading_pages import Form, read
from tests.web.serving import a_floor, browser
from tests.web.small_shop import JOB, SMALL, planned, small_files

DEEP = os.environ.get("PINCHROD_DEPTH") == "deep"
ALL = payloads()
ROUNDS = len(ALL) if DEEP else 2
LEFT_ALONE = ("/leave", "/tablets/away", "/demo-job")  # they send the asking device away, or type nothing
TYPED = ("text", "search", "textarea", "input", "", "tel")
THERE = {**PLACES, "job": SMALL, "frame": "P1", "piece": "P1-LS", "board": "B1", "width": "76"}
LOOKS = tuple(route for route in ROUTES if route.method == "GET")


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        planned(made)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(made.planner, "ask", lambda *_said, **_more: None)
            yield made


def strange_in(client: TestClient, address: str) -> list[str]:
    """What a page holds that no template of ours has."""
    answer = client.get(address)
    assert answer.status_code != 500, address
    return read(answer.text).strange if "text/html" in answer.headers["content-type"] else []


def test_the_tests_find_a_script_in_a_page_that_lets_it_in():
    for payload in (
        "<script>x</script>",
        "<img src=x onerror=x>",
        "<a href=javascript:x>K1</a>",
        "<p style=x>K1</p>",
        "<a href=//workshop.example>K1</a>",
    ):
        assert read(f"<p>{payload}</p>").strange, payload


def test_there_are_two_hundred_ways_and_each_is_tried_once():
    assert len(ALL) == len(set(ALL)) >= 200
    assert sum(RUN in payload for payload in ALL) >= 190


def test_the_pages_hold_nothing_strange_to_begin_with(floor):
    client = browser(floor)

    assert [(address, found) for address in addresses() if (found := strange_in(client, address))] == []


def addresses() -> list[str]:
    return [address_of(route, THERE) for route in LOOKS]


def forms_in(client: TestClient) -> Iterator[tuple[str, Form]]:
    """Every form of every page, with the page it stands on."""
    for address in addresses():
        answer = client.get(address)
        if "text/html" in answer.headers.get("content-type", ""):
            for form in read(answer.text).forms:
                if form.action not in LEFT_ALONE:
                    yield address, form


def filled(form: Form, words: Iterator[str]) -> list[tuple[str, str]]:
    """What is sent: in every field that is typed into, the next of the payloads."""
    return [(name, next(words) if kind in TYPED else value) for name, kind, value in form.fields]


def sent(client: TestClient, page: str, form: Form, said: list[tuple[str, str]]):
    address = form.action or page
    names = dict.fromkeys(name for name, _ in said)
    data = {name: [value for other, value in said if other == name] for name in names}
    if form.method == "post":
        return client.post(address, data=data)
    return client.get(address, params=data)


def test_no_field_of_any_form_lets_a_script_into_a_page(floor):
    client, words = browser(floor), cycle(ALL)
    tried = 0

    for _ in range(ROUNDS):
        for page, form in list(forms_in(client)):
            said = filled(form, words)
            tried += sum(kind in TYPED for _, kind, _ in form.fields)
            answer = sent(client, page, form, said)
            assert answer.status_code != 500, (page, form.action, said)
            if "text/html" in answer.headers.get("content-type", ""):
                assert read(answer.text).strange == [], (page, form.action, said)
        assert [(address, found) for address in addresses() if (found := strange_in(client, address))] == []

    assert tried >= len(ALL)


@pytest.mark.parametrize(
    "field", ["job", "frame", "piece", "mark", "code", "theme", "revision", "from", "pieces", "said", "scan"]
)
def test_no_question_behind_an_address_lets_a_script_into_a_page(floor, field):
    client, words = browser(floor), cycle(ALL)

    for route in LOOKS:
        address = f"{address_of(route, THERE)}?{field}={quote(next(words), safe='')}"
        assert strange_in(client, address) == [], address


@pytest.mark.parametrize(
    "place",
    sorted(
        {"job", "frame", "piece", "mark", "board", "stick", "paper", "number", "step", "setting", "width"}
    ),
)
def test_no_address_lets_a_script_into_a_page(floor, place):
    client, words = browser(floor), cycle(ALL)

    for route in LOOKS:
        if f"{{{place}" in route.path:
            for _ in range(12):
                address = address_of(route, {**THERE, place: quote(next(words), safe="")})
                assert strange_in(client, address) == [], address


def in_toml(words: str) -> str:
    """Words as TOML writes them."""
    return "".join(
        letter if letter.isprintable() and letter not in '"\\' else f"\\u{ord(letter):04x}"
        for letter in words
    )


def hostile(name: str, customer: str, number: str) -> JobFiles:
    """A job that says these words of itself."""
    said = f'name = "{in_toml(name)}"\ncustomer = "{in_toml(customer)}"\nnumber = "{in_toml(number)}"'
    return small_files(JOB.replace('name = "Pantry"', said))


def accepted(payload: str) -> bool:
    """Whether a job may bear those words at all."""
    return len(payload) <= 80 and payload.isprintable()


HARDY = tuple(payload for payload in ALL if accepted(payload))


def test_the_words_of_a_job_stay_words_on_every_page(floor):
    client = browser(floor)
    names = HARDY if DEEP else HARDY[::12]

    for after, name in enumerate(names, start=1):
        files = hostile(name, HARDY[-after], "SR-07")
        _saved(floor, files, after, note=name, person=HARDY[after])
        for address in (
            "/",
            f"/jobs/{SMALL}/frames",
            f"/jobs/{SMALL}/words",
            f"/jobs/{SMALL}/papers",
            f"/jobs/{SMALL}/bench",
            f"/jobs/{SMALL}/words/compare",
        ):
            assert strange_in(client, address) == [], (address, name)
        assert name in " ".join(read(client.get("/").text).words), name

    assert len(names) >= 12


def _saved(floor: Floor, files: JobFiles, after: int, *, note: str, person: str) -> None:
    by = By(person=person, device="Office")
    save(floor.store, Saving(key=f"hostile {after}", by=by, job=SMALL, after=after, files=files, note=note))


def test_a_note_a_person_and_a_paper_that_went_out_stay_words(floor):
    known = floor.job(SMALL)
    for number, payload in enumerate(HARDY[::8]):
        by = By(person=payload, device=payload)
        papers = (Paper(name=f"{payload}.pdf", content=b"%PDF"),)
        issue(
            floor.store,
            Issuing(
                key=f"out {number}", by=by, job=SMALL, revision=known.number, papers=papers, note=payload
            ),
        )

    assert strange_in(browser(floor), f"/jobs/{SMALL}/papers") == []


def test_a_devices_name_stays_words(floor):
    office = browser(floor)

    for payload in HARDY[::6]:
        code = floor.letting_in.invite(Role.TABLET).code
        tablet = browser(floor, Role.NOBODY)
        answer = tablet.post("/enter", data={"code": code, "name": payload, "key": "k"})
        assert answer.status_code == 200, payload
        assert read(answer.text).strange == [], payload

    assert strange_in(office, "/tablets") == []


def test_the_name_of_who_works_at_a_device_stays_words(floor):
    client = browser(floor)

    for payload in ALL:
        answer = client.post("/who", data={"person": payload, "back": "/help"})
        assert read(answer.text).strange == [], payload


@pytest.mark.parametrize("payload", ALL[::10])
def test_the_name_of_a_file_stays_words(floor, payload):
    client = browser(floor)
    name = payload.replace('"', "'").replace("\r", " ").replace("\n", " ")

    for page in (f"/jobs/{SMALL}/words/files", "/new-job/files", "/new-job/rows"):
        for field in ("files", "file", "list"):
            answer = client.post(
                page, data={"key": "k", "revision": "1"}, files={field: (name, b"id,width\nx,y\n")}
            )
            assert answer.status_code != 500
            assert read(answer.text).strange == [], page


def test_a_job_named_like_a_script_has_a_drawing_that_is_one_no_more(floor):
    payload = f"<script>{RUN}</script>"
    source = Source(name="job.toml", content=hostile(payload, payload, "<b>").main.content)
    files = JobFiles(main=source, joined=small_files().joined)
    job, shop = files.read()
    drawings = [
        paper
        for paper in pack(job, shop, for_printing(job, shop, check(job, shop)), ("drawings",))
        if paper.name.endswith(".svg")
    ]

    assert drawings
    for paper in drawings:
        assert read(paper.content.decode()).strange == []
