"""Questions made with a seed, of the kinds that are published for comparison, and ones from the shop."""

from random import Random

from pinchrod.ground import Mm
from pinchrod.timber.one_length import Piece, Question, Stock


def a_question(lengths: list[int], room: int, *, kerf: int = 0, trim: int = 0) -> Question:
    """Pieces of these lengths, from bars of one length at 1 each."""
    bar = Stock(mark="bar", length=Mm(room), price=Mm(1), trim=Mm(trim))
    return Question(pieces=pieces(lengths), stocks=(bar,), kerf=Mm(kerf))


def pieces(lengths: list[int]) -> tuple[Piece, ...]:
    """A piece for each different length, wanted as often as it is listed."""
    return tuple(Piece(mark=f"p{n}", length=Mm(n), wanted=lengths.count(n)) for n in sorted(set(lengths)))


def even(seed: int, many: int = 120) -> Question:
    """Sizes from 20 to 100 in a bar of 150, all as likely."""
    chance = Random(seed)
    return a_question([chance.randint(20, 100) for _ in range(many)], 150)


def threes(seed: int, bars: int = 20) -> Question:
    """Bars of 1000, each cut into three without waste, and the pieces mixed up."""
    chance = Random(seed)
    lengths: list[int] = []
    for _ in range(bars):
        first = chance.randint(380, 490)
        second = chance.randint(250, (1000 - first) // 2)
        lengths += [first, second, 1000 - first - second]
    return a_question(lengths, 1000)


def close_sizes(seed: int, many: int = 100) -> Question:
    """Sizes from 150 to 200 in a bar of 1000: five or six on each."""
    chance = Random(seed)
    return a_question([chance.randint(150, 200) for _ in range(many)], 1000)


def long_bars(seed: int, many: int = 60) -> Question:
    """Sizes from 20,000 to 35,000 in a bar of 100,000."""
    chance = Random(seed)
    return a_question([chance.randint(20_000, 35_000) for _ in range(many)], 100_000)


STOCKS = {2400: "5.28", 3000: "6.90", 3600: "7.92", 4200: "9.66", 4800: "10.56"}  # our own, money a bar


def members(seed: int, many: int, *, by_metre: bool) -> Question:
    """The members of one width in a job of frames, to be bought in five lengths."""
    chance = Random(seed)
    heights = [chance.randint(560, 2300) for _ in range(max(1, many // 6))]
    lengths = [
        chance.choice(heights) if chance.random() < 0.4 else chance.randint(240, 1150) for _ in range(many)
    ]
    stocks = tuple(
        Stock(mark=f"{n}", length=Mm(n), price=Mm(n) if by_metre else Mm(price), trim=Mm(20))
        for n, price in STOCKS.items()
    )
    return Question(pieces=pieces(lengths), stocks=stocks, kerf=Mm(3))
