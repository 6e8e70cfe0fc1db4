"""What all papers of a break-out are made from, worked out once."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pinchrod.ground import Mm
from pinchrod.timber import (
    Board,
    Breakout,
    Offcut,
    Question,
    RippedBoard,
    Stick,
    Wanted,
    by_eye,
    offcuts,
    ripped,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """A break-out: its boards in the order in which they are ripped, and the offcuts worth keeping."""

    question: Question
    breakout: Breakout
    boards: tuple[RippedBoard, ...]
    offcuts: tuple[Offcut, ...]
    wanted: Mapping[str, Wanted]  # what each member is to be, by its mark

    def kept_of(self, board: Board) -> tuple[Offcut, ...]:
        """The offcuts worth keeping of one board."""
        return tuple(offcut for offcut in self.offcuts if offcut.parent == board.name)

    def sticks(self) -> Iterator[tuple[RippedBoard, int, Stick]]:
        """Every stick as the saws come to it, with its board and the number of its rip there, from 1."""
        for sawn in self.boards:
            for number, rip in enumerate(sawn.rips, start=1):
                yield from ((sawn, number, stick) for stick in rip.sticks)


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """A break-out in figures, to stand beside another."""

    boards: int
    sticks: int
    used: Mm
    share: Mm
    cost: Mm
    short: int


def sawn_from(question: Question, breakout: Breakout) -> Sawn:
    """The break-out as the saws and the rack see it."""
    boards = ripped(question, breakout) if breakout.sticks else ()
    return Sawn(
        question=question,
        breakout=breakout,
        boards=boards,
        offcuts=offcuts(question, breakout),
        wanted=question.by_mark(),
    )


def totals(sawn: Sawn) -> tuple[Total, Total]:
    """The break-out in figures, and what a joiner's first fit by eye would have come to."""
    return total_of(sawn.breakout), total_of(by_eye(sawn.question))


def total_of(breakout: Breakout) -> Total:
    """A break-out in figures."""
    return Total(
        boards=len({stick.board for stick in breakout.sticks}),
        sticks=len(breakout.sticks),
        used=breakout.used,
        share=breakout.share,
        cost=breakout.cost,
        short=len(breakout.short),
    )
