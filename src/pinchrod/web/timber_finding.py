"""A fault found in a stick at the saw: planned around, said in the ledger, and taken back."""

from collections.abc import Iterator

from pinchrod.ground import NotYetRight, Problem, Span, Where, quoted, show
from pinchrod.store import FaultFound, faults_of, record_fault, undo_fault
from pinchrod.timber import Stick
from pinchrod.web.known import Known
from pinchrod.web.sticks import InForce, with_fault
from pinchrod.web.timber_done import done_sticks
from pinchrod.web.visit import Visit


def find(visit: Visit, known: Known, name: str, fault: Span) -> FaultFound:
    """The fault as it is kept, planned around on trial first; NotYetRight if it cannot be in that stick.

    Nobody else says one meanwhile, so that the next is said of the sticks that this one leaves.
    """
    floor = visit.floor
    with floor.sticks.turn:
        before = next(
            (one for one in faults_of(floor.store, known.name, known.number) if one.key == visit.key), None
        )
        if before is not None:
            return before
        stands, done = floor.sticks.of(known), done_sticks(floor, known)
        problems = tuple(why_not_in(stands, done, name, fault))
        if problems or stands is None:
            raise NotYetRight(problems)
        found = FaultFound(
            key=visit.key,
            by=visit.by,
            job=known.name,
            revision=known.number,
            stick=name,
            low=fault.low,
            high=fault.high,
            done=tuple(sorted(done)),
            proof=stands.mark,
        )
        with_fault(stands, found)
        record_fault(floor.store, found)
    floor.feed.tell()
    return found


def take_back(visit: Visit, known: Known, key: str) -> None:
    """Take a fault back; NotYetRight if something was sawn since as it was planned around."""
    floor = visit.floor
    with floor.sticks.turn:
        stands = floor.sticks.of(known)
        if stands is not None:
            problems = tuple(_sawn_since(stands, done_sticks(floor, known), key))
            if problems:
                raise NotYetRight(problems)
        undo_fault(floor.store, key, key=visit.key, by=visit.by)
    floor.feed.tell()


def why_not_in(stands: InForce | None, done: frozenset[str], name: str, fault: Span) -> Iterator[Problem]:
    """Why a fault cannot be planned around in that stick."""
    if stands is None:
        yield _problem("no-sticks", "the sticks are not planned yet", "plan them first, on the page Timber")
        return
    stick = stick_of(stands, name)
    if stick is None:
        yield stick_missing(name)
    elif name in done:
        what = f"{name} is sawn already, and work on its members was begun"
        yield _problem("stick-done", what, "say on the page Bench that the piece is spoiled, and where")
    elif fault.high > stick.length:
        what = f"{name} is {show(stick.length)} long; {show(fault.high)} is beyond it"
        yield _problem(
            "fault-off-stick", what, "measure from the end of the stick that its first member begins at"
        )
    elif not 0 <= fault.low < fault.high:
        what = f"the fault runs from {show(fault.low)} to {show(fault.high)}"
        yield _problem("fault-turned", what, "say where it begins, then where it ends")


def stick_of(stands: InForce, name: str) -> Stick | None:
    """The stick of that name as it stands now."""
    return next((stick for stick in stands.breakout.sticks if stick.name == name), None)


def stick_missing(name: str) -> Problem:
    """What is said of a stick that is not there: perhaps it was given up around a fault."""
    what = f"there is no stick {quoted(name)} in the plan as it stands"
    return _problem("stick-missing", what, "choose one from the page Timber")


def _sawn_since(stands: InForce, done: frozenset[str], key: str) -> Iterator[Problem]:
    told = next((each for each in stands.around if each.fault.key == key), None)
    changed = {each.stick.name for each in told.moved} if told else set()
    sawn = sorted(name for name in changed if name in done and told and name not in told.fault.done)
    if sawn and told:
        what = f"{', '.join(sawn)} was sawn since, as planned around the fault in {told.fault.stick}"
        yield _problem("fault-sawn-since", what, "leave it: the plan goes on from the wood as it is now")


def _problem(code: str, what: str, mend: str) -> Problem:
    return Problem(where=Where(name="stick"), code=code, what=what, mend=mend)
