"""The rack typed on a page: saved with the job, every slip told at its cell, nothing that was typed lost."""

import re

import pytest

from pinchrod.ground import show
from pinchrod.store import drafts_of, revisions
from pinchrod.web.roles import Role
from tests.web.serving import a_floor, browser, keep
from tests.web.small_shop import JOB, RACK, SMALL, kept, small_files

HOME = f"/jobs/{SMALL}/timber"
GOOD = {"board": "B1", "length": "2600", "width": "150", "thickness": "27", "price": "12.00"}


def typed(*boards, revision=1, do="save", **more):
    """The form as a browser sends it."""
    fields = {
        "key": "k1",
        "revision": str(revision),
        "rows": str(len(boards)),
        "separator": ",",
        "do": do,
        **more,
    }
    for at, board in enumerate(boards):
        fields |= {f"b{at}-{key}": words for key, words in board.items()}
    return fields


def value_of(page, cell):
    found = re.search(rf'id="{cell}"[^>]*value="([^"]*)"', page)
    return found and found[1]


def slips_of(page, cell):
    return re.findall(rf'id="{cell}-slip\d*">(.*?)</p>', page)


def test_a_rack_typed_for_a_job_that_has_none_is_named_in_the_job_and_saved(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor, small_files(rack=None))
        office = browser(floor)

        page = office.post(
            f"{HOME}/rack",
            data=typed(GOOD, {}, {"board": "B2", **{k: GOOD[k] for k in GOOD if k != "board"}}),
        )

        assert page.status_code == 200
        assert "B1, B2 entered. Saved as revision 2." in page.text
        known = floor.job(SMALL)
        assert [board.name for board in known.job.rack] == ["B1", "B2"]
        assert b'rack = "rack.csv"' in known.files.main.content
        assert known.revision.note == "Rack: B1, B2 entered"


def test_each_cell_says_its_unit_in_its_name_and_behind_it_but_not_behind_inches(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)

        page = office.post(f"{HOME}/rack", data=typed({**GOOD, "width": "6 in"}, do="check")).text

    for key in ("length", "width", "thickness", "bow", "spring"):
        assert f'aria-label="{key.capitalize()} of B1, mm"' in page
    assert 'aria-label="Faults of B1, mm"' in page
    assert 'aria-label="Price of B1"' in page
    behind = dict(
        re.findall(r'id="b0-(\w+)"[^>]*><span class="unit" aria-hidden="true"( hidden)?>mm</span>', page)
    )
    assert behind == {"length": "", "width": " hidden", "thickness": "", "bow": "", "spring": ""}


