"""The job's frames side by side, and each frame drawn, saved, added, moved and taken out."""

import re
import time
from pathlib import Path

import pytest

from pinchrod.ground import Mm
from pinchrod.store import draft_of, drafts_of, files_at, revisions
from pinchrod.web import Floor, Role
from pinchrod.web.lengths import in_column
from tests.web.serving import JOB, a_floor, browser, demo_files, keep
from tests.web.small_jobs import (
    FRAMES,
    HEAD,
    LARDER,
    frame_words,
    keep_larder,
    larder,
    told_in,
    undo,
    value_of,
    with_list,
    words_in,
)

L1 = f"/jobs/{LARDER}/frames/L1"
DRAWN_WITHIN = 0.2  # seconds of processor time: what still feels as if the drawing followed the typing


def ids(floor: Floor, job: str = LARDER) -> list[str]:
    """The job's frames by their ids, as they stand."""
    return [frame.id for frame in floor.job(job).job.frames]


def test_frames_stand_side_by_side_to_one_scale_each_leading_to_its_page(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(f"/jobs/{LARDER}/frames")

    sizes = [float(size) for size in re.findall(r'<svg xmlns[^>]* width="([0-9.]+)mm"', page.text)]
    heights = [float(size) for size in re.findall(r'<svg xmlns[^>]* height="([0-9.]+)mm"', page.text)]
    edge = 0.3  # both sides' room for the pen
    assert [size - edge for size in sizes] == pytest.approx([600 / 30, 600.075 / 30], abs=1e-3)
    assert heights == pytest.approx([720 / 30 + edge / 2] * 2, abs=1e-3)
    assert page.text.count(f'href="{L1}"') == 2  # in the drawing and in the list
    assert "2 frames as said, 3 to make" in words_in(page)
    assert "L2 ×2" in words_in(page)


def test_many_frames_stand_on_several_pages(tmp_path: Path):
    rows = "".join(
        f'\n[[frame]]\nid = "F{n}"\nwidth = 400\nheight = 500\nlayout = "open"\n' for n in range(101)
    )
    with a_floor(tmp_path) as floor:
        keep_larder(floor, larder(frames=rows))
        client = browser(floor)

        first, second = (client.get(f"/jobs/{LARDER}/frames{more}") for more in ("", "?from=100"))

    assert "F0 to F99" in words_in(first)
    assert first.text.count("<svg xmlns") == 100
    assert second.text.count("<svg xmlns") == 1


def test_a_frames_page_has_what_the_joiner_typed_and_how_it_is_understood(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(f"/jobs/{LARDER}/frames/L2")

    words = words_in(page)
    assert value_of(page, "width") == "23 5/8 in"
    assert '600.075 mm, 23 5/8"' in words
    assert '720 mm, about 28 11/32"' in words
    assert "as usual in this job: 45 mm" in words
    assert value_of(page, "quantity") == "2"
    assert 'rel="prev">← L1' in page.text
    assert 'rel="next"' not in page.text


@pytest.mark.parametrize(
    "key",
    ["id", "width", "height", "layout", "quantity", "left_stile", "right_stile", "top_rail", "bottom_rail", "mid_rail", "muntin", "foot"],
)  # fmt: skip
def test_every_name_that_a_frame_may_have_is_a_field(tmp_path: Path, key: str):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(L1)

    assert f'<label for="{key}">' in page.text
    assert f'name="{key}"' in page.text


def test_a_saved_frame_is_told_and_taken_back_with_one_press(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        page = client.post(L1, data=frame_words(width="650", foot="100"))
        kept = files_at(floor.store, LARDER).main.content.decode()
        back = undo(client, page)

        assert "L1 saved as revision 2" in told_in(page)
        assert "As it was in revision 1, saved as revision 3" in told_in(back)
        assert back.url.path == L1
        assert files_at(floor.store, LARDER).main.content == larder().main.content
    assert "width = 650" in kept
    assert "foot = 100" in kept
    assert "# the drawer for cutlery" in kept


def test_a_name_left_blank_is_taken_out_of_the_file_again(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, larder(frames=FRAMES.replace('id = "L1"', 'id = "L1"\nfoot = 90')))

        browser(floor).post(L1, data=frame_words())

        assert b"foot" not in files_at(floor.store, LARDER).main.content


def test_a_frame_of_the_joined_list_is_changed_in_its_list(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, with_list())
        words = {"id": "M1", "width": "410", "height": "720", "layout": "door left", "revision": "1"}

        browser(floor).post(f"/jobs/{LARDER}/frames/M1", data=words)

        files = files_at(floor.store, LARDER)
    assert files.joined[0].content == b"id,width,height,layout\nM1,410,720,door left\n"
    assert files.main.content == with_list().main.content


def test_a_frame_is_renamed_and_its_page_is_found_under_the_new_id(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        page = client.post(L1, data=frame_words(id="L10"))

        assert ids(floor) == ["L10", "L2"]
        assert client.get(L1).status_code == 404
    assert page.url.path == f"/jobs/{LARDER}/frames/L10"


def test_an_id_typed_in_two_parts_leads_to_the_frame_that_has_it_in_one(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(L1, data=frame_words(id="Ku\u0308 1"))

        assert ids(floor)[0] == "K\u00fc 1"
    assert page.status_code == 200
    assert "Frame K\u00fc 1" in words_in(page)


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("width", "1,234", "if the comma parts the thousands"),
        ("width", "60o", "has the letter o where a 0 may be meant"),
        ("width", "23 5/8", "if inches are meant"),
        ("height", "", "the height is not said"),
        ("layout", "drawer 140 over par", "is no word of a layout"),
        ("layout", "drawer 900 over pair", "900"),
        ("id", "L/1", "holds \"/\""),
        ("id", "L2", "stands already"),
        ("quantity", "1.5", "where a whole number should stand"),
        ("foot", "-3", "less than"),
        ("left_stile", "8", "left stile"),
        ("mid_rail", "8", "rail"),
    ],
)  # fmt: skip
def test_a_slip_is_told_beside_its_field_and_on_top_and_what_was_typed_stays(
    tmp_path: Path, field: str, typed: str, words: str
):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(L1, data=frame_words(**{field: typed}))

        assert len(revisions(floor.store, LARDER)) == 1
    note = re.search(rf'<div id="{field}-note".*?</div>', page.text, re.DOTALL)
    assert page.status_code == 422
    assert "<title>Error: Frame L1" in page.text
    assert f'<a href="#{field}">' in page.text
    assert note is not None
    assert 'class="slip"' in note[0]
    assert words in words_in(page)
    assert value_of(page, field) == typed
    assert page.text.count("<svg xmlns") == 1, "the last good drawing stays"


def test_the_drawing_follows_the_typing_and_the_notes_with_it(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        part = browser(floor).post(
            f"{L1}/draw", data=frame_words(width="650"), headers={"HX-Request": "true"}
        )

    assert part.status_code == 200
    assert '<div id="drawing" class="drawing" hx-swap-oob="true"><svg' in part.text
    assert ">650</text>" in part.text
    assert '650 mm, about 25 19/32"' in words_in(part)
    assert "<html" not in part.text


def test_a_slip_while_typing_sends_no_drawing_so_that_the_last_good_one_stays(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        part = browser(floor).post(f"{L1}/draw", data=frame_words(layout="drawer 140 over pai"))

    assert part.status_code == 200
    assert 'id="drawing"' not in part.text
    assert "is no word of a layout" in words_in(part)
    assert "What is drawn is what was last right" in words_in(part)


def test_a_field_yet_to_be_filled_is_no_fault_while_one_types(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(f"/jobs/{LARDER}/new-frame")

    assert "There is a problem" not in words_in(page)
    assert "Yet to be said: Width, Height, What stands in it." in words_in(page)


def test_the_drawing_of_a_frame_of_the_demo_job_is_quick(tmp_path: Path):
    words = {
        "id": "P1",
        "width": "1960",
        "height": "2340",
        "layout": "(2 doors over[60] 3 drawers 150) beside[60] (open over[60] 3 drawers 150)",
        "foot": "80",
        "revision": "1",
    }
    with a_floor(tmp_path) as floor:
        keep(floor, demo_files())
        client = browser(floor)
        client.get(f"/jobs/{JOB}/frames/P1")
        took = []
        for width in range(1960, 1965):
            begun = time.process_time()
            part = client.post(f"/jobs/{JOB}/frames/P1/draw", data={**words, "width": str(width)})
            took.append(time.process_time() - begun)
            assert f">{width}</text>" in part.text

    assert sorted(took)[2] < DRAWN_WITHIN


def test_a_doubt_is_told_and_stops_nothing(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(L1, data=frame_words(left_stile="22"))

    assert page.status_code == 200
    assert "saved as revision 2" in told_in(page)
    assert 'class="doubted"' in page.text


def test_what_was_typed_is_kept_and_offered_when_one_comes_back(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        answer = client.post(f"{L1}/typed", data=frame_words(width="655"))
        offered = client.get(L1)
        taken_up = client.get(f"{L1}?draft=yes")

    assert answer.status_code == 204
    assert "You had typed something else here" in words_in(offered)
    assert "since revision 1" in words_in(offered)
    assert value_of(offered, "width") == "600"
    assert value_of(taken_up, "width") == "655"


def test_a_draft_belongs_to_its_device_and_goes_when_it_is_dropped_or_saved(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        here, there = browser(floor), browser(floor)
        here.post(f"{L1}/typed", data=frame_words(width="655"))

        elsewhere = words_in(there.get(L1))
        dropped = here.post(f"{L1}/drop", data={"revision": "1"})
        here.post(f"{L1}/typed", data=frame_words(width="655"))
        saved = here.post(L1, data=frame_words(width="655"))

    assert "You had typed" not in elsewhere
    assert "You had typed" not in words_in(dropped)
    assert "You had typed" not in words_in(saved)


def test_what_is_as_saved_is_no_draft(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        client.post(f"{L1}/typed", data=frame_words(width="655"))

        client.post(f"{L1}/typed", data=frame_words())

        assert draft_of(floor.store, LARDER, "frame L1", "D1") is None


def test_whoever_saved_meanwhile_is_named_with_the_changes_and_nothing_typed_is_lost(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        browser(floor, name="Back office").post(L1, data=frame_words(height="730"))

        page = client.post(L1, data=frame_words(width="655"))
        again = client.post(L1, data=frame_words(width=value_of(page, "width"), height="730", revision="2"))

        frame = floor.job(LARDER).job.frames[0]
    words = words_in(page)
    assert page.status_code == 409
    assert "revision 2 was saved by Back office" in words
    assert "L1 height 720 730" in words
    assert value_of(page, "width") == "655"
    assert value_of(page, "height") == "720"
    assert '<input type="hidden" name="revision" value="2">' in page.text
    assert "saved as revision 3" in told_in(again)
    assert (frame.width, frame.height) == (655, 730)


def test_a_frame_that_was_taken_out_meanwhile_can_be_added_anew(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        client.post(f"{L1}/take-out", data={"revision": "1"})

        page = client.post(L1, data=frame_words(width="655"))

    assert page.status_code == 409
    assert "is not there any more" in words_in(page)
    assert f'action="/jobs/{LARDER}/new-frame"' in page.text
    assert value_of(page, "width") == "655"


def test_a_press_twice_saves_once(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        pages = [client.post(L1, data=frame_words(width="655", key="once")) for _ in range(2)]

        assert len(revisions(floor.store, LARDER)) == 2
    assert [told_in(page) for page in pages] == [told_in(pages[0])] * 2


def test_saving_what_stands_already_says_so_and_makes_no_revision(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(L1, data=frame_words())

        assert len(revisions(floor.store, LARDER)) == 1
    assert "Nothing is new in it" in told_in(page)


def test_a_frame_is_added_behind_the_one_it_is_like_under_an_id_of_its_own(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        form = client.get(f"/jobs/{LARDER}/new-frame?like=L1")
        words = frame_words(id=value_of(form, "id"), width=value_of(form, "width"), like="L1")
        page = client.post(f"/jobs/{LARDER}/new-frame", data=words)
        order = ids(floor)
        undo(client, page)

        assert ids(floor) == ["L1", "L2"]
    assert order == ["L1", "L3", "L2"]
    assert "L3 added as revision 2" in told_in(page)


def test_a_new_frame_is_drawn_while_it_is_typed(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        part = browser(floor).post(f"/jobs/{LARDER}/new-frame/draw", data=frame_words(id="L9"))

    assert "L9-LS" in part.text


def test_a_frame_is_taken_out_without_asking_and_put_back_with_one_press(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        page = client.post(f"{L1}/take-out", data={"revision": "1"})
        left = ids(floor)
        back = undo(client, page)

        assert ids(floor) == ["L1", "L2"]
    assert left == ["L2"]
    assert "L1 taken out, saved as revision 2" in told_in(page)
    assert back.url.path == L1


def test_the_last_frame_cannot_be_taken_out(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor, larder(frames=FRAMES.split("\n\n[[frame]]")[0]))

        page = browser(floor).post(f"{L1}/take-out", data={"revision": "1"})

        assert ids(floor) == ["L1"]
    assert page.status_code == 422
    assert "the job has no frames" in words_in(page)


def test_a_frame_stands_further_left_or_right_at_a_press(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        client.post(f"{L1}/stand", data={"revision": "1", "to": "right"})
        first = ids(floor)
        client.post(f"{L1}/stand", data={"revision": "2", "to": "left"})

        assert ids(floor) == ["L1", "L2"]
    assert first == ["L2", "L1"]


def test_rows_are_pasted_onto_a_job_all_or_none(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        address = f"/jobs/{LARDER}/paste"

        bad = client.post(
            address, data={"rows": "L3\t500\t720\tpair\nL1\t1\t2\tpair", "revision": "1", "do": "save"}
        )
        looked = client.post(address, data={"rows": "L3\t500\t720\tpair", "revision": "1", "do": "look"})
        before = ids(floor)
        page = client.post(address, data={"rows": "L3\t500\t720\tpair", "revision": "1", "do": "save"})

        assert ids(floor) == ["L1", "L2", "L3"]
        undo(client, page)
        assert ids(floor) == before == ["L1", "L2"]
    assert bad.status_code == 422
    assert "line 2" in words_in(bad)
    assert "1 row, as it was read" in words_in(looked)
    assert "1 frame added, saved as revision 2" in told_in(page)


def test_a_pasted_row_whose_id_is_taken_is_told_at_its_line(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).post(
            f"/jobs/{LARDER}/paste",
            data={"rows": "L3\t500\t720\tpair\nL2\t500\t720\tpair", "revision": "1", "do": "save"},
        )

    assert page.status_code == 422
    assert 'the id "L2" stands already' in words_in(page)
    assert "line 2" in words_in(page)


def test_rows_pasted_while_somebody_saved_are_kept_and_looked_at_anew(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        keep_larder(floor, larder(HEAD.replace("Demonstration", "North")), after=1)

        page = browser(floor).post(
            f"/jobs/{LARDER}/paste", data={"rows": "L3\t500\t720\tpair", "revision": "1", "do": "save"}
        )

    assert page.status_code == 409
    assert "L3\t500\t720\tpair" in page.text
    assert 'name="revision" value="2"' in page.text


def test_a_tablet_sees_frames_and_changes_none(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor, Role.TABLET)

        page = client.get(L1)
        answers = [
            client.post(f"{L1}{more}", data=frame_words(width="1")).status_code
            for more in ("", "/take-out", "/stand", "/typed")
        ]

        assert len(revisions(floor.store, LARDER)) == 1
    assert answers == [403] * 4
    assert '<form class="typed"' not in page.text
    assert "drawer 140 over pair" in words_in(page)


@pytest.mark.parametrize(
    "said", ["<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "' onfocus='x"]
)
def test_what_is_typed_never_becomes_a_part_of_the_page(tmp_path: Path, said: str):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)

        pages = [client.post(f"{L1}{more}", data=frame_words(layout=said, id=said)) for more in ("", "/draw")]

    for page in pages:
        assert said not in page.text
    assert value_of(pages[0], "layout") == said


def test_a_frame_that_is_not_there_is_told_with_a_way_on(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(f"/jobs/{LARDER}/frames/nothing")

    assert page.status_code == 404
    assert "revision 1 has no frame" in words_in(page)


def test_what_was_saved_last_can_be_taken_back_for_as_long_as_nobody_saves_again(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client = browser(floor)
        first = client.get(f"/jobs/{LARDER}/frames")
        client.post(L1, data=frame_words(width="655"))
        client.get("/help")

        page = client.get(f"/jobs/{LARDER}/frames")
        back = undo(client, page)

        assert floor.job(LARDER).job.frames[0].width == 600
    assert "Undo: back" not in words_in(first)
    assert "Revision 2 was saved" in words_in(page)
    assert ": L1 changed." in words_in(page)
    assert "saved as revision 3" in told_in(back)


def test_rows_pasted_and_not_saved_are_offered_again_and_are_no_draft_once_saved(tmp_path: Path):
    rows = "L3\t500\t720\tpair"
    with a_floor(tmp_path) as floor:
        keep_larder(floor)
        client, address = browser(floor), f"/jobs/{LARDER}/paste"

        answer = client.post(f"{address}/typed", data={"rows": rows, "revision": "1"})
        listed, offered, again = client.get("/"), client.get(address), client.get(f"{address}?draft=yes")
        client.post(f"{address}/typed", data={"rows": " ", "revision": "1"})
        emptied = drafts_of(floor.store, "D1")
        client.post(f"{address}/typed", data={"rows": rows, "revision": "1"})
        client.post(address, data={"rows": rows, "revision": "1", "do": "save"})

        assert answer.status_code == 204
        assert f'<a href="{address}">rows for Larder</a>' in listed.text
        assert "You had typed something else here" in words_in(offered)
        assert rows not in offered.text
        assert f"{rows}</textarea>" in again.text
        assert emptied == drafts_of(floor.store, "D1") == ()


def test_sizes_stand_in_columns_to_the_right_with_equal_decimals(tmp_path: Path):
    with a_floor(tmp_path) as floor:
        keep_larder(floor)

        page = browser(floor).get(f"/jobs/{LARDER}/frames")

    table = page.text.partition('<table class="frames">')[2]
    cells = re.findall(r'<td class="number">([^<]*)</td>', table)
    assert cells == ["600.0", "720", "1", "600.1", "720", "2"]
    assert [head.strip() for head in re.findall(r'<th scope="col" class="number">([^<]*)</th>', table)] == [
        "Width",
        "Height",
        "Alike",
    ]


@pytest.mark.parametrize(
    ("lengths", "said"),
    [
        (("600", "9", "1180"), ("600", "9", "1180")),
        (("600.04", "9"), ("600", "9")),
        (("600.05", "9"), ("600.1", "9.0")),
        ((), ()),
    ],
)
def test_lengths_of_a_column_have_as_many_decimals_as_the_one_with_most(lengths, said):
    assert in_column(map(Mm, lengths), Mm("0.1")) == said
