"""Scans: each wrong one explained in its own words, each right one counted once and safe before it is answered."""

import json
import re
from datetime import timedelta

import pytest

from pinchrod.store import Deed, events_of, last_seq, revision_at, this_moment
from pinchrod.web import Role, scans_answers
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.serving import a_floor, browser, keep

OTHER = "boot-room"


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        keep(made, files_of(a_job()), job=PANTRY)
        yield made


@pytest.fixture
def tablet(floor):
    return browser(floor, Role.TABLET, "Bench 1")


def label(floor, piece="K1-LS", job=PANTRY, number=0):
    return f"{revision_at(floor.store, job, number).mark.replace('-', '')}/{piece}"


def scan(tablet, code, key="tap-1", **said):
    return tablet.post("/bench/said", json={"code": code, "key": key, **said})


def done(tablet, piece, *deeds):
    for deed in deeds:
        answer = scan(tablet, piece, f"{piece} {deed}", deed=deed)
        assert answer.status_code == 200, answer.text


def why(answer):
    assert answer.status_code == 422
    said = answer.json()
    assert said["state"] == "refused"
    return said["words"]


def test_a_label_shows_its_piece_and_says_nothing_of_it(floor, tablet):
    before = last_seq(floor.store)

    said = scan(tablet, label(floor)).json()

    assert said["state"] == "found"
    assert said["page"].startswith(f"/jobs/{PANTRY}/bench/pieces/K1-LS?label=")
    assert "K1-LS" in tablet.get(said["page"]).text
    assert last_seq(floor.store) == before


def test_a_mark_may_be_typed_in_small_letters_and_comes_with_its_end_mark(floor, tablet):
    for code in ("k1-ls", "K1-LS\r\n", " K1-LS\t", label(floor).lower(), "]Q1" + label(floor)):
        assert scan(tablet, code).json()["piece"] == "K1-LS"


def test_a_content_mark_may_be_typed_with_its_dash_as_papers_print_it(floor, tablet):
    printed = f"{revision_at(floor.store, PANTRY).mark}/K1-LS"

    assert scan(tablet, printed).json()["page"] == scan(tablet, label(floor)).json()["page"]
    assert "has no piece" in why(scan(tablet, printed.replace("-", "-0", 1)))


def test_a_scan_that_says_a_step_is_in_the_ledger_before_it_is_answered(floor, tablet):
    said = scan(tablet, label(floor), deed="broken out").json()

    [event] = events_of(floor.store, PANTRY, "K1-LS")
    assert (said["state"], said["words"], said["next"]) == ("in the ledger", "K1-LS broken out", "passed")
    assert (event.deed, event.key, event.by.device) == (Deed.BROKEN_OUT, "tap-1", "Bench 1")
    assert said["undo"] == "tap-1"


def test_the_same_scan_sent_five_times_is_one_line_and_the_same_bytes(floor, tablet):
    first = scan(tablet, label(floor), deed="broken out")
    done(tablet, "K1-LS", "passed")
    stands = last_seq(floor.store)

    again = [scan(tablet, label(floor), deed="broken out") for _ in range(4)]

    assert {answer.content for answer in again} == {first.content}
    assert last_seq(floor.store) == stands


def test_a_scan_sent_again_after_the_job_lost_the_piece_gets_the_answer_it_got(floor, tablet):
    code = label(floor, "K1-R1")
    first = scan(tablet, code, deed="broken out")
    keep(floor, files_of(a_job().replace("drawer 140 over pair", "pair")), job=PANTRY, after=1)

    assert scan(tablet, code, deed="broken out").content == first.content


def test_a_key_used_for_something_else_is_refused(floor, tablet):
    scan(tablet, "K1-LS", deed="broken out")

    answer = scan(tablet, "K1-RS", deed="broken out")

    assert answer.status_code == 409
    assert "was used before, for something else" in answer.json()["words"]


def test_undo_takes_back_the_scan_and_counts_once_itself(floor, tablet):
    said = scan(tablet, "K1-LS", deed="broken out").json()

    back = scan(tablet, "", "tap-2", touch=said["undo"], job=said["job"])
    again = scan(tablet, "", "tap-2", touch=said["undo"], job=said["job"])

    assert back.json()["words"] == "Taken back: K1-LS"
    assert again.content == back.content
    assert floor.standings.of(PANTRY)["K1-LS"].last is None


def test_a_scan_of_one_piece_says_its_whole_frame_glued(floor, tablet):
    frame = floor.job(PANTRY).roll.of_frame("K1")
    for entry in frame:
        done(tablet, entry.mark, *entry.steps[: entry.steps.index(Deed.GLUED)])

    said = scan(tablet, label(floor), deed="glued").json()

    assert said["words"] == f"{len(frame)} pieces glued"
    assert all(floor.standings.of(PANTRY)[entry.mark].when(Deed.GLUED) for entry in frame)


