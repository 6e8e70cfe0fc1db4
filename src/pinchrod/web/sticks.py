"""The sticks of a plan as they stand now: as it was made, with every fault found since planned around."""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from threading import RLock
from typing import TypeVar

from pinchrod.ground import Mm, Span, must_be_right
from pinchrod.papers import Moved, Sawn, moved, sawn_from, timber_json
from pinchrod.plan import Plan, with_sticks
from pinchrod.store import FaultFound, Store, faults_of
from pinchrod.timber import (
    Breakout,
    FoundLate,
    Question,
    by_eye,
    flaws,
    question_of,
    recut_all,
)
from pinchrod.web.known import Known

MOST_KEPT = 12
K = TypeVar("K")
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """A fault, and what planning around it changed: sticks moved, members without wood, new boards' cost."""

    fault: FaultFound
    moved: tuple[Moved, ...]
    short: tuple[str, ...]
    dearer: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class InForce:
    """The plan in force: what is asked of the rack, the sticks as they stand now, and what changed them."""

    made: Plan  # as it was, before any fault was found
    plan: Plan
    question: Question
    breakout: Breakout
    mark: str  # of the plan as it was made
    around: tuple[Around, ...] = ()  # in the order in which the faults were found
    strays: tuple[FaultFound, ...] = ()  # faults said of another plan of this revision

    @property
    def found(self) -> tuple[FaultFound, ...]:
        """The faults that are planned around."""
        return tuple(one.fault for one in self.around)

    @property
    def dearer(self) -> Mm:
        """What the faults cost in new boards."""
        return sum((one.dearer for one in self.around), Mm(0))

    @property
    def seen(self) -> str:
        """Another word for each state of the sticks, so that a page knows whether it shows this one."""
        keys = (self.mark, *(one.key for one in self.found))
        return sha256(" ".join(keys).encode()).hexdigest()[:16]


class Sticks:
    """The sticks in force of the plans looked at last. A fault is said while nobody else says one."""

    def __init__(self, store: Store, plan_of: Callable[[Known], Plan | None]) -> None:
        """Know none yet; `plan_of` gives a revision's plan as it was made, if it is."""
        self._store = store
        self._plan_of = plan_of
        self._known: dict[tuple[str, int], InForce] = {}
        self._by_eye: dict[tuple[str, int], Breakout] = {}
        self._sawn: dict[tuple[str, str], Sawn] = {}
        self.turn = RLock()

    def of(self, known: Known) -> InForce | None:
        """The sticks in force of a revision; None if it has no rack, or is not planned yet."""
        plan = self._plan_of(known)
        if plan is None or plan.breakout is None:
            return None
        with self.turn:
            place, said = (known.name, known.number), faults_of(self._store, known.name, known.number)
            stands = self._known.pop(place, None)
            if stands is None or stands.made is not plan:
                stands = before_faults(plan)
            if {*stands.found, *stands.strays} != set(said):
                stands = in_force(stands, said)
            self._known[place] = stands
            _forget(self._known)
        return stands

    def sawn(self, known: Known) -> Sawn | None:
        """The same as the saws and the rack see it."""
        stands = self.of(known)
        if stands is None:
            return None
        with self.turn:
            place = known.name, stands.seen
            if place not in self._sawn:
                self._sawn[place] = sawn_from(stands.question, stands.breakout)
                _forget(self._sawn)
            return self._sawn[place]

    def by_eye(self, known: Known) -> Breakout:
        """What a joiner's plan by eye of the revision would have been, for comparing."""
        place = known.name, known.number
        with self.turn:
            if place not in self._by_eye:
                self._by_eye[place] = by_eye(question_of(known.job, known.shop, known.rods))
                _forget(self._by_eye)
            return self._by_eye[place]


def before_faults(plan: Plan) -> InForce:
    """The sticks of a plan as it was made."""
    assert plan.breakout is not None  # noqa: S101 -- a plan without sticks is not asked for them
    question = question_of(plan.job, plan.shop, plan.rods)
    return InForce(made=plan, plan=plan, question=question, breakout=plan.breakout, mark=mark_of(plan))


def in_force(stands: InForce, said: Sequence[FaultFound]) -> InForce:
    """The sticks with the faults said of their plan planned around, those of another told apart."""
    found = tuple(one for one in said if one.proof == stands.mark)
    known = len(stands.around)
    if stands.found != found[:known]:
        stands, known = before_faults(stands.made), 0
    for fault in found[known:]:
        stands = with_fault(stands, fault)
    strays = tuple(one for one in said if one.proof != stands.mark)
    plan = with_sticks(stands.made, stands.question.boards, stands.breakout) if found else stands.made
    return replace(stands, plan=plan, strays=strays)


def with_fault(stands: InForce, fault: FaultFound) -> InForce:
    """The sticks around one fault more, looked over by the judge; the plan is not made of them yet."""
    after = recut_all(stands.question, stands.breakout, (found_late(fault),))
    must_be_right("the new break-out is", flaws(after.question, after.breakout))
    around = Around(
        fault=fault,
        moved=moved(stands.breakout, after.breakout),
        short=tuple(mark for mark in after.breakout.short if mark not in stands.breakout.short),
        dearer=after.dearer,
    )
    return replace(stands, question=after.question, breakout=after.breakout, around=(*stands.around, around))


def found_late(one: FaultFound) -> FoundLate:
    """A fault of the ledger as the timber room takes it."""
    return FoundLate(stick=one.stick, fault=Span(one.low, one.high), done=frozenset(one.done))


def mark_of(plan: Plan) -> str:
    """What tells a plan's sticks from those of any other plan: the sha256, in hex, of all that they are."""
    question = question_of(plan.job, plan.shop, plan.rods)
    told = timber_json(question, plan.breakout) if plan.breakout else {}
    return sha256(json.dumps(told, separators=(",", ":")).encode()).hexdigest()


def _forget(known: dict[K, T]) -> None:
    """Let go of those looked at longest ago."""
    while len(known) > MOST_KEPT:
        known.pop(next(iter(known)))
