"""Labels again: for a label that was lost or spoiled. It is noted why, and never becomes a second piece."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from pinchrod.ground import NotYetRight, Problem, Where, quoted
from pinchrod.papers import OnePiece, Paper, labelled, labels_again
from pinchrod.store import Issuing, issue
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.known import Known
from pinchrod.web.roles import OFFICE_ONLY
from pinchrod.web.routes import Route
from pinchrod.web.trouble import Slip, slips_of
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

FIELDS = {"label-place": "first", "words-too-long": "why", "words-unseen": "why"}
USUAL = "label lost or spoiled"


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelTick:
    """A piece whose label may be printed again."""

    mark: str
    role: str
    ticked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameLabels:
    """The pieces of one frame."""

    frame: str
    ticks: tuple[LabelTick, ...]

    @property
    def open(self) -> bool:
        """Whether any of them is ticked."""
        return any(tick.ticked for tick in self.ticks)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsPage:
    """The form."""

    within: Within
    frames: tuple[FrameLabels, ...]
    places: int  # labels on a sheet
    typed: str = ""
    first: str = "1"
    why: str = USUAL
    slips: tuple[Slip, ...] = ()


def look(visit: Visit) -> Answer:
    """The form, for the pieces that are asked for."""
    return Page(template="papers/labels.html", page=_page(visit, visit.floor.job(visit.place("job"))))


def print_again(visit: Visit) -> Answer:
    """The labels, noted as gone out with the reason; they are then at the top of what went out."""
    known = visit.floor.job(visit.place("job"))
    try:
        marks, first = _said(visit, known)
        papers = _papers(known, marks, first)
        issuing = Issuing(
            key=visit.key,
            by=visit.by,
            job=known.name,
            revision=known.number,
            papers=papers,
            note=_note(visit, marks),
        )
        seq = issue(visit.floor.store, issuing).events[0].seq
    except NotYetRight as trouble:
        page = _page(visit, known, tuple(_slips(trouble)))
        return Page(template="papers/labels.html", page=page, status=422)
    visit.floor.feed.tell()
    told = f"{len(marks)} {'label is' if len(marks) == 1 else 'labels are'} ready: open and print them below."
    return Go(to=f"/jobs/{known.name}/papers#went-{seq}", told=Told(words=told))


def _papers(known: Known, marks: frozenset[str], first: int) -> tuple[Paper, ...]:
    return tuple(labels_again(known.job, known.shop, known.rods, marks, first))


def _note(visit: Visit, marks: frozenset[str]) -> str:
    """Why, and of which pieces, as far as there is room for it."""
    why = " ".join(visit.said("why").split()) or USUAL
    return f"{why}: {', '.join(sorted(marks))}"[:1_900]


def _said(visit: Visit, known: Known) -> tuple[frozenset[str], int]:
    """The marks that were ticked or typed, and where on the sheet to begin; all that is wrong at once."""
    marks, unknown = _marks(visit, known)
    problems = [_unknown(said) for said in unknown]
    if not marks and not unknown:
        problems.append(_amiss("labels-chosen", "no piece is chosen", "tick one, or type its mark"))
    first = visit.said("first").strip()
    if not (first.isascii() and first.isdecimal() and len(first) < 5 and 1 <= int(first) <= _places(known)):
        what = f"{quoted(first[:20])} is no place on a sheet of {_places(known)} labels"
        problems.append(_amiss("label-place", what, f"say 1 to {_places(known)}"))
    if problems:
        raise NotYetRight(problems)
    return marks, int(first)


def _marks(visit: Visit, known: Known) -> tuple[frozenset[str], tuple[str, ...]]:
    """The pieces meant, and the words that mean none. A frame's own mark means all of its pieces."""
    pieces = labelled(known.rods)
    by_mark = {piece.mark.upper(): piece.mark for piece in pieces}
    typed = visit.said("pieces").replace(",", " ").replace(";", " ").split()
    found, unknown = set(), []
    for said in (*visit.all_said("piece"), *typed):
        of_frame = {piece.mark for piece in pieces if piece.frame.upper() == said.upper()}
        one = by_mark.get(said.upper())
        found |= {one} if one else of_frame
        unknown += [] if one or of_frame else [said]
    return frozenset(found), tuple(unknown)


def _page(visit: Visit, known: Known, slips: tuple[Slip, ...] = ()) -> LabelsPage:
    ticked = frozenset(said.upper() for said in visit.all_said("piece"))
    pieces = sorted(labelled(known.rods), key=lambda piece: _place_of(known, piece.frame))
    frames = groupby(pieces, key=lambda piece: piece.frame)
    return LabelsPage(
        within=within(known.revision, "papers"),
        frames=tuple(
            FrameLabels(frame=frame, ticks=tuple(_tick(piece, ticked) for piece in of_frame))
            for frame, of_frame in frames
        ),
        places=_places(known),
        typed=visit.said("pieces"),
        first=visit.said("first", "1"),
        why=visit.said("why", USUAL),
        slips=slips,
    )


def _tick(piece: OnePiece, ticked: frozenset[str]) -> LabelTick:
    return LabelTick(mark=piece.mark, role=piece.role, ticked=piece.mark.upper() in ticked)


def _place_of(known: Known, frame: str) -> int:
    return next(place for place, rod in enumerate(known.rods.rods) if rod.frame.id == frame)


def _places(known: Known) -> int:
    return known.shop.labels.columns * known.shop.labels.rows


def _slips(trouble: NotYetRight) -> Iterator[Slip]:
    for problem in trouble.problems:
        yield from slips_of([problem], FIELDS.get(problem.code, "pieces"))


def _unknown(said: str) -> Problem:
    what = f"{quoted(said[:40])} is no piece of this job and no frame"
    return _amiss("labels-chosen", what, "type marks as on the cutting list: K1-LS, or K1 for all of K1")


def _amiss(code: str, what: str, mend: str) -> Problem:
    return Problem(where=Where(name="labels"), code=code, what=what, mend=mend)


ROUTES = (
    Route(path="/jobs/{job}/papers/labels", does=look, may=OFFICE_ONLY),
    Route(path="/jobs/{job}/papers/labels", does=print_again, may=OFFICE_ONLY, method="POST"),
)
