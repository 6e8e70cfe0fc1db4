"""Papers that went out to the bench: kept as issued, byte for byte, and each time noted in the ledger."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from pinchrod.ground import NotYetRight, Problem, quoted
from pinchrod.papers import Paper
from pinchrod.store.base import Base, Row, insert, words_of
from pinchrod.store.deeds import By, Deed, Event, Recorded
from pinchrod.store.event_rows import append, select
from pinchrod.store.job_files import keep_content, mark_of
from pinchrod.store.jobs import revisions_in
from pinchrod.store.opening import Store
from pinchrod.store.putting_away import check_at_hand
from pinchrod.store.requests import answer_before, keep_answer, odd_words, payload_of
from pinchrod.store.telling import amiss
from pinchrod.store.times import spelled, this_moment

MOST_PAPERS = 5_000  # a pack with a drawing of every frame, twice


@dataclass(frozen=True, slots=True, kw_only=True)
class Issuing:
    """Papers of one revision of a job that go out now; `despite` as in a request of the ledger."""

    key: str
    by: By
    job: str
    revision: int
    papers: tuple[Paper, ...]
    note: str = ""  # why labels are printed again, say
    despite: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """A paper that went out: `seq` is the number of its event in the ledger."""

    seq: int
    job: str
    revision: int
    name: str
    mark: str  # sha256 of its content


def issue(store: Store, issuing: Issuing, *, now: datetime | None = None) -> Recorded:
    """The events of papers that go out, once they and the papers are safe: all of them, or none.

    Papers of a revision that is not the newest go out only if that was shown and is gone on in spite of.
    """
    _check(issuing)
    sent = [[paper.name, mark_of(paper.content)] for paper in issuing.papers]
    payload = payload_of("issue", issuing.by, issuing.job, issuing.revision, issuing.note, sent)
    with store.writing() as base:
        answer = answer_before(base, issuing.key, payload)
        if answer is not None:
            return Recorded(events=select(base, "key = :key", key=issuing.key))
        doubts = _doubts(base, issuing)
        codes = tuple(doubt.code for doubt in doubts)
        events = tuple(_events(issuing, codes, spelled(now or this_moment())))
        keep_answer(base, issuing.key, payload, "")
        written = append(base, events)
        for event, paper in zip(written, issuing.papers, strict=True):
            _keep(base, event, paper)
        return Recorded(events=written, doubts=doubts)


def issued(store: Store, job: str, revision: int = 0) -> tuple[Issued, ...]:
    """Every paper of a job that went out, or of one revision of it, the oldest first."""
    sql = "SELECT seq, job, revision, name, content FROM papers WHERE job = :job"
    with store.reading() as base:
        if revision:
            rows = base.rows(f"{sql} AND revision = :revision ORDER BY seq", job=job, revision=revision)
        else:
            rows = base.rows(f"{sql} ORDER BY seq", job=job)
    return tuple(issued_of(row) for row in rows)


def paper_as_issued(store: Store, seq: int) -> Paper:
    """A paper as it went out, by the number of its event; NotYetRight if none did under that number."""
    with store.reading() as base:
        found = base.rows(
            "SELECT p.name, c.content FROM papers p JOIN contents c ON c.mark = p.content WHERE p.seq = :seq",
            seq=seq,
        )
    if not found:
        what = f"no paper went out with event {seq}"
        raise NotYetRight([amiss(f"event {seq}", "paper-missing", what, "choose one from the list")])
    [[name, content]] = found
    return Paper(name=str(name), content=content if isinstance(content, bytes) else b"")


def issued_of(row: Row) -> Issued:
    """The issue that a row holds."""
    job, name, mark = words_of(row, 1, 3, 4)
    return Issued(seq=int(row[0]), job=job, revision=int(row[2]), name=name, mark=mark)


def _doubts(base: Base, issuing: Issuing) -> tuple[Problem, ...]:
    away = tuple(check_at_hand(base, issuing.job))
    if away:
        raise NotYetRight(away)
    found = revisions_in(base, issuing.job)
    if not 1 <= issuing.revision <= len(found):
        what = f"there is no revision {issuing.revision} of a job {quoted(issuing.job)}"
        raise NotYetRight([amiss("job", "revision-missing", what, "choose one that was saved")])
    if issuing.revision == len(found):
        return ()
    what = f"these papers are of revision {issuing.revision}; the job is at revision {len(found)}"
    doubt = amiss("papers", "paper-superseded", what, "issue those of the newest revision", stops=False)
    if doubt.code not in issuing.despite:
        raise NotYetRight([doubt])
    return (doubt,)


def _check(issuing: Issuing) -> None:
    problems = list(odd_words(issuing.key, issuing.by, note=issuing.note))
    if not 0 < len(issuing.papers) <= MOST_PAPERS:
        what = f"{len(issuing.papers)} papers are to go out at once"
        problems.append(amiss("papers", "paper-count", what, f"issue 1 to {MOST_PAPERS}"))
    problems += _doubled(issuing.papers)
    if problems:
        raise NotYetRight(problems)


def _doubled(papers: Sequence[Paper]) -> Iterator[Problem]:
    for name, count in Counter(paper.name for paper in papers).items():
        if count > 1:
            what = f"{count} papers are called {quoted(name)}"
            yield amiss("papers", "paper-doubled", what, "issue each paper once")


def _events(issuing: Issuing, codes: tuple[str, ...], at: str) -> Iterator[Event]:
    for part, paper in enumerate(issuing.papers):
        yield Event(
            seq=0,
            key=issuing.key,
            part=part,
            deed=Deed.ISSUED,
            job=issuing.job,
            revision=issuing.revision,
            at=at,
            by=issuing.by,
            paper=paper.name,
            reason=issuing.note,
            despite=codes,
            proof=mark_of(paper.content),
        )


def _keep(base: Base, event: Event, paper: Paper) -> None:
    insert(
        base,
        "papers",
        seq=event.seq,
        job=event.job,
        revision=event.revision,
        name=paper.name,
        content=keep_content(base, paper.content),
    )
