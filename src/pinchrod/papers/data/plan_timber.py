"""The part of `plan.json` about timber, written and read again.

The contract fixes the first keys of it. Ours follow: `done`, `boards`, `wanted` and `saws` hold the question
that the sticks answer, exactly (a fraction as words), so that a fault found at the saw is planned around from
the pack alone, whatever has become of the job's files since.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from pinchrod.ground import Mm, Span, Where
from pinchrod.job import Machines, Practice, Saw
from pinchrod.timber import Board, Breakout, Fault, Question, Stick, Wanted, answer

Json = dict[str, Any]
BOARD = ("thickness", "width", "length", "bow", "spring", "price")
WANTED = ("width", "thickness", "length")
PRACTICE = ("width_allowance", "stick_end", "shortest_stick", "longest_stick", "board_edge", "skim")


def timber_json(question: Question, breakout: Breakout, done: Iterable[str] = ()) -> Json:
    """The sticks, what they come to, and the question they answer; sticks given up only if there are any."""
    return {
        "sticks": [_stick(stick) for stick in breakout.sticks],
        "short": list(breakout.short),
        "used": near(breakout.used),
        "finished": near(breakout.finished),
        "yield": near(breakout.share),
        "cost": near(breakout.cost),
        "bound": near(breakout.bound),
        "exact_bound": exact(breakout.bound),
        "done": sorted(done),
        "saws": _saws(question),
        "boards": [_board(board) for board in question.boards],
        "wanted": [_wanted(wanted) for wanted in question.wanted],
        **({"given_up": list(breakout.given_up)} if breakout.given_up else {}),
    }


def near(size: Mm) -> int | float:
    """The size as a number: whole if it is whole, else to a millionth."""
    found = round(float(size), 6)
    return int(found) if found.is_integer() else found


def exact(size: Mm) -> int | str:
    """The size exactly: whole if it is whole, else a fraction as words, `6021/5`."""
    return int(size) if size.denominator == 1 else f"{size.numerator}/{size.denominator}"


def _stick(stick: Stick) -> Json:
    return {
        "id": stick.name,
        "board": stick.board,
        "from": near(stick.start),
        "length": near(stick.length),
        "offset": near(stick.offset),
        "width": near(stick.width),
        "thickness": near(stick.thickness),
        "members": list(stick.members),
        "exact": [exact(size) for size in _sizes(stick)],
    }


def _sizes(stick: Stick) -> tuple[Mm, Mm, Mm, Mm, Mm]:
    return stick.start, stick.length, stick.offset, stick.width, stick.thickness


def _board(board: Board) -> Json:
    sizes = {key: exact(getattr(board, key)) for key in BOARD}
    return {"id": board.name, **sizes, "faults": [_fault(fault) for fault in board.faults]}


def _fault(fault: Fault) -> Json:
    across = None if fault.across is None else _span(fault.across)
    return {"along": _span(fault.along), "across": across, "back": fault.back_only}


def _span(span: Span) -> list[int | str]:
    return [exact(span.low), exact(span.high)]


def _wanted(wanted: Wanted) -> Json:
    sizes = {key: exact(getattr(wanted, key)) for key in WANTED}
    return {"marks": list(wanted.marks), **sizes, "beads": wanted.beads}


def _saws(question: Question) -> Json:
    practice = {key: exact(getattr(question.practice, key)) for key in PRACTICE}
    machines = question.machines
    kerfs = {"rip_kerf": machines.rip_saw.kerf, "crosscut_kerf": machines.crosscut_saw.kerf}
    return {**practice, **{key: exact(kerf) for key, kerf in kerfs.items()}}


def read_timber(said: Mapping[str, Any]) -> tuple[Question, Breakout, frozenset[str]]:
    """The question, the break-out and the sticks done; KeyError, TypeError or ValueError if not ours."""
    saws = said["saws"]
    practice: dict[str, Any] = {key: _size(saws[key]) for key in PRACTICE}
    question = Question(
        wanted=tuple(_wanted_said(one) for one in said["wanted"]),
        boards=tuple(_board_said(one) for one in said["boards"]),
        practice=Practice(**practice),
        machines=Machines(
            rip_saw=Saw(kerf=_size(saws["rip_kerf"])),
            crosscut_saw=Saw(kerf=_size(saws["crosscut_kerf"])),
        ),
    )
    sticks = tuple(_stick_said(one) for one in said["sticks"])
    breakout = answer(question, sticks, tuple(said["short"]), bound=_size(said["exact_bound"]))
    given_up = tuple(said.get("given_up", ()))
    return question, replace(breakout, given_up=given_up), frozenset(said["done"])


def _size(said: int | str) -> Mm:
    return Mm(Fraction(said))


def _stick_said(said: Mapping[str, Any]) -> Stick:
    start, length, offset, width, thickness = (_size(size) for size in said["exact"])
    return Stick(
        name=said["id"],
        board=said["board"],
        start=start,
        length=length,
        offset=offset,
        width=width,
        thickness=thickness,
        members=tuple(said["members"]),
    )


def _board_said(said: Mapping[str, Any]) -> Board:
    sizes = {key: _size(said[key]) for key in BOARD}
    faults = tuple(_fault_said(one) for one in said["faults"])
    return Board(name=said["id"], faults=faults, where=Where(), **sizes)


def _fault_said(said: Mapping[str, Any]) -> Fault:
    across = None if said["across"] is None else _span_said(said["across"])
    return Fault(along=_span_said(said["along"]), across=across, back_only=bool(said["back"]))


def _span_said(said: tuple[int | str, int | str]) -> Span:
    low, high = said
    return Span(_size(low), _size(high))


def _wanted_said(said: Mapping[str, Any]) -> Wanted:
    sizes = {key: _size(said[key]) for key in WANTED}
    return Wanted(marks=tuple(said["marks"]), beads=int(said["beads"]), **sizes)
