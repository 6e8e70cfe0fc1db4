"""The papers of a job: made, looked at, sent out, kept as they went; labels again; marks looked up."""

import re
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from typing import Any

import pytest

from pinchrod.ground import show
from pinchrod.job import Source
from pinchrod.papers import Paper, labelled
from pinchrod.plan import Plan
from pinchrod.store import Deed, Issuing, JobFiles, events_of, issue, issued, paper_as_issued
from pinchrod.web import Floor, Role
from pinchrod.web.beside import Work
from pinchrod.web.papers_marks import read_mark
from pinchrod.web.planner import State
from tests.web.serving import a_floor, browser, keep
from tests.web.small_job import SMALL, small_files
from tests.web.test_planner import is_over, until

HOME = f"/jobs/{SMALL}/papers"
PACK = (
    Paper(name="plan.json", content=b"{}"),
    Paper(name="pack.pdf", content=b"%PDF-1.4 pack"),
    Paper(name="cutting-list.csv", content=b"mark,length\r\n"),
    Paper(name="drawings/K1.svg", content=b"<svg xmlns='http://www.w3.org/2000/svg'/>"),
)


@pytest.fixture
def floor(tmp_path):
    with a_floor(tmp_path) as made:
        keep(made, small_files(rack=False), job=SMALL)
        yield made


@pytest.fixture
def made(floor: Floor, monkeypatch: pytest.MonkeyPatch):
    """The pack as if it was made: of the plan in force, unless another is said."""

    def make(papers: tuple[Paper, ...] = PACK, plan: Plan | None = None) -> None:
        monkeypatch.setattr(floor.planner, "pack_of", lambda _known: papers)
        monkeypatch.setattr(floor.planner, "pack_plan_of", lambda _known: plan)
        monkeypatch.setattr(floor.planner, "state", lambda _known, _work=None: State(done=True))

    return make


def seen(client) -> dict[str, str]:
    """What the form on the page holds unseen."""
    page = client.get(HOME).text
    return dict(
        re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', page.partition('id="send"')[2])
    )


def send(client, **said):
    names = [paper.name for paper in PACK]
    return client.post(f"{HOME}/send", data={**seen(client), "paper": names, **said})


def shown(answer) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", unescape(answer.text)).split())


def renamed(name: str) -> JobFiles:
    files = small_files(rack=False)
    words = files.main.content.replace(b"range wall", name.encode())
    return JobFiles(main=Source(name="job.toml", content=words), joined=files.joined)


def test_before_any_paper_is_made_the_page_says_what_will_be_there(floor):
    page = shown(browser(floor).get(HOME))

    assert "No papers of revision 1 are made yet" in page
    assert "Make the papers" in page
    assert "Nothing of this job went out yet" in page


def test_papers_are_made_beside_the_server_and_then_looked_at(floor):
    client, known = browser(floor), floor.job(SMALL)
    client.post(f"{HOME}/make", data={"do": "make"})
    assert "Stop" in client.get(HOME).text
    until(lambda: is_over(floor, known, Work.PACK), 90)

    page = client.get(HOME)
    assert "pack.pdf" in page.text
    assert "drawings/K3.dxf" in page.text
    pack = client.get(f"{HOME}/made/1/pack.pdf")
    assert pack.content.startswith(b"%PDF")
    assert pack.headers["content-type"] == "application/pdf"
    assert pack.headers["content-disposition"].startswith("inline;")


