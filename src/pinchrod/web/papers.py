"""The papers of a job: made beside the server, looked at, sent out, and kept as they went."""

from dataclasses import replace

from pinchrod.ground import NotYetRight, Problem, Where
from pinchrod.papers import Paper
from pinchrod.store import Issuing, issue, issued, paper_as_issued
from pinchrod.web import papers_labels, papers_marks
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.beside import Work
from pinchrod.web.in_force import plan_in_force
from pinchrod.web.jobs_saving import revision_said
from pinchrod.web.known import Known
from pinchrod.web.papers_files import missing, sent
from pinchrod.web.papers_over import Chosen, OverPage, over_page
from pinchrod.web.papers_page import PapersPage, is_outdated, mark_of, papers_page, unticked
from pinchrod.web.roles import OFFICE_ONLY, WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit


def look(visit: Visit) -> Answer:
    """The papers of a revision: the newest, unless another is asked for."""
    return Page(template="papers/papers.html", page=papers_page(visit.floor, _known(visit)))


def make(visit: Visit) -> Answer:
    """Have the pack made, or stop that, or take the best plan found so far."""
    known, planner = _known(visit), visit.floor.planner
    match visit.said("do"):
        case "stop":
            planner.stop(known, Work.PACK)
        case "enough":
            planner.enough(known)
        case _:
            planner.ask(known, Work.PACK, plan=plan_in_force(visit.floor, known))
    return Go(to=_address(known))


def look_at_made(visit: Visit) -> Answer:
    """One paper of the pack, as it would go out."""
    known, name = visit.floor.job(visit.place("job"), _number(visit.place("number"))), visit.place("paper")
    for paper in visit.floor.planner.pack_of(known):
        if paper.name == name:
            return sent(paper, known.name, known.number)
    raise missing(name)


def look_at_sent(visit: Visit) -> Answer:
    """One paper as it went out, byte for byte."""
    job, seq, name = visit.place("job"), _number(visit.place("seq")), visit.place("paper")
    for one in issued(visit.floor.store, job):
        if one.seq == seq and one.name == name:
            return sent(paper_as_issued(visit.floor.store, seq), job, one.revision)
    raise missing(name)


def send(visit: Visit) -> Answer:
    """The chosen papers, looked over with the whole job first; sent out; or the page of all papers again."""
    known = _known(visit)
    match visit.said("do"):
        case "over":
            return _looked_over(visit, known)
        case "back":
            return Page(template="papers/papers.html", page=_as_chosen(visit, known))
        case _:
            return _sent_out(visit, known)


def _looked_over(visit: Visit, known: Known) -> Answer:
    try:
        papers = _chosen(visit, known)
    except NotYetRight as trouble:
        return _not_sent(visit, known, trouble)
    return Page(template="papers/over.html", page=_over(visit, known, papers))


def _over(visit: Visit, known: Known, papers: tuple[Paper, ...]) -> OverPage:
    chosen = Chosen(
        papers=tuple(paper.name for paper in papers),
        seen=visit.said("seen"),
        note=visit.said("note"),
        despite=visit.all_said("despite"),
    )
    return over_page(visit.floor, known, chosen)


def _sent_out(visit: Visit, known: Known) -> Answer:
    """Note that the chosen papers go out, and keep them as they are; what is doubtful is shown first."""
    try:
        papers = _chosen(visit, known)
        issuing = Issuing(
            key=visit.key,
            by=visit.by,
            job=known.name,
            revision=known.number,
            papers=papers,
            note=" ".join(visit.said("note").split()),
            despite=visit.all_said("despite"),
        )
        issue(visit.floor.store, issuing)
    except NotYetRight as trouble:
        return _not_sent(visit, known, trouble)
    visit.floor.feed.tell()
    told = f"Revision {known.number} went out: {len(papers)} {'paper' if len(papers) == 1 else 'papers'}."
    return Go(to=_address(known), told=Told(words=told))


def _chosen(visit: Visit, known: Known) -> tuple[Paper, ...]:
    """The papers that were ticked, if they are still the ones that were looked at."""
    papers, ticked = visit.floor.planner.pack_of(known), visit.all_said("paper")
    if not papers or visit.said("seen") != mark_of(papers) or is_outdated(visit.floor, known):
        what, mend = "these papers are no longer as you saw them", "have the pack made, and look at it again"
        raise _amiss("papers-changed", what, mend)
    chosen = tuple(paper for paper in papers if paper.name in ticked)
    if not chosen:
        raise _amiss("papers-chosen", "no paper is ticked", "tick those that go out")
    return chosen


def _not_sent(visit: Visit, known: Known, trouble: NotYetRight) -> Answer:
    """The page again; where everything told is only doubtful, with leave to go on in spite of it."""
    problems, slips = trouble.problems, slips_of(trouble.problems, "send")
    if any(problem.stops for problem in problems):
        return Page(template="papers/papers.html", page=_as_chosen(visit, known, slips), status=422)
    page = _over(visit, known, _chosen(visit, known))
    chosen = replace(page.chosen, despite=tuple(each.code for each in problems))
    return Page(template="papers/over.html", page=replace(page, chosen=chosen, slips=slips), status=422)


def _as_chosen(visit: Visit, known: Known, slips: tuple[Slip, ...] = ()) -> PapersPage:
    """The page of all papers, with those ticked that were, and the note that was typed."""
    page = papers_page(visit.floor, known, slips)
    return replace(page, note=visit.said("note"), unticked=unticked(page, visit.all_said("paper")))


def _known(visit: Visit) -> Known:
    return visit.floor.job(visit.place("job"), revision_said(visit))


def _address(known: Known) -> str:
    return f"/jobs/{known.name}/papers?revision={known.number}"


def _number(said: str) -> int:
    """A number of an address; 0, under which there is nothing, where it says none."""
    return int(said) if said.isascii() and said.isdecimal() and len(said) < 10 else 0


def _amiss(code: str, what: str, mend: str) -> NotYetRight:
    return NotYetRight([Problem(where=Where(name="papers"), code=code, what=what, mend=mend)])


ROUTES = (
    Route(path="/jobs/{job}/papers", does=look, may=WORKSHOP),
    Route(path="/jobs/{job}/papers/make", does=make, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/papers/send", does=send, may=OFFICE_ONLY, method="POST"),
    Route(path="/jobs/{job}/papers/made/{number}/{paper:path}", does=look_at_made, may=WORKSHOP),
    Route(path="/jobs/{job}/papers/went/{seq}/{paper:path}", does=look_at_sent, may=WORKSHOP),
    *papers_labels.ROUTES,
    *papers_marks.ROUTES,
)
