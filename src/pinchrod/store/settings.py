"""The settings that wood goes through at the machines, and the deed that is done with the last of them.

A piece notched in three settings is notched when it went through the third, whichever that is. Until the saw
has cut them apart, a stick stands for every piece that it holds.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pinchrod.ground import spell
from pinchrod.machining import Machining, Step, StepSetting
from pinchrod.store.deeds import SHAPING, STEPS, Deed, Said
from pinchrod.store.replay import Standing
from pinchrod.store.rolls import Entry, Roll

DEED_AT = {
    "rip saw": Deed.BROKEN_OUT,
    "planer": Deed.PASSED,
    "thicknesser": Deed.PASSED,
    "moulder": Deed.MOULDED,
    "notcher": Deed.NOTCHED,
    "router table": Deed.NOTCHED,
    "tenoner": Deed.SLOTTED,
    "slotter": Deed.SLOTTED,
}
"""What is done at which machine; the crosscut saw does two things, told apart by what it stops: see below."""
TO_LENGTH = "stop"  # what is set where pieces are cut; for sticks it is their length
PLANED_BY_HAND = "Face and edge"  # nothing is set for it, and everything goes over the planer


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """What goes through as one: a piece, or a stick with all the pieces that are still in it."""

    name: str
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One setting and all that goes through before it is changed.

    `spot` is how the ledger calls it: by what it does to the wood, not by its number, so that another
    revision's settings are never taken for it, and its own still are when only their numbers change.
    """

    step: int  # from 1, as in the order of work
    number: int  # from 1 among those of its step
    spot: str
    deed: Deed
    lots: tuple[Lot, ...]
    setting: StepSetting | None = None  # None: nothing is set


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """How far the wood that bears a mark has come: what it went through, and what was said done."""

    through: frozenset[str] = frozenset()
    done: frozenset[Deed] = frozenset()
    spoiled: bool = False


def turns_of(machining: Machining) -> tuple[Turn, ...]:
    """Every setting that wood goes through, in the order of work."""
    held = {rough.name: Lot(name=rough.name, pieces=rough.pieces) for rough in machining.roughs}
    alone = {mark: Lot(name=mark, pieces=(mark,)) for stop in machining.lengths for mark in stop.pieces}
    return tuple(
        turn
        for number, step in enumerate(machining.steps, start=1)
        for turn in _turns(number, step, {**alone, **held}, tuple(held.values()))
    )


def _turns(number: int, step: Step, lots: Mapping[str, Lot], everything: tuple[Lot, ...]) -> Iterator[Turn]:
    seen: dict[str, int] = defaultdict(int)
    settings = [setting for setting in step.settings if setting.through]
    for place, setting in enumerate(settings, start=1):
        spot = f"{step.title}: {setting.of} {spell(setting.to)}"
        seen[spot] += 1
        yield Turn(
            step=number,
            number=place,
            spot=spot if seen[spot] == 1 else f"{spot}, {seen[spot]}",
            deed=_deed(step, setting),
            lots=tuple(lots[name] for name in setting.through),
            setting=setting,
        )
    if step.title == PLANED_BY_HAND:
        yield Turn(step=number, number=1, spot=step.title, deed=Deed.PASSED, lots=everything)


def _deed(step: Step, setting: StepSetting) -> Deed:
    if step.machine == "crosscut saw":
        return Deed.CUT if setting.of == TO_LENGTH else Deed.BROKEN_OUT
    return DEED_AT[step.machine]


def counts_towards(turn: Turn, entry: Entry) -> Deed | None:
    """The step of a piece that a setting is part of; None if it has none.

    A rail that only gets its bead mitred is never notched: the mitre then belongs to the next thing that is
    done to it, so that it is not ready for the glue without.
    """
    later = SHAPING[SHAPING.index(turn.deed) :]
    return next((deed for deed in later if deed in entry.steps), None)


def gone(standing: Standing) -> Gone:
    """How far the wood has come."""
    return Gone(
        through=frozenset(standing.through),
        done=frozenset(event.deed for event in standing.done),
        spoiled=standing.spoiled is not None,
    )


def is_through(turn: Turn, entry: Entry, so_far: Gone) -> bool:
    """Whether it went through the setting, or what that is part of was said done as a whole."""
    return turn.spot in so_far.through or counts_towards(turn, entry) in so_far.done


def said_through(
    turn: Turn, pieces: Sequence[str], turns: Iterable[Turn], roll: Roll, standings: Mapping[str, Standing]
) -> tuple[Said, ...]:
    """What is to be said when these pieces went through a setting: that, and the deeds done with it.

    Pieces that are spoiled, or went through before, are passed over.
    """
    wanted = dict.fromkeys(pieces)
    entries = {entry.mark: entry for entry in roll.entries if entry.mark in wanted}
    theirs = _by_piece(turns, entries)
    found: list[Said] = []
    for piece in wanted:
        standing = standings.get(piece) or Standing(job=roll.job, piece=piece)
        if piece in entries:
            found.extend(_said(turn, entries[piece], theirs[piece], gone(standing)))
    return tuple(found)


def _said(turn: Turn, entry: Entry, theirs: Iterable[Turn], so_far: Gone) -> Iterator[Said]:
    if so_far.spoiled or is_through(turn, entry, so_far):
        return
    yield Said(deed=Deed.THROUGH, piece=entry.mark, spot=turn.spot)
    deed = counts_towards(turn, entry)
    if deed is not None and is_last(turn, entry, theirs, so_far):
        yield Said(deed=deed, piece=entry.mark)


def is_last(turn: Turn, entry: Entry, theirs: Iterable[Turn], so_far: Gone) -> bool:
    """Whether a piece has gone through all other settings of what this one is part of."""
    deed = counts_towards(turn, entry)
    return all(
        each.spot in so_far.through
        for each in theirs
        if each.spot != turn.spot and counts_towards(each, entry) is deed
    )


def comes_later(turns: Iterable[Turn], turn: Turn) -> bool:
    """Whether the order of work itself has something after this setting that usually comes before it.

    A router table notches before the bead is stuck: then a piece cut and not yet moulded is in its turn.
    """
    usual = STEPS.index(turn.deed)
    return any(each.step > turn.step and STEPS.index(each.deed) < usual for each in turns)


def _by_piece(turns: Iterable[Turn], entries: Mapping[str, Entry]) -> Mapping[str, list[Turn]]:
    found: dict[str, list[Turn]] = {mark: [] for mark in entries}
    for turn in turns:
        for lot in turn.lots:
            for piece in lot.pieces:
                if piece in found:
                    found[piece].append(turn)
    return found