@pytest.mark.parametrize(
    ("name", "kind", "how"),
    [
        ("pack.pdf", "application/pdf", f"inline; filename*=UTF-8''{SMALL}-1-pack.pdf"),
        ("drawings/K1.svg", "image/svg+xml; charset=utf-8", f"inline; filename*=UTF-8''{SMALL}-1-K1.svg"),
        (
            "cutting-list.csv",
            "text/csv; charset=utf-8",
            f"attachment; filename*=UTF-8''{SMALL}-1-cutting-list.csv",
        ),
        ("plan.json", "application/json", f"attachment; filename*=UTF-8''{SMALL}-1-plan.json"),
    ],
)
def test_what_a_browser_can_show_is_shown_and_all_else_is_saved_under_its_own_name(
    floor, made, name, kind, how
):
    made()

    paper = browser(floor, Role.TABLET).get(f"{HOME}/made/1/{name}")

    assert paper.headers["content-type"] == kind
    assert paper.headers["content-disposition"] == how
    assert paper.headers["x-content-type-options"] == "nosniff"
    assert "object-src 'none'" in paper.headers["content-security-policy"]


@pytest.mark.parametrize(
    "name", ["other.pdf", "../../job.toml", "%2e%2e/pinchrod.db", "pack.pdf/", "drawings", ""]
)
def test_a_paper_that_is_not_in_the_pack_is_not_there(floor, made, name):
    made()

    assert browser(floor).get(f"{HOME}/made/1/{name}").status_code in (404, 405)
    assert browser(floor).get(f"{HOME}/went/1/{name}").status_code in (404, 405)


def test_what_is_ticked_goes_out_and_stands_there_as_it_went(floor, made):
    made()
    client = browser(floor, name="Desk")

    answer = send(client, paper=["pack.pdf", "cutting-list.csv"], note="Saw first")

    assert "Revision 1 went out: 2 papers." in shown(answer)
    went = issued(floor.store, SMALL)
    assert [paper.name for paper in went] == ["pack.pdf", "cutting-list.csv"]
    assert "Saw first" in shown(answer)
    assert "Sent by Desk (Desk)" in shown(answer)
    [address] = re.findall(r'href="([^"]*/went/\d+/pack.pdf)"', answer.text)
    assert client.get(address).content == PACK[1].content


def test_what_went_out_stays_as_it_went_when_the_pack_is_made_anew(floor, made):
    made()
    client = browser(floor)
    send(client)
    [address] = re.findall(r'href="([^"]*/went/\d+/pack.pdf)"', client.get(HOME).text)

    made((Paper(name="pack.pdf", content=b"%PDF-1.4 another"),))

    assert client.get(address).content == b"%PDF-1.4 pack"
    assert client.get(f"{HOME}/made/1/pack.pdf").content == b"%PDF-1.4 another"


def test_a_paper_of_one_job_is_not_found_under_another(floor, made):
    keep(floor, renamed("pantry"), job="pantry")
    made()
    client = browser(floor)
    send(client)
    seq = issued(floor.store, SMALL)[0].seq

    assert client.get(f"{HOME}/went/{seq}/plan.json").status_code == 200
    assert client.get(f"/jobs/pantry/papers/went/{seq}/plan.json").status_code == 404


def test_sent_twice_with_one_press_it_went_out_once(floor, made):
    made()
    client = browser(floor)
    form = {**seen(client), "paper": ["pack.pdf"]}

    with ThreadPoolExecutor(4) as hands:
        answers = list(hands.map(lambda _: client.post(f"{HOME}/send", data=form), range(4)))

    assert {answer.status_code for answer in answers} == {200}
    assert len(issued(floor.store, SMALL)) == 1


def test_nothing_ticked_is_told_beside_the_button_and_nothing_goes_out(floor, made):
    made()

    answer = send(browser(floor), paper=[], note="Saw first")

    assert answer.status_code == 422
    assert "There is a problem" in shown(answer)
    assert 'href="#send"' in answer.text
    assert 'value="Saw first"' in answer.text
    assert not issued(floor.store, SMALL)


def test_papers_that_became_others_since_they_were_looked_at_do_not_go_out(floor, made):
    made()
    client = browser(floor)
    form = {**seen(client), "paper": ["pack.pdf"]}
    made((Paper(name="pack.pdf", content=b"%PDF-1.4 another"),))

    answer = client.post(f"{HOME}/send", data=form)

    assert answer.status_code == 422
    assert "no longer as you saw them" in shown(answer)
    assert not issued(floor.store, SMALL)


