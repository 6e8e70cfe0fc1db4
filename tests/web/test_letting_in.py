"""How a device is let in and sent away: codes good once, secrets that nobody guesses."""

import re
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from math import log2

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import devices, this_moment
from pinchrod.web import Role
from pinchrod.web.letting_in import GOOD_FOR, LETTERS, LettingIn, mark_of_secret, new_secret
from tests.web.pressing import form_of, press
from tests.web.serving import a_floor, browser


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        yield made


@pytest.fixture
def clock(monkeypatch):
    """The server's clock, set by hand."""
    now = [1_000.0]
    monkeypatch.setattr("time.monotonic", lambda: now[0])
    return now


def come_in(client, code: str, name: str = "Notcher"):
    return client.post("/enter", data={"code": code, "name": name, "key": new_secret()})


def cookie_set(answer) -> str:
    first = answer.history[0] if answer.history else answer
    return next((each for each in first.headers.get_list("set-cookie") if each.startswith("pinchrod=")), "")


def test_a_code_lets_one_device_in_under_its_name_and_as_what_the_office_said(floor):
    code = floor.letting_in.invite(Role.TABLET).code
    client = browser(floor, Role.NOBODY)

    come_in(client, code)

    [device] = devices(floor.store)
    assert (device.name, device.role) == ("Notcher", "tablet")
    assert client.get("/").status_code == 200
    assert client.get("/tablets").status_code == 403


def test_a_code_is_read_as_people_type_it(floor):
    code = floor.letting_in.invite(Role.TABLET).shown
    typed = f" {code.lower().replace('0', 'o').replace('1', 'l')} "

    answer = come_in(browser(floor, Role.NOBODY), typed)

    assert answer.status_code == 200
    assert len(devices(floor.store)) == 1


def test_a_code_is_good_once(floor):
    code = floor.letting_in.invite(Role.TABLET).code
    come_in(browser(floor, Role.NOBODY), code, "Notcher")

    again = come_in(browser(floor, Role.NOBODY), code, "Stranger")

    assert again.status_code == 422
    assert "no device is let in with that code" in again.text
    assert len(devices(floor.store)) == 1


def test_of_many_that_come_with_one_code_at_once_one_is_let_in(floor):
    code = floor.letting_in.invite(Role.TABLET).code
    clients = [browser(floor, Role.NOBODY) for _ in range(8)]

    with ThreadPoolExecutor(8) as crowd:
        answers = list(
            crowd.map(lambda pair: come_in(pair[1], code, f"Tablet {pair[0]}"), enumerate(clients))
        )

    assert [bool(cookie_set(answer)) for answer in answers].count(True) == 1
    assert len(devices(floor.store)) == 1


def test_a_name_that_is_taken_does_not_use_the_code_up(floor):
    browser(floor, Role.TABLET, name="Notcher")
    code = floor.letting_in.invite(Role.TABLET).code
    client = browser(floor, Role.NOBODY)

    refused = come_in(client, code, "Notcher")
    taken = come_in(client, code, "Bench")

    assert refused.status_code == 422
    assert "a device is called" in refused.text
    assert cookie_set(taken)


def test_looking_at_the_door_uses_nothing_up(floor):
    code = floor.letting_in.invite(Role.TABLET).code
    client = browser(floor, Role.NOBODY)

    looks = [client.get(f"/enter?code={code}").status_code for _ in range(20)]

    assert set(looks) == {200}
    assert cookie_set(come_in(client, code))


def test_a_code_is_good_for_ten_minutes(clock):
    out = LettingIn()
    code = out.invite(Role.TABLET).code

    clock[0] += GOOD_FOR - 1
    assert out.look(code).role is Role.TABLET
    clock[0] += 2
    with pytest.raises(NotYetRight):
        out.look(code)


def test_after_five_wrong_codes_even_the_right_one_has_to_wait_a_minute(clock):
    out = LettingIn()
    code = out.invite(Role.TABLET).code

    for wrong in ("AAAA0000", "AAAA0001", "AAAA0002", "AAAA0003", "AAAA0004"):
        with pytest.raises(NotYetRight, match="no device is let in"):
            out.look(wrong)
    with pytest.raises(NotYetRight, match="five wrong codes"):
        out.look(code)
    clock[0] += 61
    assert out.look(code).role is Role.TABLET


