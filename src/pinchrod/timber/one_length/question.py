"""What is asked and what is answered: pieces out of bars of one section."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from pinchrod.ground import Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """So many pieces of one length."""

    mark: str
    length: Mm
    wanted: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Bars of one length, at one price, in plenty or only so many."""

    mark: str
    length: Mm
    price: Mm  # exact, in any money
    trim: Mm = Mm(0)  # off both ends together
    supply: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """The pieces wanted, the bars to be had, and what the saw takes between two pieces."""

    pieces: tuple[Piece, ...]
    stocks: tuple[Stock, ...]
    kerf: Mm = Mm(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """So many pieces of one mark."""

    mark: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Bars of a stock cut alike."""

    stock: str
    shares: tuple[Share, ...]
    times: int


class Proof(StrEnum):
    """How it is known that no plan costs less than the bound."""

    WORTHS = "by the worths"  # anyone can add it up again
    SEARCH = "by search"  # every bar that could help was listed, and the solver found no plan among them
    NONE = "not proven"  # the bound stands, but a cheaper plan may be found


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """Worths of the pieces against which no bar makes a gain, in the order of the question.

    A bar holds at most scale x price + scarcity in worth. So what is wanted costs at least what it is
    worth, less the scarcity of each bar there is, over the scale.
    """

    worths: tuple[int, ...]
    scarcity: tuple[int, ...]
    scale: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """How to cut, what no bar could be found for, what it costs, and what it must cost at least."""

    patterns: tuple[Pattern, ...]
    missing: tuple[Share, ...]
    cost: Mm
    bound: Mm
    proof: Proof
    certificate: Certificate

    @property
    def proven(self) -> bool:
        """Whether no plan can cost less."""
        return self.proof is not Proof.NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """How much work to put in, counted in steps, so that the same question gives the same answer.

    `seconds_left`, when given, breaks the work off too, and then the answer depends on the machine.
    """

    rounds: int = 600  # of column generation
    dives: int = 3
    more_dives: int = 9  # where a long list would have to be searched without them
    halvings: int = 12  # dives, where there are several stocks
    listed: int = 40_000  # bars that the last step may choose from
    nodes: int = 4_000  # of its search
    ways: int = 3_000  # to divide the work among several stocks
    seconds_left: Callable[[], float] | None = None

    def over(self) -> bool:
        """Whether the time allowed has run out."""
        return self.seconds_left is not None and self.seconds_left() <= 0