def look_over(client, **said):
    return send(client, do="over", **said)


def test_before_papers_go_out_the_whole_job_is_looked_over_each_part_with_a_way_to_change_it(floor, made):
    made()

    page = look_over(browser(floor), note="Saw first")

    assert page.status_code == 200
    assert not issued(floor.store, SMALL)
    told, known = shown(page), floor.job(SMALL)
    for frame in known.job.frames:
        assert f"{frame.id} {show(frame.width)} × {show(frame.height)} mm, {frame.phrase}" in told
    for said in (known.job.name, known.job.timber.name, known.job.assumed[0], "Stiles 45 mm", "Saw first"):
        assert said in told
    assert "Nothing of this job went out yet" in told
    assert "none is entered: no paper says which board" in told
    for place in ("words", "frames", "timber"):
        assert f'<p class="change"><a href="/jobs/{SMALL}/{place}">' in page.text


def buttons(answer) -> list[str]:
    form = answer.text.partition('id="send"')[2].partition("</form>")[0]
    return re.findall(r"<button[^>]*>([^<]*)</button>", form)


def test_the_safe_choice_stands_first_and_the_other_says_what_it_does(floor, made):
    made()

    assert buttons(look_over(browser(floor))) == [
        "Back: nothing goes out yet",
        "Send revision 1 out to the workshop",
    ]


def test_gone_back_from_looking_over_ticks_and_note_are_as_they_were(floor, made):
    made()
    client = browser(floor)
    over = look_over(client, paper=["pack.pdf"], note="Saw first").text.partition('id="send"')[2]
    hidden = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', over)

    page = client.post(f"{HOME}/send", data={**dict(hidden), "do": "back"})

    assert re.findall(r'value="([^"]*)" checked', page.text) == ["pack.pdf"]
    assert 'value="Saw first"' in page.text
    assert not issued(floor.store, SMALL)


def test_what_was_changed_since_papers_went_out_last_is_told_before_others_go(floor, made):
    made()
    client = browser(floor)
    send(client, paper=["pack.pdf"])
    assert "Papers of this very revision, 1, went out before" in shown(look_over(client))
    keep(floor, renamed("pantry"), job=SMALL, after=1)

    page = look_over(client)

    assert "Revision 1 went out last" in shown(page)
    assert "name Saltmarsh Row, range wall Saltmarsh Row, pantry" in shown(page)
    assert f"/jobs/{SMALL}/words/compare?old=1&amp;new=2" in page.text


def test_papers_that_cannot_go_out_are_not_looked_over(floor, made):
    made()

    answer = look_over(browser(floor), paper=[])

    assert answer.status_code == 422
    assert "no paper is ticked" in shown(answer)


def test_papers_of_a_plan_that_a_fault_has_changed_are_outdated_and_do_not_go_out(floor, made, monkeypatch):
    known = floor.job(SMALL)
    plan = _any_plan(known)
    made(plan=plan)
    monkeypatch.setattr("pinchrod.web.papers_page.plan_in_force", lambda *_said: plan)
    client = browser(floor)
    form = {**seen(client), "paper": ["pack.pdf"]}

    other = _any_plan(known)
    monkeypatch.setattr("pinchrod.web.papers_page.plan_in_force", lambda *_said: other)

    assert "A stick has given way to a fault" in shown(client.get(HOME))
    assert client.post(f"{HOME}/send", data=form).status_code == 422
    assert not issued(floor.store, SMALL)


def _any_plan(known) -> Plan:
    none: Any = None
    return Plan(job=known.job, shop=known.shop, rods=known.rods, machining=none, bench=none)


