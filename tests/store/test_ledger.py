"""What is said at the bench and taken down in the ledger: once, for good, and only what can be."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest

from pinchrod.ground import Mm, NotYetRight
from pinchrod.store import (
    STEPS,
    By,
    Deed,
    Said,
    events_after,
    events_of,
    last_seq,
    record,
    replay,
    roll_at,
    save,
    standing_of,
    undoing,
)
from pinchrod.store.soundness import unsound
from tests.store.shop import (
    BENCH,
    MORNING,
    PANTRY,
    a_job,
    a_request,
    a_saving,
    checked,
    later,
    said_in_turn,
)


@pytest.fixture
def roll(store):
    return roll_at(store, PANTRY)


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def test_a_step_said_at_the_bench_stands_in_the_ledger_with_who_and_when(store, roll):
    [event] = record(store, a_request(Deed.BROKEN_OUT), roll, now=later(5)).events

    assert events_of(store, PANTRY, "K1-LS") == (event,)
    assert str(event) == "broken out at 2026-11-25 08:05 UTC by Bench (tablet 2)"
    assert (event.seq, event.revision, event.key) == (2, 1, "tap-1")  # the saving came first
    assert last_seq(store) == 2


def test_a_whole_job_goes_through_all_its_steps(store, roll):
    for number, said in enumerate(said_in_turn(roll)):
        record(
            store,
            a_request(key=f"tap-{number}", deed=said.deed, piece=said.piece, diagonals=said.diagonals),
            roll,
        )

    for standing in standing_of(store, PANTRY):
        entry = roll.entry(standing.piece)
        assert tuple(event.deed for event in standing.done) == entry.steps
        assert entry.steps[0] is Deed.BROKEN_OUT
        assert entry.steps[-1] is Deed.DELIVERED
    assert len(standing_of(store, PANTRY)) == len(roll.entries) > 4


def test_the_steps_of_a_piece_are_those_there_is_something_to_do_in(roll):
    assert Deed.NOTCHED in roll.entry("K1-LS").steps
    assert all(set(entry.steps) <= set(STEPS) for entry in roll.entries)
    assert {entry.frame for entry in roll.entries} == {"K1"}


def test_the_same_request_again_gets_the_same_answer_and_adds_nothing(store, roll):
    first = record(store, a_request(), roll, now=later(1))

    again = [record(store, a_request(), roll, now=later(minutes)) for minutes in (2, 90, 0)]

    assert again == [first] * 3
    assert last_seq(store) == first.events[-1].seq


def test_the_same_request_again_gets_its_doubts_again(store, roll):
    request = a_request(Deed.MOULDED, despite=("step-expected",))
    first = record(store, request, roll, now=later(1))

    assert [doubt.code for doubt in first.doubts] == ["step-expected"]
    assert record(store, request, roll, now=later(2)) == first


def test_a_key_that_was_used_for_something_else_is_refused(store, roll):
    record(store, a_request(), roll)

    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(piece="K1-RS"), roll)

    assert codes(trouble) == ["key-used"]
    assert events_of(store, PANTRY, "K1-RS") == ()


def test_a_refused_request_may_be_said_again_under_its_key(store, roll):
    doubtful = a_request(Deed.NOTCHED)
    with pytest.raises(NotYetRight):
        record(store, doubtful, roll)

    recorded = record(store, a_request(Deed.NOTCHED, despite=("step-expected",)), roll)

    assert recorded.events[0].despite == ("step-expected",)


def test_several_things_said_at_once_are_kept_all_or_none(store, roll):
    request = a_request(key="frame")
    good = Said(deed=Deed.BROKEN_OUT, piece="K1-LS")
    bad = Said(deed=Deed.BROKEN_OUT, piece="K9-LS")

    with pytest.raises(NotYetRight) as trouble:
        record(store, type(request)(key="frame", by=BENCH, said=(good, bad)), roll)

    assert codes(trouble) == ["not-a-piece"]
    assert last_seq(store) == 1


def test_a_mark_is_found_however_its_letters_are_written(store, roll):
    [event] = record(store, a_request(piece="k1-ls"), roll).events

    assert event.piece == "K1-LS"


def test_every_fault_of_a_request_is_told_at_once(store, roll):
    said = (
        Said(deed=Deed.MADE_AGAIN, piece="K1-LS"),
        Said(deed=Deed.SPOILED, piece="K1-RS"),
        Said(deed=Deed.SAVED, piece="K1-TR"),
        Said(deed=Deed.CHECKED, piece="K1-BR", diagonals=(Mm(937),)),
    )

    with pytest.raises(NotYetRight) as trouble:
        record(store, type(a_request())(key="many", by=BENCH, said=said), roll)

    assert codes(trouble)[:4] == ["not-spoiled", "no-reason", "not-of-a-piece", "no-diagonals"]


@pytest.mark.parametrize(
    ("before", "said", "code"),
    [
        ([Deed.BROKEN_OUT], Deed.BROKEN_OUT, "already-done"),
        ([Deed.SPOILED], Deed.PASSED, "already-spoiled"),
        ([Deed.SPOILED], Deed.SPOILED, "already-spoiled"),
        ([], Deed.MADE_AGAIN, "not-spoiled"),
        ([Deed.GLUED], Deed.NOTCHED, "already-glued"),
        ([Deed.DELIVERED], Deed.GLUED, "already-delivered"),
        ([], Deed.SAVED, "not-of-a-piece"),
        ([], Deed.ISSUED, "not-of-a-piece"),
        ([], Deed.CHECKED, "no-diagonals"),
        ([Deed.SPOILED], Deed.THROUGH, "already-spoiled"),
        ([Deed.DELIVERED], Deed.THROUGH, "already-delivered"),
        ([], Deed.THROUGH, "no-setting"),
        ([], Deed.FAULT, "not-of-a-piece"),
    ],
)
def test_what_cannot_be_is_refused_whoever_says_it(store, roll, before, said, code):
    everything = ("step-expected", code)
    for number, deed in enumerate(before):
        record(store, a_request(deed, key=f"before-{number}", reason="split", despite=everything), roll)

    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(said, key="now", reason="split", despite=everything), roll)

    assert code in codes(trouble)
    assert last_seq(store) == 1 + len(before)


def test_a_step_out_of_turn_is_doubted_and_goes_on_only_in_spite_of_it(store, roll):
    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(Deed.CUT), roll)

    [doubt] = trouble.value.problems
    assert (doubt.code, doubt.stops) == ("step-expected", False)
    assert "broken out" in doubt.what
    assert record(store, a_request(Deed.CUT, despite=("step-expected",)), roll).events


def test_a_spoiled_piece_starts_again_when_it_is_made_again(store, roll):
    for number, deed in enumerate(
        [Deed.BROKEN_OUT, Deed.PASSED, Deed.SPOILED, Deed.MADE_AGAIN, Deed.BROKEN_OUT]
    ):
        record(store, a_request(deed, key=f"{number}", reason="tear-out", spot="near the foot"), roll)

    [standing] = standing_of(store, PANTRY)
    spoiled = events_of(store, PANTRY, "K1-LS")[2]
    assert [event.deed for event in standing.done] == [Deed.BROKEN_OUT]
    assert (standing.made, standing.spoiled) == (2, None)
    assert (spoiled.reason, spoiled.spot) == ("tear-out", "near the foot")


def test_diagonals_come_back_to_the_last_fraction(store, roll):
    record(store, a_request(Deed.GLUED, key="glued", despite=("step-expected",)), roll)
    said = checked("K1-LS", "937/3", "1877/2")

    [event] = record(
        store,
        a_request(Deed.CHECKED, piece="K1-LS", diagonals=said.diagonals, despite=("step-expected",)),
        roll,
    ).events

    assert event.diagonals == (Mm("937/3"), Mm("1877/2"))
    assert events_of(store, PANTRY, "K1-LS")[-1] == event


def test_the_last_thing_said_can_be_taken_back_and_stays_in_the_ledger(store, roll):
    record(store, a_request(key="slip"), roll)

    back = undoing(store, "slip")
    record(store, type(a_request())(key="back", by=BENCH, said=back), roll)

    assert [event.deed for event in events_of(store, PANTRY, "K1-LS")] == [Deed.BROKEN_OUT, Deed.UNDONE]
    assert standing_of(store, PANTRY)[0].done == ()


def test_only_the_last_thing_can_be_taken_back_and_only_once(store, roll):
    first = record(store, a_request(key="1"), roll).events[0].seq
    second = record(store, a_request(Deed.PASSED, key="2"), roll).events[0].seq

    for number, (undoes, code) in enumerate(
        [(first, "undo-not-last"), (99, "undo-nothing"), (0, "undo-nothing")]
    ):
        with pytest.raises(NotYetRight) as trouble:
            record(store, a_request(Deed.UNDONE, key=f"u{number}", undoes=undoes), roll)
        assert codes(trouble) == [code]
    record(store, a_request(Deed.UNDONE, key="u", undoes=second), roll)
    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(Deed.UNDONE, key="u-again", undoes=second), roll)

    assert codes(trouble) == ["undo-nothing"]


def through(store, roll, spot, key, **said):
    return record(store, a_request(Deed.THROUGH, key=key, spot=spot, **said), roll).events[0]


def test_a_piece_goes_through_each_setting_once(store, roll):
    through(store, roll, "step 4 setting 7", "1")
    through(store, roll, "step 4 setting 8", "2")

    with pytest.raises(NotYetRight) as trouble:
        through(store, roll, "step 4 setting 7", "3")

    assert codes(trouble) == ["already-done"]
    [standing] = standing_of(store, PANTRY)
    assert (standing.through, standing.done) == (("step 4 setting 7", "step 4 setting 8"), ())


def test_a_piece_made_again_goes_through_the_settings_again(store, roll):
    through(store, roll, "step 4 setting 7", "1")
    for key, deed in (("2", Deed.SPOILED), ("3", Deed.MADE_AGAIN)):
        record(store, a_request(deed, key=key, reason="split"), roll)
    assert standing_of(store, PANTRY)[0].through == ()

    through(store, roll, "step 4 setting 7", "4")

    assert standing_of(store, PANTRY)[0].through == ("step 4 setting 7",)


def test_any_setting_can_be_taken_back_whatever_was_said_since(store, roll):
    first = through(store, roll, "step 4 setting 7", "1")
    through(store, roll, "step 4 setting 8", "2")
    record(store, a_request(Deed.BROKEN_OUT, key="3"), roll)

    record(store, a_request(Deed.UNDONE, key="4", undoes=first.seq), roll)

    assert standing_of(store, PANTRY)[0].through == ("step 4 setting 8",)
    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(Deed.UNDONE, key="5", undoes=first.seq), roll)
    assert codes(trouble) == ["undo-nothing"]


def test_a_step_can_be_taken_back_from_before_a_setting(store, roll):
    step = record(store, a_request(Deed.BROKEN_OUT, key="1"), roll).events[0]
    through(store, roll, "step 4 setting 7", "2")

    record(store, a_request(Deed.UNDONE, key="3", undoes=step.seq), roll)

    assert standing_of(store, PANTRY)[0].done == ()
    assert standing_of(store, PANTRY)[0].through == ("step 4 setting 7",)


def test_making_again_is_not_taken_back_from_under_a_setting(store, roll):
    record(store, a_request(Deed.SPOILED, key="1", reason="split"), roll)
    again = record(store, a_request(Deed.MADE_AGAIN, key="2"), roll).events[0]
    setting = through(store, roll, "step 4 setting 7", "3")

    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(Deed.UNDONE, key="4", undoes=again.seq), roll)

    [problem] = trouble.value.problems
    assert (problem.code, problem.mend) == ("undo-not-last", f"take back event {setting.seq} first")


def test_nothing_said_in_one_go_is_taken_back_in_the_same_go(store, roll):
    said = (
        Said(deed=Deed.BROKEN_OUT, piece="K1-LS"),
        Said(deed=Deed.UNDONE, piece="K1-LS", undoes=0),
    )

    with pytest.raises(NotYetRight) as trouble:
        record(store, replace(a_request(), said=said), roll)

    assert codes(trouble) == ["undo-nothing"]


def test_how_pieces_stand_can_be_carried_on_from_where_one_was(store, roll):
    for number, said in enumerate(said_in_turn(roll)):
        record(store, replace(a_request(key=f"tap-{number}"), said=(said,)), roll)
    last = events_of(store, PANTRY, "K1-LS")[-1]
    record(store, a_request(Deed.UNDONE, key="back", undoes=last.seq), roll)
    events = events_of(store, PANTRY)

    for half in (0, 7, len(events) - 1, len(events)):
        assert replay(events[half:], replay(events[:half])) == standing_of(store, PANTRY)


def test_a_label_of_an_older_revision_is_noticed(store, roll):
    save(store, a_saving(a_job(width=610), key="save-2", after=1), now=later(1))
    newest = roll_at(store, PANTRY)

    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(mark=roll.mark), newest)

    [doubt] = trouble.value.problems
    assert (doubt.code, doubt.stops) == ("label-superseded", False)
    assert record(store, a_request(mark=newest.mark), newest).doubts == ()


def test_labels_of_other_jobs_and_other_shops_are_refused(store, roll):
    save(store, a_saving(a_job(name="Dresser", width=900), key="other", job="dresser"), now=later(1))
    other = roll_at(store, "dresser")

    for mark, code in ((other.mark, "label-of-other-job"), ("0000-0000", "label-unknown")):
        with pytest.raises(NotYetRight) as trouble:
            record(store, a_request(mark=mark), roll)
        assert codes(trouble) == [code]


def test_a_list_of_pieces_that_is_not_the_newest_is_refused(store, roll):
    save(store, a_saving(a_job(width=610), key="save-2", after=1), now=later(1))

    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(), roll)

    assert codes(trouble) == ["list-old"]


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ({"key": ""}, "words-missing"),
        ({"key": "k" * 81}, "words-too-long"),
        ({"key": "a\x00b"}, "words-unseen"),
        ({"by": By(person=" ", device="tablet 2")}, "words-missing"),
        ({"by": By(person="Bench", device="\x1b[2J")}, "words-unseen"),
        ({"reason": "x" * 2001}, "words-too-long"),
        ({"spot": "\u202e"}, "words-unseen"),
    ],
)
def test_odd_words_are_told_and_nothing_is_kept(store, roll, said, code):
    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(**said), roll)

    assert codes(trouble) == [code]
    assert last_seq(store) == 1


def test_words_at_the_limit_are_taken(store, roll):
    at_the_limit = a_request(key="k" * 80, by=By(person="b" * 80, device="t" * 80), reason="x" * 2000)

    assert record(store, at_the_limit, roll).events


@pytest.mark.parametrize("count", [0, 1001])
def test_a_request_says_one_to_a_thousand_things(store, roll, count):
    said = (Said(deed=Deed.BROKEN_OUT, piece="K1-LS"),) * count

    with pytest.raises(NotYetRight) as trouble:
        record(store, type(a_request())(key="k", by=BENCH, said=said), roll)

    assert codes(trouble) == ["said-count"]


def test_whoever_looks_later_is_given_what_came_since(store, roll):
    for number, piece in enumerate(("K1-LS", "K1-RS", "K1-TR")):
        record(store, a_request(key=f"{number}", piece=piece), roll)

    assert [event.seq for event in events_after(store, 2)] == [3, 4]
    assert [event.seq for event in events_after(store, 0, most=2)] == [1, 2]


def test_a_clock_that_is_set_back_changes_no_order(store, roll):
    for number, minutes in enumerate((60, 0, -600)):
        record(store, a_request(tuple(Deed)[number], key=f"{number}"), roll, now=later(minutes))

    events = events_of(store, PANTRY, "K1-LS")
    assert [event.seq for event in events] == [2, 3, 4]
    assert [event.at for event in events] == sorted((event.at for event in events), reverse=True)


def test_frames_made_alike_have_pieces_of_their_own(store):
    save(store, a_saving(a_job(quantity=2), key="twice", job="twice"), now=MORNING)

    roll = roll_at(store, "twice")

    assert {entry.frame for entry in roll.entries} == {"K1/1", "K1/2"}
    assert {entry.mark for entry in roll.of_frame("k1/2")} == {
        entry.mark for entry in roll.entries if entry.mark.endswith("/2")
    }


def test_a_request_that_comes_eight_times_at_once_counts_once(store, roll):
    with ThreadPoolExecutor(8) as lines:
        answers = list(
            lines.map(lambda minute: record(store, a_request(), roll, now=later(minute)), range(8))
        )

    assert answers == [answers[0]] * 8
    assert events_of(store, PANTRY, "K1-LS") == answers[0].events


def test_eight_tablets_at_once_get_numbers_of_their_own(store, roll):
    said = [(entry.mark, step) for entry in roll.entries for step in entry.steps[:1]]

    with ThreadPoolExecutor(8) as lines:
        answers = list(
            lines.map(lambda each: record(store, a_request(each[1], key=each[0], piece=each[0]), roll), said)
        )

    assert sorted(answer.events[0].seq for answer in answers) == list(range(2, 2 + len(said)))
    with store.reading() as base:
        assert list(unsound(base)) == []


def test_a_piece_of_a_job_that_was_never_saved_is_told(store, roll):
    with pytest.raises(NotYetRight) as trouble:
        record(store, a_request(), replace(roll, job="none-such"))

    assert codes(trouble) == ["job-missing"]
