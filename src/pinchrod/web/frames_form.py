"""A frame's sizes and phrase as fields, each with what is understood of it and what is wrong with it."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Mm, Problem, show
from pinchrod.job import Members, Words
from pinchrod.web.frames_drawn import Drawn
from pinchrod.web.lengths import in_both
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit

LABELS = {
    "id": "Frame",
    "width": "Width",
    "height": "Height",
    "layout": "What stands in it",
    "quantity": "How many alike",
    "left_stile": "Left stile",
    "right_stile": "Right stile",
    "top_rail": "Top rail",
    "mid_rail": "Rails between",
    "bottom_rail": "Bottom rail",
    "muntin": "Muntins",
    "foot": "Foot",
}
WORDS = ("id", "layout", "quantity")
ORDINARY = ("id", "width", "height", "layout", "quantity")
HINTS = {
    "id": "Stands on every piece: K1-LS",
    "layout": "Top down, left to right: drawer 140 over pair",
    "foot": "How far the stiles run on below the bottom rail",
}
ROLES = {
    "left stile": "left_stile",
    "right stile": "right_stile",
    "top rail": "top_rail",
    "bottom rail": "bottom_rail",
    "rail": "mid_rail",
    "muntin": "muntin",
}
IN_LAYOUT = ("door", "pair", "drawer", "panel", "open")
MISSING = "missing"
OF_ID = ("id-twice", "id-alike", "mark-twice")


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameField:
    """A field: what was typed in it, how it is understood, what is said of it."""

    key: str
    label: str
    value: str
    hint: str
    echo: str
    unit: str
    slips: tuple[Slip, ...]

    @property
    def faulty(self) -> bool:
        """Whether what stands in it has to be mended."""
        return any(not slip.doubt for slip in self.slips)


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameForm:
    """All fields of a frame: those that every frame wants, and those that are as usual unless said."""

    ordinary: tuple[FrameField, ...]
    others: tuple[FrameField, ...]
    slips: tuple[Slip, ...]  # all of them, in the order of the fields; those of no field last
    wanted: tuple[str, ...] = ()  # the labels of fields that are yet to be filled

    @property
    def open(self) -> bool:
        """Whether the fields that are usually left blank are in view."""
        return any(field.value or field.slips for field in self.others)

    @property
    def faults(self) -> tuple[Slip, ...]:
        """What has to be mended."""
        return tuple(slip for slip in self.slips if not slip.doubt)

    @property
    def doubts(self) -> tuple[Slip, ...]:
        """What is doubtful and stands in no field."""
        return tuple(slip for slip in self.slips if slip.doubt and not slip.field)


def form_of(words: Words, drawn: Drawn, more: Iterable[Slip] = (), *, sent: bool = False) -> FrameForm:
    """The fields of a frame that says these words; `more` is what else there is to say.

    A field that is yet to be filled is no fault before the form is sent.
    """
    every = (*(slip_of(problem) for problem in drawn.problems), *more)
    slips = tuple(slip for slip in every if sent or slip.code != MISSING)
    said = dict(words)
    fields = {key: _field(key, said.get(key, ""), drawn.usual, slips) for key in LABELS}
    in_order = sorted(slips, key=lambda slip: [*LABELS, ""].index(slip.field))
    return FrameForm(
        ordinary=tuple(fields[key] for key in ORDINARY),
        others=tuple(fields[key] for key in LABELS if key not in ORDINARY),
        slips=tuple(in_order),
        wanted=tuple(LABELS[slip.field] for slip in every if slip not in slips),
    )


def words_said(visit: Visit) -> Words:
    """What was typed in the fields, blank ones left out."""
    return tuple((key, visit.said(key)) for key in LABELS if visit.said(key).strip())


def slip_of(problem: Problem) -> Slip:
    """A problem beside the field that it is about."""
    field = field_of(problem)
    words = f"{problem.what}; {problem.mend}"
    name = problem.where.name.partition(", ")[2]
    return Slip(
        words=f"{name}: {words}" if name else words,
        field=field,
        doubt=not problem.stops,
        code=problem.code,
    )


def field_of(problem: Problem) -> str:
    """The field that a problem is about, by the name that says it or by the member it is told of."""
    if problem.where.cell in LABELS:
        return problem.where.cell
    if problem.code in OF_ID:
        return "id"
    thing = problem.where.name.partition(", ")[2]
    role = next((key for role, key in ROLES.items() if thing.startswith(f"{role} ")), "")
    return role or ("layout" if thing.partition(" ")[0] in IN_LAYOUT else "")


def _field(key: str, value: str, usual: Members, slips: Iterable[Slip]) -> FrameField:
    return FrameField(
        key=key,
        label=LABELS[key],
        value=value,
        hint=HINTS.get(key, ""),
        echo=_echo(key, value, usual),
        unit="" if key in WORDS else "mm",
        slips=tuple(slip for slip in slips if slip.field == key),
    )


def _echo(key: str, value: str, usual: Members) -> str:
    """The length as it is understood, in either unit; of a blank field, what stands then."""
    if key in WORDS:
        return "1 unless said" if key == "quantity" and not value.strip() else ""
    if not value.strip():
        none = "; 0: none" if key == "bottom_rail" else ""
        stands = _usual(key, usual)
        return f"as usual in this job: {show(stands)} mm{none}" if stands is not None else ""
    return in_both(value)


def _usual(key: str, usual: Members) -> Mm | None:
    """What stands where that name is left blank; None where nothing can."""
    name = "stile" if key in ("left_stile", "right_stile") else key
    found: Mm | None = Mm(0) if key == "foot" else getattr(usual, name, None)
    return found
