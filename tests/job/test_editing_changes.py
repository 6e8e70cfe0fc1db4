"""What was changed from one state of a job to another, told in the words of a job file."""

from hypothesis import given
from hypothesis import strategies as st

from pinchrod.job import (
    Change,
    Source,
    changes_between,
    frames_as_said,
    moved,
    read_job,
    with_frame,
    with_frames,
    without_frame,
)
from tests.job.edits import the_demo

MAIN, JOINED = the_demo()
DEMO, _ = read_job(MAIN, JOINED)
NEW = (("id", "X1"), ("width", "23 5/8 in"), ("height", "720"), ("layout", "2  doors"))


def told(files):
    job, _ = read_job(files.main, files.joined)
    return [(each.frame, each.what, each.was, each.now) for each in changes_between(DEMO, job)]


def with_text(old, new, main=MAIN, joined=JOINED):
    assert old.encode() in main.content
    source = Source(name="job.toml", content=main.content.replace(old.encode(), new.encode()))
    job, _ = read_job(source, joined)
    return [(each.frame, each.what, each.was, each.now) for each in changes_between(DEMO, job)]


def test_nothing_changed_is_nothing_told():
    assert changes_between(DEMO, DEMO) == ()


def test_a_gap_more_in_a_phrase_or_a_size_said_in_inches_is_no_change():
    assert with_text('layout = "pair"', 'layout = " pair "') == []
    assert with_text('"28 3/8 in"', "720.725") == []


def test_a_change_in_a_frame_is_told_with_what_was_and_what_is():
    words = (("width", "620"), ("height", "860"), ("layout", "pair"), ("foot", "100"), ("left_stile", "65"))

    assert told(with_frame(MAIN, JOINED, "K1", words)) == [
        ("K1", "width", "600", "620"),
        ("K1", "layout", "drawer 140 over pair", "pair"),
    ]


def test_frames_that_came_and_went_are_told_in_short():
    there = with_frames(MAIN, JOINED, [NEW], after="K1")
    gone = without_frame(there.main, there.joined, "K14")

    assert told(gone) == [
        ("K14", "frame", "1180 x 420, 2 doors", ""),
        ("X1", "frame", "", "600.075 x 720, 2 doors"),
    ]


def test_a_frame_that_is_only_called_otherwise_is_told_as_such():
    words = frames_as_said(MAIN, JOINED)[0].words

    assert told(with_frame(MAIN, JOINED, "K1", (*words, ("id", "K1a")))) == [("K1", "id", "K1", "K1a")]


def test_another_order_is_told_once():
    [(frame, what, was, now)] = told(moved(MAIN, JOINED, "K2", before="K1"))

    assert (frame, what) == ("", "order of the frames")
    assert (was[:6], now[:6]) == ("K1, K2", "K2, K1")


def test_a_usual_size_that_changes_every_frame_is_told_once():
    assert with_text("muntin = 38", "muntin = 40") == [("", "muntin of every frame", "38", "40")]


def test_what_is_the_jobs_own_is_told_by_its_name():
    assert with_text('revision = "A"', 'revision = "B"') == [("", "revision", "A", "B")]
    assert with_text("quirk = 2", "quirk = 3") == [("", "bead quirk", "2", "3")]
    assert with_text("groove = 10", "groove = 9") == [("", "door groove", "10", "9")]
    assert with_text("date = 2026-11-25", "") == [("", "date", "2026-11-25", "")]
    assert with_text('"dovetail key"', '"dowel"') == [("", "joint", "dovetail key", "dowel")]


def test_a_timber_is_told_with_its_figures():
    changes = with_text('"yellow-poplar"', '"red-oak"')

    assert changes[0] == ("", "timber", "yellow-poplar", "red-oak")
    assert all(what.startswith("timber") for _, what, _, _ in changes)


RACK = 'pinchrod = 1\n[job]\nrack = "rack.csv"\n[[frame]]\nid = "K1"\nwidth = 600\nheight = 720\nlayout = "pair"\n'
OFFER = '[[offer]]\nname = "planed"\nthickness = 27\nwidth = {}\nlength = 3000\nprice = 4.20\nper = "m"\n'


def with_rack(rows, offer=""):
    rack = Source(name="rack.csv", content=f"board,thickness,width,length,bow,faults\n{rows}".encode())
    return read_job(Source(name="job.toml", content=(RACK + offer).encode()), (rack,))[0]


def test_boards_and_offers_are_told_by_name():
    old = with_rack("B1,27,160,3050,3,0-60; 840-905@30-60\nB2,27,180,2000,,\n", OFFER.format(150))
    new = with_rack("B1,27,160,3050,3,0-60 back\nB3,27,180,2000,,\n", OFFER.format("[150, 160]"))

    assert [(each.what, each.was, each.now) for each in changes_between(old, new)] == [
        ("board B1", "27 x 160 x 3050, bow 3, 0-60, 840-905@30-60", "27 x 160 x 3050, bow 3, 0-60 back"),
        ("board B2", "27 x 180 x 2000", ""),
        ("offer planed", "27 x 150 x 3000, 4.2 per m", "27 x 150-160 x 3000, 4.2 per m"),
        ("board B3", "", "27 x 180 x 2000"),
    ]


def a_job(frames):
    rows = "".join(f"{name},{width},720,{layout}\n" for name, (width, layout) in frames.items())
    return read_job(Source(name="list.csv", content=f"id,width,height,layout\n{rows}".encode()))[0]


def test_what_changed_alike_in_some_frames_only_is_told_frame_by_frame():
    old, new = (
        a_job(dict.fromkeys("ABC", (600, "pair"))),
        a_job({**dict.fromkeys("AB", (601, "pair")), "C": (600, "pair")}),
    )

    assert [(each.frame, each.what) for each in changes_between(old, new)] == [("A", "width"), ("B", "width")]


def test_of_two_alike_frames_only_one_is_called_otherwise():
    old, new = a_job(dict.fromkeys("AB", (600, "pair"))), a_job({"C": (600, "pair")})

    assert [(each.frame, each.what) for each in changes_between(old, new)] == [("A", "id"), ("B", "frame")]


FRAMES = st.dictionaries(
    st.sampled_from(["A", "B", "C", "D"]),
    st.tuples(st.sampled_from([600, 601]), st.sampled_from(["pair", "door"])),
    min_size=1,
)


def mirrored(change):
    if change.what == "id":
        return Change(frame=change.now, what="id", was=change.now, now=change.was)
    return Change(frame=change.frame, what=change.what, was=change.now, now=change.was)


@given(old=FRAMES, new=FRAMES)
def test_the_way_back_is_told_as_the_way_there_turned_round(old, new):
    there, back = changes_between(a_job(old), a_job(new)), changes_between(a_job(new), a_job(old))

    renamed = any(each.what == "id" for each in there)
    if not renamed:
        assert {mirrored(each) for each in there} == set(back)
    assert (there == ()) is (list(old.items()) == list(new.items()))
