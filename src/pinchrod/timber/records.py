"""What is asked of the rack, and what comes out of it: members wanted, sticks. Boards are the job's."""

from collections.abc import Callable
from dataclasses import dataclass, field

from pinchrod.ground import Mm
from pinchrod.job import MM3, Board, Fault, Machines, Practice

__all__ = ["MM3", "Board", "Breakout", "Effort", "Fault", "Question", "Stick", "Wanted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Members alike in section, beads and length; a mark stands once for each piece."""

    marks: tuple[str, ...]
    width: Mm
    thickness: Mm
    length: Mm
    beads: int

    @property
    def volume(self) -> Mm:
        """Finished wood in one of them, in cubic metres."""
        return self.thickness * self.width * self.length / MM3


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Members wanted, boards on the rack, and how this workshop saws."""

    wanted: tuple[Wanted, ...]
    boards: tuple[Board, ...]
    practice: Practice = field(default_factory=Practice)
    machines: Machines = field(default_factory=Machines)

    def by_mark(self) -> dict[str, Wanted]:
        """What each piece is to be, by its mark."""
        return {mark: one for one in self.wanted for mark in one.marks}


GoesOn = Callable[[], bool]
"""Asked before each try whether there shall be another. The clock, if it is that, is the edge's."""


def always() -> bool:
    """Yes: a search ends when its tries are counted out, and not before."""
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How long to search, counted in tries and not in seconds."""

    passes: int = 6  # whole plans made, each with values corrected by the one before
    tries: int = 100  # givings-back of a few boards, in each of 50 to 80 rounds
    seed: int = 1


SEARCHES = 2  # that run beside each other
ROUNDS, LEAST_ROUNDS = 80, 50  # of tries
SMALL_JOB = 120  # members up to which the nearer bound, and a second search, are worth their time
OFTEN = 200  # members up to which there are all rounds; with more, each try takes longer


def rounds_for(members: int) -> int:
    """How many rounds of tries: as many for a small job as for a middling one, fewer for a large one."""
    return max(min(ROUNDS, ROUNDS * OFTEN // max(members, 1)), LEAST_ROUNDS)


def searches_for(members: int) -> int:
    """How often a plan is searched for at most: with few boards to a plan, much hangs on the draws."""
    return 2 if members <= SMALL_JOB else 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick:
    """A rough piece out of a board: `start` and `length` along it, `offset` and `width` across it."""

    name: str
    board: str
    start: Mm
    length: Mm
    offset: Mm
    width: Mm
    thickness: Mm  # as sawn
    members: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Breakout:
    """Sticks out of boards. No plan of these members under these rules costs less than `bound`: proven."""

    sticks: tuple[Stick, ...]
    short: tuple[str, ...]  # members for which there is no wood
    used: Mm  # cubic metres of boards taken
    finished: Mm  # cubic metres of finished members in the sticks
    cost: Mm  # of the boards taken
    bound: Mm
    given_up: tuple[str, ...] = ()  # names of sticks given up for faults found late: none comes again
    stopped: bool = (
        False  # whether the search was broken off: on another machine it may then find another plan
    )

    @property
    def share(self) -> Mm:
        """The yield: finished wood out of wood taken."""
        return self.finished / self.used if self.used else Mm(0)
