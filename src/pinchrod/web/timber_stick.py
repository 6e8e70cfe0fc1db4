"""One stick by itself: its members in their places, and the form that says where a fault showed up."""

from dataclasses import dataclass, replace

from pinchrod.ground import Mm, NotALength, NotYetRight, Span, read_length, show, show_fixed
from pinchrod.papers import InStick, Moved, in_stick, stick_picture, write_svg
from pinchrod.timber import Stick
from pinchrod.web.answers import Answer, Go, Page, Told
from pinchrod.web.known import Known
from pinchrod.web.roles import WORKSHOP
from pinchrod.web.routes import Route
from pinchrod.web.sticks import Around, InForce
from pinchrod.web.templates import drawing
from pinchrod.web.timber_board import LARGE, NARROW, LaneTapped, Tapped
from pinchrod.web.timber_done import done_sticks
from pinchrod.web.timber_drawn import board_address, stick_address
from pinchrod.web.timber_finding import find, stick_missing, stick_of, take_back
from pinchrod.web.trouble import Slip
from pinchrod.web.visit import Visit
from pinchrod.web.within import Within, within

HOME = "/jobs/{job}/timber"
HIGH = 14.0  # mm: the stick in its picture, across
CENT = Mm("0.01")
LABELS = {"from": "Where it begins", "to": "Where it ends"}