def test_papers_of_an_older_revision_go_out_only_in_spite_of_what_is_said(floor, made):
    made()
    keep(floor, renamed("pantry"), job=SMALL, after=1)
    client = browser(floor)
    page = client.get(f"{HOME}?revision=1").text
    form = dict(
        re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', page.partition('id="send"')[2])
    )

    warned = client.post(f"{HOME}/send", data={**form, "paper": ["pack.pdf"]})
    again = dict(
        re.findall(
            r'<input type="hidden" name="(\w+)" value="([^"]*)">', warned.text.partition('id="send"')[2]
        )
    )
    gone = client.post(f"{HOME}/send", data={**again, "paper": ["pack.pdf"]})

    assert "Outdated: these are of revision 1, the job is at revision 2" in shown(
        client.get(f"{HOME}?revision=1")
    )
    assert warned.status_code == 422
    assert "these papers are of revision 1; the job is at revision 2" in shown(warned)
    assert buttons(warned) == ["Back: nothing goes out yet", "Send revision 1 out in spite of that"]
    assert gone.status_code == 200
    [event] = [each for each in events_of(floor.store, SMALL) if each.deed is Deed.ISSUED]
    assert event.despite == ("paper-superseded",)
    assert "outdated" in shown(client.get(HOME))


def test_every_time_that_papers_went_out_stands_by_itself_the_last_on_top(floor, made):
    made()
    client = browser(floor)
    send(client, paper=["pack.pdf"], note="First")
    send(client, paper=["plan.json", "cutting-list.csv"], note="Second")

    page = client.get(HOME).text.partition("What went out")[2]

    assert page.index("Second") < page.index("First")
    assert page.count("<details") == 2


def test_a_tablet_looks_at_papers_and_sends_none(floor, made):
    made()
    client = browser(floor, Role.TABLET)

    page = client.get(HOME)

    assert "pack.pdf" in page.text
    assert "Send revision" not in page.text
    assert client.post(f"{HOME}/send", data={"paper": "pack.pdf"}).status_code == 403
    assert client.get(f"{HOME}/labels").status_code == 403


def test_labels_are_printed_again_for_chosen_pieces_and_it_is_noted_why(floor):
    client = browser(floor)

    answer = client.post(
        f"{HOME}/labels",
        data={
            "pieces": "k1-ls, K2-TR",
            "piece": ["K1-RS"],
            "first": "4",
            "why": "glue ran over it",
            "key": "again",
        },
    )

    assert "3 labels are ready" in shown(answer)
    [paper] = issued(floor.store, SMALL)
    assert paper.name == "labels-again.pdf"
    assert paper_as_issued(floor.store, paper.seq).content.startswith(b"%PDF")
    [event] = [each for each in events_of(floor.store, SMALL) if each.deed is Deed.ISSUED]
    assert event.reason == "glue ran over it: K1-LS, K1-RS, K2-TR"


def test_a_label_printed_again_makes_no_second_piece(floor):
    before = floor.job(SMALL).roll.entries

    browser(floor).post(f"{HOME}/labels", data={"pieces": "K1", "first": "1", "key": "again"})

    assert floor.job(SMALL).roll.entries == before
    assert floor.standings.of(SMALL) == {}


def test_a_frame_means_all_of_its_labels(floor):
    browser(floor).post(f"{HOME}/labels", data={"pieces": "k2", "first": "1", "key": "again"})

    [event] = [each for each in events_of(floor.store, SMALL) if each.deed is Deed.ISSUED]
    of_frame = sorted(piece.mark for piece in labelled(floor.job(SMALL).rods) if piece.frame == "K2")
    assert event.reason == f"label lost or spoiled: {', '.join(of_frame)}"


def test_everything_wrong_about_labels_is_told_at_once_and_what_was_typed_is_kept(floor):
    answer = browser(floor).post(
        f"{HOME}/labels",
        data={"pieces": "K1-LS K9-XX nonsense", "piece": "K3-LS", "first": "15", "why": "wet", "key": "k"},
    )

    assert answer.status_code == 422
    told = shown(answer)
    assert "K9-XX" in told
    assert "nonsense" in told
    assert "say 1 to 14" in told
    assert 'value="K1-LS K9-XX nonsense"' in answer.text
    assert re.search(r'value="K3-LS" checked', answer.text)
    assert not issued(floor.store, SMALL)


