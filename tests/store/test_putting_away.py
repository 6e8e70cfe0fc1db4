"""A job put away before anything happened to it, and brought back: nothing is ever taken out of the store."""

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Deed,
    bring_back,
    events_of,
    files_at,
    is_put_away,
    issue,
    jobs,
    jobs_put_away,
    may_be_put_away,
    put_away,
    record,
    record_fault,
    revisions,
    roll_at,
    save,
    verify,
)
from tests.store.shop import OFFICE, PANTRY, a_fault, a_job, a_request, a_saving, an_issue, later


def away(store, key: str = "away-1", revision: int = 1):
    return put_away(store, PANTRY, revision, by=OFFICE, key=key, now=later(1))


def refusal(does) -> list[str]:
    with pytest.raises(NotYetRight) as trouble:
        does()
    return [problem.code for problem in trouble.value.problems]


def test_a_job_put_away_is_not_at_hand_and_nothing_of_it_is_gone(store):
    before = files_at(store, PANTRY)

    event = away(store)

    assert (jobs(store), [each.job for each in jobs_put_away(store)]) == ((), [PANTRY])
    assert (event.deed, event.job, event.by) == (Deed.PUT_AWAY, PANTRY, OFFICE)
    assert files_at(store, PANTRY) == before
    assert not may_be_put_away(store, PANTRY)
    verify(store)


def test_it_is_brought_back_as_it_was_and_may_be_put_away_again(store):
    before = jobs(store)
    away(store)

    bring_back(store, PANTRY, by=OFFICE, key="back-1", now=later(2))

    assert jobs(store) == before
    assert jobs_put_away(store) == ()
    away(store, "away-2")
    assert is_put_away(store, PANTRY)
    assert [event.deed for event in events_of(store, PANTRY)][1:] == [
        Deed.PUT_AWAY,
        Deed.BROUGHT_BACK,
        Deed.PUT_AWAY,
    ]
    verify(store)


def test_a_press_twice_counts_once(store):
    assert away(store) == away(store)
    assert len({bring_back(store, PANTRY, by=OFFICE, key="b", now=later(minute)) for minute in (2, 3)}) == 1
    assert len(events_of(store, PANTRY)) == 3


def test_a_job_at_which_anything_was_done_stays(store):
    happenings = {
        "a piece": lambda: record(store, a_request(), roll_at(store, PANTRY)),
        "papers": lambda: issue(store, an_issue()),
        "a fault": lambda: record_fault(store, a_fault()),
    }
    for happens in happenings.values():
        happens()

        assert not may_be_put_away(store, PANTRY)
        assert refusal(lambda: away(store)) == ["job-begun"]
    assert [each.job for each in jobs(store)] == [PANTRY]


def test_a_job_that_somebody_saved_meanwhile_is_looked_at_first(store):
    save(store, a_saving(a_job(width=700), key="save-2", after=1))

    assert refusal(lambda: away(store)) == ["revision-overtaken"]


def test_what_is_away_is_not_put_away_and_what_is_at_hand_not_brought_back(store):
    assert refusal(lambda: bring_back(store, PANTRY, by=OFFICE, key="b")) == ["job-not-away"]
    away(store)
    assert refusal(lambda: away(store, "away-2")) == ["job-put-away"]
    assert refusal(lambda: put_away(store, "no-such-job", 1, by=OFFICE, key="n")) == ["job-missing"]


def test_nothing_is_said_of_a_job_that_is_away_and_no_papers_of_it_go_out(store):
    roll = roll_at(store, PANTRY)
    away(store)

    assert refusal(lambda: record(store, a_request(), roll)) == ["job-put-away"]
    assert refusal(lambda: issue(store, an_issue())) == ["job-put-away"]
    assert refusal(lambda: record_fault(store, a_fault())) == ["job-put-away"]


def test_a_new_job_by_the_name_of_one_put_away_is_its_next_revision_and_brings_it_back(store):
    away(store)
    again = a_saving(a_job(width=700), key="save-2")

    saved = [save(store, again, now=later(minute)) for minute in (2, 3)]

    assert saved[0] == saved[1] == jobs(store)[0]
    assert [each.number for each in revisions(store, PANTRY)] == [1, 2]
    assert [event.deed for event in events_of(store, PANTRY)[-2:]] == [Deed.SAVED, Deed.BROUGHT_BACK]
    verify(store)


def test_only_that_job_is_put_away(store):
    save(store, a_saving(a_job(name="Larder"), key="l", job="larder"))

    away(store)

    assert [each.job for each in jobs(store)] == ["larder"]
