"""Tiny racks in a workshop of whole millimetres, and every way there is to cut them, tried out."""

import random
from itertools import combinations

from pinchrod.ground import Mm, Span
from pinchrod.job import Machines, Practice, Saw
from pinchrod.timber import Board, Fault, Question, Wanted

SMALL_SHOP = Practice(
    width_allowance=Mm(1),
    stick_end=Mm(1),
    shortest_stick=Mm(5),
    longest_stick=Mm(24),
    board_edge=Mm(1),
    skim=Mm(1),
)
SMALL_SAWS = Machines(rip_saw=Saw(kerf=Mm(1)), crosscut_saw=Saw(kerf=Mm(1)))


def a_tiny_question(seed: int) -> Question:
    """One to three boards with up to two faults each, and up to six members."""
    chance = random.Random(f"tiny {seed}")
    boards = tuple(_a_tiny_board(f"B{n}", chance) for n in range(1, chance.randint(1, 3) + 1))
    wanted = tuple(_tiny_members(chance.randint(1, 6), chance))
    return Question(wanted=wanted, boards=boards, practice=SMALL_SHOP, machines=SMALL_SAWS)


def _a_tiny_board(name: str, chance: random.Random) -> Board:
    width, length = chance.randint(6, 14), chance.randint(12, 34)
    return Board(
        name=name,
        thickness=Mm(chance.choice((6, 8))),
        width=Mm(width),
        length=Mm(length),
        price=Mm(chance.randint(3, 9)),
        bow=Mm(chance.choice((0, 0, 0, 2, 4))),
        spring=Mm(chance.choice((0, 0, 1))),
        faults=tuple(_a_tiny_fault(width, length, chance) for _ in range(chance.randint(0, 2))),
    )


def _a_tiny_fault(width: int, length: int, chance: random.Random) -> Fault:
    at, side = chance.randrange(length - 1), chance.randrange(width - 1)
    across = Span(Mm(side), Mm(min(width, side + chance.randint(1, 4))))
    return Fault(
        along=Span(Mm(at), Mm(min(length, at + chance.randint(1, 4)))),
        across=across if chance.random() < 0.8 else None,
        back_only=chance.random() < 0.15,
    )


def _tiny_members(count: int, chance: random.Random) -> list[Wanted]:
    return [
        Wanted(
            marks=(f"M{n}",),
            width=Mm(chance.choice((2, 3))),
            thickness=Mm(4),
            length=Mm(chance.randint(2, 12)),
            beads=chance.choice((1, 1, 2)),
        )
        for n in range(count)
    ]


def cheapest(question: Question) -> Mm | None:
    """The least cost of cutting every member, by trying everything; None if they cannot all be cut."""
    whole = (1 << len(question.wanted)) - 1
    can = [_cuttable(question, board) for board in question.boards]
    costs = []
    for number in range(1, len(can) + 1):
        for some in combinations(range(len(can)), number):
            sets = {0}
            for board in some:
                sets = {one | other for one in sets for other in can[board]}
            if whole in sets:
                costs.append(sum((question.boards[board].price for board in some), Mm(0)))
    return min(costs, default=None)


def _cuttable(question: Question, board: Board) -> set[int]:
    """Every set of members that can be cut from a board, by fences at every whole millimetre."""
    sides = {int(one.width + 1) for one in question.wanted}
    end = int(board.width - 1)
    reach: dict[int, set[int]] = {at: set() for at in range(end + 20)}
    reach[int(1 + board.spring)] = {0}
    for at in range(end + 1):
        reach[at + 1] |= reach[at]
        for width in sides:
            if reach[at] and at + width <= end:
                sets = _from_strip(question, board, at, width)
                reach[at + width + 1] |= {
                    one | other for one in reach[at] for other in sets if not one & other
                }
    return set().union(*reach.values())


def _from_strip(question: Question, board: Board, at: int, width: int) -> set[int]:
    """Every set of members from one strip: its clear millimetres, and sticks in each stretch of them."""
    clear = [not _spoiled(board, along, at, width) for along in range(int(board.length))] + [False]
    sets, start = {0}, 0
    for along, good in enumerate(clear):
        if not good:
            here = _from_stretch(question, board, along - start, width)
            sets = {one | other for one in sets for other in here if not one & other}
            start = along + 1
    return sets


def _spoiled(board: Board, along: int, at: int, width: int) -> bool:
    return any(
        fault.along.low < along + 1
        and fault.along.high > along
        and (fault.across is None or (fault.across.low < at + width and fault.across.high > at))
        for fault in board.faults
        if not fault.back_only
    )


def _from_stretch(question: Question, board: Board, length: int, width: int) -> set[int]:
    """Every set of members from a clear stretch: a stick, a saw cut, and what the rest can give."""
    sticks = _sticks(question, board, width)
    sets: list[set[int]] = [{0} for _ in range(length + 2)]
    for room in range(1, length + 2):
        sets[room] |= sets[room - 1]
        for members, long in sticks.items():
            if long + 1 <= room:
                sets[room] |= {one | members for one in sets[room - long - 1] if not one & members}
    return sets[length + 1]


def _sticks(question: Question, board: Board, width: int) -> dict[int, int]:
    """Every set of members that can make one stick, and how long it is."""
    sticks = {}
    for members in range(1, 1 << len(question.wanted)):
        some = [one for n, one in enumerate(question.wanted) if members >> n & 1]
        if len({(one.width, one.beads) for one in some}) > 1 or int(some[0].width + 1) != width:
            continue
        long = max(5, 2 + int(sum(one.length for one in some)) + len(some) - 1)
        spare = board.thickness - 1 - 4
        if long <= 24 and board.bow * long * long <= spare * board.length * board.length:
            sticks[members] = long
    return sticks
