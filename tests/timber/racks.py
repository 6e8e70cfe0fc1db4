"""Racks and jobs made up for trials: like a small workshop's, and the same for the same seed."""

import random
from collections.abc import Iterator
from dataclasses import replace

from pinchrod.ground import Mm, Span
from pinchrod.timber import Board, Effort, Fault, Question, Wanted, break_out

SECTIONS = ((45, 1, 0.34), (38, 2, 0.30), (60, 1, 0.2), (60, 2, 0.06), (45, 2, 0.04), (80, 1, 0.06))


def a_rack(boards: int, seed: int) -> tuple[Board, ...]:
    """Sawn boards of random width and length, with knots, shakes and wane, bow, spring and a price by volume."""
    chance = random.Random(f"rack {seed}")
    return tuple(_a_board(f"B{number}", chance) for number in range(1, boards + 1))


def _a_board(name: str, chance: random.Random) -> Board:
    thickness, width = chance.choice((27, 27, 32)), chance.randrange(100, 301, 5)
    length = chance.randrange(2400, 4801, 50)
    volume = Mm(thickness * width * length, 10**9)
    price = round(float(volume) * chance.uniform(650, 950), 2)
    return Board(
        name=name,
        thickness=Mm(thickness),
        width=Mm(width),
        length=Mm(length),
        price=Mm(str(price)),
        bow=Mm(chance.choice((0, 0, 2, 4, 6, 8, 12))),
        spring=Mm(chance.choice((0, 0, 1, 2, 3, 5, 8))),
        faults=tuple(_faults(width, length, chance)),
    )


def _faults(width: int, length: int, chance: random.Random) -> list[Fault]:
    faults = []
    for end in (0, length):
        if chance.random() < 0.5:
            split = chance.randrange(20, 121, 5)
            faults.append(_fault(abs(end - split) if end else 0, end or split))
    for _ in range(int(chance.expovariate(1 / 2.2))):
        at, size = chance.randrange(0, length - 60), chance.randrange(12, 56)
        across = chance.randrange(0, width - 10)
        side = (across, min(across + size, width)) if chance.random() < 0.9 else None
        faults.append(_fault(at, at + size, side, back=chance.random() < 0.2))
    if chance.random() < 0.25:
        start = chance.randrange(0, length - 400)
        stop = min(length, start + chance.randrange(200, 1200))
        faults.append(_fault(start, stop, (0, chance.randrange(8, 26))))
    return faults


def _fault(low: int, high: int, across: tuple[int, int] | None = None, *, back: bool = False) -> Fault:
    side = None if across is None else Span(Mm(across[0]), Mm(across[1]))
    return Fault(along=Span(Mm(low), Mm(high)), across=side, back_only=back)


def a_job(members: int, seed: int) -> tuple[Wanted, ...]:
    """Members as of beaded face frames: stiles alike by twos and fours, rails of many lengths."""
    chance = random.Random(f"job {seed}")
    wanted: list[Wanted] = []
    made = 0
    while made < members:
        number = min(members - made, chance.choice((1, 1, 2, 2, 2, 4, 6)))
        width, beads, _ = chance.choices(SECTIONS, [share for _, _, share in SECTIONS])[0]
        wanted.append(
            Wanted(
                marks=tuple(f"M{made + n}" for n in range(1, number + 1)),
                width=Mm(width),
                thickness=Mm(22),
                length=_a_length(width, beads, chance),
                beads=beads,
            )
        )
        made += number
    return tuple(wanted)


def _a_length(width: int, beads: int, chance: random.Random) -> Mm:
    if (width, beads) == (45, 1):
        return Mm(chance.choice((720, 720, 875, 2150, 2288, 2400, chance.randrange(500, 2400))))
    exact = chance.randrange(200, 1200)
    return exact + Mm(chance.choice((0, 0, 0, 1, 2)), 3)


def a_question(members: int, boards: int, seed: int) -> Question:
    """A job and a rack to cut it from."""
    return Question(wanted=a_job(members, seed), boards=a_rack(boards, seed))


def a_narrow_rack(members: int, boards: int, seed: int) -> Question:
    """Boards hardly wider than one strip or two."""
    chance = random.Random(f"narrow {seed}")
    narrow = tuple(
        _as_wide(board, chance.choice((50, 65, 84, 99, 118, 133, 152)) + chance.randrange(11, 24), chance)
        for board in a_rack(boards, seed)
    )
    return Question(wanted=a_job(members, seed), boards=narrow)


def _as_wide(board: Board, width: int, chance: random.Random) -> Board:
    """The board at the same price for its volume, with faults of that width."""
    price = round(float(board.price) * width / float(board.width), 2)
    faults = tuple(_faults(width, int(board.length), chance))
    return replace(board, width=Mm(width), price=Mm(str(price)), faults=faults)


def a_faulty_rack(members: int, boards: int, seed: int) -> Question:
    """Boards with a fault every 300 to 500 mm: on the face, on the back, and along either edge."""
    chance = random.Random(f"faulty {seed}")
    faulty = tuple(
        replace(board, faults=tuple(_everywhere(int(board.width), int(board.length), chance)))
        for board in a_rack(boards, seed)
    )
    return Question(wanted=a_job(members, seed), boards=faulty)


def _everywhere(width: int, length: int, chance: random.Random) -> Iterator[Fault]:
    at = chance.randrange(0, 400)
    while at < length - 60:
        wane, knot, side = chance.randrange(8, 26), chance.randrange(12, 56), chance.randrange(0, width - 10)
        across = chance.choice(((0, wane), (width - wane, width), (side, min(side + knot, width))))
        yield _fault(at, at + chance.randrange(12, 60), across, back=chance.random() < 0.3)
        at += chance.randrange(300, 501)


def just_enough(members: int, boards: int, seed: int, effort: Effort) -> Question:
    """A rack of nothing but the boards of a plan that a search has found: hardly any wood is left over."""
    question = a_question(members, boards, seed)
    taken = {stick.board for stick in break_out(question, effort).sticks}
    return replace(question, boards=tuple(board for board in question.boards if board.name in taken))