def test_a_fault_of_a_board_typed_in_inches_is_kept_in_millimetres(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        browser(floor).post(
            f"{HOME}/board/B2", data={"key": "f", "kind": "split", "from": "4 in", "to": "6 1/2 in"}
        )

        assert [
            str(show(end))
            for fault in floor.job(SMALL).job.rack[1].faults
            for end in (fault.along.low, fault.along.high)
        ][-2:] == ["101.6", "165.1"]


def test_the_boards_stand_in_the_grid_as_they_were_typed_with_rows_to_spare(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = browser(floor).get(f"{HOME}/rack").text

        assert value_of(page, "b0-price") == "12.00"
        assert value_of(page, "b0-faults") == "0-40; 900-960@60-90"
        assert value_of(page, "b3-board") == "B4"
        assert value_of(page, "b4-board") == ""


@pytest.fixture(scope="module")
def untouched(tmp_path_factory):
    """A floor on which nothing is saved by the tests that share it."""
    with a_floor(tmp_path_factory.mktemp("floor")) as floor:
        kept(floor)
        yield floor
        assert len(revisions(floor.store, SMALL)) == 1


SLIPS = [
    ("board", "", "the board&#39;s name is not said"),
    ("length", "", "the length is not said"),
    ("width", "", "the width is not said"),
    ("thickness", "", "the thickness is not said"),
    ("length", "long", "does not begin with a number"),
    ("length", "-2600", "-2600"),
    ("length", "1/2", "1/2"),
    ("width", "3", "3"),
    ("width", "150 kg", "kg"),
    ("thickness", "0", "0"),
    ("price", "dear", "dear"),
    ("price", "-1", "-1"),
    ("bow", "a bit", "a bit"),
    ("spring", "900", "900"),
    ("faults", "knot", "is no fault that can be read"),
    ("faults", "60-0", "runs from 60 to 0"),
    ("faults", "2700-2800", "runs to 2800"),
    ("faults", "10-20; 30-", "is no fault that can be read"),
    ("faults", "10-20@160-170", "runs to 170"),
]


@pytest.mark.parametrize(("cell", "words", "said"), SLIPS)
def test_each_slip_is_told_at_its_cell_and_what_was_typed_stays(untouched, cell, words, said):
    board = {**GOOD, "board": "B7", cell: words}

    answer = browser(untouched).post(f"{HOME}/rack", data=typed(GOOD, board))

    assert answer.status_code == 422
    [slip] = slips_of(answer.text, f"b1-{cell}")
    assert said in slip
    assert f'<a href="#b1-{cell}">' in answer.text
    assert all(value_of(answer.text, f"b1-{key}") == board[key] for key in board)
    assert "There is a problem" in answer.text


def test_all_slips_of_all_boards_are_told_at_once(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        boards = [
            {**GOOD, "board": f"B{at}", cell: words} for at, (cell, words, _) in enumerate(SLIPS[1:], start=1)
        ]

        page = browser(floor).post(f"{HOME}/rack", data=typed(*boards)).text

        for at, (cell, _, said) in enumerate(SLIPS[1:]):
            assert any(said in slip for slip in slips_of(page, f"b{at}-{cell}")), (at, cell)


def test_two_boards_of_one_name_are_told_at_the_second(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = browser(floor).post(f"{HOME}/rack", data=typed(GOOD, GOOD)).text

        assert "stands already" in slips_of(page, "b1-board")[0]
        assert not slips_of(page, "b0-board")


def test_what_only_casts_doubt_is_shown_and_saved(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)
        boards = typed(GOOD, {**GOOD, "board": "B2", "bow": "450", "price": ""})

        looked, saved = (
            office.post(f"{HOME}/rack", data={**boards, "do": "check"}),
            office.post(f"{HOME}/rack", data=boards),
        )

        assert "leaves no clean stick" in slips_of(looked.text, "b1-bow")[0]
        assert "Saved as revision 2" in saved.text
        assert "leaves no clean stick" in saved.text


def test_a_rack_of_nothing_is_told_and_not_saved(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        answer = browser(floor).post(f"{HOME}/rack", data=typed({}, {}))

        assert answer.status_code == 422
        assert "no row below it" in answer.text


def test_more_rows_keep_what_was_typed(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = browser(floor).post(f"{HOME}/rack", data=typed(GOOD, do="more")).text

        assert value_of(page, "b0-length") == "2600"
        assert value_of(page, "b5-length") == ""


@pytest.mark.parametrize(
    "pasted",
    [
        "B8\t3000\t160\t27\t15,20\t2\t\t0-60\r\nB9\t3100\t170\t27\r\n",
        "board\tthickness\twidth\tlength\tfaults\tbow\tprice\nB8\t27\t160\t3000\t0-60\t2\t15,20\nB9\t27\t170\t3100\n",
    ],
)
def test_rows_pasted_from_a_spreadsheet_are_put_below_and_not_saved_yet(tmp_path, pasted):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = browser(floor).post(f"{HOME}/rack", data=typed(GOOD, do="paste", pasted=pasted)).text

        seen = [
            value_of(page, f"b1-{key}")
            for key in ("board", "length", "width", "thickness", "price", "bow", "faults")
        ]
        assert seen == ["B8", "3000", "160", "27", "15,20", "2", "0-60"]
        assert value_of(page, "b2-length") == "3100"
        assert len(revisions(floor.store, SMALL)) == 1


def test_pasted_rows_are_looked_over_cell_by_cell(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)

        page = (
            browser(floor)
            .post(f"{HOME}/rack", data=typed(GOOD, do="paste", pasted="B8\tthree metres\t160\t27\n"))
            .text
        )

        assert slips_of(page, "b1-length")


def test_a_rack_too_large_for_fields_is_shown_as_one_text_and_loses_no_board(tmp_path):
    with a_floor(tmp_path) as floor:
        rows = [f"B{number},27,150,{2400 + number},,,," for number in range(300)]
        kept(floor, small_files(rack="\n".join((RACK.split("\n")[0], *rows))))
        office = browser(floor)
        text = re.search(
            r'<textarea id="whole"[^>]*>(.*?)</textarea>', office.get(f"{HOME}/rack").text, re.DOTALL
        )
        assert text is not None

        office.post(
            f"{HOME}/rack",
            data={"key": "k", "revision": "1", "do": "save", "whole": text[1].replace("B299", "Z1")},
        )

        names = [board.name for board in floor.job(SMALL).job.rack]
        assert (len(names), names[-1]) == (300, "Z1")


def test_the_last_saving_is_taken_back_by_name(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)
        page = office.post(f"{HOME}/rack", data=typed(GOOD)).text
        undo = re.search(r'action="([^"]*/rack/back/1)"', page)
        assert undo is not None
        assert "Undo: rack as in revision 1" in page

        office.post(undo[1], data={"key": "k2"})

        assert floor.job(SMALL).files.joined[0].content.decode().count("\n") == RACK.count("\n")
        assert [board.name for board in floor.job(SMALL).job.rack] == ["B1", "B2", "B3", "B4"]


def test_sent_twice_it_is_saved_once(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)

        pages = [office.post(f"{HOME}/rack", data=typed(GOOD)) for _ in range(2)]

        assert [page.status_code for page in pages] == [200, 200]
        assert len(revisions(floor.store, SMALL)) == 2


def test_frames_changed_meanwhile_do_not_hinder_and_the_rack_changed_meanwhile_is_told(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        kept_again(floor, small_files(job=JOB.replace("900", "950")), after=1)
        office = browser(floor)
        other = {**GOOD, "length": "2700"}

        first = office.post(f"{HOME}/rack", data=typed(GOOD, revision=1))
        second = office.post(f"{HOME}/rack", data={**typed(other, revision=1), "key": "k2"})

        assert "Saved as revision 3" in first.text
        assert floor.job(SMALL).job.frames[0].width == 950
        assert second.status_code == 409
        assert "Somebody changed the rack while you typed" in second.text
        assert value_of(second.text, "b0-length") == "2700"
        again = office.post(f"{HOME}/rack", data={**typed(other, revision=3), "key": "k3"})
        assert "Saved as revision 4" in again.text


def kept_again(floor, files, after):
    keep(floor, files, job=SMALL, after=after)


def test_a_tablet_may_enter_boards(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        tablet = browser(floor, Role.TABLET, "Rack tablet")

        page = tablet.post(f"{HOME}/add", data={"key": "k1", **GOOD, "board": "B5"})

        assert "Board B5" in page.text
        known = floor.job(SMALL)
        assert known.job.rack[-1].name == "B5"
        assert (known.revision.by.device, known.revision.note) == ("Rack tablet", "Rack: B5 entered")


def test_the_form_for_a_board_proposes_the_next_name_and_keeps_what_was_typed(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        tablet = browser(floor, Role.TABLET)

        form = tablet.get(f"{HOME}/add").text
        wrong = tablet.post(f"{HOME}/add", data={"key": "k", **GOOD, "board": "B3", "length": "long"})

        assert value_of(form, "board") == "B5"
        assert value_of(form, "thickness") == "32"
        assert wrong.status_code == 422
        assert slips_of(wrong.text, "length")
        assert slips_of(wrong.text, "board")
        assert value_of(wrong.text, "width") == "150"


def test_a_fault_is_added_to_a_board_by_a_tablet_at_the_rack(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        tablet = browser(floor, Role.TABLET)
        said = {
            "key": "k",
            "kind": "knot",
            "from": "1200",
            "to": "1240",
            "near": "20",
            "far": "60",
            "side": "back",
        }

        page = tablet.post(f"{HOME}/board/B2", data=said)

        assert "Fault in B2: knot 1200-1240@20-60 back. Saved as revision 2." in page.text
        [fault] = floor.job(SMALL).job.rack[1].faults
        assert (fault.along.low, fault.across and fault.across.high, fault.back_only) == (1200, 60, True)
        tablet.post(f"{HOME}/board/B2", data={**said, "key": "k2"})
        assert len(revisions(floor.store, SMALL)) == 2


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        ("", "", "is no fault that can be read"),
        ("60", "20", "runs from 60 to 20"),
        ("2500", "2600", "runs to 2600"),
        ("a", "b", "no fault"),
    ],
)
def test_a_fault_that_cannot_be_is_told_beside_its_field(untouched, low, high, said):
    tablet = browser(untouched, Role.TABLET)

    answer = tablet.post(f"{HOME}/board/B2", data={"key": "k", "from": low, "to": high})

    assert answer.status_code == 422
    assert said in slips_of(answer.text, "from")[0]
    assert (value_of(answer.text, "from"), value_of(answer.text, "to")) == (low, high)


NEW_BOARD = {**GOOD, "board": "B9"}


def fields_of(page):
    """What the page's fields hold, as the browser would send it."""
    named = re.findall(r'<input[^>]*name="([^"]+)"[^>]*value="([^"]*)"', page)
    return {name: words for name, words in named if name != "key"}


def test_a_rack_half_typed_is_offered_again_whole_with_rows_that_were_only_pasted(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office, other = browser(floor), browser(floor)
        half = {**fields_of(office.get(f"{HOME}/rack").text), "b4-board": "B9", "b4-length": "24 in"}

        answer = office.post(f"{HOME}/rack/typed", data={**half, "pasted": "B10\t2000"})
        offered = office.get(f"{HOME}/rack").text
        again = office.get(f"{HOME}/rack?draft=yes").text
        elsewhere = other.get(f"{HOME}/rack").text

    assert answer.status_code == 204
    assert "You had typed something else here" in offered
    assert value_of(offered, "b4-board") == ""
    assert "You had typed" not in elsewhere
    assert [value_of(again, f"b4-{key}") for key in ("board", "length", "width")] == ["B9", "24 in", ""]
    assert value_of(again, "b0-faults") == "0-40; 900-960@60-90"
    assert "B10\t2000</textarea>" in again
    assert value_of(again, "b9-board") == ""  # rows to spare, no more than before
    assert value_of(again, "b10-board") is None


def test_a_rack_that_stands_so_is_no_draft_and_one_saved_or_dropped_is_none_any_more(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office = browser(floor)
        as_it_is = fields_of(office.get(f"{HOME}/rack").text)
        more = {**as_it_is, **{f"b4-{key}": words for key, words in NEW_BOARD.items()}}

        def drafts():
            return [draft.place for draft in drafts_of(floor.store, "D1")]

        office.post(f"{HOME}/rack/typed", data=as_it_is)
        assert drafts() == []
        office.post(f"{HOME}/rack/typed", data=more)
        assert drafts() == ["rack"]
        office.post(f"{HOME}/rack/drop", data={"key": "x"})
        assert drafts() == []
        office.post(f"{HOME}/rack/typed", data=more)
        saved = office.post(f"{HOME}/rack", data={**more, "key": "k2", "do": "save"}).text

        assert drafts() == []
        assert "B9 entered. Saved as revision 2." in saved


def test_a_draft_of_the_rack_writes_over_nobody_who_changed_it_since(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        office, other = browser(floor), browser(floor)
        as_it_is = fields_of(office.get(f"{HOME}/rack").text)
        office.post(f"{HOME}/rack/typed", data={**as_it_is, "b4-board": "B9"})
        theirs = {**as_it_is, **{f"b4-{key}": words for key, words in GOOD.items()}, "b4-board": "B7"}
        other.post(f"{HOME}/rack", data={**theirs, "key": "k2", "do": "save"})

        taken_up = office.get(f"{HOME}/rack?draft=yes").text
        mine = {**fields_of(taken_up), **{f"b4-{key}": words for key, words in NEW_BOARD.items()}}
        looked = office.post(f"{HOME}/rack", data={**mine, "key": "k3", "do": "check"})
        told = office.post(f"{HOME}/rack", data={**fields_of(looked.text), "key": "k4", "do": "save"})

        assert told.status_code == 409
        assert "Somebody changed the rack while you typed" in told.text
        assert len(revisions(floor.store, SMALL)) == 2


def test_a_tablet_has_its_own_draft_of_the_rack_and_finds_it_on_its_first_page(tmp_path):
    with a_floor(tmp_path) as floor:
        kept(floor)
        tablet = browser(floor, Role.TABLET)

        tablet.post(f"{HOME}/rack/typed", data=typed(NEW_BOARD))

        assert f'<a href="{HOME}/rack">the rack of Pantry</a>' in tablet.get("/").text
