"""The judge: what is wrong with a break-out, seen from the wood alone. Shares no code with a chooser."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from pinchrod.ground import Mm, Span, show
from pinchrod.timber.records import MM3, Board, Breakout, Fault, Question, Stick, Wanted


def flaws(question: Question, answer: Breakout) -> Iterator[str]:
    """Say what is wrong with a break-out, looking only at the members, the boards and the shop's rules."""
    boards = {board.name: board for board in question.boards}
    yield from _members_not_once(question, answer)
    yield from _names_used_twice(answer)
    for stick in answer.sticks:
        if stick.board not in boards:
            yield f"{stick.name}: there is no board {stick.board}"
            continue
        yield from _stick_flaws(question, stick, boards[stick.board])
    yield from _sticks_in_each_others_way(question, answer)
    yield from _sums_that_are_wrong(question, answer, boards)


def _members_not_once(question: Question, answer: Breakout) -> Iterator[str]:
    wanted = Counter(mark for kind in question.wanted for mark in kind.marks)
    made = Counter(mark for stick in answer.sticks for mark in stick.members)
    made.update(answer.short)
    for mark in sorted(wanted.keys() | made.keys()):
        if wanted[mark] != made[mark]:
            yield f"{mark}: wanted {wanted[mark]} times, made or named short {made[mark]} times"


def _names_used_twice(answer: Breakout) -> Iterator[str]:
    for name, times in Counter(stick.name for stick in answer.sticks).items():
        if times > 1:
            yield f"{name}: {times} sticks have this name"


def _stick_flaws(question: Question, stick: Stick, board: Board) -> Iterator[str]:
    said = {mark: wanted for wanted in question.wanted for mark in wanted.marks}
    members = [said[mark] for mark in stick.members if mark in said]
    if not members:
        yield f"{stick.name}: carries no member"
        return
    yield from _section_flaws(question, stick, members)
    yield from _length_flaws(question, stick, members)
    yield from _thickness_flaws(question, stick, board, members[0].thickness)
    yield from _place_flaws(question, stick, board)


def _section_flaws(question: Question, stick: Stick, members: list[Wanted]) -> Iterator[str]:
    if len({(member.width, member.thickness, member.beads) for member in members}) > 1:
        yield f"{stick.name}: its members differ in section or beads"
    if stick.width != members[0].width + question.practice.width_allowance:
        yield f"{stick.name}: {show(stick.width)} wide is not its members' width and the allowance"


def _length_flaws(question: Question, stick: Stick, members: list[Wanted]) -> Iterator[str]:
    practice, kerf = question.practice, question.machines.crosscut_saw.kerf
    needed = 2 * practice.stick_end + sum(member.length for member in members) + (len(members) - 1) * kerf
    if stick.length != max(needed, practice.shortest_stick):
        yield f"{stick.name}: {show(stick.length)} long, its members need {show(needed)}"
    if stick.length > practice.longest_stick:
        yield f"{stick.name}: {show(stick.length)} is more than the longest stick the shop can handle"


def _thickness_flaws(question: Question, stick: Stick, board: Board, finished: Mm) -> Iterator[str]:
    if stick.thickness != board.thickness:
        yield f"{stick.name}: {show(stick.thickness)} thick is not its board's thickness"
    spare = board.thickness - question.practice.skim - finished
    if spare < 0 or board.bow * stick.length**2 > spare * board.length**2:
        yield f"{stick.name}: bowed too far to clean up to {show(finished)} thick"


def _place_flaws(question: Question, stick: Stick, board: Board) -> Iterator[str]:
    edge = question.practice.board_edge
    if stick.start < 0 or stick.start + stick.length > board.length:
        yield f"{stick.name}: runs off the end of {board.name}"
    if stick.offset < edge + board.spring:
        yield f"{stick.name}: too near the sprung edge of {board.name}"
    if stick.offset + stick.width > board.width - edge:
        yield f"{stick.name}: too near the far edge of {board.name}"
    for fault in board.faults:
        if not fault.back_only and _covers(stick, fault):
            yield f"{stick.name}: has the fault of {board.name} at {show(fault.along.low)} in it"


def _covers(stick: Stick, fault: Fault) -> bool:
    along = Span(stick.start, stick.start + stick.length)
    across = Span(stick.offset, stick.offset + stick.width)
    return along.meets(fault.along) and (fault.across is None or across.meets(fault.across))


def _sticks_in_each_others_way(question: Question, answer: Breakout) -> Iterator[str]:
    rip, crosscut = question.machines.rip_saw.kerf, question.machines.crosscut_saw.kerf
    for one, other in combinations(answer.sticks, 2):
        if one.board != other.board:
            continue
        if (one.offset, one.width) == (other.offset, other.width):
            gap = max(one.start - other.start - other.length, other.start - one.start - one.length)
            if gap < crosscut:
                yield f"{one.name} and {other.name}: less than a saw cut apart along the strip"
        else:
            gap = max(one.offset - other.offset - other.width, other.offset - one.offset - one.width)
            if gap < rip:
                yield f"{one.name} and {other.name}: their strips are less than a saw cut apart"


def _sums_that_are_wrong(question: Question, answer: Breakout, boards: dict[str, Board]) -> Iterator[str]:
    taken = [boards[name] for name in sorted({stick.board for stick in answer.sticks} & boards.keys())]
    length = {mark: wanted for wanted in question.wanted for mark in wanted.marks}
    made = [length[mark] for stick in answer.sticks for mark in stick.members if mark in length]
    used = sum((board.thickness * board.width * board.length / MM3 for board in taken), Mm(0))
    finished = sum((member.thickness * member.width * member.length / MM3 for member in made), Mm(0))
    cost = sum((board.price for board in taken), Mm(0))
    for said, counted, name in (
        (answer.used, used, "wood used"),
        (answer.finished, finished, "finished wood"),
        (answer.cost, cost, "cost"),
    ):
        if said != counted:
            yield f"{name}: said to be {show(said)}, counted {show(counted)}"
    if answer.bound > cost:
        yield f"bound {show(answer.bound)} lies above the cost {show(cost)}"