def test_four_wrong_codes_are_borne(clock):
    out = LettingIn()
    code = out.invite(Role.TABLET).code

    for wrong in ("AAAA0000", "AAAA0001", "AAAA0002", "AAAA0003"):
        with pytest.raises(NotYetRight):
            out.look(wrong)

    assert out.look(code).role is Role.TABLET


def test_nobody_guesses_a_code_in_the_time_it_is_good_for():
    tries = GOOD_FOR / 60 * 5

    assert tries / len(LETTERS) ** 8 < 1e-9


def test_a_secret_has_256_bits_and_never_comes_twice():
    secrets = {new_secret() for _ in range(1_000)}

    assert len(secrets) == 1_000
    assert all(len(secret) * log2(64) >= 256 for secret in secrets)


def test_the_store_keeps_no_secret_only_its_mark(floor):
    client = browser(floor)
    secret = client.cookies["pinchrod"]

    with floor.store.reading() as base:
        kept = repr(base.rows("SELECT * FROM devices")) + repr(base.rows("SELECT * FROM requests"))

    assert mark_of_secret(secret) in kept
    assert secret not in kept


def test_no_script_and_no_other_site_gets_at_a_cookie(floor):
    code = floor.letting_in.invite(Role.OFFICE).code
    client = browser(floor, Role.NOBODY)

    answers = [
        come_in(client, code),
        client.post("/who", data={"person": "Ann", "back": "/help"}),
        client.post("/look", data={"theme": "dark", "back": "/help"}),
        client.post("/tablets/away", data={"device": "D9", "key": "k"}),
        client.post("/leave", data={"key": "leave"}),
    ]

    cookies = [
        each
        for answer in answers
        for step in (*answer.history, answer)
        for each in step.headers.get_list("set-cookie")
    ]
    assert len(cookies) >= 5
    for cookie in cookies:
        assert re.search(r"; *httponly", cookie, re.IGNORECASE), cookie
        assert re.search(r"; *samesite=strict", cookie, re.IGNORECASE), cookie
        assert re.search(r"; *path=/(;|$)", cookie, re.IGNORECASE), cookie
        assert "domain" not in cookie.lower()


def test_a_secret_that_was_put_there_before_is_never_taken_over(floor):
    client = browser(floor, Role.NOBODY)
    client.cookies.set("pinchrod", "a secret that somebody else put there")

    came = come_in(client, floor.letting_in.invite(Role.TABLET).code)

    assert cookie_set(came)
    assert "somebody" not in cookie_set(came)


def test_a_code_whose_device_could_not_be_noted_is_still_good(floor, monkeypatch):
    code = floor.letting_in.invite(Role.TABLET).code
    client = browser(floor, Role.NOBODY)

    with monkeypatch.context() as broken:
        broken.setattr("pinchrod.web.entry.enrol", _on_a_full_disk)
        assert come_in(client, code).status_code == 500

    assert cookie_set(come_in(client, code))


def _on_a_full_disk(*_said: object, **_more: object) -> None:
    raise OSError(28, "No space left on device")


def test_a_device_that_was_sent_away_sees_the_door_from_then_on(floor):
    office, tablet = browser(floor), browser(floor, Role.TABLET, name="Notcher")
    assert tablet.get("/help").status_code == 200
    number = next(each.id for each in devices(floor.store) if each.name == "Notcher")

    office.post("/tablets/away", data={"device": number, "key": "away"})

    after = tablet.get("/help")
    assert after.url.path == "/enter"
    assert office.get("/help").url.path == "/help"


def sent_away(floor, office, name: str = "Notcher"):
    number = next(each.id for each in devices(floor.store) if each.name == name)
    return number, office.post("/tablets/away", data={"device": number, "key": f"away-{number}"})


def test_a_device_sent_away_by_mistake_is_let_back_in_by_one_press_that_names_it(floor):
    office, tablet = browser(floor), browser(floor, Role.TABLET, name="Notcher")
    _, page = sent_away(floor, office)
    assert "Let Notcher back in" in page.text

    back = press(office, page, "Undo: let Notcher back in")

    assert "Notcher is let in again." in back.text
    assert "back in" not in back.text
    assert tablet.get("/help").url.path == "/help"


def test_after_ten_minutes_a_device_that_was_sent_away_needs_a_new_code(floor, monkeypatch):
    office, tablet = browser(floor), browser(floor, Role.TABLET, name="Notcher")
    number, _ = sent_away(floor, office)
    now = this_moment()

    monkeypatch.setattr("pinchrod.web.tablets.this_moment", lambda: now + timedelta(minutes=11))

    assert "back in" not in office.get("/tablets").text
    refused = office.post("/tablets/back", data={"device": number, "key": "back"})
    assert refused.status_code == 422
    assert "more than ten minutes ago" in refused.text
    assert tablet.get("/help").url.path == "/enter"


