"""The list of jobs, and the ways to begin one."""

from pathlib import Path

import pytest

from pinchrod.papers import Paper
from pinchrod.store import (
    By,
    Deed,
    Issuing,
    Request,
    Said,
    copies_in,
    drafts_of,
    files_at,
    issue,
    jobs,
    look_over,
    record,
    revisions,
)
from pinchrod.web import Role
from pinchrod.web.jobs_begun import store_name
from tests.job.workbooks import a_workbook
from tests.web.pressing import press
from tests.web.serving import DEMO, a_floor, browser
from tests.web.small_jobs import HEAD, LARDER, frame_words, keep_larder, larder, told_in, value_of, words_in

BY = By(person="Bench", device="Bench")
BEGIN = {
    "key": "b1",
    "name": "Larder, north wall",
    "customer": "Demonstration",
    "timber": "yellow-poplar",
    "thickness": "22",
    "id": "L1",
    "width": "23 5/8 in",
    "height": "720",
    "layout": "drawer 140 over pair",
}
ROWS = "id\twidth\theight\tlayout\tleft stile\nL1\t600\t720\tpair\t60\nL2\t500\t720\t3 drawers\t\n"


def test_an_empty_store_says_what_will_be_there_and_has_the_buttons_that_fill_it(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        page = browser(floor).get("/")

    assert "Nothing is in the store yet" in words_in(page)
    assert 'href="/new-job"' in page.text
    assert 'action="/demo-job"' in page.text


def test_a_tablet_sees_the_jobs_and_no_button_to_begin_one(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor, Role.TABLET).get("/")

    assert "Larder" in words_in(page)
    assert "/new-job" not in page.text


def test_a_job_says_how_far_its_pieces_are_and_what_is_next(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        roll = floor.job(LARDER).roll
        said = tuple(Said(deed=Deed.BROKEN_OUT, piece=entry.mark) for entry in roll.entries[:4])
        record(floor.store, Request(key="k", by=BY, said=said), roll)

        words = words_in(browser(floor).get("/"))

    pieces = len(roll.entries)
    assert f"3 frames, {pieces} pieces" in words
    assert f"broken out 4 of {pieces}" in words
    assert f"Next: {pieces - 4} pieces to break out" in words


def test_a_job_whose_papers_are_of_an_older_revision_says_so(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        papers = (Paper(name="pack.pdf", content=b"paper"),)
        issue(floor.store, Issuing(key="i", by=BY, job=LARDER, revision=1, papers=papers))
        before = words_in(browser(floor).get("/"))
        keep_larder(floor, larder(HEAD.replace("Demonstration", "North wall")), after=1)

        after = words_in(browser(floor).get("/"))

    assert "Papers of revision 1 went out" in before
    assert "papers outdated" not in before
    assert "papers outdated Papers are of revision 1; the job is at 2" in after


def test_the_job_saved_last_stands_on_top(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        browser(floor).post("/new-job", data=BEGIN)

        words = words_in(browser(floor).get("/"))

    assert words.index("Larder, north wall") < words.index("Larder Demonstration")


def test_our_demo_job_is_opened_with_one_press_and_again_without_a_second_one(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)

        first = client.post("/demo-job", data={"key": "d1"})
        second = client.post("/demo-job", data={"key": "d2"})

        [revision] = jobs(floor.store)
        kept = files_at(floor.store, revision.job)
    assert first.url.path == second.url.path == "/jobs/saltmarsh-row-plot-7/frames"
    assert "is kept" in told_in(first)
    assert "here already" in told_in(second)
    assert kept.main.content == (DEMO / "job.toml").read_bytes()


def test_a_job_begun_by_name_has_its_first_frame_and_its_usual_sizes_written_out(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job", data=BEGIN)

        known = floor.job("larder-north-wall")
        text = known.files.main.content.decode()
    assert page.url.path == "/jobs/larder-north-wall/frames"
    assert "Larder, north wall is kept, as revision 1" in told_in(page)
    assert [frame.id for frame in known.job.frames] == ["L1"]
    assert "mid_rail = 38" in text
    assert "'23 5/8 in'" in text or '"23 5/8 in"' in text


def test_every_slip_in_a_new_job_is_told_at_its_field_and_what_was_typed_stays(tmp_path: Path):
    slips = {"name": " ", "thickness": "2o", "width": "1,234", "layout": "pairs over doors beside open"}
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job", data={**BEGIN, **slips})

        assert not jobs(floor.store)
    assert page.status_code == 422
    assert "<title>Error: New job" in page.text
    for field in slips:
        assert f'<a href="#{field}">' in page.text
        assert f'id="{field}-slip"' in page.text
    assert 'value="2o"' in page.text
    assert 'value="pairs over doors beside open"' in page.text


def test_a_press_twice_begins_one_job(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)

        pages = [client.post("/new-job", data=BEGIN) for _ in range(2)]

        assert len(revisions(floor.store, "larder-north-wall")) == 1
    assert pages[0].url == pages[1].url


def test_a_second_job_of_the_same_name_is_refused_and_says_where_the_first_is(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)
        client.post("/new-job", data=BEGIN)

        page = client.post("/new-job", data={**BEGIN, "key": "b2", "width": "900"})

    assert page.status_code == 422
    assert "a job is called larder-north-wall already" in words_in(page)
    assert '<a href="#name">' in page.text


@pytest.mark.parametrize(
    ("name", "stored"),
    [
        ("Saltmarsh Row, plot 7", "saltmarsh-row-plot-7"),
        ("  Küche  ", "kuche"),
        ("№ 5 / north", "no-5-north"),
        ("台所", "job"),
        ("x" * 200, "x" * 80),
        ("a-" * 60, ("a-" * 40).strip("-")),
    ],
)
def test_the_stores_name_is_made_of_the_jobs(name: str, stored: str):
    assert store_name(name) == stored


def test_a_job_file_and_the_files_it_names_are_chosen_at_once(tmp_path: Path):
    names = ("job.toml", "boot-room.csv", "workshop.toml", "rack.csv")
    chosen = [("files", (name, (DEMO / name).read_bytes())) for name in reversed(names)]
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/files", data={"key": "f", "called": ""}, files=chosen)

        kept = files_at(floor.store, "saltmarsh-row-plot-7")
    assert page.url.path == "/jobs/saltmarsh-row-plot-7/frames"
    assert "left aside: rack.csv" in told_in(page)
    assert kept.main.name == "job.toml"
    assert [source.name for source in kept.joined] == ["boot-room.csv", "workshop.toml"]


def test_a_list_by_itself_is_a_job_under_the_name_that_is_given(tmp_path: Path):
    chosen = [("files", ("north.xlsx", a_workbook(("L1", 600, 720, "pair"))))]
    with a_floor(tmp_path) as floor:
        browser(floor).post("/new-job/files", data={"key": "f", "called": "North Wall"}, files=chosen)

        [frame] = floor.job("north-wall").job.frames
    assert frame.id == "L1"


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ([], "no file is chosen"),
        ([("job.toml", b"")], "the file is empty"),
        ([("job.pdf", b"%PDF-1.7")], "does not end as a file does that is read here"),
        ([("frames.xlsx", b"id,width\n")], "is no workbook"),
        ([("frames.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")], "a spreadsheet of the old kind (.xls), or one locked"),
        ([("job.toml", HEAD.encode() + b'frames = "more.csv"\n')], "the file \"more.csv\" is not there"),
        ([("a.csv", b"id\n"), ("b.csv", b"id\n")], "a list of frames stands alone"),
        ([("a.toml", HEAD.encode()), ("b.toml", HEAD.encode())], "a.toml and b.toml could each be the job file"),
        ([("a.csv", b"id\n"), ("a.csv", b"id\n")], "two of the files are called a.csv"),
        ([("frames.csv", b"other,things\n1,2\n")], "column"),
    ],
)  # fmt: skip
def test_each_wrong_choice_of_files_is_told_in_its_own_words(
    tmp_path: Path, files: list[tuple[str, bytes]], words: str
):
    with a_floor(tmp_path) as floor:
        chosen = [("files", file) for file in files] or [("files", ("", b""))]
        page = browser(floor).post("/new-job/files", data={"key": "f"}, files=chosen)

        assert not jobs(floor.store)
    assert page.status_code == 422
    assert words in words_in(page)
    assert '<a href="#files">' in page.text


def test_pasted_rows_are_looked_at_before_anything_is_saved(tmp_path: Path):
    form = {"key": "r", "rows-name": "Larder", "rows": ROWS, "do": "look"}
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/rows", data=form)

        assert not jobs(floor.store)
    words = words_in(page)
    assert page.status_code == 200
    assert "2 rows, as they were read" in words
    assert "2 L1 600 720 pair left stile 60" in words
    assert "Keep these 2 rows as a job" in words
    assert ROWS in page.text


def test_pasted_rows_become_a_job(tmp_path: Path):
    form = {"key": "r", "rows-name": "Larder", "rows": ROWS, "do": "save"}
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/rows", data=form)

        frames = floor.job("larder").job.frames
    assert page.url.path == "/jobs/larder/frames"
    assert [(frame.id, int(frame.left_stile)) for frame in frames] == [("L1", 60), ("L2", 45)]


def test_of_pasted_rows_all_or_none_are_kept_and_each_slip_is_told_at_its_line(tmp_path: Path):
    rows = "L1\t600\t720\tpair\n\nL2\t60o\t720\tdrawer over par\nL1\t500\t720\t3 drawers\n"
    form = {"key": "r", "rows-name": "Larder", "rows": rows, "do": "save"}
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/rows", data=form)

        assert not jobs(floor.store)
    words = words_in(page)
    assert page.status_code == 422
    assert words.index('"60o" has the letter o') < words.index('"par" is no word of a layout')
    assert "write 600 line 3" in words
    assert "stands already at pasted.csv:1:1; give each frame an id of its own line 4" in words


def test_what_shows_only_when_rows_are_set_out_is_told_at_their_line_too(tmp_path: Path):
    rows = "L1\t600\t720\tpair\nL2\t60\t720\tpair\n"
    form = {"key": "r", "rows-name": "Larder", "rows": rows, "do": "save"}
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/rows", data=form)

    assert page.status_code == 422
    assert "line 2" in words_in(page)


def test_nothing_pasted_and_no_name_are_both_told(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        page = browser(floor).post("/new-job/rows", data={"key": "r", "rows": " \n", "do": "look"})

    assert page.status_code == 422
    assert "nothing is pasted yet" in words_in(page)
    assert '<a href="#rows-name">' in page.text


def test_a_tablet_begins_no_job(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor, Role.TABLET)

        answers = [client.post(path, data=BEGIN).status_code for path in ("/new-job", "/demo-job")]

        assert not jobs(floor.store)
    assert answers == [403, 403]


def test_what_was_typed_here_and_not_saved_waits_on_the_first_page(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        here, there = browser(floor), browser(floor)
        here.post(f"/jobs/{LARDER}/frames/L1/typed", data=frame_words(width="655"))
        here.post(f"/jobs/{LARDER}/new-frame/typed", data=frame_words(id="L9"))
        here.post(f"/jobs/{LARDER}/words/typed", data={"file-0": "[job]", "revision": "1"})

        page, elsewhere = here.get("/"), there.get("/")

    words = words_in(page)
    assert (
        "Typed on this device and not saved yet: frame L1 of Larder new frame of Larder the words of Larder"
        in words
    )
    for address in ("frames/L1", "new-frame", "words"):
        assert f'<a href="/jobs/{LARDER}/{address}">' in page.text
    assert "Typed on this device" not in words_in(elsewhere)


def test_a_new_job_half_typed_is_offered_again_and_is_no_draft_once_it_is_begun(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        office, other = browser(floor), browser(floor)
        half = {**BEGIN, "width": "", "layout": "drawer 1"}

        answer = office.post("/new-job/typed", data=half)
        listed, offered = office.get("/"), office.get("/new-job")
        again = office.get("/new-job?draft=yes")
        elsewhere = other.get("/new-job")
        begun = office.post("/new-job", data={**BEGIN, "key": "b2"})

        assert answer.status_code == 204
        assert '<a href="/new-job">a new job</a>' in listed.text
        assert "You had typed something else here" in words_in(offered)
        assert value_of(offered, "name") == ""
        assert [value_of(again, field) for field in ("name", "width", "layout")] == [
            "Larder, north wall",
            "",
            "drawer 1",
        ]
        assert "since revision" not in words_in(again)
        assert "You had typed" not in words_in(elsewhere)
        assert "is kept, as revision 1" in told_in(begun)
        assert drafts_of(floor.store, "D1") == ()


def test_rows_pasted_for_a_new_job_are_kept_beside_what_was_typed_for_another(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        office = browser(floor)
        office.post("/new-job/typed", data=BEGIN)
        office.post("/new-job/rows/typed", data={"rows-name": "Pantry", "rows-customer": "", "rows": ROWS})

        again = office.get("/new-job?draft=yes")
        office.post("/new-job/rows", data={"rows-name": "Pantry", "rows": ROWS, "key": "r1", "do": "save"})

        assert [value_of(again, field) for field in ("name", "rows-name")] == ["Larder, north wall", "Pantry"]
        assert "L2\t500\t720\t3 drawers" in again.text
        assert [draft.place for draft in drafts_of(floor.store, "D1")] == ["new job"]
        office.post("/new-job/drop", data={"key": "x"})
        assert drafts_of(floor.store, "D1") == ()


def test_a_form_that_says_nothing_yet_is_no_draft(tmp_path: Path):
    empty = dict.fromkeys(BEGIN, "") | {"timber": "yellow-poplar", "thickness": "22"}
    with a_floor(tmp_path) as floor:
        office = browser(floor)

        office.post("/new-job/typed", data=empty)
        office.post("/new-job/rows/typed", data={"rows-name": "", "rows-customer": "", "rows": " \n"})

        assert drafts_of(floor.store, "D1") == ()


AWAY = "Undo: put Larder, north wall away"


def test_a_new_job_is_taken_away_again_by_its_name_and_brought_back(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)
        begun = client.post("/new-job", data=BEGIN)

        page = press(client, begun, AWAY)

        assert "Larder, north wall is put away." in words_in(page)
        assert jobs(floor.store) == ()
        assert "No job is at hand" in words_in(client.get("/"))
        back = press(client, client.get("/"), "Bring Larder, north wall back")
        assert back.url.path == "/jobs/larder-north-wall/frames"
        assert [each.name for each in jobs(floor.store)] == ["Larder, north wall"]


def test_the_press_that_takes_a_new_job_away_stays_until_something_happens_to_it(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)
        client.post("/new-job", data=BEGIN)
        frames = "/jobs/larder-north-wall/frames"
        client.get(frames)
        before = client.get(frames)
        assert AWAY in words_in(before)
        said = Said(deed=Deed.BROKEN_OUT, piece="L1-LS")
        record(floor.store, Request(key="r", by=BY, said=(said,)), floor.job("larder-north-wall").roll)

        after = client.post("/jobs/larder-north-wall/away?revision=1", data={"key": "a"})

        assert AWAY not in words_in(client.get(frames))
        assert after.status_code == 422
        assert "Larder, north wall is begun: L1-LS was broken out" in words_in(after)
        assert len(jobs(floor.store)) == 1


def test_a_job_put_away_leaves_its_name_to_the_next(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        client = browser(floor)
        press(client, client.post("/new-job", data=BEGIN), AWAY)

        page = client.post("/new-job", data={**BEGIN, "key": "b2", "width": "900"})

        assert "is kept, as revision 2, as it had been put away" in words_in(page)
        assert [each.number for each in jobs(floor.store)] == [2]


def test_a_tablet_puts_no_job_away(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        tablet = browser(floor, Role.TABLET)

        assert tablet.post("/jobs/larder/away", data={"key": "a"}).status_code == 403
        assert "put Larder away" not in words_in(tablet.get("/jobs/larder/frames"))


def test_where_there_is_no_copy_the_office_makes_one_and_is_told_where_it_is_and_that_it_is_sound(
    tmp_path: Path,
):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        first = client.get("/")
        assert "There is no copy of the store yet." in words_in(first)

        page = press(client, first, "Make a copy now")

        [copy] = copies_in(floor.backups)
        assert f"Copied, looked over and sound: {copy}: 1 job" in words_in(page)
        assert "There is no copy" not in words_in(page)
        assert look_over(copy).jobs == 1


def test_a_copy_that_cannot_be_written_is_told_with_what_to_do(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        floor.backups.parent.mkdir(exist_ok=True)
        floor.backups.write_text("a file stands where the folder should")

        page = browser(floor).post("/copy", data={"key": "c"})

        assert page.status_code == 422
        assert "no copy could be written into" in words_in(page)
        assert "its disk has room" in words_in(page)


def test_a_tablet_sees_that_there_is_no_copy_and_makes_none(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        tablet = browser(floor, Role.TABLET)

        assert "Make a copy now" not in words_in(tablet.get("/"))
        assert tablet.post("/copy", data={"key": "c"}).status_code == 403
        assert not floor.backups.is_dir() or copies_in(floor.backups) == ()
