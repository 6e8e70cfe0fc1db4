"""From members to sticks out of real boards, near the least cost, with a proven bound."""

from pinchrod.timber.asking import question_of, wanted_of
from pinchrod.timber.break_out import break_out, compile_sums
from pinchrod.timber.joiner import answer, by_eye
from pinchrod.timber.judge import flaws
from pinchrod.timber.offcuts import Offcut, offcuts, rack_after
from pinchrod.timber.records import Board, Breakout, Effort, Fault, GoesOn, Question, Stick, Wanted, always
from pinchrod.timber.recut import Recut, recut
from pinchrod.timber.ripping import Rip, RippedBoard, fence_moves, ripped

__all__ = [
    "Board",
    "Breakout",
    "Effort",
    "Fault",
    "GoesOn",
    "Offcut",
    "Question",
    "Recut",
    "Rip",
    "RippedBoard",
    "Stick",
    "Wanted",
    "always",
    "answer",
    "break_out",
    "by_eye",
    "compile_sums",
    "fence_moves",
    "flaws",
    "offcuts",
    "question_of",
    "rack_after",
    "recut",
    "ripped",
    "wanted_of",
]
