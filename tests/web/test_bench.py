"""The bench on a screen: what can be glued, what is missing, gluing order, diagonals, spoiled and made again."""

import re
from html import unescape

import pytest

from pinchrod.plan import make_plan
from pinchrod.store import Deed, events_of, last_seq
from pinchrod.web import Role
from tests.store.shop import PANTRY, a_job, files_of
from tests.web.pressing import form_of, press
from tests.web.serving import a_floor, browser, keep

HOME = f"/jobs/{PANTRY}/bench"
FRAME = f"{HOME}/frames/K1"


@pytest.fixture(scope="module")
def plan():
    return make_plan(*files_of(a_job()).read())


@pytest.fixture
def floor(tmp_path, plan):
    with a_floor(tmp_path) as made:
        keep(made, files_of(a_job()), job=PANTRY)
        vars(made.planner)["plan_of"] = lambda _known: plan
        yield made


@pytest.fixture
def tablet(floor):
    return browser(floor, Role.TABLET, "Bench 1")


def worked(floor, tablet, *, to=Deed.GLUED, but=()):
    """Every piece of the frame worked through, up to a step of its own."""
    for entry in floor.job(PANTRY).roll.of_frame("K1"):
        for step in entry.steps[: entry.steps.index(to)]:
            if entry.mark not in but:
                said = {"code": entry.mark, "deed": str(step), "key": f"{entry.mark} {step}"}
                assert tablet.post("/bench/said", json=said).status_code == 200


def section(page, title):
    """The part of the bench under a heading, its words alone."""
    found = re.search(
        rf"{title} <span class=\"aside\">(\d+)</span></h2>(.*?)</section>", page.text, re.DOTALL
    )
    assert found, title
    return int(found[1]), unescape(" ".join(re.sub(r"<[^>]+>", " ", found[2]).split()))


def test_the_bench_says_of_each_frame_how_many_pieces_are_ready_and_what_is_missing(tablet):
    number, words = section(tablet.get("/bench"), "Waiting for pieces")

    assert number == 1
    assert "K1 0 of 5 ready; missing K1-LS to be broken out, K1-RS to be broken out" in words


def test_a_frame_with_all_its_pieces_ready_can_be_glued_now(floor, tablet):
    worked(floor, tablet)

    assert section(tablet.get(HOME), "Can be glued now") == (1, "K1 5 pieces")


def test_one_piece_not_slotted_keeps_its_frame_from_being_glued(floor, tablet):
    worked(floor, tablet, but=("K1-RS",))

    page = tablet.get(FRAME)

    assert section(tablet.get(HOME), "Can be glued now")[0] == 0
    assert "What is missing for K1" in page.text
    assert "1 of 5 pieces is missing" in page.text


def test_a_job_without_frames_ready_says_why_the_list_is_empty(tablet):
    assert "No frame has all its pieces ready" in section(tablet.get("/bench"), "Can be glued now")[1]


def test_a_bench_without_any_job_says_so(tmp_path):
    with a_floor(tmp_path) as floor:
        assert "There is no job yet" in browser(floor, Role.TABLET).get("/bench").text


def test_a_piece_says_what_it_is_where_it_stands_and_what_is_next(tablet):
    page = tablet.get(f"{HOME}/pieces/K1-LS")

    assert "left stile" in page.text
    assert "720 × 45 × 22" in page.text
    assert '<a href="/jobs/pantry-wall/bench/frames/K1">frame K1</a>' in page.text
    assert form_of(page, "K1-LS is broken out")[1]["deed"] == "broken out"
    assert "<svg" in page.text


def test_the_next_step_is_one_touch_and_can_be_taken_back(floor, tablet):
    page = press(tablet, tablet.get(f"{HOME}/pieces/K1-LS"), "K1-LS is broken out")

    assert "K1-LS is passed" in page.text
    page = press(tablet, page, "Take back of K1-LS: broken out")
    assert "K1-LS is broken out" in page.text
    assert floor.standings.of(PANTRY)["K1-LS"].last is None