def test_a_frame_that_is_typed_is_shown_with_what_is_missing_for_it(floor, tablet):
    said = scan(tablet, "k1").json()

    assert (said["state"], said["page"]) == ("found", f"/jobs/{PANTRY}/bench/frames/K1")
    assert "What is missing for K1" in tablet.get(said["page"]).text


def test_without_script_what_a_scan_says_stays_chosen(tablet):
    fields = {"key": "f-1", "code": "K1-LS", "deed": "broken out", "back": "/bench", "box": "yes"}

    page = tablet.post("/bench/scan", data=fields)

    assert re.search(r'value="broken out" checked', page.text)


# Wrong scans, each in its own words.


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("", "nothing came"),
        ("4006381333931", "the code of some goods, not a label of ours"),
        ("https://example.com/x", "the address of a page, not a label of ours"),
        ("HELLO WORLD", 'has no piece "HELLO WORLD"; look at the label'),
        ("K1-LX", "did you mean K1-L"),
        ("K1-", "only part of a label came"),
        ("K1-LSK1-RS", "two scans came as one"),
        ("K1-LS\x1bK", "something came that no label has"),
        ("K1-LS\x00", "something came that no label has"),
        ("K1.1", "is a front, or a part of one"),
        ("x" * 10_240, "10,240 letters came at once"),
        ("7K3M04XQ/K1-LS", "no job here has the content mark 7K3M-04XQ"),
        ("K1ßLS", "looks like K1-LS, but the scanner types as on an English keyboard"),
        ("K!_LS", "looks like K1-LS, but Shift is held or locked"),
    ],
)
def test_a_wrong_scan_is_explained_and_changes_nothing(floor, tablet, code, words):
    before = last_seq(floor.store)

    assert words in why(scan(tablet, code, deed="broken out"))
    assert last_seq(floor.store) == before


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda code: code[:9], "only part of a label came"),
        (lambda code: code[:8], "only part of a label came"),
        (lambda code: code[:12], "only part of a label came"),
        (lambda code: code[3:], "only part of a label came"),
        (lambda code: code + code, "two scans came as one"),
        (lambda code: "K1-RS" + code, "two scans came as one"),
        (lambda code: code + "K1-RS", "two scans came as one"),
        (lambda code: code.translate(str.maketrans("-/yzYZ", "ß-zyZY")), "looks like"),
        (lambda code: code.translate(str.maketrans("-/yzYZ", "/&zyZY")), "looks like"),
        (lambda code: code.translate(str.maketrans("1234567890-/", "!@#$%^&*()_?")), "looks like"),
        (lambda code: code.translate(str.maketrans("1234567890-/AQWZM", "&é\"'(-è_çà)!QAZW?")), "looks like"),
    ],
)
def test_a_label_read_wrongly_is_explained(floor, tablet, spoil, words):
    assert words in why(scan(tablet, spoil(label(floor)), deed="broken out"))


def test_one_wrong_letter_of_the_content_mark_names_the_job_that_may_be_meant(floor, tablet):
    code = label(floor)
    wrong = code[:7] + ("2" if code[7] != "2" else "3") + code[8:]

    assert "Pantry wall: if it is meant, scan again" in why(scan(tablet, wrong))


def test_every_single_wrong_letter_of_a_content_mark_is_refused(floor, tablet):
    code = label(floor)
    wrong = [
        code[:place] + other + code[place + 1 :]
        for place in range(8)
        for other in "0A"
        if other != code[place]
    ]

    assert all(scan(tablet, each).status_code == 422 for each in wrong)


def test_a_label_of_another_job_is_named_with_its_job(floor, tablet):
    keep(floor, files_of(a_job(name="Boot room", width=700)), job=OTHER)

    words = why(scan(tablet, label(floor, job=OTHER), deed="broken out", job=PANTRY))

    assert "the label is of another job: Boot room" in words
    assert scan(tablet, label(floor, job=OTHER)).json()["job"] == OTHER


def test_a_mark_that_several_jobs_have_asks_which(floor, tablet):
    keep(floor, files_of(a_job(name="Boot room", width=700)), job=OTHER)

    words = why(scan(tablet, "K1-LS"))

    assert "K1-LS is in several jobs: Boot room, Pantry wall" in words or "Pantry wall, Boot room" in words
    assert scan(tablet, "K1-LS", job=OTHER).json()["job"] == OTHER


def test_an_old_label_asks_and_goes_on_all_the_same_if_told_to(floor, tablet):
    code = label(floor)
    keep(floor, files_of(a_job(width=620)), job=PANTRY, after=1)

    answer = scan(tablet, code, deed="broken out")

    said = answer.json()
    assert answer.status_code == 422
    assert said["state"] == "asks"
    assert "the label is of revision 1; the job is at revision 2" in said["words"]
    on = scan(tablet, code, deed="broken out", despite=said["despite"])
    assert on.json()["state"] == "in the ledger"
    assert events_of(floor.store, PANTRY, "K1-LS")[0].despite == ("label-superseded",)