@dataclass(frozen=True, slots=True, kw_only=True)
class MemberShown:
    """A member in its stick."""

    mark: str
    low: str
    high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StickPage:
    """A stick, where it lies, what is on it, and the form."""

    within: Within
    name: str
    address: str
    length: str
    section: str
    board: str
    board_address: str
    place: str
    members: tuple[MemberShown, ...]
    tapped: tuple[Tapped, ...]
    done: bool
    low: str
    high: str
    slips: tuple[Slip, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedShown:
    """A stick that is not as it was."""

    name: str
    became: str
    place: str
    members: str
    board: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultShown:
    """A fault that was found, and what it changed; only the newest can be taken back."""

    key: str
    stick: str
    span: str
    by: str
    moved: tuple[MovedShown, ...]
    short: tuple[str, ...]
    dearer: str
    newest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultsPage:
    """Every fault found since the plan was made, the newest first."""

    within: Within
    home: str
    faults: tuple[FaultShown, ...]
    strays: tuple[str, ...]
    planned: bool
    slips: tuple[Slip, ...] = ()


def look(visit: Visit) -> Answer:
    """The stick."""
    known, stands = _standing(visit)
    return Page(template="timber/stick.html", page=_page(visit, known, stands, ()))


def fault(visit: Visit) -> Answer:
    """Plan around a fault in the stick, and say what moves."""
    known, stands = _standing(visit)
    span, slips = _span_said(visit)
    name = visit.place("stick")
    if span is None:
        return Page(template="timber/stick.html", page=_page(visit, known, stands, slips), status=422)
    try:
        found = find(visit, known, name, span)
    except NotYetRight as trouble:
        told = tuple(
            Slip(words=f"{each.what}; {each.mend}", field="from", code=each.code) for each in trouble.problems
        )
        return Page(template="timber/stick.html", page=_page(visit, known, stands, told), status=422)
    return Go(
        to=f"/jobs/{known.name}/timber/faults",
        told=Told(
            words=f"The fault in {found.stick} is planned around.",
            undo=f"/jobs/{known.name}/timber/fault/{found.key}/undo",
            undo_words=f"Undo: fault in {found.stick}",
        ),
    )


def faults(visit: Visit) -> Answer:
    """Every fault found, and what each of them changed."""
    known = visit.floor.job(visit.place("job"))
    return Page(template="timber/faults.html", page=_faults(visit, known, ()))


def undo(visit: Visit) -> Answer:
    """Take the newest fault back: the sticks are as they were before it."""
    known = visit.floor.job(visit.place("job"))
    try:
        take_back(visit, known, visit.place("key"))
    except NotYetRight as trouble:
        slips = tuple(Slip(words=f"{each.what}; {each.mend}", code=each.code) for each in trouble.problems)
        return Page(template="timber/faults.html", page=_faults(visit, known, slips), status=409)
    return Go(
        to=f"/jobs/{known.name}/timber/faults",
        told=Told(words="The fault is taken back; the sticks are as they were before it."),
    )


def _standing(visit: Visit) -> tuple[Known, InForce]:
    """The job and its sticks in force; NotYetRight if the stick is not among them."""
    known = visit.floor.job(visit.place("job"))
    stands = visit.floor.sticks.of(known)
    if stands is None or stick_of(stands, visit.place("stick")) is None:
        raise NotYetRight([stick_missing(visit.place("stick"))])
    return known, stands


def _span_said(visit: Visit) -> tuple[Span | None, tuple[Slip, ...]]:
    """The stretch that was typed, or what is wrong with its ends."""
    read: list[Mm] = []
    slips: list[Slip] = []
    for field, label in LABELS.items():
        try:
            read.append(read_length(visit.said(field)))
        except NotALength as trouble:
            slips.append(
                Slip(words=f"{label}: {trouble.what}; {trouble.mend}", field=field, code=trouble.code)
            )
    return (None if slips else Span(*read)), tuple(slips)


def _page(visit: Visit, known: Known, stands: InForce, slips: tuple[Slip, ...]) -> StickPage:
    stick = stick_of(stands, visit.place("stick"))
    assert stick is not None  # noqa: S101 -- looked for before
    step = known.shop.practice.resolution
    members = in_stick(stick, stands.question)
    return StickPage(
        within=within(known.revision, "timber"),
        name=stick.name,
        address=stick_address(known.name, stick.name),
        length=show(stick.length, step),
        section=f"{show(stick.width, step)} × {show(stick.thickness, step)}",
        board=stick.board,
        board_address=board_address(known.name, stick.board),
        place=f"from {show(stick.start, step)} to {show(stick.start + stick.length, step)}, "
        f"{show(stick.offset, step)} from the sprung edge",
        members=tuple(_member(member, step) for member in members),
        tapped=(
            _tapped(stick, stands, step, LARGE),
            replace(_tapped(stick, stands, step, NARROW), size="narrow"),
        ),
        done=stick.name in done_sticks(visit.floor, known),
        low=visit.said("from"),
        high=visit.said("to"),
        slips=slips,
    )


def _member(member: InStick, step: Mm) -> MemberShown:
    return MemberShown(
        mark=member.mark, low=show_fixed(member.along.low, step), high=show_fixed(member.along.high, step)
    )


def _tapped(stick: Stick, stands: InForce, step: Mm, wide: float) -> Tapped:
    picture = stick_picture(stick, stands.question, wide, HIGH, step)
    return Tapped(
        svg=drawing(write_svg(picture.sheet)),
        wide=picture.sheet.width,
        high=picture.sheet.height,
        per=picture.per,
        across=0.0,
        lanes=(LaneTapped(left=picture.left, top=0.0, low=0.0, high=float(stick.length)),),
    )


def _faults(visit: Visit, known: Known, slips: tuple[Slip, ...]) -> FaultsPage:
    stands = visit.floor.sticks.of(known)
    found = tuple(reversed(stands.around)) if stands else ()
    return FaultsPage(
        within=within(known.revision, "timber"),
        home=f"/jobs/{known.name}/timber",
        faults=tuple(_fault_shown(known, each, newest=not at) for at, each in enumerate(found)),
        strays=tuple(
            f"{one.stick} {_span_words(one.low, one.high)}" for one in (stands.strays if stands else ())
        ),
        planned=stands is not None,
        slips=slips,
    )


def _fault_shown(known: Known, told: Around, *, newest: bool) -> FaultShown:
    fault = told.fault
    return FaultShown(
        key=fault.key,
        stick=fault.stick,
        span=_span_words(fault.low, fault.high),
        by=str(fault.by),
        moved=tuple(_moved_shown(known, each) for each in told.moved),
        short=told.short,
        dearer=show_fixed(told.dearer, CENT) if told.dearer else "",
        newest=newest,
    )


def _moved_shown(known: Known, each: Moved) -> MovedShown:
    stick = each.stick
    return MovedShown(
        name=stick.name,
        became=str(each.became),
        place=f"{show(stick.start)}–{show(stick.start + stick.length)}, {show(stick.offset)} from its edge"
        if each.place
        else "",
        members=", ".join(stick.members) if each.place else "",
        board=stick.board,
        address=board_address(known.name, stick.board),
    )


def _span_words(low: Mm, high: Mm) -> str:
    return f"{show(low)}–{show(high)}"


ROUTES = (
    Route(path=f"{HOME}/faults", does=faults, may=WORKSHOP),
    Route(path=f"{HOME}/fault/{{key}}/undo", does=undo, may=WORKSHOP, method="POST"),
    Route(path=f"{HOME}/stick/{{stick:path}}", does=look, may=WORKSHOP),
    Route(path=f"{HOME}/stick/{{stick:path}}", does=fault, may=WORKSHOP, method="POST"),
)
