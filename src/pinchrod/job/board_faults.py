"""The faults of a board as its cell in the list says them: `0-60; 840-905@30-60; 2100-2160@0-20 back`."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from pinchrod.ground import Mm, Problem, Span, quoted, show
from pinchrod.job.boards import Fault
from pinchrod.job.limits import MOST_FAULTS
from pinchrod.job.said import Reading, Said

SIZE = r"[0-9]{1,6}(?:[.,][0-9]{1,6})?"
STRETCH = rf"({SIZE})\s*[-–]\s*({SIZE})"
FAULT = re.compile(rf"\s*{STRETCH}(?:\s*@\s*{STRETCH})?(\s+back)?\s*", re.IGNORECASE)
WRITE = 'write it as 840-905, 840-905@30-60 or 840-905@30-60 back, in mm, and ";" between two faults'


@dataclass(frozen=True, slots=True)
class FaultSaid:
    """One fault as said: its words, where they begin in the cell, and what they mean."""

    text: str
    at: int
    fault: Fault


def faults_said(said: Said) -> Reading[tuple[FaultSaid, ...]]:
    """Every fault that a cell's words say and that can be read, in their order."""
    text = str(said.value)
    parts = [found for found in re.finditer(r"[^;]+", text) if found[0].strip()]
    if len(parts) > MOST_FAULTS:
        what = f"the board has {len(parts)} faults; at most {MOST_FAULTS} are read"
        yield _problem(said, 0, "faults-many", what, "join those that lie close to each other")
        return ()
    read = [_fault_said(part) for part in parts]
    for part, fault in zip(parts, read, strict=True):
        if fault is None:
            at, words = _begin(part), part[0].strip()
            what = f"{quoted(words)} is no fault that can be read"
            yield _problem(said, at, "fault-form", what, WRITE)
    good = tuple(fault for fault in read if fault is not None)
    yield from _check_way(said, good)
    return good


def _begin(part: re.Match[str]) -> int:
    return part.start() + len(part[0]) - len(part[0].lstrip())


def _fault_said(part: re.Match[str]) -> FaultSaid | None:
    found = FAULT.fullmatch(part[0])
    if found is None:
        return None
    low, high, near, far = (
        None if size is None else Mm(size.replace(",", ".")) for size in found.groups()[:4]
    )
    across = None if near is None or far is None else Span(near, far)
    assert low is not None and high is not None  # noqa: S101, PT018 -- the pattern has both
    fault = Fault(along=Span(low, high), across=across, back_only=found[5] is not None)
    return FaultSaid(part[0].strip(), _begin(part), fault)


def _check_way(said: Said, faults: Sequence[FaultSaid]) -> Iterator[Problem]:
    """Faults typed backwards, along the board or across it, and those that are nothing long."""
    for one in faults:
        for span in (one.fault.along, one.fault.across):
            if span is None or span.low < span.high:
                continue
            what = f"the fault {quoted(one.text)} runs from {show(span.low)} to {show(span.high)}"
            mend = f"write {show(span.high)}-{show(span.low)}, from the smaller to the larger"
            if span.low == span.high:
                mend = "say where it begins and where it ends"
            yield _problem(said, one.at, "fault-backwards", what, mend)


def on_board(
    said: Said, faults: Sequence[FaultSaid], length: Mm, width: Mm
) -> Reading[tuple[FaultSaid, ...]]:
    """The faults as they lie on a board of that size; pairs of which one lies over the other are doubted."""
    kept = []
    for one in faults:
        along = yield from _ended(said, one, one.fault.along, length, "long")
        across = one.fault.across and (yield from _ended(said, one, one.fault.across, width, "wide"))
        kept.append(replace(one, fault=replace(one.fault, along=along, across=across)))
    for one, other in combinations(faults, 2):
        if _meet(one.fault, other.fault):
            what = f"the faults {quoted(one.text)} and {quoted(other.text)} lie over each other"
            mend = "both are kept clear of: look whether one of them is a slip, else make them one"
            yield replace(_problem(said, other.at, "faults-overlap", what, mend), stops=False)
    return tuple(kept)


def _ended(said: Said, one: FaultSaid, span: Span, end: Mm, name: str) -> Reading[Span]:
    """The stretch ended where the board ends. One that begins beyond it lies nobody knows where: a fault."""
    far = max(span.low, span.high)
    if far <= end:
        return span
    what = f"the fault {quoted(one.text)} runs to {show(far)}; the board is {show(end)} {name}"
    if span.low < min(span.high, end):
        mend = "it is taken to end there: look whether it or the board's size is a slip"
        yield replace(_problem(said, one.at, "fault-off-board", what, mend), stops=False)
        return Span(span.low, end)
    mend = f"begin it before {show(end)}, or mend the board's size"
    yield _problem(said, one.at, "fault-off-board", what, mend)
    return span


def _meet(one: Fault, other: Fault) -> bool:
    across = one.across is None or other.across is None or one.across.meets(other.across)
    return one.along.meets(other.along) and across


def _problem(said: Said, at: int, code: str, what: str, mend: str) -> Problem:
    """The problem at its letter: by column if the cell's words have one, else in words."""
    where = said.words_at
    if where.column:
        where = replace(where, column=where.column + at)
    else:
        what += f", at letter {at + 1} of the cell"
    return Problem(where=where, code=code, what=what, mend=mend)
