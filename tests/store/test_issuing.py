"""Papers that went out are kept as they went out, and each time is noted."""

from dataclasses import replace

import pytest

from pinchrod.ground import NotYetRight
from pinchrod.papers import Paper
from pinchrod.store import Deed, events_of, issue, issued, paper_as_issued, save
from tests.store.shop import PANTRY, a_job, a_paper, a_saving, an_issue, later


def codes(trouble):
    return [problem.code for problem in trouble.value.problems]


def test_a_paper_comes_back_byte_for_byte(store):
    [event] = issue(store, an_issue()).events

    assert paper_as_issued(store, event.seq) == a_paper()
    assert (event.deed, event.paper, event.revision) == (Deed.ISSUED, "labels.pdf", 1)


def test_labels_printed_again_are_recorded_again_with_why(store):
    issue(store, an_issue(), now=later(1))
    issue(store, an_issue(key="again", note="labels got wet"), now=later(60))

    assert [paper.name for paper in issued(store, PANTRY)] == ["labels.pdf"] * 2
    assert events_of(store, PANTRY)[-1].reason == "labels got wet"
    with store.reading() as base:
        assert base.rows("SELECT count(*) FROM contents WHERE content = :it", it=a_paper().content) == [(1,)]


def test_a_double_press_issues_once(store):
    first = issue(store, an_issue(), now=later(1))

    assert issue(store, an_issue(), now=later(2)) == first
    assert len(issued(store, PANTRY)) == 1


def test_a_whole_pack_goes_out_or_nothing_of_it(store):
    pack = tuple(a_paper(f"drawings/K{number}.svg", b"<svg/>" * number) for number in range(1, 5))

    issue(store, an_issue(papers=pack))

    assert [paper_as_issued(store, paper.seq) for paper in issued(store, PANTRY, 1)] == list(pack)
    assert issued(store, PANTRY, 2) == ()


def test_papers_of_an_older_revision_go_out_only_on_purpose(store):
    save(store, a_saving(a_job(width=610), key="save-2", after=1), now=later(1))

    with pytest.raises(NotYetRight) as trouble:
        issue(store, an_issue())

    assert codes(trouble) == ["paper-superseded"]
    recorded = issue(store, an_issue(despite=("paper-superseded",)))
    assert recorded.events[0].despite == ("paper-superseded",)


@pytest.mark.parametrize(
    ("issuing", "code"),
    [
        (an_issue(job="none-such"), "revision-missing"),
        (an_issue(revision=2), "revision-missing"),
        (an_issue(revision=0), "revision-missing"),
        (an_issue(papers=()), "paper-count"),
        (an_issue(papers=(a_paper(), a_paper())), "paper-doubled"),
        (an_issue(papers=tuple(Paper(name=f"{n}", content=b"") for n in range(5001))), "paper-count"),
        (an_issue(by=replace(an_issue().by, person="")), "words-missing"),
    ],
    ids=lambda said: said if isinstance(said, str) else "",
)
def test_what_cannot_go_out_is_told_and_nothing_is_kept(store, issuing, code):
    with pytest.raises(NotYetRight) as trouble:
        issue(store, issuing)

    assert codes(trouble) == [code]
    assert issued(store, PANTRY) == ()


def test_a_paper_that_never_went_out_is_told(store):
    with pytest.raises(NotYetRight) as trouble:
        paper_as_issued(store, 1)

    assert codes(trouble) == ["paper-missing"]
