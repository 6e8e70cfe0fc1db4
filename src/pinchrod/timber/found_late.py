"""All faults found late in a job's sticks, one after another: the sticks as they stand now."""

from collections.abc import Sequence
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.timber.records import Breakout, Question
from pinchrod.timber.recut import Recut, recut


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundLate:
    """A fault found in a stick, measured from its start, and the sticks that were done by then."""

    stick: str
    fault: Span
    done: frozenset[str] = frozenset()


def recut_all(question: Question, breakout: Breakout, found: Sequence[FoundLate]) -> Recut:
    """The break-out after these faults, in the order in which they were found; what all of them cost.

    Each is planned around as it was when it was found, out of the sticks that the one before left, so that
    going through them again gives the same sticks. LookupError if one is in a stick that is not there.
    """
    stands = Recut(question=question, breakout=breakout, dearer=Mm(0))
    for one in found:
        stands = _around(stands, one)
    return stands


def _around(before: Recut, one: FoundLate) -> Recut:
    names = {stick.name for stick in before.breakout.sticks}
    if one.stick not in names:
        raise LookupError(f"there is no stick {one.stick} at that time")
    after = recut(before.question, before.breakout, stick=one.stick, fault=one.fault, done=one.done)
    return Recut(question=after.question, breakout=after.breakout, dearer=before.dearer + after.dearer)
