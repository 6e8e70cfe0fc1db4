"""What is typed and not saved yet: there again after the page, the tablet or the server went away."""

from dataclasses import asdict, replace
from importlib import import_module

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.store import (
    Folder,
    back_up,
    draft_of,
    drafts_of,
    drop_draft,
    keep_draft,
    open_store,
    restore,
    revisions,
    save,
    verify,
)
from pinchrod.store.base import insert
from pinchrod.store.drafts import LONGEST_DRAFT, MOST_DRAFTS, DraftAt, forget
from tests.store.shop import MORNING, PANTRY, a_draft, a_job, a_saving, later

WHERE = (PANTRY, "frame K1", "D1")
AT = DraftAt(job=PANTRY, place="frame K1", device="D1")


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def test_what_is_typed_is_there_again_after_the_store_was_closed(place):
    typed = "drawer 140 over\n\tpair — 15 3/4″\r\n"
    with open_store(place, now=MORNING) as store:
        kept = keep_draft(store, a_draft(typed), now=later(3))

    with open_store(place, now=later(10)) as store:
        assert draft_of(store, *WHERE) == kept == replace(a_draft(typed), at=kept.at)
        assert kept.at[:16] == "2026-11-25T08:03"


def test_the_newer_takes_the_place_of_the_older(store):
    keep_draft(store, a_draft("drawer"), now=later(1))
    keep_draft(store, a_draft("drawer 140"), now=later(2))
    last = keep_draft(store, a_draft("drawer 140", after=2), now=later(3))

    assert drafts_of(store, "D1") == (last,)


def test_the_same_words_again_are_not_written_again(store):
    first = keep_draft(store, a_draft(), now=later(1))

    assert keep_draft(store, a_draft(), now=later(9)) == first
    assert keep_draft(store, first, now=later(9)) == first


def test_each_device_and_each_place_has_its_own(store):
    mine = [keep_draft(store, a_draft(place=place)) for place in ("frame K1", "frame K2", "words job.toml")]
    new = keep_draft(store, a_draft(job="", place="words job.toml", after=0))
    theirs = keep_draft(store, a_draft("pair", device="D2"))

    assert drafts_of(store, "D1") == (new, *mine)
    assert drafts_of(store, "D2") == (theirs,)
    assert drafts_of(store, "D3") == ()


def test_a_draft_that_is_dropped_is_gone_and_may_be_dropped_again(store):
    keep_draft(store, a_draft())
    other = keep_draft(store, a_draft(device="D2"))

    for _ in range(2):
        drop_draft(store, *WHERE)

    assert draft_of(store, *WHERE) is None
    assert drafts_of(store, "D2") == (other,)


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ({"words": "x" * (LONGEST_DRAFT + 1)}, "words-too-long"),
        ({"words": "drawer\x00140"}, "words-unseen"),
        ({"words": "drawer \ud83d"}, "words-unseen"),
        ({"place": ""}, "words-missing"),
        ({"place": "p" * 301}, "words-too-long"),
        ({"device": " "}, "words-missing"),
        ({"job": "j" * 81}, "words-too-long"),
        ({"job": "pantry\u202ewall"}, "words-unseen"),
    ],
)
def test_odd_words_are_told_and_what_was_kept_stays(store, said, code):
    kept = keep_draft(store, a_draft())

    with pytest.raises(NotYetRight) as trouble:
        keep_draft(store, replace(a_draft(), **said))

    assert codes(trouble) == [code]
    assert drafts_of(store, "D1") == (kept,)


def test_a_very_long_job_can_be_typed(store):
    typed = "x" * LONGEST_DRAFT

    keep_draft(store, a_draft(typed))

    assert [draft.words for draft in drafts_of(store, "D1")] == [typed]


def test_a_device_that_has_begun_too_much_can_go_on_with_that_alone(store):
    with store.writing() as base:
        for number in range(MOST_DRAFTS):
            insert(base, "drafts", **asdict(a_draft(place=f"frame K{number}")))

    with pytest.raises(NotYetRight) as trouble:
        keep_draft(store, a_draft(place="frame K999"))

    assert codes(trouble) == ["draft-count"]
    assert keep_draft(store, a_draft("pair", place="frame K7")).words == "pair"
    keep_draft(store, a_draft(device="D2"))
    drop_draft(store, PANTRY, "frame K0", "D1")
    keep_draft(store, a_draft(place="frame K999"))
    assert len(drafts_of(store, "D1")) == MOST_DRAFTS


def test_what_is_saved_is_no_draft_any_more_and_other_drafts_stay(store):
    keep_draft(store, a_draft())
    other = keep_draft(store, a_draft(place="frame K2"))
    wider = a_saving(a_job(width=610), key="save-2", after=1, typed=AT)

    save(store, wider, now=later(5))

    assert drafts_of(store, "D1") == (other,)
    newer = keep_draft(store, a_draft("drawer 150"))
    save(store, wider, now=later(6))  # the same request once more: what was typed since is not its own
    assert draft_of(store, *WHERE) == newer


def test_a_draft_stays_where_its_saving_is_refused_or_breaks_off(store, monkeypatch):
    kept = keep_draft(store, a_draft())
    with pytest.raises(NotYetRight):
        save(store, a_saving(key="save-2", after=1, typed=AT), now=later(5))  # nothing in it is new
    assert drafts_of(store, "D1") == (kept,)

    def and_the_disk_fails(base, at):
        forget(base, at)
        raise OSError("EIO")

    monkeypatch.setattr(import_module("pinchrod.store.jobs"), "forget", and_the_disk_fails)
    with pytest.raises(OSError, match="EIO"):
        save(store, a_saving(a_job(width=610), key="save-3", after=1, typed=AT), now=later(6))

    assert drafts_of(store, "D1") == (kept,)
    assert len(revisions(store, PANTRY)) == 1


def test_drafts_are_in_a_copy_and_in_what_is_put_back_from_it(store, tmp_path):
    kept = keep_draft(store, a_draft())
    copy = back_up(store, tmp_path / "copies", now=later(15))
    drop_draft(store, *WHERE)

    restore(copy.path, Folder(tmp_path / "again"))

    assert verify(store).digest != copy.digest
    with open_store(Folder(tmp_path / "again"), writing=False) as again:
        assert drafts_of(again, "D1") == (kept,)
        assert verify(again).digest == copy.digest
