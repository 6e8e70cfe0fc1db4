"""Tablets and office computers that are let in, and sent away again."""

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    By,
    Folder,
    back_up,
    device_of,
    devices,
    let_back_in,
    open_store,
    restore,
    revoke,
    verify,
)
from tests.store.shop import MORNING, OFFICE, later, let_in, mark_of_secret


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def refusal(store, **said):
    before = devices(store)
    with pytest.raises(NotYetRight) as trouble:
        let_in(store, **said)
    assert devices(store) == before
    return codes(trouble)


def test_a_device_is_known_by_the_mark_of_its_secret_alone(store):
    device = let_in(store)

    assert device_of(store, mark_of_secret("Tablet 2")) == device == devices(store)[0]
    assert device_of(store, "Tablet 2") is None
    assert device_of(store, "") is None
    assert (device.id, device.role, device.at[:16]) == ("D1", "tablet", "2026-11-25T08:00")


def test_a_secret_stands_nowhere_in_the_file(folder):
    with open_store(folder, now=MORNING) as store:
        let_in(store, "Bench", token_mark=mark_of_secret("the-secret-of-the-bench"))

    assert b"the-secret-of-the-bench" not in folder.file.read_bytes()


def test_the_same_letting_in_again_gets_the_same_device(store):
    first = let_in(store)

    assert [let_in(store, now=later(minutes)) for minutes in (1, 60)] == [first] * 2
    assert devices(store) == (first,)


def test_a_key_that_let_in_another_device_is_refused(store):
    let_in(store, key="k")

    assert refusal(store, name="Tablet 3", key="k") == ["key-used"]


def test_a_device_sent_away_is_let_in_no_more_and_stays_in_the_list(store):
    first, second = let_in(store, "Tablet 1"), let_in(store, "Tablet 2")

    gone = revoke(store, first.id, OFFICE, "away-1", now=later(5))

    assert device_of(store, mark_of_secret("Tablet 1")) is None
    assert device_of(store, mark_of_secret("Tablet 2")) == second
    assert devices(store) == (gone, second)
    assert gone.revoked[:16] == "2026-11-25T08:05"
    assert revoke(store, first.id, OFFICE, "away-1", now=later(6)) == gone
    verify(store)


def test_what_was_answered_to_a_letting_in_stays_the_answer(store):
    first = let_in(store)
    revoke(store, first.id, OFFICE, "away-1")

    assert let_in(store) == first
    assert device_of(store, mark_of_secret("Tablet 2")) is None


def test_two_devices_bear_one_name_only_one_after_the_other(store):
    first = let_in(store)
    other = {"key": "again", "token_mark": mark_of_secret("another")}

    assert refusal(store, name="TABLET 2", **other) == ["device-exists"]
    revoke(store, first.id, OFFICE, "away-1")

    assert let_in(store, **other).id == "D2"


def test_no_secret_is_shown_by_two_devices_even_after_one_is_gone(store):
    first = let_in(store)
    revoke(store, first.id, OFFICE, "away-1")

    assert refusal(store, name="Tablet 3", token_mark=mark_of_secret("Tablet 2")) == ["device-secret"]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ({"name": " "}, ["words-missing"]),
        ({"name": "t" * 81, "key": "k"}, ["words-too-long"]),
        ({"name": "Tablet\u202e 2", "key": "k"}, ["words-unseen"]),
        ({"role": "owner"}, ["device-role"]),
        ({"key": "", "name": "", "role": ""}, ["words-missing", "words-missing", "device-role"]),
        ({"by": By(person="", device="desk")}, ["words-missing"]),
    ],
)
def test_odd_words_are_told_all_at_once(store, said, found):
    assert refusal(store, **said) == found


@pytest.mark.parametrize(
    ("device", "code"), [("D9", "device-missing"), ("", "device-missing"), ("D1", "device-revoked")]
)
def test_what_is_not_let_in_cannot_be_sent_away(store, device, code):
    let_in(store)
    revoke(store, "D1", OFFICE, "away-1")

    with pytest.raises(NotYetRight) as trouble:
        revoke(store, device, OFFICE, "away-2")

    assert codes(trouble) == [code]


def test_more_than_nine_devices_stay_in_the_order_in_which_they_came(store):
    for number in range(1, 12):
        let_in(store, f"Tablet {number}")

    assert [device.id for device in devices(store)] == [f"D{number}" for number in range(1, 12)]
    verify(store)


def test_devices_are_in_a_copy_and_in_what_is_put_back_from_it(store, tmp_path):
    let_in(store, "Tablet 1")
    let_in(store, "Tablet 2")
    revoke(store, "D1", OFFICE, "away-1")

    restore(back_up(store, tmp_path / "copies", now=later(15)).path, Folder(tmp_path / "again"))

    with open_store(Folder(tmp_path / "again"), writing=False) as again:
        assert devices(again) == devices(store)
        assert verify(again).digest == verify(store).digest


def test_a_device_sent_away_by_mistake_is_let_in_again_with_the_secret_it_has(store):
    device = let_in(store, "Tablet 1")
    for number in (1, 2):
        gone = next(each for each in devices(store) if not each.revoked)
        revoke(store, gone.id, OFFICE, f"away-{number}", now=later(number))
        assert device_of(store, mark_of_secret("Tablet 1")) is None

        back = let_back_in(store, gone.id, OFFICE, f"back-{number}", now=later(number))

        assert device_of(store, mark_of_secret("Tablet 1")) == back
        assert (back.name, back.role) == (device.name, device.role)
    assert [(each.id, bool(each.revoked)) for each in devices(store)] == [
        ("D1", True),
        ("D2", True),
        ("D3", False),
    ]
    verify(store)


def test_let_back_in_twice_with_one_press_it_is_one_device(store):
    gone = let_in(store, "Tablet 1")
    revoke(store, gone.id, OFFICE, "away-1")

    assert let_back_in(store, gone.id, OFFICE, "b") == let_back_in(store, gone.id, OFFICE, "b")
    assert len(devices(store)) == 2


def test_no_device_is_let_back_in_that_was_not_sent_away_or_whose_name_is_taken(store):
    here, gone = let_in(store, "Tablet 1"), let_in(store, "Tablet 2")
    revoke(store, gone.id, OFFICE, "away-1")
    let_in(store, "Tablet 2", key="other", token_mark=mark_of_secret("another"))

    found = []
    for number, device in enumerate((here.id, gone.id, "D9")):
        with pytest.raises(NotYetRight) as trouble:
            let_back_in(store, device, OFFICE, f"b{number}")
        found += codes(trouble)

    assert found == ["device-missing", "device-exists", "device-missing"]
    assert device_of(store, mark_of_secret("Tablet 2")) is None


def test_what_stands_in_the_store_lets_nobody_in(store):
    gone = let_in(store, "Tablet 1")
    revoke(store, gone.id, OFFICE, "away-1")
    let_back_in(store, gone.id, OFFICE, "b")

    with store.reading() as base:
        marks = [str(mark) for [mark] in base.rows("SELECT token_mark FROM devices ORDER BY number")]

    assert mark_of_secret("Tablet 1") == marks[0]
    assert [device_of(store, mark_of_secret(mark)) for mark in marks] == [None, None]
