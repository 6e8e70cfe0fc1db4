"""What may be said of a piece as it stands, and what is told when something else is said."""

from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from itertools import dropwhile

from pinchrod.ground import Problem, quoted
from pinchrod.store.deeds import OF_PIECES, SHAPING, STEPS, Deed, Event, Said
from pinchrod.store.replay import Standing, after
from pinchrod.store.rolls import Entry, Roll
from pinchrod.store.telling import amiss

DIAGONALS = 2


def doubts_and_faults(said: Said, standing: Standing, roll: Roll) -> Iterator[Problem]:
    """Everything wrong or doubtful in saying this of the piece as it stands."""
    entry = roll.entry(said.piece)
    if said.deed not in OF_PIECES:
        yield amiss(said.piece, "not-of-a-piece", f"{said.deed} is not said of a piece", "choose a step")
    elif entry is None:
        yield _not_a_piece(said.piece, roll)
    else:
        yield from _incomplete(said)
        yield from unlawful(said, standing)
        yield from _out_of_turn(said.deed, entry, standing)


def unlawful(said: Said | Event, standing: Standing) -> Iterator[Problem]:
    """What cannot be: no word of a person makes it so. The ledger itself is held to the same."""
    if said.deed is Deed.UNDONE:
        yield from _undone(said.undoes, standing)
    elif said.deed is Deed.MADE_AGAIN:
        if standing.spoiled is None:
            what = "it is not spoiled, so no other piece can take its mark"
            yield amiss(standing.piece, "not-spoiled", what, "say first that it is spoiled, and why")
    elif standing.spoiled is not None:
        what = f"it was {standing.spoiled}"
        yield amiss(standing.piece, "already-spoiled", what, "say that it is made again, then go on")
    elif said.deed in STEPS or said.deed is Deed.THROUGH:
        yield from _twice_or_too_late(said, standing)


def broken_rules(events: Iterable[Event]) -> Iterator[Problem]:
    """The events of a ledger that cannot have been, each named by its number."""
    pieces: dict[tuple[str, str], Standing] = {}
    for event in events:
        if not event.piece:
            continue
        standing = pieces.get((event.job, event.piece)) or Standing(job=event.job, piece=event.piece)
        for problem in unlawful(event, standing):
            what = f"event {event.seq} says {event.deed}, but {problem.what}"
            yield amiss(event.piece, "ledger-unlawful", what, "restore the newest copy that is sound")
        pieces[event.job, event.piece] = after(standing, event)


def _twice_or_too_late(said: Said | Event, standing: Standing) -> Iterator[Problem]:
    name, deed, gone = standing.piece, said.deed, standing.when(Deed.DELIVERED)
    done = standing.when(deed, said.spot)
    glued = standing.when(Deed.GLUED)
    if done is not None:
        yield amiss(name, "already-done", f"it was {done}", "nothing is left to do here")
    elif gone is not None:
        yield amiss(name, "already-delivered", f"it was {gone}", "take that back first, if it is still here")
    elif deed in SHAPING and glued is not None:
        what = f"it was {glued}, and cannot be {deed} after that"
        yield amiss(name, "already-glued", what, "check that the mark is the right one")


def _undone(undoes: int, standing: Standing) -> Iterator[Problem]:
    """Steps are taken back in turn, the last first; a setting gone through at any time.

    Nothing that is said of a piece rests on its having gone through a setting, so that all the rest can
    stand without it. What it rests on itself is the wood it was said of: making that is not taken back
    from under it.
    """
    since = list(dropwhile(lambda event: event.seq != undoes, standing.events))
    if not undoes or not since:
        what = f"event {undoes} does not stand for this piece: it was taken back already, or is another's"
        yield amiss(standing.piece, "undo-nothing", what, "look at what stands, and choose from that")
        return
    resting = [event for event in since[1:] if not _stands_without(event, since[0])]
    if resting:
        what = f"since event {undoes} it was {resting[-1]}"
        yield amiss(standing.piece, "undo-not-last", what, f"take back event {resting[-1].seq} first")


def _stands_without(event: Event, taken: Event) -> bool:
    """Whether what was said later may stand when the earlier is taken back."""
    return taken.deed is Deed.THROUGH or (event.deed is Deed.THROUGH and taken.deed is not Deed.MADE_AGAIN)


def _incomplete(said: Said) -> Iterator[Problem]:
    if said.deed is Deed.SPOILED and not said.reason.strip():
        yield amiss(said.piece, "no-reason", "why it is spoiled is not said", "say why, in a word or two")
    if said.deed is Deed.THROUGH and not said.spot.strip():
        yield amiss(said.piece, "no-setting", "which setting it went through is not said", "say which")
    wanted = DIAGONALS if said.deed is Deed.CHECKED else 0
    if len(said.diagonals) != wanted or any(length <= 0 for length in said.diagonals):
        what = f"{len(said.diagonals)} diagonals are given with {said.deed}"
        mend = "give both diagonals of the frame" if wanted else "leave the diagonals out"
        yield amiss(said.piece, "no-diagonals", what, mend)


def _out_of_turn(deed: Deed, entry: Entry, standing: Standing) -> Iterator[Problem]:
    """A doubt where a step is not one of the piece's, or steps before it are not done yet."""
    if deed not in STEPS or standing.spoiled is not None or standing.when(deed) is not None:
        return
    if deed not in entry.steps:
        what = f"nothing on it is to be {deed}; its steps are {', '.join(entry.steps)}"
        yield amiss(entry.mark, "not-its-step", what, "check that the mark is the right one", stops=False)
        return
    before = entry.steps[: entry.steps.index(deed)]
    missing = [step for step in before if standing.when(step) is None]
    if missing:
        what = f"the next step expected is {missing[0]}, not {deed}"
        yield amiss(
            entry.mark,
            "step-expected",
            what,
            f"say that it is {missing[0]}, or go on all the same",
            stops=False,
        )


def _not_a_piece(piece: str, roll: Roll) -> Problem:
    near = get_close_matches(piece.upper(), [entry.mark.upper() for entry in roll.entries], n=1)
    mend = f"did you mean {near[0]}?" if near else "scan its label again, or find it in the list"
    return amiss(piece, "not-a-piece", f"revision {roll.revision} has no piece {quoted(piece)}", mend)