def test_a_label_of_a_piece_that_the_job_has_no_more_says_so(floor, tablet):
    code = label(floor, "K1-R1")
    keep(floor, files_of(a_job().replace("drawer 140 over pair", "pair")), job=PANTRY, after=1)

    assert "revision 2 has no K1-R1 any more" in why(scan(tablet, code))


def test_a_piece_out_of_turn_names_the_step_expected_and_may_go_on(floor, tablet):
    said = scan(tablet, "K1-LS", deed="notched").json()

    assert said["state"] == "asks"
    assert "the next step expected is broken out, not notched" in said["words"]
    assert scan(tablet, "K1-LS", deed="notched", despite=said["despite"]).status_code == 200


def test_a_piece_already_done_says_when_and_by_whom(floor, tablet, monkeypatch):
    done(tablet, "K1-LS", "broken out")
    monkeypatch.setattr(scans_answers, "this_moment", lambda: this_moment() + timedelta(seconds=3))

    words = why(scan(tablet, "K1-LS", "tap-9", deed="broken out"))

    assert re.search(
        r"K1-LS: it was broken out at \d{4}-\d\d-\d\d \d\d:\d\d UTC by Bench 1 \(Bench 1\)", words
    )


def test_the_same_code_twice_within_two_seconds_counts_once(floor, tablet):
    done(tablet, "K1-LS", "broken out")

    said = scan(tablet, "K1-LS", "tap-9", deed="broken out").json()

    assert said["state"] == "in the ledger"
    assert "counts once" in said["words"]
    assert len(events_of(floor.store, PANTRY, "K1-LS")) == 1


def test_the_same_code_at_another_tablet_is_no_repeat(floor, tablet):
    done(tablet, "K1-LS", "broken out")

    words = why(scan(browser(floor, Role.TABLET, "Bench 2"), "K1-LS", "tap-9", deed="broken out"))

    assert "by Bench 1" in words


def test_a_spoiled_piece_is_told_with_its_reason_and_can_be_made_again(floor, tablet):
    scan(tablet, "K1-LS", deed="spoiled", reason="split", spot="412")

    words = why(scan(tablet, label(floor), "tap-2", deed="broken out"))
    again = scan(tablet, label(floor), "tap-3", deed="made again").json()

    assert "it was spoiled at" in words
    assert again["words"] == "K1-LS made again"


def test_a_label_printed_again_is_the_same_piece(floor, tablet):
    done(tablet, label(floor), "broken out")

    assert scan(tablet, label(floor), "tap-2", deed="passed").json()["words"] == "K1-LS passed"
    assert list(floor.standings.of(PANTRY)) == ["K1-LS"]


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"[]",
        b"{",
        b'{"code": 5}',
        b'{"code": "K1-LS", "despite": "x"}',
        b"[" * 50_000,
        b'{"code": 1e400}',
        b"\xff\xfe",
    ],
)
def test_what_is_no_scan_of_these_pages_is_told_so(tablet, body):
    answer = tablet.post("/bench/said", content=body, headers={"Content-Type": "application/json"})

    assert answer.status_code == 422
    assert answer.json()["state"] == "refused"


def test_a_deed_that_is_none_is_refused(tablet):
    assert "none of the steps" in why(scan(tablet, "K1-LS", deed="saved"))


def test_a_form_without_script_does_the_same_and_keeps_what_was_typed(floor, tablet):
    fields = {"key": "f-1", "code": "K1-LX", "deed": "broken out", "job": "", "back": "/bench"}

    refused = tablet.post("/bench/scan", data=fields)
    done_page = tablet.post("/bench/scan", data={**fields, "code": "K1-LS"})

    assert refused.status_code == 422
    assert 'value="K1-LX"' in refused.text
    assert "did you mean" in refused.text
    assert done_page.url.path == "/bench"
    assert "K1-LS broken out" in done_page.text


def test_the_form_asks_too_and_goes_on_all_the_same(floor, tablet):
    fields = {
        "key": "f-1",
        "code": "K1-LS",
        "deed": "notched",
        "job": PANTRY,
        "back": f"/jobs/{PANTRY}/bench",
    }

    asks = tablet.post("/bench/scan", data=fields)
    sent = re.findall(
        r'name="(\w+)" value="([^"]*)"', asks.text.split('class="again"')[1].split("</form>")[0]
    )
    on = tablet.post("/bench/scan", data=dict(sent))

    assert "Go on all the same" in asks.text
    assert on.url.path == f"/jobs/{PANTRY}/bench"
    assert floor.standings.of(PANTRY)["K1-LS"].when(Deed.NOTCHED)


def test_a_stranger_scans_nothing(floor):
    answer = browser(floor, Role.NOBODY).post(
        "/bench/said",
        content=json.dumps({"code": "K1-LS"}),
        headers={"Content-Type": "application/json"},
        follow_redirects=False,
    )

    assert answer.status_code in (303, 403)
    assert last_seq(floor.store) == 1