def test_no_piece_at_all_is_told(floor):
    answer = browser(floor).post(f"{HOME}/labels", data={"pieces": " ", "first": "1", "key": "k"})

    assert "no piece is chosen" in shown(answer)


@pytest.mark.parametrize(
    ("said", "mark", "piece"),
    [
        ("KY3D-10C8", "KY3D-10C8", ""),
        ("ky3d10c8", "KY3D-10C8", ""),
        (" KY3D 1OC8 ", "KY3D-10C8", ""),
        ("KY3DI0C8/K1-LS/2", "KY3D-10C8", "K1-LS/2"),
        ("KY3D-10C", "", ""),
        ("KY3D-10C88", "", ""),
        ("KY3D-10U8", "", ""),
        ("K1-LS", "", ""),
        ("", "", ""),
    ],
)
def test_a_mark_is_read_as_it_is_typed_or_scanned(said, mark, piece):
    assert read_mark(said) == (mark, piece)


def test_the_mark_of_the_newest_revision_is_found_to_be_the_newest(floor):
    mark = floor.job(SMALL).revision.mark

    for address in (f"/m/{mark}", f"/m?mark={mark.lower()}", f"/m/{mark.replace('-', '')}/K1-LS"):
        page = shown(browser(floor, Role.TABLET).get(address))
        assert "Newest: Saltmarsh Row, range wall, revision 1" in page


def test_a_paper_of_a_revision_that_was_overtaken_is_told_as_outdated(floor):
    old = floor.job(SMALL).revision.mark
    keep(floor, renamed("pantry"), job=SMALL, after=1)

    page = browser(floor, Role.TABLET).get(f"/m/{old}")

    assert "Outdated: revision 1 of Saltmarsh Row, range wall" in shown(page)
    assert "The job is at revision 2" in shown(page)
    assert 'class="band stop"' in page.text


def test_a_job_that_came_back_to_what_it_was_has_papers_that_count_again(floor):
    old = floor.job(SMALL).revision.mark
    keep(floor, renamed("pantry"), job=SMALL, after=1)
    keep(floor, small_files(rack=False), job=SMALL, after=2)

    assert "Newest: Saltmarsh Row, range wall, revision 3" in shown(browser(floor).get(f"/m/{old}"))


def test_a_mark_of_no_job_here_is_told_and_a_misread_one_is_asked_for_again(floor):
    client = browser(floor, Role.TABLET)

    unknown, misread = client.get("/m/0000-0000"), client.get("/m?mark=K1-LS")

    assert unknown.status_code == 200
    assert "No job here has the mark 0000-0000" in shown(unknown)
    assert misread.status_code == 422
    assert "is no content mark" in shown(misread)
    assert 'value="K1-LS"' in misread.text


def test_a_hundred_superseded_marks_are_all_told(floor):
    marks = []
    for number in range(6):
        marks.append(floor.job(SMALL).revision.mark)
        keep(floor, renamed(f"wall {number}"), job=SMALL, after=number + 1)
    client = browser(floor, Role.TABLET)

    told = [shown(client.get(f"/m/{mark}")) for mark in marks]

    assert len(set(marks)) == 6
    assert all("Outdated" in each and "Newest" not in each for each in told)


def test_papers_that_went_out_another_way_stand_there_too(floor):
    known = floor.job(SMALL)
    issuing = Issuing(key="by command", by=known.revision.by, job=SMALL, revision=1, papers=PACK[:1])
    issue(floor.store, issuing)

    assert "Revision 1," in shown(browser(floor).get(HOME)).partition("What went out")[2]