def test_a_step_of_the_whole_frame_leads_to_the_frame(floor, tablet):
    worked(floor, tablet)

    page = tablet.get(f"{HOME}/pieces/K1-LS")

    assert "Next for its frame: glued" in page.text
    with pytest.raises(AssertionError):
        form_of(page, "K1-LS is glued")


def test_spoiled_wants_a_reason_keeps_what_was_typed_and_shows_place_and_reason(floor, tablet):
    page = tablet.get(f"{HOME}/spoil/K1-LS")
    address, fields = form_of(page, "Where on the piece")

    none = tablet.post(address, data={**fields, "spot": "412", "reason": "", "more": " "})
    said = tablet.post(address, data={**fields, "spot": "412", "reason": "split"})

    assert none.status_code == 422
    assert "There is a problem" in none.text
    assert 'value="412"' in none.text
    assert "Spoiled: split, at 412" in said.text
    assert "K1-LS is made again" in said.text


def test_diagonals_that_cannot_be_are_said_again_as_they_were_understood(floor, tablet):
    worked(floor, tablet)
    tablet.post(FRAME, data={"key": "g", "do": "glued"})

    page = tablet.post(FRAME, data={"key": "d", "do": "checked", "rising": "36 7/8 in", "falling": "?"})

    assert page.status_code == 422
    assert '<p class="echo" id="rising-echo">936.625 mm, 36 7/8&#34;</p>' in page.text
    assert '<p class="echo" id="falling-echo"></p>' in page.text


def test_before_a_piece_is_spoiled_the_way_back_stands_first(tablet):
    page = tablet.get(f"{HOME}/spoil/K1-LS").text.partition("<main")[2]

    assert page.index("Back, it is good") < page.index("<button")


def test_a_spoiled_piece_made_again_begins_anew(floor, tablet):
    worked(floor, tablet)
    tablet.post(f"{HOME}/spoil/K1-LS", data={"key": "s-1", "reason": "split"})

    page = press(tablet, tablet.get(f"{HOME}/pieces/K1-LS"), "K1-LS is made again")

    assert "It was made 2 times" in page.text
    assert "K1-LS is broken out" in page.text
    assert "to be broken out" in section(tablet.get(HOME), "Waiting for pieces")[1]


def test_a_frame_shows_the_order_of_gluing_with_its_cautions_and_clamps(floor, tablet, plan):
    page = unescape(tablet.get(FRAME).text)
    [gluing] = plan.bench.gluings

    assert all(f"<strong>{step.part.name}</strong> to" in page for step in gluing.steps)
    assert all(caution in page for caution in gluing.cautions)
    assert "Fit it up dry" in page
    assert "Clamps across" in page


def test_glued_is_said_of_all_its_pieces_with_one_touch_and_counts_once(floor, tablet):
    worked(floor, tablet)
    address, fields = form_of(tablet.get(FRAME), "Frame K1 is glued")

    page = tablet.post(address, data={**fields, "do": "glued"})
    stands = last_seq(floor.store)
    tablet.post(address, data={**fields, "do": "glued"})

    assert "Tape both diagonals" in page.text
    assert section(tablet.get(HOME), "To be taped")[0] == 1
    assert last_seq(floor.store) == stands


def test_a_frame_glued_before_its_pieces_are_ready_is_asked_about(floor, tablet):
    page = tablet.post(FRAME, data={"key": "g-1", "do": "glued"})

    assert page.status_code == 422
    assert "the next step expected is broken out, not glued" in page.text
    on = press(tablet, page, "Go on all the same", do="glued")
    assert "Tape both diagonals" in on.text


@pytest.fixture
def glued(floor, tablet):
    worked(floor, tablet)
    tablet.post(FRAME, data={"key": "g-1", "do": "glued"})
    return tablet


