"""What a paper's content mark stands for: which job and revision, and whether it is outdated."""

from dataclasses import dataclass

from pinchrod.ground import Problem, Where, quoted
from pinchrod.store import Revision, revision_at, revisions_of_mark
from pinchrod.web.answers import Answer, Page
from pinchrod.web.floor import Floor
from pinchrod.web.letting_in import ALIKE, LETTERS
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit

LENGTH = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class OfMark:
    """A job of which a paper with that mark is, and how the paper stands to it."""

    job: str
    name: str
    number: int  # the newest revision that bears the mark
    newest: int
    saved: str

    @property
    def current(self) -> bool:
        """Whether the paper is of the newest revision."""
        return self.number == self.newest


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPage:
    """What was looked up, and what it is of."""

    said: str
    shown: str = ""  # the mark as papers have it
    piece: str = ""  # the piece's mark, where a label was scanned
    found: tuple[OfMark, ...] = ()
    slips: tuple[Slip, ...] = ()

    @property
    def unknown(self) -> bool:
        """Whether a mark was said that no job here has."""
        return bool(self.shown and not self.found)


def look(visit: Visit) -> Answer:
    """The field, and what the mark in it is of."""
    said = dict(visit.places).get("mark", visit.said("mark")).strip()
    if not said:
        return Page(template="papers/mark.html", page=MarkPage(said=""))
    mark, piece = read_mark(said)
    if not mark:
        slips = slips_of([_no_mark(said)], "mark")
        return Page(template="papers/mark.html", page=MarkPage(said=said, slips=slips), status=422)
    found = _found(visit.floor, revisions_of_mark(visit.floor.store, mark))
    return Page(template="papers/mark.html", page=MarkPage(said=said, shown=mark, piece=piece, found=found))


def read_mark(said: str) -> tuple[str, str]:
    """A content mark as papers have it, and the piece's mark behind it: both from a label's code.

    Small letters, gaps and letters that look alike do not matter. An empty mark: it was none.
    """
    first, _, piece = said.partition("/")
    plain = "".join(first.upper().split()).replace("-", "").translate(ALIKE)
    if len(plain) != LENGTH or not set(plain) <= set(LETTERS):
        return "", ""
    return f"{plain[:4]}-{plain[4:]}", piece.strip()[:80]


def _found(floor: Floor, revisions: tuple[Revision, ...]) -> tuple[OfMark, ...]:
    """One for each job, by its newest revision with the mark: a job may have come back to an older state."""
    last = {revision.job: revision for revision in revisions}
    return tuple(
        OfMark(
            job=one.job,
            name=one.name,
            number=one.number,
            newest=revision_at(floor.store, one.job).number,
            saved=f"{one.at[:16].replace('T', ' ')} UTC, by {one.by}",
        )
        for one in last.values()
    )


def _no_mark(said: str) -> Problem:
    what = f"{quoted(said[:40])} is no content mark: one has eight letters and figures"
    mend = "type the mark from the foot of the paper, like KY3D-10C8, or scan a label"
    return Problem(where=Where(name="mark"), code="mark-misread", what=what, mend=mend)


ROUTES = (
    Route(path="/m", does=look, may=WORKSHOP),
    Route(path="/m/{mark:path}", does=look, may=WORKSHOP),
)
