"""Jobs kept by revision: every word as it was said, nobody's work written over."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.job import Source
from pinchrod.store import JobFiles, events_of, files_at, jobs, revision_at, revisions, roll_at, save
from pinchrod.store.soundness import unsound
from tests.store.shop import MORNING, OFFICE, PANTRY, a_job, a_saving, files_of, later

RACK = "board,section,length\nB1,100 x 25,3000\n"
WORKSHOP = 'pinchrod = 1\n[shop]\nowner = "{owner}"\n'


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def test_what_the_joiner_said_comes_back_to_the_letter(store):
    assert files_at(store, PANTRY) == files_of(a_job())


def test_every_file_of_a_job_is_kept_with_those_beside_it(store):
    history = Source(name="sent.csv", content=b"\xef\xbb\xbfodd \x00 bytes")
    rack = Source(name="stock/rack.csv", content=RACK.encode())
    files = JobFiles(
        main=Source(name="job.toml", content=a_job(name="Dresser").encode()),
        joined=(rack, replace(history, name="again.csv")),
        workshop=Source(name="shop.toml", content=b"pinchrod = 1\n", beside=(history,)),
    )

    save(store, a_saving(key="dresser", job="dresser", files=files))

    assert files_at(store, "dresser") == files


def test_a_revision_says_who_saved_it_when_and_what_papers_will_bear(store):
    revision = revision_at(store, PANTRY)

    job, _ = files_of(a_job()).read()
    assert (revision.number, revision.name, revision.by) == (1, "Pantry wall", OFFICE)
    assert revision.fingerprint == job.fingerprint
    assert revision.at.startswith("2026-11-25T08:00:00")
    assert len(revision.mark) == 9


def test_older_revisions_stay_as_they_were(store):
    save(store, a_saving(a_job(width=610), key="save-2", after=1, note="a wider frame"), now=later(5))

    assert [revision.number for revision in revisions(store, PANTRY)] == [1, 2]
    assert files_at(store, PANTRY, 1) == files_of(a_job())
    assert files_at(store, PANTRY) == files_at(store, PANTRY, 2) == files_of(a_job(width=610))
    assert revision_at(store, PANTRY).note == "a wider frame"


def test_the_pieces_of_each_revision_are_set_out_afresh(store):
    save(store, a_saving(a_job(quantity=3), key="save-2", after=1), now=later(5))

    assert len(roll_at(store, PANTRY).entries) == 3 * len(roll_at(store, PANTRY, 1).entries)


def test_the_newest_revision_of_every_job_is_listed(store):
    save(store, a_saving(a_job(name="Airing cupboard"), key="other", job="airing"), now=later(1))
    save(store, a_saving(a_job(width=610), key="save-2", after=1), now=later(5))

    assert [(each.job, each.number, each.name) for each in jobs(store)] == [
        ("airing", 1, "Airing cupboard"),
        (PANTRY, 2, "Pantry wall"),
    ]


def test_two_people_on_one_job_do_not_write_over_each_other(store):
    save(store, a_saving(a_job(width=610), key="first", after=1), now=later(5))

    with pytest.raises(NotYetRight) as trouble:
        save(store, a_saving(a_job(width=620), key="second", after=1), now=later(6))

    [problem] = trouble.value.problems
    assert problem.code == "revision-overtaken"
    assert "revision 2 was saved at 2026-11-25" in problem.what
    assert "Office (desk)" in problem.what
    assert files_at(store, PANTRY) == files_of(a_job(width=610))


def test_saving_the_same_twice_by_a_double_press_is_one_revision(store):
    saving = a_saving(a_job(width=610), key="twice", after=1)

    first = save(store, saving, now=later(5))

    assert save(store, saving, now=later(9)) == first
    assert len(revisions(store, PANTRY)) == 2
    assert len(events_of(store, PANTRY)) == 2


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ({"key": "k"}, "job-exists"),
        ({"key": "k", "after": 7}, "revision-overtaken"),
        ({"key": "k", "after": 1}, "revision-same"),
        ({"key": "save-1", "note": "other words"}, "key-used"),
        ({"key": "k", "job": "none-such", "after": 3}, "job-missing"),
        ({"key": "k", "job": "Pantry Wall"}, "job-name"),
        ({"key": "k", "job": "../shop"}, "job-name"),
        ({"key": "k", "job": "j" * 81}, "job-name"),
        ({"key": "k", "note": "\x1b[2J"}, "words-unseen"),
    ],
)
def test_what_cannot_be_saved_is_told_and_nothing_is_kept(store, said, code):
    with pytest.raises(NotYetRight) as trouble:
        save(store, a_saving(**said))

    assert codes(trouble) == [code]
    assert len(jobs(store)) == len(revisions(store, PANTRY)) == 1


def test_a_job_with_faults_gets_no_revision_and_every_fault_is_told(store):
    faulty = a_job(width="600\nfeet = 4").replace("drawer 140 over pair", "drawer 9000 over pear")

    with pytest.raises(NotYetRight) as trouble:
        save(store, a_saving(faulty, key="k", after=1))

    assert len(trouble.value.problems) > 1
    assert len(revisions(store, PANTRY)) == 1


def test_a_job_that_can_be_read_but_not_set_out_gets_no_revision(store):
    too_tall = a_job().replace("drawer 140 over pair", "drawer 900 over pair")

    with pytest.raises(NotYetRight):
        save(store, a_saving(too_tall, key="k", after=1))

    assert len(revisions(store, PANTRY)) == 1


@pytest.mark.parametrize(
    ("job", "number", "code"),
    [("none-such", 0, "job-missing"), (PANTRY, 2, "revision-missing"), (PANTRY, -1, "revision-missing")],
)
def test_what_is_not_there_is_told(store, job, number, code):
    with pytest.raises(NotYetRight) as trouble:
        files_at(store, job, number)

    assert codes(trouble) == [code]


def test_a_file_that_many_revisions_share_is_kept_once(store):
    rack = Source(name="rack.csv", content=b"x" * 1000)
    for number in range(2, 6):
        files = replace(files_of(a_job(width=600 + number)), joined=(rack,))
        save(store, a_saving(key=f"save-{number}", after=number - 1, files=files), now=MORNING)

    with store.reading() as base:
        assert base.rows("SELECT count(*) FROM contents WHERE length(content) = 1000") == [(1,)]
        assert list(unsound(base)) == []


def test_of_four_who_save_at_once_one_is_first_and_the_others_are_told(store):
    def saved(number, after):
        try:
            wider = a_job(width=600 + 10 * after + number)
            return save(store, a_saving(wider, key=f"{after}-{number}", after=after)).number
        except NotYetRight as trouble:
            return [problem.code for problem in trouble.problems]

    with ThreadPoolExecutor(4) as desks:
        for after in range(1, 6):
            answers = list(desks.map(saved, range(1, 5), [after] * 4))
            one_of_them = [answer for answer in answers if isinstance(answer, int)]
            assert one_of_them == [after + 1]
            assert answers.count(["revision-overtaken"]) == 3


def test_the_name_of_a_file_has_nothing_unseen_in_it(store):
    odd = JobFiles(main=Source(name="job\x1b[2J.toml", content=a_job(width=610).encode()))

    with pytest.raises(NotYetRight) as trouble:
        save(store, a_saving(key="odd", after=1, files=odd))

    assert codes(trouble) == ["words-unseen"]
