"""A job's words: its files as said, looked over, saved, compared, and gone back to."""

import re
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from pinchrod.job import Source, retyped, text_of
from pinchrod.store import JobFiles, files_at, revisions
from pinchrod.web import Role
from pinchrod.web.words_files import in_places, problems_of, sources_of, with_texts
from tests.job.workbooks import a_workbook
from tests.web.serving import a_floor, browser
from tests.web.small_jobs import FRAMES, HEAD, LARDER, keep_larder, larder, told_in, undo, with_list, words_in

WORDS = f"/jobs/{LARDER}/words"
TEXT = larder().main.content.decode()


def form(text: str = TEXT, **more: str) -> dict[str, str]:
    """What a browser sends: every line's end is two letters."""
    return {"file-0": text.replace("\n", "\r\n"), "revision": "1", "do": "save", **more}


def test_the_files_stand_as_they_were_said(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, with_list())

        page = browser(floor).get(WORDS)

    [first, second] = re.findall(r"<textarea[^>]*>\n(.*?)</textarea>", page.text, re.DOTALL)
    assert "# the drawer for cutlery" in first
    assert second == "id,width,height,layout\nM1,400,720,door left\n"


def test_changed_words_are_kept_as_a_revision_with_a_note_and_taken_back_with_one_press(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        page = client.post(WORDS, data=form(TEXT.replace("600", "650"), note="wider, as taped"))
        kept = files_at(floor.store, LARDER).main.content
        undo(client, page)

        assert files_at(floor.store, LARDER).main.content == TEXT.encode()
        assert [each.note for each in revisions(floor.store, LARDER)] == [
            "",
            "wider, as taped",
            "back to revision 1",
        ]
    assert kept == TEXT.replace("600", "650").encode()
    assert "kept as revision 2" in told_in(page)


def test_words_are_looked_over_with_what_is_changed_before_they_are_saved(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(WORDS, data=form(TEXT.replace("600", "650"), do="look"))

        assert len(revisions(floor.store, LARDER)) == 1
    assert "Looked over: nothing stops it" in words_in(page)
    assert "L1 width 600 650" in words_in(page)
    assert "width = 650" in page.text


def test_every_problem_of_every_file_is_told_at_its_line_and_nothing_is_saved(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, with_list())
        first, second = (source.content.decode() for source in sources_of(with_list()))
        texts = {"file-0": first.replace("600", '"60o"'), "file-1": second.replace("door", "dor")}

        page = browser(floor).post(WORDS, data={**texts, "revision": "1", "do": "save", "note": "try"})

        assert len(revisions(floor.store, LARDER)) == 1
    line = first[: first.index("600")].count("\n") + 1
    words = words_in(page)
    assert page.status_code == 422
    assert f'line {line}: L1: width: "60o" has the letter o' in words
    assert 'line 2: M1: "dor" is no word of a layout' in words
    assert '<a href="#file-0">' in page.text
    assert '<a href="#file-1">' in page.text
    assert "60o" in page.text
    assert 'value="try"' in page.text


def test_what_shows_only_in_setting_out_is_told_with_what_shows_in_reading():
    frames = FRAMES.replace("width = 600", "width = 60").replace("3 drawers", "3 drawrs")
    codes = {problem.code for problem in problems_of(larder(frames=frames)) if problem.stops}

    assert codes == {"no-opening-left", "number-alone"}


def test_words_that_nobody_changed_make_no_revision(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(WORDS, data=form())

        assert len(revisions(floor.store, LARDER)) == 1
    assert "Nothing is new in them" in told_in(page)


def test_whoever_saved_meanwhile_is_shown_and_what_was_typed_stays(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        keep_larder(floor, larder(HEAD.replace("Demonstration", "North wall")), after=1)
        client = browser(floor)

        page = client.post(WORDS, data=form(TEXT.replace("600", "650")))
        kept = client.get(f"{WORDS}?draft=yes")

        assert len(revisions(floor.store, LARDER)) == 2
    assert page.status_code == 409
    assert "The job customer Demonstration North wall" in words_in(page)
    assert "width = 650" in page.text
    assert 'name="revision" value="2"' in page.text
    assert "width = 650" in kept.text


def test_what_was_typed_and_not_saved_is_offered_again_and_can_be_dropped(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        client.post(f"{WORDS}/typed", data=form(TEXT.replace("600", "650")))

        offered = client.get(WORDS)
        taken_up = client.get(f"{WORDS}?draft=yes")
        dropped = client.post(f"{WORDS}/drop", data={"revision": "1"})

    assert "You had typed something else here" in words_in(offered)
    assert "width = 600" in offered.text
    assert "width = 650" in taken_up.text
    assert "You had typed" not in words_in(dropped)


def test_an_old_revision_is_gone_back_to_as_a_new_one(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        keep_larder(floor, larder(frames=FRAMES.replace("600", "650")), after=1)
        client = browser(floor)

        page = client.post(f"/jobs/{LARDER}/back/1/2", data={"key": "back", "revision": "2"})
        late = client.post(f"/jobs/{LARDER}/back/1/2", data={"key": "late", "revision": "2"})

        assert len(revisions(floor.store, LARDER)) == 3
        assert files_at(floor.store, LARDER).main.content == TEXT.encode()
    assert "As it was in revision 1, saved as revision 3" in told_in(page)
    assert late.status_code == 409


def test_two_revisions_are_compared_either_way(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        keep_larder(floor, larder(frames=FRAMES.replace("600", "650")), after=1)
        client = browser(floor)

        on = words_in(client.get(f"{WORDS}/compare?old=1&new=2"))
        back = words_in(client.get(f"{WORDS}/compare?old=2&new=1"))
        same = words_in(client.get(f"{WORDS}/compare?old=2&new=2"))
        missing = client.get(f"{WORDS}/compare?old=1&new=9")

    assert "L1 width 600 650" in on
    assert "L1 width 650 600" in back
    assert "nothing that is made" in same
    assert missing.status_code == 404


def test_the_list_of_revisions_says_who_and_when_and_why(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor, name="Front office")
        client.post(WORDS, data=form(TEXT.replace("600", "650"), note="as taped"))

        page = client.get(WORDS)

        second = revisions(floor.store, LARDER)[1]
    assert (
        f"2 {second.at[:16].replace('T', ' ')} UTC Front office (Front office) as taped {second.mark}"
        in words_in(page)
    )


def test_each_file_of_each_revision_is_taken_home_as_it_was_given(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, with_list())
        client = browser(floor)

        files = [client.get(f"{WORDS}/file/1/{place}") for place in range(3)]

    assert [file.content for file in files[:2]] == [source.content for source in sources_of(with_list())]
    assert "attachment" in files[1].headers["Content-Disposition"]
    assert "more.csv" in files[1].headers["Content-Disposition"]
    assert files[2].status_code == 404


def test_a_workbook_is_taken_home_and_chosen_anew(tmp_path: Path):
    said = (HEAD + 'frames = "more.xlsx"\n').encode()
    book, other = (a_workbook(("M1", width, 720, "pair")) for width in (400, 450))
    files = JobFiles(
        main=Source(name="job.toml", content=said), joined=(Source(name="more.xlsx", content=book),)
    )
    chosen = [("files", ("job.toml", said)), ("files", ("more.xlsx", other))]
    with a_floor(tmp_path) as floor:
        keep_larder(floor, files)
        client = browser(floor)

        page = client.get(WORDS)
        client.post(f"{WORDS}/files", data={"revision": "1", "key": "k"}, files=chosen)

        [frame] = floor.job(LARDER).job.frames
    assert "A workbook: download it" in words_in(page)
    assert frame.width == 450


def test_wrong_files_chosen_anew_are_told_and_change_nothing(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(
            f"{WORDS}/files", data={"revision": "1", "key": "k"}, files=[("files", ("job.toml", b"["))]
        )

        assert len(revisions(floor.store, LARDER)) == 1
    assert page.status_code == 422
    assert '<a href="#files">' in page.text


def test_a_tablet_reads_the_words_and_changes_none(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor, Role.TABLET)

        page = client.get(WORDS)
        answers = [
            client.post(f"{WORDS}{more}", data=form("x")).status_code for more in ("", "/typed", "/files")
        ]

    assert "# the drawer for cutlery" in page.text
    assert "<textarea" not in page.text
    assert answers == [403] * 3


def test_texts_go_to_the_files_of_their_names_wherever_those_stand_now():
    one, two = (Source(name=name, content=b"x\n") for name in ("one.csv", "two.csv"))
    main = larder().main
    old, new = JobFiles(main=main, joined=(one, two)), JobFiles(main=main, joined=(two,))

    texts = in_places((("file-0", "a"), ("file-1", "b"), ("file-2", "c")), old, new)

    assert texts == (("file-0", "a"), ("file-1", "c"))


@settings(deadline=None, max_examples=60)
@given(
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0\r\ufeff"), max_size=60),
    st.sampled_from(["\n", "\r\n"]),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]),
)
def test_a_text_sent_back_as_it_was_leaves_the_file_to_the_byte(text: str, end: str, code: str):
    source = Source(name="job.toml", content=f"name = 1\n{text}".replace("\n", end).encode(code))
    shown = text_of(source)
    assert shown is not None

    assert retyped(source, shown.replace("\n", "\r\n")) == source
    assert with_texts(JobFiles(main=source), (("file-0", shown),)).main == source


def test_a_page_that_is_open_is_told_when_somebody_saved(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        before = client.get(f"/jobs/{LARDER}/newer?than=1")
        keep_larder(floor, larder(HEAD.replace("Demonstration", "North wall")), after=1)

        after = client.get(f"/jobs/{LARDER}/newer?than=1")
        odd = client.get(f"/jobs/{LARDER}/newer?than=x")

    assert before.text.strip() == odd.text.strip() == ""
    assert "Revision 2 was saved meanwhile by Office" in words_in(after)


def test_a_job_that_was_kept_and_cannot_be_made_leads_to_its_words_with_what_is_wrong(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, without_notcher())
        client = browser(floor)

        jobs, page = client.get("/"), client.get(f"/jobs/{LARDER}")
        texts = {
            f"file-{place}": each.content.decode() for place, each in enumerate(sources_of(larder_shop()))
        }
        mended = client.post(WORDS, data={**texts, "revision": "1", "do": "save"})

        assert len(floor.job(LARDER).job.frames) == 2
    assert "to mend" in words_in(jobs)
    assert page.url.path == WORDS
    assert "wants a notcher, and the workshop has none" in words_in(page)
    assert "kept as revision 2" in told_in(mended)


def test_files_that_cannot_be_made_are_refused_before_they_are_kept(tmp_path: Path):
    chosen = [("files", (each.name, each.content)) for each in sources_of(without_notcher())]
    with a_floor(tmp_path) as floor:
        client = browser(floor)

        page = client.post("/new-job/files", data={"key": "f"}, files=chosen)

        assert client.get("/jobs/larder").status_code == 404
    assert page.status_code == 422
    assert "the workshop has none" in words_in(page)


def larder_shop(shop: str = "") -> JobFiles:
    """The larder with a workshop of its own."""
    main = larder(HEAD + 'workshop = "workshop.toml"\n').main
    return JobFiles(
        main=main, joined=(Source(name="workshop.toml", content=f"pinchrod = 1\n{shop}".encode()),)
    )


def without_notcher() -> JobFiles:
    """The larder in a workshop that cannot cut its notches."""
    return larder_shop("[machines.notcher]\nhave = false\nrouter_table = false\n")
