"""A piece as the bench sees it: what it is, where it stands, what is next for it."""

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from markupsafe import Markup

from pinchrod.ground import show
from pinchrod.setting_out import Member, Rod
from pinchrod.store import SHAPING, Deed, Entry, Event, Standing
from pinchrod.web.bench_frames import rod_of
from pinchrod.web.bench_pages import Box, frame_address
from pinchrod.web.bench_pictures import piece_picture
from pinchrod.web.known import Known
from pinchrod.web.scans_touches import Touch
from pinchrod.web.trouble import Slip
from pinchrod.web.within import Within, within

REASONS = (
    "split",
    "knot or shake in the way",
    "cut too short",
    "notch or slot in the wrong place",
    "torn out",
    "bead spoiled",
    "dropped or dented",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """A step of a piece, and when it was done and by whom, if it was."""

    step: str
    words: str  # empty: not done yet
    now: bool = False  # the next one


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePage:
    """A piece."""

    within: Within
    box: Box
    piece: str
    role: str
    size: str
    frame: str
    frame_address: str
    picture: Markup
    old_label: str
    steps: tuple[Done, ...]
    settings: tuple[str, ...]  # gone through, and not yet said as a whole
    next: str  # said of the piece by one touch
    next_of_frame: str  # said of its whole frame, on the frame's page
    spoiled: str
    made: int
    last: int  # the event that can be taken back
    last_words: str
    label: str
    address: str
    spoil_address: str
    undo: Touch | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoilPage:
    """Why a piece is spoiled, and where on it."""

    within: Within
    piece: str
    reasons: tuple[str, ...]
    back: str
    slips: tuple[Slip, ...] = ()
    spot: str = ""
    more: str = ""


def piece_page(known: Known, entry: Entry, standing: Standing, label: str, undo: Touch | None) -> PiecePage:
    """The page of a piece."""
    rod, member = member_of(known, entry)
    address = f"/jobs/{known.name}/bench/pieces/{quote(entry.mark)}"
    step = _next(entry, standing)
    last = standing.last
    return PiecePage(
        within=within(known.revision, "bench"),
        box=Box(job=known.name, back=address),
        piece=entry.mark,
        role=str(member.role),
        size=_size(known, member),
        frame=entry.frame,
        frame_address=frame_address(known.name, entry.frame),
        picture=piece_picture(rod, member.name),
        old_label=label if label and label != known.revision.mark else "",
        steps=tuple(_steps(entry, standing, step)),
        settings=_settings(standing),
        next=str(step) if step in SHAPING else "",
        next_of_frame=str(step) if step is not None and step not in SHAPING else "",
        spoiled=_spoiled(standing.spoiled),
        made=standing.made,
        last=last.seq if last else 0,
        last_words=_last_words(last),
        label=label,
        address=address,
        spoil_address=f"/jobs/{known.name}/bench/spoil/{quote(entry.mark)}",
        undo=undo,
    )


def member_of(known: Known, entry: Entry) -> tuple[Rod, Member]:
    """The piece as its rod shows it."""
    rod = rod_of(known.rods, entry.frame)
    if rod is None:
        raise LookupError(f"the roll has a frame {entry.frame} that the rods have not")
    copy = entry.frame.removeprefix(rod.frame.id)
    return rod, next(member for member in rod.members if f"{member.name}{copy}" == entry.mark)


def _size(known: Known, member: Member) -> str:
    step = known.shop.practice.resolution
    return " × ".join(show(size, step) for size in (member.length, member.width, member.thickness))


def _next(entry: Entry, standing: Standing) -> Deed | None:
    if standing.spoiled:
        return None
    return next((step for step in entry.steps if standing.when(step) is None), None)


def _steps(entry: Entry, standing: Standing, following: Deed | None) -> Iterator[Done]:
    for step in entry.steps:
        event = standing.when(step)
        yield Done(step=str(step), words=_when(event) if event else "", now=step is following)


def _when(event: Event) -> str:
    return f"{event.at[:16].replace('T', ' ')} UTC, {event.by}"


def _settings(standing: Standing) -> tuple[str, ...]:
    """The settings gone through since the last step was said: what the machines are at."""
    found: list[str] = []
    for event in standing.of_this_wood:
        found = [*found, event.spot] if event.deed is Deed.THROUGH else []
    return tuple(found)


def _spoiled(event: Event | None) -> str:
    if event is None:
        return ""
    where = f", at {event.spot}" if event.spot else ""
    return f"{event.reason}{where}; {_when(event)}"


def _last_words(event: Event | None) -> str:
    if event is None:
        return ""
    return f"{event.deed} {event.spot}" if event.deed is Deed.THROUGH else str(event.deed)
