"""A frame at the bench: what is missing for it, how it is glued, what its diagonals say."""

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from pinchrod.bench import Gluing
from pinchrod.fit import (
    Diagonals,
    Verdict,
    advice_words,
    check_taped,
    leaning_words,
    squareness,
    taped_from,
    tapering_words,
)
from pinchrod.ground import Mm, NotALength, NotYetRight, Problem, Where, quoted, read_length, show
from pinchrod.papers import at_hand_words, clamp_words, closing_words
from pinchrod.plan import Plan
from pinchrod.setting_out import Rod
from pinchrod.store import Deed, Entry, Standing
from pinchrod.web.bench_frames import Missing, Stage, frame_stands
from pinchrod.web.bench_pages import Box, frame_address
from pinchrod.web.bench_pictures import gluing_picture, piece_picture
from pinchrod.web.known import Known
from pinchrod.web.scans_touches import Touch
from pinchrod.web.trouble import Slip
from pinchrod.web.within import Within, within

DIAGONALS = (("rising", "lower left to upper right"), ("falling", "upper left to lower right"))


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueRow:
    """One step of gluing up."""

    number: int
    part: str
    onto: str
    way: str
    closes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePage:
    """A frame."""

    within: Within
    box: Box
    frame: str
    size: str
    stage: Stage
    pieces: tuple[str, ...]
    missing: tuple[Missing, ...]
    picture: Markup
    planned: bool
    cautions: tuple[str, ...]
    at_hand: tuple[str, ...]
    steps: tuple[GlueRow, ...]
    clamps: tuple[str, ...]
    square: str  # what both diagonals are when it stands square
    taped_from: str
    verdict: tuple[str, ...]
    address: str
    undo: Touch | None
    rising: str = ""  # as typed
    falling: str = ""
    slips: tuple[Slip, ...] = ()
    again: str = ""  # what may be said all the same: glued, checked, delivered
    despite: tuple[str, ...] = ()  # the doubts that were shown
    doubt: str = ""  # them in words


def frame_page(
    known: Known,
    frame: tuple[Rod, tuple[Entry, ...]],
    plan: Plan | None,
    standings: Mapping[str, Standing],
    undo: Touch | None,
) -> FramePage:
    """The page of a frame."""
    rod, entries = frame
    name = entries[0].frame
    stands = frame_stands(name, entries, standings)
    step = known.shop.practice.resolution
    gluing = _gluing(plan, rod)
    address = frame_address(known.name, name)
    return FramePage(
        within=within(known.revision, "bench"),
        box=Box(job=known.name, back=address),
        frame=name,
        size=f"{show(rod.frame.width, step)} × {show(rod.frame.height, step)}",
        stage=stands.stage,
        pieces=tuple(entry.mark for entry in entries),
        missing=stands.missing,
        picture=gluing_picture(rod, gluing) if gluing else piece_picture(rod, ""),
        planned=gluing is not None,
        cautions=gluing.cautions if gluing else (),
        at_hand=at_hand_words(gluing) if gluing else (),
        steps=_steps(gluing) if gluing else (),
        clamps=tuple(clamp_words(gluing.clamps, step)) if gluing else (),
        square=show(gluing.diagonals.diagonal, step) if gluing else "",
        taped_from=taped_from(rod),
        verdict=_verdict_of(known, rod, standings.get(entries[0].mark)),
        address=address,
        undo=undo,
    )


def _gluing(plan: Plan | None, rod: Rod) -> Gluing | None:
    if plan is None:
        return None
    return next((gluing for gluing in plan.bench.gluings if gluing.frame == rod.frame.id), None)


def _steps(gluing: Gluing) -> tuple[GlueRow, ...]:
    return tuple(
        GlueRow(
            number=number,
            part=step.part.name,
            onto=step.onto.name,
            way=str(step.way),
            closes=closing_words(gluing, step),
        )
        for number, step in enumerate(gluing.steps, start=1)
    )


def read_diagonals(rising: str, falling: str) -> Diagonals:
    """The two lengths that were typed; NotYetRight with a problem for each that is none."""
    found: dict[str, Mm] = {}
    problems: list[Problem] = []
    for typed, (name, words) in zip((rising, falling), DIAGONALS, strict=True):
        try:
            found[name] = _length(typed)
        except NotALength as trouble:
            where = Where(name=words)
            problems.append(Problem(where=where, code=trouble.code, what=trouble.what, mend=trouble.mend))
    if problems:
        raise NotYetRight(problems)
    return Diagonals(rising=found["rising"], falling=found["falling"])


def _length(typed: str) -> Mm:
    length = read_length(typed) if typed.strip() else Mm(0)
    if length > 0:
        return length
    what = f"{quoted(typed)} is no length of a diagonal" if typed.strip() else "it is not typed"
    raise NotALength(code="diagonal-length", what=what, mend="type it as taped: 1077.5")


def verdict_words(known: Known, rod: Rod, taped: Diagonals) -> tuple[str, ...]:
    """What two diagonals say of a frame; NotYetRight if they are no frame's of its size."""
    misread = check_taped(rod, taped, known.shop.taping)
    if misread:
        raise NotYetRight([misread])
    found = squareness(rod, taped, known.shop.taping)
    worst = (tapering_words(found.worst),) if found.worst else ()
    return (advice_words(found), f"{rod.frame.id}: {leaning_words(found)}.", *worst)


def may_stay(known: Known, rod: Rod, taped: Diagonals) -> bool:
    """Whether a frame is left as it stands; NotYetRight if the diagonals are no frame's of its size."""
    verdict_words(known, rod, taped)
    return squareness(rod, taped, known.shop.taping).verdict is Verdict.LEAVE


def _verdict_of(known: Known, rod: Rod, standing: Standing | None) -> tuple[str, ...]:
    """The verdict on the diagonals that stand in the ledger."""
    event = standing.when(Deed.CHECKED) if standing else None
    if event is None:
        return ()
    taped = Diagonals(rising=event.diagonals[0], falling=event.diagonals[1])
    step = known.shop.practice.resolution
    lengths = f"Taped {show(taped.rising, step)} and {show(taped.falling, step)} by {event.by}."
    return (lengths, *verdict_words(known, rod, taped))
