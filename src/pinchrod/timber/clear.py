"""What is clear on a board: the places across it worth a fence, and the runs between faults along a strip."""

from collections.abc import Iterable
from dataclasses import dataclass

from pinchrod.ground import Mm, Span
from pinchrod.timber.records import Board, Fault, Question


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """Between these two lines across a board strips may lie."""

    low: Mm
    high: Mm


def sides(question: Question, board: Board) -> Sides:
    """Across the board, what is left when both edges are straightened; spring is lost with the first."""
    edge = question.practice.board_edge
    return Sides(low=edge + board.spring, high=board.width - edge)


def faults_that_count(board: Board) -> tuple[Fault, ...]:
    """The faults a stick may not have in it: a frame's back may show what its face may not."""
    return tuple(fault for fault in board.faults if not fault.back_only)


def touched(faults: Iterable[Fault], band: Span) -> tuple[Fault, ...]:
    """Those faults that lie in a band across the board."""
    return tuple(fault for fault in faults if fault.across is None or fault.across.meets(band))


def clear_runs(length: Mm, faults: Iterable[Fault]) -> tuple[Span, ...]:
    """Stretches along a strip that no fault lies in, from its start."""
    runs, start = [], Mm(0)
    for fault in sorted(faults, key=lambda one: one.along.low):
        low = min(fault.along.low, length)
        if low > start:
            runs.append(Span(start, low))
        start = max(start, fault.along.high)
    if start < length:
        runs.append(Span(start, length))
    return tuple(runs)


def places(between: Sides, faults: Iterable[Fault], steps: Iterable[Mm]) -> tuple[Mm, ...]:
    """Offsets worth a fence, in order: no lay-out is worth more than the best one made of these.

    Any lay-out can be pushed towards the first edge, strip by strip, until each strip stands against that
    edge, against the strip before it, or with its side at the far side of a fault it would else run into.
    """
    steps = tuple(steps)
    starts = {between.low} | {
        fault.across.high
        for fault in faults
        if fault.across is not None and between.low < fault.across.high < between.high
    }
    found: set[Mm] = set()
    waiting = sorted(starts)
    while waiting:
        place = waiting.pop()
        if place in found or place >= between.high:
            continue
        found.add(place)
        waiting.extend(place + step for step in steps)
    return tuple(sorted(found))
