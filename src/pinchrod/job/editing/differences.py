"""What was changed from one state of a job to another, in the words of a job file."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields

from pinchrod.ground import Mm, Span, spell
from pinchrod.job.boards import Board, Fault
from pinchrod.job.offers import Offer, Per
from pinchrod.job.phrases.spelling import spell_phrase
from pinchrod.job.rack import by_volume
from pinchrod.job.records import Bead, Doors, Frame, Gaps, Issue, Job

Told = Mapping[str, str]
"""What is said under each name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing said otherwise; `frame` is blank where it is the job's, `was` or `now` where nothing was."""

    frame: str
    what: str
    was: str
    now: str


def changes_between(old: Job, new: Job) -> tuple[Change, ...]:
    """Every change: the job's first, then the frames' in the order in which they stood, then what came in.

    A frame of another id that says just what one says that is gone was only called otherwise. What
    changed alike in every frame, as when a usual size is another, is told once.
    """
    before, after = _frames(old), _frames(new)
    called = _called_otherwise(before, after)
    stayed = {name: called.get(name, name) for name in before if called.get(name, name) in after}
    inside = tuple(each for name in stayed for each in _differences(name, before[name], after[stayed[name]]))
    everywhere = _everywhere(inside, len(stayed))
    return (
        *_differences("", _job(old), _job(new)),
        *everywhere,
        *_order(tuple(stayed.values()), tuple(name for name in after if name in stayed.values())),
        *(each for each in inside if not _told_by(each, everywhere)),
        *(_gone(name, said) for name, said in before.items() if name not in stayed),
        *(_come(name, said) for name, said in after.items() if name not in stayed.values()),
    )


def _differences(frame: str, old: Told, new: Told) -> Iterator[Change]:
    """What is said under one name and was said otherwise, or only once."""
    for what in dict.fromkeys((*old, *new)):
        was, now = old.get(what, ""), new.get(what, "")
        if was != now:
            yield Change(frame=frame, what=what, was=was, now=now)


def _called_otherwise(before: Mapping[str, Told], after: Mapping[str, Told]) -> Mapping[str, str]:
    """The new id of each frame that is there only under another."""
    fresh = [name for name in after if name not in before]
    called: dict[str, str] = {}
    for name in (name for name in before if name not in after):
        same = (other for other in fresh if _but_id(after[other]) == _but_id(before[name]))
        other = next((other for other in same if other not in called.values()), None)
        called |= {} if other is None else {name: other}
    return called


def _but_id(said: Told) -> Told:
    return {what: words for what, words in said.items() if what != "id"}


def _everywhere(changes: Iterable[Change], frames: int) -> tuple[Change, ...]:
    """What changed alike in every one of several frames, as changes of the job."""
    alike: dict[Change, int] = {}
    for each in changes:
        every = Change(frame="", what=f"{each.what} of every frame", was=each.was, now=each.now)
        alike[every] = alike.get(every, 0) + 1
    return tuple(every for every, count in alike.items() if count == frames > 1)


def _told_by(change: Change, everywhere: tuple[Change, ...]) -> bool:
    return any(
        (every.what, every.was, every.now) == (f"{change.what} of every frame", change.was, change.now)
        for every in everywhere
    )


def _order(old: tuple[str, ...], new: tuple[str, ...]) -> Iterator[Change]:
    if old != new:
        yield Change(frame="", what="order of the frames", was=", ".join(old), now=", ".join(new))


def _gone(name: str, said: Told) -> Change:
    return Change(frame=name, what="frame", was=_in_short(said), now="")


def _come(name: str, said: Told) -> Change:
    return Change(frame=name, what="frame", was="", now=_in_short(said))


def _in_short(said: Told) -> str:
    return f"{said['width']} x {said['height']}, {said['layout']}"


def _frames(job: Job) -> dict[str, Told]:
    return {frame.id: _frame(frame) for frame in job.frames}


def _frame(frame: Frame) -> Told:
    """A frame's names and words; its layout spelled our way, so that a gap more is no change."""
    sizes = ("left_stile", "right_stile", "top_rail", "bottom_rail", "mid_rail", "muntin", "foot")
    return {
        "id": frame.id,
        "width": _size(frame.width),
        "height": _size(frame.height),
        "layout": spell_phrase(frame.layout),
        "quantity": str(frame.quantity),
        **{name.replace("_", " "): _size(getattr(frame, name)) for name in sizes},
    }


def _job(job: Job) -> Told:
    """All that is not a frame's own."""
    doors = {} if job.doors is None else _fields("door", job.doors)
    return {
        "name": job.name,
        "customer": job.customer,
        "timber": job.timber.name,
        **{
            f"timber {name}": _words(getattr(job.timber, name))
            for name in ("density", "radial", "tangential")
        },
        "thickness": _size(job.thickness),
        "joint": str(job.joint),
        **_fields("bead", job.bead),
        **_fields("gap", job.gaps),
        "front thickness": _size(job.front_thickness),
        **doors,
        **_fields("", job.issue),
        **_boards(job.rack),
        **_offers(job.offers),
    }


def _fields(of: str, record: Bead | Gaps | Doors | Issue) -> dict[str, str]:
    """A record's fields by their names: `bead width`, `gap edge`."""
    names = [field.name for field in fields(record)]
    return {f"{of} {name}".strip().replace("_", " "): _words(getattr(record, name)) for name in names}


def _words(value: object) -> str:
    if value is None:
        return ""
    return _size(value) if isinstance(value, Mm) else str(value)


def _size(size: Mm) -> str:
    """A size in millimetres, or a plain number, exactly."""
    return spell(size).removesuffix(" mm")


def _boards(rack: tuple[Board, ...]) -> dict[str, str]:
    """Each board under its name; without prices each costs its volume, of which nothing was said."""
    priced = not by_volume(rack)
    return {f"board {board.name}": _board(board, priced=priced) for board in rack}


def _board(board: Board, *, priced: bool) -> str:
    """A board's tally in one line, as the rack's columns say it."""
    size = " x ".join(_size(side) for side in (board.thickness, board.width, board.length))
    more = {"bow": board.bow, "spring": board.spring, "price": board.price if priced else Mm(0)}
    told = [size, *(f"{name} {_size(amount)}" for name, amount in more.items() if amount)]
    return ", ".join((*told, *(_fault(fault) for fault in board.faults)))


def _fault(fault: Fault) -> str:
    across = "" if fault.across is None else f"@{_span(fault.across)}"
    return f"{_span(fault.along)}{across}{' back' if fault.back_only else ''}"


def _span(span: Span) -> str:
    return f"{_size(span.low)}-{_size(span.high)}"


def _offers(offers: Iterable[Offer]) -> dict[str, str]:
    return {f"offer {offer.name}": _offer(offer) for offer in offers}


def _offer(offer: Offer) -> str:
    """An offer in one line; of what was sent before only how much it is."""
    sides = (_size(offer.thickness), _side(offer.width), _side(offer.length))
    tally = f" by {offer.tallying}" if offer.per is Per.BOARD_FOOT else ""
    sent = f", {len(offer.history)} boards sent before" if offer.history else ""
    return f"{' x '.join(sides)}, {_size(offer.price)} per {offer.per}{tally}{sent}"


def _side(span: Span) -> str:
    return _span(span) if span.length else _size(span.low)