def test_a_device_that_left_by_itself_has_nothing_left_to_be_let_in_with(floor):
    office, tablet = browser(floor), browser(floor, Role.TABLET, name="Notcher")
    tablet.post("/leave", data={"key": "leave"})
    number = next(each.id for each in devices(floor.store) if each.name == "Notcher")

    assert "back in" not in office.get("/tablets").text
    assert office.post("/tablets/back", data={"device": number, "key": "b"}).status_code == 422


def test_no_tablet_lets_another_back_in(floor):
    office, tablet = browser(floor), browser(floor, Role.TABLET, name="Slotter")
    browser(floor, Role.TABLET, name="Notcher")
    number, _ = sent_away(floor, office)

    assert tablet.post("/tablets/back", data={"device": number, "key": "b"}).status_code == 403
    assert next(each for each in devices(floor.store) if each.id == number).revoked


def test_a_device_that_leaves_is_let_in_no_more_with_what_it_had(floor):
    client = browser(floor, Role.TABLET, name="Notcher")
    secret = client.cookies["pinchrod"]

    left = client.post("/leave", data={"key": "leave"})

    assert left.url.path == "/enter"
    client.cookies.set("pinchrod", secret)
    assert client.get("/help").url.path == "/enter"


def test_a_device_that_comes_in_anew_is_let_in_no_more_with_what_it_had(floor):
    client = browser(floor, Role.TABLET, name="Notcher")
    before = client.cookies["pinchrod"]

    come_in(client, floor.letting_in.invite(Role.TABLET).code, "Slotter")

    assert [(each.name, bool(each.revoked)) for each in devices(floor.store)] == [
        ("Notcher", True),
        ("Slotter", False),
    ]
    assert client.get("/help").url.path == "/help"
    other = browser(floor, Role.NOBODY)
    other.cookies.set("pinchrod", before)
    assert other.get("/help").url.path == "/enter"


def test_every_page_of_a_tablet_has_the_button_by_which_it_leaves(floor):
    client = browser(floor, Role.TABLET)

    for address in ("/", "/bench", "/help", "/no-such-page"):
        left = form_of(client.get(address), "A device that is sent away needs a new code of the office. Send")
        assert left[0] == "/leave", address
        assert left[1]["key"].endswith("-leave")


def test_what_a_form_says_counts_before_what_its_address_says(floor):
    code = floor.letting_in.invite(Role.TABLET).code

    refused = browser(floor, Role.NOBODY).post(
        f"/enter?code={code}", data={"code": "ABCD-EFGH", "name": "Notcher"}
    )

    assert refused.status_code == 422
    assert devices(floor.store) == ()


def test_a_wrong_code_is_noted_without_the_code(floor, caplog):
    client = browser(floor, Role.NOBODY)

    client.get("/enter?code=ABCD-EFGH")
    come_in(client, "ABCD-EFGH")

    assert [each.getMessage() for each in caplog.records if each.name == "pinchrod.web"] == [
        "refused a code at /enter, asked from testclient"
    ] * 2


@pytest.mark.parametrize(
    "back",
    [
        "https://workshop.example/",
        "//workshop.example",
        "/\\workshop.example",
        "/%0d%0aX: y",
        "javascript:alert(1)",
        "\t//workshop.example",
        "",
    ],
)
def test_no_form_sends_anybody_to_another_site(floor, back):
    client = browser(floor)
    client.follow_redirects = False

    went = [client.post(path, data={"back": back}).headers["location"] for path in ("/who", "/look")]

    assert all(each.startswith("/") and not each.startswith(("//", "/\\")) for each in went)
    assert not any("\n" in each or "\r" in each for each in went)


def test_the_door_offers_a_name_that_no_device_ever_bore(floor):
    browser(floor, name="Office")
    browser(floor, Role.TABLET, name="Tablet")
    browser(floor, Role.TABLET, name="tablet 2")

    door = browser(floor, Role.NOBODY)
    for role, name in ((Role.OFFICE, "Office 2"), (Role.TABLET, "Tablet 3")):
        page = door.get(f"/enter?code={floor.letting_in.invite(role).code}")
        assert f'name="name" value="{name}"' in page.text
