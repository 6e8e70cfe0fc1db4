"""What went out of a job: when, by whom, why, and each paper as it was."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby
from urllib.parse import quote

from pinchrod.store import Event, Issued, Store, events_after, issued
from pinchrod.web.papers_files import in_words, is_shown

MOST_SHOWN = 50
FEW = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class SentPaper:
    """One paper that went out."""

    name: str
    words: str
    address: str
    shown: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Sending:
    """Papers that went out together."""

    first: int  # its line in the ledger
    revision: int
    at: str
    by: str
    note: str
    outdated: bool
    papers: tuple[SentPaper, ...]

    @property
    def short(self) -> bool:
        """Whether they are so few that they stand there unfolded, as labels printed again do."""
        return len(self.papers) <= FEW


def sendings(store: Store, job: str, newest: int) -> tuple[Sending, ...]:
    """Every time that papers of the job went out, the last first."""
    papers = sorted(issued(store, job), key=lambda paper: paper.seq)
    runs = [[paper for _, paper in run] for _, run in groupby(enumerate(papers), key=_run_of)]
    return tuple(
        _sending(together, events, newest)
        for run in reversed(runs)
        for together, events in reversed(list(_by_request(store, run)))
    )[:MOST_SHOWN]


def _run_of(numbered: tuple[int, Issued]) -> int:
    """The same for all papers whose lines of the ledger follow one upon another."""
    place, paper = numbered
    return paper.seq - place


def _by_request(store: Store, run: list[Issued]) -> Iterator[tuple[list[Issued], list[Event]]]:
    """The papers of each request, with the lines of the ledger that say so."""
    events = {event.seq: event for event in events_after(store, run[0].seq - 1, most=len(run))}
    for _, together in groupby(run, key=lambda paper: events[paper.seq].key):
        papers = list(together)
        yield papers, [events[paper.seq] for paper in papers]


def _sending(papers: list[Issued], events: list[Event], newest: int) -> Sending:
    first = events[0]
    return Sending(
        first=first.seq,
        revision=first.revision,
        at=f"{first.at[:16].replace('T', ' ')} UTC",
        by=str(first.by),
        note=first.reason,
        outdated=first.revision != newest,
        papers=tuple(_sent_papers(papers)),
    )


def _sent_papers(papers: Iterable[Issued]) -> Iterator[SentPaper]:
    for paper in papers:
        yield SentPaper(
            name=paper.name,
            words=in_words(paper.name),
            address=f"/jobs/{paper.job}/papers/went/{paper.seq}/{quote(paper.name)}",
            shown=is_shown(paper.name),
        )