def taped(tablet, rising, falling, key="t-1", **more):
    return tablet.post(
        FRAME, data={"key": key, "do": "checked", "rising": rising, "falling": falling, **more}
    )


def test_diagonals_that_agree_are_noted_of_every_piece_with_the_verdict(floor, glued):
    page = taped(glued, "937", "937.5")

    assert "Leave it: no gap narrows by more than the workshop lets pass." in page.text
    assert "Taped 937 and 937.5 by Bench 1 (Bench 1)." in page.text
    events = [event for event in events_of(floor.store, PANTRY) if event.deed is Deed.CHECKED]
    assert len(events) == 5
    assert {event.diagonals for event in events} == {(937, 937.5)}


def test_a_frame_out_of_square_is_to_be_pulled_and_nothing_is_noted_yet(floor, glued):
    before = last_seq(floor.store)

    page = taped(glued, "940", "935")

    assert page.status_code == 422
    assert "Pull it square: clamp across from lower left to upper right, the longer diagonal." in page.text
    assert 'value="940"' in page.text
    assert last_seq(floor.store) == before


def test_a_frame_out_of_square_may_be_let_stand_and_is_noted_then(floor, glued):
    page = taped(glued, "940", "935", sure="yes")

    assert "Pull it square" in page.text
    assert "is delivered" in page.text


@pytest.mark.parametrize(
    ("rising", "falling", "words"),
    [
        ("", "", "it is not typed"),
        ("937", "", "upper left to lower right: it is not typed"),
        ("937", "-3", "upper left to lower right"),
        ("abc", "937", "lower left to upper right"),
        ("0", "937", "is no length of a diagonal"),
        ("937", "1037", "do not belong to a frame 600 x 720"),
        ("1,234", "937", "lower left to upper right"),
    ],
)
def test_diagonals_that_cannot_be_are_refused_beside_their_field(floor, glued, rising, falling, words):
    before = last_seq(floor.store)

    page = taped(glued, rising, falling)

    assert page.status_code == 422
    assert words in unescape(page.text)
    assert f'value="{rising}"' in page.text
    assert last_seq(floor.store) == before


def test_delivered_ends_it(floor, glued):
    taped(glued, "937", "937")

    page = press(glued, glued.get(FRAME), "Frame K1 is delivered", do="delivered")

    assert "Delivered." in page.text
    assert section(glued.get(HOME), "Delivered")[0] == 1


def test_an_old_label_is_told_of_on_the_pieces_page(floor, tablet):
    old = floor.job(PANTRY).revision.mark
    keep(floor, files_of(a_job(width=620)), job=PANTRY, after=1)

    page = tablet.get(f"{HOME}/pieces/K1-LS?label={old}")

    assert "The label is of an older revision" in page.text


def test_copies_of_alike_frames_stand_each_by_itself(tmp_path):
    with a_floor(tmp_path) as floor:
        keep(floor, files_of(a_job(quantity=2)), job=PANTRY)
        tablet = browser(floor, Role.TABLET)

        words = section(tablet.get(HOME), "Waiting for pieces")[1]

        assert "K1/1 0 of 5" in words
        assert "K1/2 0 of 5" in words
        assert tablet.get(f"{HOME}/pieces/K1-LS/2").status_code == 200
        assert "K1-LS/2" in tablet.get(f"{HOME}/frames/K1/2").text


@pytest.mark.parametrize("place", ["/pieces/K9-LS", "/spoil/K9-LS", "/frames/K9", "/pieces/%1b", "/frames/"])
def test_what_is_not_there_is_said_so(tablet, place):
    assert tablet.get(HOME + place).status_code in (404, 422)


def test_looking_changes_nothing(floor, tablet):
    before = last_seq(floor.store)

    for place in ("/bench", HOME, FRAME, f"{HOME}/pieces/K1-LS", f"{HOME}/spoil/K1-LS"):
        assert tablet.get(place).status_code == 200

    assert last_seq(floor.store) == before
